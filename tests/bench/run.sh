#!/bin/sh
# Builds a release and prints its figures, one a line: figure NAME VALUE UNIT
# Installs what src/packages.txt and tests/bench/packages.txt list. Programs run beside an X server that shows nothing.
#
#   sh tests/bench/run.sh [PREFIX ...]      with prefixes, only figures whose names begin with one of them
#   DATA=DIR, LAY_60S=1                     a folder of open data sets; lays that take a minute each
set -eu

top=$(cd "$(dirname "$0")/../.." && pwd)
build=$top/.build-bench

sh "$top/src/install-packages.sh" "$top/src/packages.txt" "$top/tests/bench/packages.txt"
cmake -S "$top" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DTESTS=ON >&2
cmake --build "$build" --target benches --parallel 2 >&2

# Whether a program that prints the figures NAME.* can print one that was asked for.
is_asked_for() {
  name=$1
  shift
  [ $# -eq 0 ] && return 0
  for prefix; do
    case $prefix in "$name".*) return 0 ;; esac
    case $name. in "$prefix"*) return 0 ;; esac
  done
  return 1
}

for source in "$top"/tests/bench/bench_*.c; do
  program=$(basename "$source" .c)
  folder=${program#bench_}
  is_asked_for "${folder%%_*}" "$@" || continue
  figures=$(sh "$top/tests/screen/with_xvfb.sh" 1920x1080x24 "$build/tests/bench/$program" "$build/src/cli/chalklight")
  printf '%s\n' "$figures" | awk -v prefixes="$*" '
    BEGIN { count = split(prefixes, wanted, " ") }
    { show = count == 0; for (i = 1; i <= count; i++) if (index($2, wanted[i]) == 1) show = 1 }
    show'
done
