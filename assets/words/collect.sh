#!/bin/sh
# Collects what a person reads in the sources: sh assets/words/collect.sh [OUT.pot]
# Without a name for it, every LANGUAGE.po here is brought up to date; what is new in one is still to be translated.
set -eu
export LC_ALL=C.UTF-8
here=$(cd "$(dirname "$0")" && pwd)
out=${1:-$(mktemp)}
cd "$here/../../src"
find . -name '*.[ch]' ! -path './base/words.*' | sort |
    xgettext --files-from=- --language=C --from-code=UTF-8 --sort-by-file --no-wrap \
        --keyword --keyword=base_tr:1 --keyword=BASE_TR:1 --keyword=base_tr_in:1c,2 --keyword=BASE_TR_IN:1c,2 \
        --keyword=base_tr_count:2,3 --keyword=check_count:3,4 --keyword=cli_wrong:2 --add-comments=To: --add-location=file -o "$out"
printf '%s\n' '' '#. To the translator: the two letters of your own language.' \
    'msgctxt "code of this language"' 'msgid "en"' 'msgstr ""' >>"$out"
if [ $# -eq 0 ]; then
    for words in "$here"/*.po; do
        msgmerge --quiet --update --backup=none --no-wrap --sort-by-file --no-fuzzy-matching --add-location=file "$words" "$out"
        msgattrib --no-obsolete --no-wrap "$words" | sed '/^"POT-Creation-Date:/d; /^"Report-Msgid-Bugs-To:/d' >"$words.new"
        mv "$words.new" "$words"
    done
    rm -f "$out"
fi
