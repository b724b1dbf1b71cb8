#!/usr/bin/env bash
# Opens the window on the starter plan. With no display: draws it and prints the reckoning.
set -eu
bin=$1
if [ -n "${DISPLAY:-}" ] || [ -n "${WAYLAND_DISPLAY:-}" ]; then
  exec "$bin"
fi
plan=assets/plans/ferrymans-tunic.yaml
echo "No display here (DISPLAY and WAYLAND_DISPLAY are empty), so no window can open."
echo "The starter plan is drawn to cutting.png instead, and this is its reckoning:"
"$bin" draw "$plan" -o cutting.png
exec "$bin" reckon "$plan"
