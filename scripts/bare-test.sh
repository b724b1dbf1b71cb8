#!/usr/bin/env bash
# Tries the README's commands on a bare machine: a clean Debian with git, make,
# certificates and Go, nothing else, where the last commit is cloned, set up and
# built, and `make run` draws and prints, having no display. bare-test.sh test
# runs `make test` there too, which takes as long as it takes.
# What it needs is in clean-root.sh.
set -eu
cd "$(dirname "$0")/.."
. scripts/clean-root.sh
finish() {
  for m in dev/shm dev/pts dev/null dev/urandom proc; do ! mountpoint -q "$root/$m" || umount "$root/$m"; done
  chmod -R u+w "$root/root/go" 2>/dev/null || true
  rm -rf "$work"
}
trap finish EXIT
clean_root
mountpoint -q "$root/dev/pts" || mount -t devpts -o ptmxmode=666 devpts "$root/dev/pts"
mountpoint -q "$root/dev/shm" || { mkdir -p "$root/dev/shm"; mount -t tmpfs tmpfs "$root/dev/shm"; }
rm -rf "$root/usr/local/go" "$root/home/ellwand"
cp -r "$(go env GOROOT)" "$root/usr/local/go"
in_root() {
  chroot "$root" env -i HOME=/root PATH=/usr/local/go/bin:/usr/sbin:/usr/bin:/sbin:/bin LANG=C.UTF-8 \
    GOPROXY="$(go env GOPROXY)" GOTOOLCHAIN=local "$@"
}
in_root apt-get update >"$work/log" 2>&1 || { tail -5 "$work/log" >&2; exit 1; }
in_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends git make ca-certificates >"$work/log" 2>&1 ||
  { tail -20 "$work/log" >&2; exit 1; }
cp --remove-destination /etc/ssl/certs/ca-certificates.crt "$root/etc/ssl/certs/" # those that this machine trusts
git clone -q --no-hardlinks . "$root/home/ellwand"
echo "cloned: $(git log -1 --format=%h); make run, with no display:"
in_root make -C /home/ellwand run >"$work/run" 2>"$work/log" || { tail -20 "$work/run" "$work/log" >&2; exit 1; }
grep '^ellwand: installing' "$work/log"
sed -n '/^No display/,+12p' "$work/run"
grep -q '^No display here' "$work/run" || { echo "bare-test.sh: make run does not say that there is no display" >&2; exit 1; }
[ -s "$root/home/ellwand/cutting.png" ] || { echo "bare-test.sh: make run drew nothing" >&2; exit 1; }
in_root make -C /home/ellwand setup
echo "set up, built and run; set up again it asks for nothing"
if [ "${1:-}" = test ]; then
  in_root make -C /home/ellwand test
fi
