# Sourced by the scripts that try the program in a clean Debian. It needs root and
# debootstrap, and leaves the script with 3, saying so, where they are not to be had.
# KEEP_ROOT=DIR keeps or reuses the clean system. It sets $work, a folder for what
# is only needed meanwhile, and $root, and gives clean_root, which makes the system.
name=${0##*/}
[ "$(id -u)" = 0 ] || { echo "$name: not run: a clean root can only be made by root" >&2; exit 3; }
command -v debootstrap >/dev/null || { echo "$name: not run: debootstrap is not installed" >&2; exit 3; }
work=$(mktemp -d)
root=${KEEP_ROOT:-$work/root}

clean_root() {
  local suite mirror f
  suite=$(. /etc/os-release && echo "${VERSION_CODENAME:-stable}")
  mirror=$(awk '/^URIs:/{print $2; exit}' /etc/apt/sources.list.d/*.sources 2>/dev/null || true)
  [ -n "$mirror" ] || mirror=$(awk '/^deb /{for(i=2;i<=NF;i++) if($i ~ /^http/) {print $i; exit}}' /etc/apt/sources.list)
  if [ ! -e "$root/etc/debian_version" ]; then
    echo "a clean Debian ($suite) is made in $root"
    debootstrap --variant=minbase "$suite" "$root" "$mirror" >"$work/log" 2>&1 || { tail -5 "$work/log" >&2; exit 1; }
  fi
  mkdir -p "$root/proc"
  mountpoint -q "$root/proc" || mount -t proc proc "$root/proc"
  cp /etc/resolv.conf "$root/etc/" 2>/dev/null || true
  for f in /etc/apt/apt.conf.d/*; do [ -e "$root/etc/apt/apt.conf.d/${f##*/}" ] || cp "$f" "$root/etc/apt/apt.conf.d/"; done
}
