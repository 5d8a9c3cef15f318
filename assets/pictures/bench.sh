#!/bin/sh
# README's pictures of the bench, by the program itself: sh assets/pictures/bench.sh BUILD. The table is that of
# calibration/sample-readings.json, the cloth the example's, 140 cm wide and folded. Needs ImageMagick's convert.
set -eu
unset LANGUAGE
export LC_ALL=C.UTF-8
pictures=$(cd "$(dirname "$0")" && pwd)
top=$pictures/../..
build=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# picture NAME SIZE KEY …
picture() {
    name=$1 size=$2
    shift 2
    "$build/tests/bench_page/photo_bench" "$work/$name.png" "$size" "$top/assets/demo/pinafore.json" "$top/assets/demo/guide.json" \
        Tab Tab Enter "$@"
    convert "$work/$name.png" +dither -colors 64 "PNG8:$pictures/$name.png"
}

# laid NAME KEY …: the same from the page of layout on
laid() {
    name=$1
    shift
    picture "$name" 1024x600 "Page Down" Right "Page Down" Tab Tab Tab =140 Tab Tab Tab Tab Tab Tab Tab Right "Ctrl Page Down" "$@"
}

next="Ctrl Page Down"
"$build/src/cli/chalklight" calibrate "$top/calibration/sample-readings.json" --out "$work/table.json" >/dev/null
picture measures 1024x600 Tab Tab
picture bench 1280x800 "Page Down" Right
laid set-up "@$work/table.json"
laid placing "$next" "$next"
laid cutting "$next" "$next" "$next" Down Down Tab
