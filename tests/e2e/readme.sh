#!/bin/sh
# What README shows of the program's print is what it prints: readme.sh CHALKLIGHT TOP
. "$2/tests/e2e/expect.sh"

# shown TEXT: every line of the first block indented by four more that follows TEXT in README stands in the output so;
# "…" is where lines were left out.
shown() {
    awk -v from="$1" '
        !found { found = index($0, from); next }
        /^ *$/ { next }
        { match($0, /^ */) }
        !indent { if (RLENGTH < 4) next; indent = RLENGTH }
        RLENGTH < indent { exit }
        { print substr($0, indent + 1) }
    ' "$top/README.md" >"$work/shown"
    if [ ! -s "$work/shown" ]; then fault "a block behind “$1” in README"; fi
    while IFS= read -r line; do
        case $line in
        *…) ;;
        *) if grep -qxF -- "$line" "$work/out"; then passed=$((passed + 1)); else fault "README's line “$line”"; fi ;;
        esac
    done <"$work/shown"
}

expect 0 "$chalklight" size "$demo/pinafore.json" --body "$demo/keeper.json"
shown "Of the demo's lamp keeper:"
expect 0 "$chalklight" list "$demo/pinafore.json" --view D --body "$demo/guide.json"
shown "From the demo's view D, shortened:"
expect 0 "$chalklight" check "$demo/pinafore.json"
shown "All are printed; of the demo's"

expect 0 "$chalklight" tear "$top/assets/drafts/gathered-skirts.json" --view plain --body "$demo/keeper.json" --width "54 in" \
    --off-square "1 in" --unit in
shown "on cloth of 54 in, shortened:"

finish
