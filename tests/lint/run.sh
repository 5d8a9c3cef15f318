#!/bin/sh
# clang-tidy, cppcheck and a second compiler over the whole tree: run.sh BUILD [LONG], a configured build folder; LONG is yes
# for the analyzer's deep mode, which follows calls far and takes ten times as long.
set -eu

top=$(cd "$(dirname "$0")/../.." && pwd)
build=$1
depth=shallow
[ "${2:-no}" = no ] || depth=deep

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

# Tests are not analyzed: they run under sanitizers.
echo "lint: clang-tidy"
tidy "$top/src" --extra-arg=-Xclang --extra-arg=-analyzer-config --extra-arg=-Xclang --extra-arg=mode=$depth
tidy "$top/tests" '--checks=-clang-analyzer-*'

echo "lint: cppcheck"
cppcheck --quiet --std=c11 --enable=warning,performance,portability --inline-suppr --error-exitcode=1 -j 2 \
    --suppressions-list="$top/tests/lint/cppcheck.txt" -I "$top/src" "$top/src"

echo "lint: clang"
cmake -S "$top" -B "$build-clang" -G Ninja -DCMAKE_C_COMPILER=clang -DCMAKE_BUILD_TYPE=Debug -DSTRICT=ON >/dev/null
ninja -C "$build-clang" --quiet
echo "lint: nothing to mend"
