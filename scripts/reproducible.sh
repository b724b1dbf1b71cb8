#!/usr/bin/env bash
# Builds the program twice, in folders of different names, and compares:
#   reproducible.sh VERSION [fresh]
# fresh: each with an empty build cache, so that all of it, C included, is
# compiled twice; some minutes.
set -eu
cd "$(dirname "$0")/.."
version=$1
work=$(mktemp -d)
trap 'chmod -R u+w "$work"; rm -rf "$work"' EXIT
for name in one another-folder-of-a-longer-name; do
  mkdir "$work/$name"
  git ls-files -z | xargs -0 cp --parents -t "$work/$name"
  [ "${2:-}" = fresh ] && export GOCACHE="$work/cache-$name"
  make -s -C "$work/$name" build VERSION="$version"
  (cd "$work/$name/build" && sha256sum ellwand)
done | tee "$work/sums"
[ "$(sort -u "$work/sums" | wc -l)" = 1 ] || { echo "reproducible.sh: the two differ" >&2; exit 1; }
if grep -qa "$work" "$work/one/build/ellwand"; then echo "reproducible.sh: the program holds the folder it was built in" >&2; exit 1; fi
echo "both are the same"
