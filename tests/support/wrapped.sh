#!/bin/sh
# Runs a program with a made catalogue in which every text stands in « »: wrapped.sh TOP PYTHON PROGRAM [ARGUMENT …]
# The folder of it is in CHALK_WRAPPED. What is not in « » on a page was never marked for translation.
set -eu
export LC_ALL=C.UTF-8
top=$1 python=$2
shift 2
CHALK_WRAPPED=$(mktemp -d)
export CHALK_WRAPPED
trap 'rm -rf "$CHALK_WRAPPED"' EXIT
mkdir -p "$CHALK_WRAPPED/de/LC_MESSAGES"
sh "$top/assets/words/collect.sh" "$CHALK_WRAPPED/all.pot"
"$python" "$top/tests/support/wrapped.py" "$CHALK_WRAPPED/all.pot" >"$CHALK_WRAPPED/all.po"
msgfmt -o "$CHALK_WRAPPED/de/LC_MESSAGES/chalklight.mo" "$CHALK_WRAPPED/all.po"
"$@"
