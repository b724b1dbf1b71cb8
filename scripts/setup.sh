#!/usr/bin/env bash
# Installs what building the window and its tests needs, and what is named
# besides, only where missing.
set -eu
command -v go >/dev/null || { echo "ellwand: Go 1.26 or newer is needed on the PATH." >&2; exit 1; }

need=()
have() { dpkg-query -W -f '${Status}' "$1" 2>/dev/null | grep -q 'ok installed'; }
if command -v dpkg-query >/dev/null; then
  for p in gcc pkg-config libgl1-mesa-dev xorg-dev libxkbcommon-dev \
           fonts-dejavu-core xvfb xauth openbox xdotool x11-utils imagemagick libgl1-mesa-dri \
           mandoc desktop-file-utils shared-mime-info glpk-utils "$@"; do
    have "$p" || need+=("$p")
  done
fi
[ ${#need[@]} -eq 0 ] && exit 0

as_root=()
if [ "$(id -u)" -ne 0 ]; then
  command -v sudo >/dev/null || { echo "ellwand: install these packages and try again: ${need[*]}" >&2; exit 1; }
  as_root=(sudo)
fi
echo "ellwand: installing ${need[*]}" >&2
log=$(mktemp)
if ! { "${as_root[@]}" apt-get update && \
       "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${need[@]}"; } >"$log" 2>&1; then
  cat "$log" >&2
  echo "ellwand: the packages above could not be installed." >&2
  exit 1
fi
rm -f "$log"
