#!/usr/bin/env bash
# Random use for as long as is wanted: of the real window, on a display of its
# own, and at the same time of one without a display, where more is done in a
# minute. soak.sh PROGRAM TIME [-race]
set -eu
cd "$(dirname "$0")/.."
bin=$1 race=${3-}
export ELLWAND_SOAK=$2
if [ -n "$race" ]; then
  bin=build/ellwand-race
  go build "$race" -o "$bin" .
fi
log=build/soak-without-display.log
# The tool kit clears away after 5 s instead of a minute, so that a short soak
# sees it too.
FYNE_CACHE=5s go test ${race:+"$race"} ./ui -count=1 -timeout 0 -v \
  -run 'TestSoak$|TestPackingCancelledAThousandTimes' >"$log" 2>&1 &
other=$!
trap 'kill $other 2>/dev/null || true' EXIT
rc=0
scripts/e2e.sh "$bin" TestSoakOfTheRealWindow -timeout 0 -v || rc=1
wait $other || rc=1
grep -E '^ |^(---|===|FAIL|ok|PASS|WARNING)' "$log"
exit $rc
