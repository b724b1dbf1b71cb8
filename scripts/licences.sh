#!/usr/bin/env bash
# Writes assets/licences.txt: what is linked into the program on Linux or
# Windows, with the licence of each, taken from the module cache.
set -eu
cd "$(dirname "$0")/.."
export LC_ALL=C
out=assets/licences.txt
[ -e "$out" ] || : >"$out" # it is embedded, so listing the packages needs it
new=$(mktemp)
texts=$(mktemp -d)
trap 'rm -rf "$new" "$texts"' EXIT

# kind FILE: the name of the licence, as SPDX has it.
kind() {
  local t; t=$(tr -s ' \t\r\n' ' ' <"$1")
  case $t in
    *"exactly one of the following two licenses"*) echo "FTL or GPL-2.0-or-later" ;;
    *"UNLICENSE or the BSD license"*) echo "Unlicense or BSD-3-Clause" ;;
    *"two different licenses: MIT and Apache"*) echo "MIT and Apache-2.0" ;;
    *"SIL OPEN FONT LICENSE"*|*"SIL Open Font License"*) echo "OFL-1.1" ;;
    *"Apache License Version 2.0"*|*"Apache License, Version 2.0"*) echo "Apache-2.0" ;;
    *"Permission is hereby granted, free of charge"*"Bitstream Vera"*|*"Bitstream Vera"*) echo "Bitstream-Vera" ;;
    *"Permission is hereby granted, free of charge"*) echo "MIT" ;;
    *"Redistribution and use in source and binary forms"*"Neither the name"*) echo "BSD-3-Clause" ;;
    *"Redistribution and use in source and binary forms"*"names of its contributors"*) echo "BSD-3-Clause" ;;
    *"Redistribution and use in source and binary forms"*) echo "BSD-2-Clause" ;;
    *"Permission to use, copy, modify, and/or distribute"*) echo "ISC" ;;
    *"This software is provided 'as-is'"*|*"provided 'as-is', without any express"*) echo "Zlib" ;;
    *"International Color Consortium"*) echo "ICC profile: free of restriction" ;;
    *) echo "licences.sh: what licence is $1?" >&2; exit 1 ;;
  esac
}

# add NAME FILE…: a line in the list, and the texts.
add() {
  local name=$1 kinds="" f k sum; shift
  for f in "$@"; do
    [ -f "$f" ] || continue
    case $f in
      */PATENTS|*/NOTICE|*/AUTHORS|*/licenses/*) ;;
      *) k=$(kind "$f"); case ", $kinds, " in *", $k, "*) ;; *) kinds=${kinds:+$kinds, }$k ;; esac ;;
    esac
    sum=$(sha256sum <"$f" | cut -d' ' -f1)
    [ -e "$texts/$sum" ] || cp "$f" "$texts/$sum"
    chmod u+w "$texts/$sum"
    echo "$name: $(basename "$f")" >>"$texts/$sum.of"
    echo "$sum" >>"$texts/order"
  done
  [ -n "$kinds" ] || { echo "licences.sh: no licence of $name was found" >&2; exit 1; }
  echo "$name — $kinds" >>"$new"
}

echo "Ellwand is under the MIT licence. Linked into it, or shipped in it, are:" >"$new"
echo >>"$new"
add "ellwand" LICENSE
add "Go run-time and standard library" "$(go env GOROOT)/LICENSE"
list() { go list -deps -f '{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}} {{.Dir}}{{end}}{{end}}' .; }
{ GOOS=linux CGO_ENABLED=1 list; GOOS=windows CGO_ENABLED=1 list; } | sort -u | while read -r path version dir; do
  add "$path $version" "$dir"/LICENSE* "$dir"/COPYING* "$dir"/NOTICE "$dir"/licenses/* "$dir"/glfw/LICENSE.md "$dir"/icc/LICENSE*
  case $path in fyne.io/fyne/v2) add "$path $version, its fonts" "$dir"/theme/font/LICENSE* ;; esac
done
awk '!seen[$0]++' "$texts/order" | while read -r sum; do
  printf '\n\n================================================================\n'
  cat "$texts/$sum.of"
  printf '================================================================\n\n'
  tr -d '\r' <"$texts/$sum" | sed 's/[ \t]*$//'
done >>"$new"
if [ "${1:-}" = --check ]; then
  cmp -s "$new" "$out" || { echo "licences.sh: $out is out of date; run scripts/licences.sh" >&2; exit 1; }
else
  cp "$new" "$out"
fi
