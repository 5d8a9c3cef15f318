#!/bin/sh
# Whether every text of the sources is in each catalogue, whole and in plain words: words.sh TOP PYTHON
# msgcmp and msgfmt are gettext's own.
set -eu
export LC_ALL=C.UTF-8
top=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
sh "$top/assets/words/collect.sh" "$work/all.pot"
for words in "$top"/assets/words/*.po; do
    msgcmp "$words" "$work/all.pot"
    msgfmt --check --output-file=/dev/null "$words"
done
"$2" "$top/tests/house/words.py" "$work/all.pot" "$top"/assets/words/*.po
