#!/bin/sh
# clang-tidy, cppcheck and a second compiler over the whole tree: run.sh BUILD, a configured build folder.
set -eu

top=$(cd "$(dirname "$0")/../.." && pwd)
build=$1

# tidy FOLDER [OPTION ...]
tidy() {
    folder=$1
    shift
    find "$folder" -name '*.c' ! -path '*/fuzz/replay.c' | sort |
        xargs -P 2 -n 8 clang-tidy -p "$build" --quiet "$@" 2>"$build/clang-tidy.err" || {
        grep -v 'warnings generated' "$build/clang-tidy.err" >&2
        exit 1
    }
}

# The analyzer follows every path through a function, which takes nine tenths of the time; tests run under sanitizers.
echo "lint: clang-tidy"
tidy "$top/src"
tidy "$top/tests" '--checks=-clang-analyzer-*'

echo "lint: cppcheck"
cppcheck --quiet --std=c11 --enable=warning,performance,portability --inline-suppr --error-exitcode=1 -j 2 \
    --suppressions-list="$top/tests/lint/cppcheck.txt" -I "$top/src" "$top/src"

echo "lint: clang"
cmake -S "$top" -B "$build-clang" -G Ninja -DCMAKE_C_COMPILER=clang -DCMAKE_BUILD_TYPE=Debug -DSTRICT=ON >/dev/null
ninja -C "$build-clang" --quiet
echo "lint: nothing to mend"
