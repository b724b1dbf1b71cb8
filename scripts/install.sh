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

# told brings the desktop's lists up to date, where it is a desktop; a staged
# installation leaves that to the package manager.
told() {
  [ -z "${DESTDIR:-}" ] || return 0
  if command -v update-mime-database >/dev/null && [ -d "$share/mime/packages" ]; then update-mime-database "$share/mime"; fi
  if command -v update-desktop-database >/dev/null && [ -d "$share/applications" ]; then update-desktop-database "$share/applications"; fi
  if command -v gtk-update-icon-cache >/dev/null && [ -f "$share/icons/hicolor/index.theme" ]; then gtk-update-icon-cache -q "$share/icons/hicolor"; fi
}

case $what in
  install)
    [ -x "$2" ] || { echo "install.sh: there is no program $2; \`make build\` makes it" >&2; exit 1; }
    manual=$(mktemp)
    trap 'rm -f "$manual"' EXIT
    "$2" --manual >"$manual"
    files "$2" | while read -r mode from to; do install -D -m "$mode" "$from" "$to"; done
    told
    echo "installed under $prefix" ;;
  uninstall)
    files - | while read -r _ _ to; do rm -f "$to"; done
    [ ! -d "$share/doc/ellwand" ] || rmdir --ignore-fail-on-non-empty "$share/doc/ellwand"
    told
    echo "taken away from $prefix" ;;
  *) echo "install.sh: $what is neither install nor uninstall" >&2; exit 2 ;;
esac
