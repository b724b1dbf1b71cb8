#!/usr/bin/env bash
# Starts a display and a window manager of its own, drives the real window
# in it by mouse and keys, and takes both down again.
# e2e.sh PROGRAM [TESTS [flags of go test]]
set -eu
bin=$(readlink -f "$1")
tests=${2:-TestWindow|TestTerminal}
shift $(($# > 2 ? 2 : $#))
for n in $(seq 90 120); do
  [ -e "/tmp/.X11-unix/X$n" ] || [ -e "/tmp/.X$n-lock" ] || break
done
log=$(mktemp -d)
Xvfb ":$n" -screen 0 1280x800x24 -nolisten tcp >"$log/xvfb" 2>&1 &
xvfb=$!
wm=
trap '[ -n "$wm" ] && kill $wm 2>/dev/null; kill $xvfb 2>/dev/null; rm -rf "$log"' EXIT
export DISPLAY=":$n" LIBGL_ALWAYS_SOFTWARE=1
for _ in $(seq 100); do
  xdpyinfo >/dev/null 2>&1 && break
  kill -0 $xvfb 2>/dev/null || { cat "$log/xvfb" >&2; exit 1; }
  sleep 0.1
done
openbox >"$log/openbox" 2>&1 &
wm=$!
sleep 0.5
ELLWAND_BIN=$bin go test -count=1 -tags e2e -run "$tests" "$@" . ./ui
