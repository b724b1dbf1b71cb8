#!/usr/bin/env bash
# Cross-compiles the Windows program and, where Wine is installed, runs its
# commands in it: windows.sh VERSION OUT.exe
set -eu
cd "$(dirname "$0")/.."
version=$1 out=$2
cc=x86_64-w64-mingw32-gcc
command -v $cc >/dev/null || { echo "windows.sh: $cc is needed; on Debian: apt-get install gcc-mingw-w64-x86-64" >&2; exit 1; }
flags="-X main.release=$version -buildid="
build() { CC=$cc GOOS=windows GOARCH=amd64 CGO_ENABLED=1 go build -trimpath -buildvcs=false -ldflags "$1" -o "$2" .; }
build "$flags" "$out"
echo "built $out: $(du -k "$out" | cut -f1) kB"
if ! command -v wine >/dev/null; then
  echo "not run: Wine is not installed here" >&2
  exit 0
fi
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export WINEPREFIX=$work/prefix WINEDEBUG=-all
cp assets/plans/ferrymans-tunic.yaml "$work/plan.yaml"
# Wine before 9 lacks the one library that Go takes random numbers from.
wineboot --init >/dev/null 2>&1
system=$WINEPREFIX/drive_c/windows/system32
if [ ! -e "$system/bcryptprimitives.dll" ]; then
  cat >"$work/prng.c" <<'END'
#include <windows.h>
BOOLEAN NTAPI SystemFunction036(PVOID, ULONG);
__declspec(dllexport) BOOL WINAPI ProcessPrng(PBYTE data, SIZE_T n) { return SystemFunction036(data, (ULONG)n); }
END
  $cc -shared -o "$system/bcryptprimitives.dll" "$work/prng.c" -ladvapi32
fi
exe=$(readlink -f "$out")
cd "$work"
run() { timeout 300 wine "$exe" "$@"; }
run --version
run lay plan.yaml --save --seconds 0
run draw plan.yaml -o cutting.png
run reckon plan.yaml --json | head -c 60; echo
[ -s cutting.png ] && [ -s "plan.yaml~" ]
echo "its commands ran under $(wine --version)"
