#!/usr/bin/env bash
# Installs the package in a clean Debian, runs the commands and opens the window
# there, and takes the package away again: deb-test.sh PACKAGE.deb
# What it needs is in clean-root.sh.
set -eu
deb=$(readlink -f "$1")
. "$(dirname "$0")/clean-root.sh"
pids=()
finish() {
  for p in ${pids[@]+"${pids[@]}"}; do kill "$p" 2>/dev/null || true; done
  for m in tmp/.X11-unix dev/pts dev/null dev/urandom proc; do mountpoint -q "$root/$m" && umount "$root/$m"; done
  rm -rf "$work"
}
trap finish EXIT
clean_root
mkdir -p "$root/tmp/.X11-unix"
in_root() { chroot "$root" env -i HOME=/root PATH=/usr/sbin:/usr/bin:/sbin:/bin LANG=C.UTF-8 DEBIAN_FRONTEND=noninteractive "$@"; }
cp "$deb" "$root/tmp/ellwand.deb"
in_root apt-get update >"$work/log" 2>&1 || { tail -5 "$work/log" >&2; exit 1; }
in_root apt-get install -y --no-install-recommends /tmp/ellwand.deb libgl1-mesa-dri >"$work/log" 2>&1 || { tail -20 "$work/log" >&2; exit 1; }
echo "installed: $(in_root dpkg-query -W -f '${Package} ${Version} ${Status}' ellwand)"
echo "version:   $(in_root ellwand --version)"
plan=/usr/share/doc/ellwand/ferrymans-tunic.yaml
in_root cp "$plan" /tmp/plan.yaml
in_root ellwand lay /tmp/plan.yaml --save --seconds 0
in_root ellwand draw /tmp/plan.yaml -o /tmp/cutting.pdf >/dev/null
in_root ellwand reckon /tmp/plan.yaml --json >"$work/reckon.json"
[ -s "$work/reckon.json" ] && [ -s "$root/tmp/cutting.pdf" ]

# The display is outside: the clean root holds nothing but what the package asks for.
for n in $(seq 500 560); do [ -e "/tmp/.X11-unix/X$n" ] || [ -e "/tmp/.X$n-lock" ] || break; done
Xvfb ":$n" -screen 0 1280x800x24 -nolisten tcp >"$work/xvfb" 2>&1 & pids+=($!)
up=no # the socket's file is there a little before anybody answers
for _ in $(seq 300); do
  xdpyinfo -display ":$n" >/dev/null 2>&1 && { up=yes; break; }
  kill -0 "${pids[0]}" 2>/dev/null || break
  sleep 0.1
done
[ "$up" = yes ] || { echo "deb-test.sh: no display:" >&2; cat "$work/xvfb" >&2; exit 1; }
mount --bind /tmp/.X11-unix "$root/tmp/.X11-unix"
chroot "$root" env -i HOME=/root PATH=/usr/bin:/bin LANG=C.UTF-8 DISPLAY=":$n" LIBGL_ALWAYS_SOFTWARE=1 \
  ellwand /tmp/plan.yaml >"$work/window" 2>&1 & pids+=($!)
window=""
for _ in $(seq 300); do
  window=$(DISPLAY=":$n" xdotool search --onlyvisible --name '^Ellwand' 2>/dev/null | head -1) && [ -n "$window" ] && break
  kill -0 "${pids[1]}" 2>/dev/null || break
  sleep 0.1
done
[ -n "$window" ] || { echo "deb-test.sh: no window opened:" >&2; cat "$work/window" >&2; exit 1; }
echo "window:    $(DISPLAY=":$n" xdotool getwindowname "$window")"
sleep 3
DISPLAY=":$n" import -window root "${SHOT:-$work/window.png}"
colours=$(identify -format %k "${SHOT:-$work/window.png}")
[ "$colours" -gt 50 ] || { echo "deb-test.sh: the window is blank ($colours colours)" >&2; exit 1; }
kill "${pids[1]}" && wait "${pids[1]}" 2>/dev/null || true
in_root dpkg -L ellwand | sed 's#^/##' >"$work/list"
in_root apt-get purge -y ellwand >"$work/log" 2>&1 || { tail -20 "$work/log" >&2; exit 1; }
left=$(while read -r f; do [ -f "$root/$f" ] && echo "$f"; done <"$work/list" || true)
[ -z "$left" ] || { echo "deb-test.sh: left after taking it away: $left" >&2; exit 1; }
echo "taken away again: nothing left"
