#!/bin/sh
# The main pages of bench and table beside the small pictures that are kept of them (tests/kept/*.png, a quarter across
# and down): pages.sh BUILD WORK, and pages.sh BUILD WORK --keep after they were changed on purpose and looked at.
# Letters are those of the fonts in src/packages.txt on Debian 12; elsewhere the pictures differ.
set -eu
unset LANGUAGE
export LC_ALL=C.UTF-8 XDG_CONFIG_HOME=/dev/null/no-settings
here=$(cd "$(dirname "$0")" && pwd)
top=$here/../..
build=$1 work=$2 keep=${3:-}
demo=$top/assets/demo
faults=0
rm -rf "$work"
mkdir -p "$work"

# compare NAME: of what was made just now
compare() {
    "$build/tests/kept/kept_picture" "$work/$1.png" "$here/$1.png" $keep || faults=$((faults + 1))
}

# photo NAME KEY …: the bench, with the example at hand; page: compared, too
photo() {
    name=$1
    shift
    "$build/tests/bench_page/photo_bench" "$work/$name.png" 1024x600 "$demo/pinafore.json" "$demo/guide.json" "$@"
}
page() {
    photo "$@"
    compare "$1"
}

# later NAME KEY …: the same from the page of cloth on, which nothing is told of: what a search finds is no page's look
later() {
    name=$1
    shift
    page "$name" Tab Tab Enter "Page Down" Right "$next" "$@"
}

# light NAME OPTION …: the table
light() {
    name=$1
    shift
    "$build/src/cli/chalklight" frame "$work/demo.job" --frame 1280x800 --out "$work/$name.png" "$@" >/dev/null
    compare "$name"
}

next="Ctrl Page Down"
"$build/src/cli/chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view A --out "$work/demo.job" >/dev/null

page cautions
page begin Tab
page measurements Tab Tab Enter Tab Tab
page pattern Tab Tab Enter "Page Down" Right
page night Tab Tab Enter "Page Down" Right F3
page alterations Tab Tab Enter "Page Down" Right "Shift Tab" "Shift Tab" Enter Tab Tab "=lengthen skirt by 3 cm" Enter
page cloth Tab Tab Enter "Page Down" Right "Page Down" Tab Tab Tab =140
page help Tab Tab Enter F1
page settings Tab Tab Enter F5
later set-up "$next" "$next"
later cutting "$next" "$next" "$next" "$next" Down Down Tab
later done "$next" "$next" "$next" "$next" "$next"
light piece --piece "skirt front"
light pieces --all

# What tells pages apart: none passes as another, nor a page with one number typed otherwise.
if [ -z "$keep" ]; then
    photo measurements-otherwise Tab Tab Enter Tab Tab =91
    for other in measurements-otherwise night help; do
        if "$build/tests/kept/kept_picture" "$work/$other.png" "$here/measurements.png" >/dev/null; then
            echo "$other passes as measurements"
            faults=$((faults + 1))
        fi
    done
fi
if [ "$faults" -gt 0 ]; then
    echo "If that is meant: sh tests/kept/pages.sh $build $work --keep, look at them, and keep them"
    exit 1
fi
