#!/bin/sh
# Builds with sanitizers and runs every test: sh tests/run.sh [--references] [--long] [--lint] [--data DIR]
# Installs what src/packages.txt lists. Says at the end what was skipped and why.
set -eu

top=$(cd "$(dirname "$0")/.." && pwd)
build="$top/.build-tests"
lint=no
skipped=

references=no
long=no
data=
while [ $# -gt 0 ]; do
    case "$1" in
    --references) references=yes ;;
    --long) long=yes ;;
    --lint) lint=yes ;;
    --data)
        [ $# -gt 1 ] || { echo "--data needs a folder behind it" >&2; exit 2; }
        data=$(cd "$2" && pwd)
        shift ;;
    *)
        echo "usage: sh tests/run.sh [--references] [--long] [--lint] [--data DIR]" >&2
        exit 2 ;;
    esac
    shift
done

lists="$top/src/packages.txt"
[ "$lint" = no ] || lists="$lists $top/tests/lint/packages.txt $top/tests/bench/packages.txt"
[ "$references" = no ] || lists="$lists $top/tests/references/packages.txt"
sh "$top/src/install-packages.sh" $lists

[ "$lint" = yes ] || skipped="$skipped lint(--lint)"
[ "$references" = yes ] || skipped="$skipped references(--references)"
[ "$long" = yes ] || skipped="$skipped long-campaigns(--long)"
[ -n "$data" ] || skipped="$skipped open-data(--data)"

cmake -S "$top" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS=-O1 -DSANITIZE=ON -DSTRICT=ON \
    -DREFERENCES="$references" -DLONG="$long" -DDATA="$data" >/dev/null
ninja -C "$build" all all_verify_interface_header_sets
ctest --test-dir "$build" --output-on-failure -j2

# What runs on several threads once more, watched for races: the two sanitizers cannot share a build.
races="$top/.build-tests-threads"
cmake -S "$top" -B "$races" -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS="-O1 -fsanitize=thread" >/dev/null
ninja -C "$races" test_base_background test_base_pool test_base_saving test_packing_search test_paint_easel
ctest --test-dir "$races" --output-on-failure -R '^(base_background|base_pool|base_saving|packing_search|paint_easel)$'
[ "$lint" = no ] || sh "$top/tests/lint/run.sh" "$build" "$long"

if [ -n "$skipped" ]; then
    echo "Not run this time:$skipped"
fi
