#!/bin/sh
# prove_lay.sh LAY_BENCH PYTHON CHECKER SET: the lay after a few rounds is sound, and the same with one and three threads.
set -eu

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
"$1" "$4" --rounds 2 --seed 7 --threads 1 --json >"$folder/one"
"$1" "$4" --rounds 2 --seed 7 --threads 3 --json >"$folder/three"
"$2" "$3" "$4" "$folder/one"
grep -v -e first_ms -e seconds "$folder/one" >"$folder/one.lay"
grep -v -e first_ms -e seconds "$folder/three" >"$folder/three.lay"
cmp "$folder/one.lay" "$folder/three.lay"
