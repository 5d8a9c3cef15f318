#!/bin/sh
# Builds a release and runs Chalklight: on the demo, or with the arguments given. Installs what src/packages.txt lists.
set -eu

top=$(cd "$(dirname "$0")/.." && pwd)
build="$top/.build-release"

sh "$top/src/install-packages.sh" "$top/src/packages.txt"
log="$build/run.log"
mkdir -p "$build"
{ cmake -S "$top" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DTESTS=OFF && ninja -C "$build"; } >"$log" 2>&1 || {
    cat "$log" >&2
    exit 1
}

if [ $# -eq 0 ]; then
    set -- demo --out "$build/demo"
fi
exec "$build/src/cli/chalklight" "$@"
