#!/bin/sh
# Whether the catalogues have all that the sources say, and nothing doubtful: words.sh TOP
# msgcmp and msgfmt are gettext's own.
set -eu
export LC_ALL=C.UTF-8
top=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
sh "$top/assets/words/collect.sh" "$work/all.pot"
count=$(grep -c '^msgid "' "$work/all.pot")
[ "$count" -ge 600 ] || { echo "only $count texts were found: the test has lost its way"; exit 1; }
for words in "$top"/assets/words/*.po; do
    msgcmp "$words" "$work/all.pot"
    msgfmt --check --output-file=/dev/null "$words"
done
