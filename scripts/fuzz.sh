#!/usr/bin/env bash
# Runs every fuzz target for a while each: fuzz.sh TIME, for example 3s or 10m.
# What it finds wrong is kept under testdata/fuzz beside the target.
set -eu
cd "$(dirname "$0")/.."
grep -rl --include='*_test.go' '^func Fuzz' . | while read -r file; do
  for target in $(sed -n 's/^func \(Fuzz[A-Za-z0-9_]*\)(.*/\1/p' "$file"); do
    log=$(mktemp)
    # Making what is new shorter may take a minute each; a few tries will do.
    if ! go test "$(dirname "$file")" -run '^$' -fuzz "^$target\$" -fuzztime "$1" -fuzzminimizetime 10x >"$log" 2>&1; then
      # The clock may end it in the midst of a case, which is no fault.
      if ! grep -q 'context deadline exceeded' "$log" || grep -q 'Failing input' "$log"; then
        cat "$log" >&2; rm -f "$log"; exit 1
      fi
    fi
    echo "$target: $(grep -oE 'execs: [0-9]+|coverage: [0-9]+/[0-9]+' "$log" | tail -1)"
    rm -f "$log"
  done
done
