#!/bin/sh
# README's pictures of layouts, drawn and at the table, by the program itself: sh assets/pictures/layouts.sh BUILD (targets
# chalklight, photo_arrange, photo_place). Needs rsvg-convert and ImageMagick's convert.
set -eu
unset LANGUAGE
export LC_ALL=C.UTF-8 XDG_CONFIG_HOME=/dev/null/no-settings
pictures=$(cd "$(dirname "$0")" && pwd)
demo=$pictures/../demo
build=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# keep NAME COLOURS FILE [OPTION …]
keep() {
    name=$1 colours=$2 file=$3
    shift 3
    convert "$file" "$@" +dither -colors "$colours" "PNG8:$pictures/$name.png"
}

program() {
    "$build/src/cli/chalklight" "$@" >/dev/null
}

program lay "$demo/pinafore.json" --body "$demo/guide.json" --view A --for fabric --width "140 cm" --out "$work/layout.svg"
rsvg-convert --background-color=white -w 960 "$work/layout.svg" -o "$work/layout.png"
keep layout 16 "$work/layout.png"

program job "$demo/pinafore.json" --body "$demo/guide.json" --view D --out "$work/torn.job"
program tear "$work/torn.job" --width "140 cm" --off-square "3 cm" --across --keep --out "$work/tearing.svg"
rsvg-convert --background-color=white -w 760 "$work/tearing.svg" -o "$work/tearing.png"
keep tearing 16 "$work/tearing.png"

# A strap in hand, over two pieces, one degree off the grain.
program job "$demo/pinafore.json" --body "$demo/guide.json" --view A --out "$work/demo.job"
program lay "$work/demo.job" --for fabric --width "140 cm" --spread folded
"$build/tests/table/photo_arrange" "$work/demo.job" "$work/arrange.png" 150 "page down" p "page down" "page down" \
    "page down" "page down" left left left left left left up up ,
keep arrange 17 "$work/arrange.png" -resize 960x

"$build/tests/table/photo_place" "$work/place"
keep section 48 "$work/place-section-linen.png" -resize 1100x
