#!/bin/sh
# clang-tidy, cppcheck and a second compiler over the whole tree: run.sh BUILD, a configured build folder.
set -eu

top=$(cd "$(dirname "$0")/../.." && pwd)
build=$1

echo "lint: clang-tidy"
find "$top/src" "$top/tests" -name '*.c' ! -path '*/fuzz/replay.c' | sort |
    xargs -P 2 -n 8 clang-tidy -p "$build" --quiet 2>"$build/clang-tidy.err" || {
    grep -v 'warnings generated' "$build/clang-tidy.err" >&2
    exit 1
}

echo "lint: cppcheck"
cppcheck --quiet --std=c11 --enable=warning,performance,portability --inline-suppr --error-exitcode=1 -j 2 \
    --suppressions-list="$top/tests/lint/cppcheck.txt" -I "$top/src" "$top/src"

echo "lint: clang"
cmake -S "$top" -B "$build-clang" -G Ninja -DCMAKE_C_COMPILER=clang -DCMAKE_BUILD_TYPE=Release -DSTRICT=ON >/dev/null
ninja -C "$build-clang" --quiet
echo "lint: nothing to mend"
