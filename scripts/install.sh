#!/usr/bin/env bash
# Installs the built program, or takes it away again:
#   install.sh install|uninstall PROGRAM
# under $PREFIX (/usr/local), staged below $DESTDIR when that is given.
set -eu
cd "$(dirname "$0")/.."
what=$1
manual=-
prefix=${DESTDIR:-}${PREFIX:-/usr/local}
share=$prefix/share

# Each line: the mode, the file here, the file there.
files() {
  cat <<END
755 $1 $prefix/bin/ellwand
644 assets/desktop/ellwand.desktop $share/applications/ellwand.desktop
644 assets/desktop/ellwand.xml $share/mime/packages/ellwand.xml
644 assets/icon/ellwand.svg $share/icons/hicolor/scalable/apps/ellwand.svg
644 $manual $share/man/man1/ellwand.1
644 README.md $share/doc/ellwand/README.md
644 assets/licences.txt $share/doc/ellwand/licences.txt
644 assets/plan.schema.json $share/doc/ellwand/plan.schema.json
644 assets/plans/ferrymans-tunic.yaml $share/doc/ellwand/ferrymans-tunic.yaml
END
}

# What installing made besides those files, folders and the desktop's lists, is
# noted here, so that taking away leaves the prefix as it was found.
record=$share/ellwand/made-by-install

# told brings the desktop's lists up to date, where it is a desktop; a staged
# installation leaves that to the package manager.
told() {
  [ -z "${DESTDIR:-}" ] || return 0
  if command -v update-mime-database >/dev/null && [ -d "$share/mime/packages" ]; then update-mime-database "$share/mime"; fi
  if command -v update-desktop-database >/dev/null && [ -d "$share/applications" ]; then update-desktop-database "$share/applications"; fi
  if command -v gtk-update-icon-cache >/dev/null && [ -f "$share/icons/hicolor/index.theme" ]; then gtk-update-icon-cache -q "$share/icons/hicolor"; fi
}

# there lists what stands where the lists are kept, and the folders on the way
# to each file.
there() {
  { [ ! -d "$share/mime" ] || find "$share/mime" ! -path "$share/mime/packages/*"
    for f in "$share/applications/mimeinfo.cache" "$share/icons/hicolor/icon-theme.cache"; do [ ! -e "$f" ] || echo "$f"; done
    { files - | cut -d' ' -f3-; echo "$record"; } | while read -r to; do
      while to=$(dirname "$to") && [ "$to" != / ] && [ "$to" != . ]; do [ ! -d "$to" ] || echo "$to"; done
    done; } | LC_ALL=C sort -u
}

# others says whether another program's file of that kind is left in a folder.
others() { [ -d "$1" ] && [ -n "$(find "$1" -maxdepth 1 -name "$2" -print -quit)" ]; }

# unmade takes away what is in the record: a list only when no other program is
# in it, a folder only when nothing is left in it.
unmade() {
  [ -f "$record" ] || return 0
  local made f
  made=$(LC_ALL=C sort -r "$record")
  rm -f "$record"
  while read -r f; do
    case $f in
      "$share/mime"|"$share/mime/"*) ! others "$share/mime/packages" '*.xml' || continue ;;
      "$share/applications/mimeinfo.cache") ! others "$share/applications" '*.desktop' || continue ;;
      *.cache) continue ;; # of icons, for all programs
    esac
    if [ -d "$f" ]; then rmdir --ignore-fail-on-non-empty "$f"; else rm -f "$f"; fi
  done <<<"$made"
}

case $what in
  install)
    [ -x "$2" ] || { echo "install.sh: there is no program $2; \`make build\` makes it" >&2; exit 1; }
    manual=$(mktemp)
    before=$(mktemp)
    trap 'rm -f "$manual" "$before"' EXIT
    "$2" --manual >"$manual"
    there >"$before"
    files "$2" | while read -r mode from to; do install -D -m "$mode" "$from" "$to"; done
    told
    mkdir -p "$(dirname "$record")"
    made=$(there | LC_ALL=C comm -13 "$before" -)
    # Installed once more, what the first time made is still in the record.
    { [ ! -f "$record" ] || cat "$record"; [ -z "$made" ] || echo "$made"; } | LC_ALL=C sort -u >"$before"
    install -m 644 "$before" "$record"
    echo "installed under $prefix" ;;
  uninstall)
    files - | while read -r _ _ to; do rm -f "$to"; done
    [ ! -d "$share/doc/ellwand" ] || rmdir --ignore-fail-on-non-empty "$share/doc/ellwand"
    told
    unmade
    echo "taken away from $prefix" ;;
  *) echo "install.sh: $what is neither install nor uninstall" >&2; exit 2 ;;
esac
