#!/usr/bin/env bash
# Makes a Debian package of the built program: deb.sh PROGRAM VERSION OUT.deb
set -eu
cd "$(dirname "$0")/.."
bin=$1 version=$2 out=$3
# One time for all that is in it: that of the last change.
epoch=${SOURCE_DATE_EPOCH:-$(git log -1 --format=%ct 2>/dev/null || echo 1700000000)}
root=$(mktemp -d)
trap 'rm -rf "$root"' EXIT
chmod 755 "$root"
DESTDIR=$root PREFIX=/usr scripts/install.sh install "$bin" >/dev/null
rm -r "$root/usr/share/ellwand" # the package manager keeps its own record
# A package's own places for its licence, its history and its manual page.
doc=$root/usr/share/doc/ellwand
mv "$doc/licences.txt" "$doc/copyright"
printf 'ellwand (%s) unstable; urgency=medium\n\n  * This version.\n\n -- The Ellwand developers <ellwand@example.org>  %s\n' \
  "$version" "$(date -R -u -d "@$epoch")" | gzip -9n >"$doc/changelog.gz"
gzip -9n "$root/usr/share/man/man1/ellwand.1"
strip --strip-unneeded "$root/usr/bin/ellwand"
# The libraries it is linked with, and those the window's tool kit opens by name.
# Without any font on the system, signs that its own font lacks (− and ≈) and
# other scripts would be boxes.
needs=$(objdump -p "$root/usr/bin/ellwand" | awk '/NEEDED/{print $2}' | while read -r lib; do
  path=$(ldconfig -p | awk -v l="$lib" '$1==l{print $NF; exit}')
  dpkg-query -S "$path" "/usr$path" 2>/dev/null | cut -d: -f1
done | sort -u)
glibc=$(objdump -T "$root/usr/bin/ellwand" | grep -o 'GLIBC_[0-9.]*' | sort -uV | tail -1)
depends="libc6 (>= ${glibc#GLIBC_}), libxcursor1, libxi6, libxinerama1, libxrandr2, libxrender1, libxxf86vm1, fonts-dejavu-core"
for p in $needs; do [ "$p" = libc6 ] || depends="$depends, $p"; done
mkdir "$root/DEBIAN"
cat >"$root/DEBIAN/control" <<END
Package: ellwand
Version: $version
Architecture: $(dpkg --print-architecture)
Maintainer: The Ellwand developers <ellwand@example.org>
Installed-Size: $(du -sk --apparent-size "$root/usr" | cut -f1)
Depends: $depends
Recommends: libgl1-mesa-dri
Section: misc
Priority: optional
Description: plan a hand-spun, hand-woven, hand-sewn garment
 From body measurements and a fleece to a cutting diagram, and back: pieces,
 the narrowest cloth worth weaving, that cloth before it shrinks, its warp and
 weft, the yarn, the fleece and the hours. A window, and the same jobs on the
 command line; a plan is one text file.
END
(cd "$root" && find usr -type f -print0 | LC_ALL=C sort -z | xargs -0 md5sum) >"$root/DEBIAN/md5sums"
# The same build gives the same package: all times are one.
find "$root" -print0 | xargs -0 touch -h -d "@$epoch"
SOURCE_DATE_EPOCH=$epoch dpkg-deb --root-owner-group -Zxz --build "$root" "$out" >/dev/null
echo "$out"
