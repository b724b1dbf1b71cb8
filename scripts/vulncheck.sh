#!/usr/bin/env bash
# Looks the program's code up among known vulnerabilities, checks every
# module's sum, and names modules withdrawn or given up by their authors.
# Exits 0 when nothing is known against it, 1 when something is, and 3 when the
# database could not be had, so that only the rest was checked.
#
# The database is a service of its own, which not every network reaches; its
# makers also give it out as a Go module. VULNDB=file:///path or https://host
# names another copy. Nothing in this folder is changed.
set -eu
cd "$(dirname "$0")/.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
# All that may write go.mod or go.sum writes copies of them.
cp go.mod "$work/go.mod"
cp go.sum "$work/go.sum"
rc=0

go mod verify

# The modules that the program, its tests and its tools are made of.
modules=$(go list -deps -test -f '{{with .Module}}{{if not .Main}}{{.Path}}{{end}}{{end}}' ./... tool | sort -u)
# Each as used: one that its authors have withdrawn or given up is named. Where
# no proxy answers, go says nothing of that; so one is asked for its versions first.
if [ "$(go list -m -versions golang.org/x/text 2>"$work/log" | wc -w)" -gt 1 ] && go list -modfile="$work/go.mod" -mod=mod -m -u -retracted -f \
  '{{with .Deprecated}}given up by its authors: {{$.Path}} {{$.Version}}: {{.}}{{"\n"}}{{end}}{{with .Retracted}}withdrawn: {{$.Path}} {{$.Version}}: {{.}}{{"\n"}}{{end}}' \
  $modules >"$work/withdrawn" 2>"$work/log"; then
  if grep -q . "$work/withdrawn"; then
    grep . "$work/withdrawn"
    rc=1
  else
    echo "none of the $(wc -w <<<"$modules") modules used is withdrawn or given up by its authors"
  fi
else
  echo "vulncheck.sh: not checked for withdrawn modules:" >&2
  tail -3 "$work/log" >&2
  rc=3
fi

# Where the database comes from.
db=${VULNDB:-}
if [ -z "$db" ]; then
  if (cd "$work" && go mod download -json golang.org/x/vulndb@latest) >"$work/json" 2>"$work/log"; then
    db=file://$(sed -n 's/.*"Dir": "\(.*\)".*/\1/p' "$work/json")/data/osv
    echo "database: golang.org/x/vulndb $(sed -n 's/.*"Version": "\(.*\)".*/\1/p' "$work/json")"
  fi
fi

# look GO [OPTION…]: the linked code, as that Go would build it.
look() {
  local found=0
  GOTOOLCHAIN=$1 go run golang.org/x/vuln/cmd/govulncheck@v1.9.0 ${db:+-db "$db"} "${@:2}" ./... >"$work/log" 2>&1 || found=$?
  if [ "$found" != 0 ] && ! grep -q '^Vulnerability #' "$work/log"; then
    echo "vulncheck.sh: known vulnerabilities not looked up; the database, or the tool, cannot be had here:" >&2
    tail -3 "$work/log" >&2
    echo "With a copy of the database: VULNDB=file:///path scripts/vulncheck.sh" >&2
    return 3
  fi
  # What is found, without the calls that lead there.
  grep -vE '^ +#[0-9]+: |^ +Example traces|^exit status' "$work/log"
  return "$found"
}

here=$(go env GOVERSION)
asked=$(sed -n 's/^toolchain //p' go.mod)
if [ "$here" != "$asked" ] && GOTOOLCHAIN=$asked go version >/dev/null 2>&1; then
  echo "as built with $asked, which go.mod asks for:"
  look "$asked" || rc=$?
  if [ "$rc" != 3 ] && ! look "$here" -show verbose >"$work/here"; then
    echo "as built with $here, which is used here, its standard library holds besides: $(grep -o 'GO-[0-9]*-[0-9]*' "$work/here" | sort -u | xargs)"
    echo "For a program to be given out: GOTOOLCHAIN=$asked make build"
  fi
else
  echo "as built with $here:"
  look "$here" || rc=$?
fi
exit "$rc"
