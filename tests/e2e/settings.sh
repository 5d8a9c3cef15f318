#!/bin/sh
# What is remembered from one command to the next: settings.sh CHALKLIGHT TOP
. "$2/tests/e2e/expect.sh"
file="$work/config/chalklight/settings.json"
bad_bytes=$(printf '\377')

# Nothing is said at first, and asking makes no file.
expect 0 "$chalklight" settings
quiet
said "unit        as written"
said "lockout_ms  400"
said "recent      none"
said "Kept in $file"
expect 0 "$chalklight" settings side
said "It can be near, right, far or left."
is_not_there "$file"

# Set, shown and set back.
expect 0 "$chalklight" settings lockout_ms 250
said "lockout_ms  250"
expect 0 "$chalklight" settings keys "tick = space; next = n"
said "keys        tick = space"
said "            next = n"
told "Space is the key of “other edge”, so “tick” keeps its own; give “other edge” another key first"
expect 0 "$chalklight" settings keys "tick = space; other edge = F6; drak = F7"
told "“drak” is no action that has a key, so this one is left out; did you mean “dark”?"
expect 0 "$chalklight" keys --json
said '"what": "as Enter"'
expect 0 "$chalklight" keys
said "$(printf '  %-40s %s' Space tick)"
said "$(printf '  %-40s %s' F6 'other edge')"
said "$(printf '  %-40s %s' 'Switch 1' 'as Enter')"
expect 0 "$chalklight" settings keys "tick = space; next = n"
expect 0 "$chalklight" settings --json
said '"value": 250'
said '"value": ["tick = space", "next = n"]'
said '"usual": true'
said '"ok": true'
expect 0 "$chalklight" settings lockout_ms default
said "lockout_ms  400"
expect 0 "$chalklight" check "$file"
said "settings: 1 set, 15 as usual"

# Wrong words.
expect 2 "$chalklight" settings units
told "“units” is no setting: did you mean “unit”?"
expect 2 "$chalklight" settings glow
told "without a name all are listed"
expect 2 "$chalklight" settings unit furlongs
told "unit can be as written, inches or cm, not “furlongs”; “default” sets it back"
expect 2 "$chalklight" settings lockout_ms 2001
told "a whole number from 0 to 2000, not “2001”"
expect 2 "$chalklight" settings bench_size -3
expect 2 "$chalklight" settings projector ""
expect 2 "$chalklight" settings projector "$bad_bytes" --json
told "is not written in UTF-8"
expect 2 "$chalklight" settings recent job.json
told "“default” empties it"
expect 2 "$chalklight" settings unit inches cm
told "“cm” is one word too many"

# The unit: 96.5 cm are 38 in. --unit comes first, the file's own last.
expect 0 "$chalklight" settings unit Inches
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$demo/guide.json"
said "your bust is 38 in"
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$demo/guide.json" --unit cm
said "your bust is 96.5 cm"
expect 0 "$chalklight" settings unit default
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$demo/guide.json"
said "your bust is 96.5 cm"

# Jobs that are made and opened, newest first, by their whole paths.
expect 0 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view A --out "$work/one.json"
cp "$work/one.json" "$work/other.json"
cd "$work" || exit 1
expect 0 "$chalklight" list other.json
expect 0 "$chalklight" settings recent
said "recent      $work/other.json"
said "            $work/one.json"
expect 0 "$chalklight" alter one.json
expect 0 "$chalklight" settings recent
said "recent      $work/one.json"

# Where she stands and her colour of light, as if they were asked for.
expect 0 "$chalklight" frame one.json --out usual.png
expect 0 "$chalklight" frame one.json --side far --chalk rose --out asked.png
expect 0 "$chalklight" settings side far
expect 0 "$chalklight" settings chalk rose
expect 0 "$chalklight" frame one.json --out remembered.png
expect 0 cmp asked.png remembered.png
expect 1 cmp -s usual.png remembered.png
expect 0 "$chalklight" frame one.json --side near --chalk lemon --out near.png
expect 1 cmp -s near.png remembered.png

# The edge that the large words stand on.
expect 0 "$chalklight" settings strip far
expect 0 "$chalklight" frame one.json --out strip.png
expect 1 cmp -s strip.png remembered.png
expect 0 "$chalklight" settings strip near
expect 0 "$chalklight" frame one.json --out again.png
expect 0 cmp again.png remembered.png

# A wrong value is told and the rest holds; a file that is damaged is told, and kept when something is saved.
sed 's/"side": "far"/"side": "above"/' "$file" >"$work/edited" && cp "$work/edited" "$file"
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$demo/guide.json"
told "side: “above” stands there, and it can be near, right, far or left."
expect 0 "$chalklight" settings side near
quiet
printf '{ "chalklight": ' >"$file"
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$demo/guide.json"
told "is not used, and the usual settings hold"
expect 0 "$chalklight" list other.json
told "could not be used and is kept as $file.old"
expect 0 "$chalklight" list other.json
quiet
is_there "$file.old"

# Where nothing can be kept the work goes on; what was asked to be kept is told.
export XDG_CONFIG_HOME=/dev/null/nowhere
expect 0 "$chalklight" list one.json
quiet
expect 1 "$chalklight" settings hand left
told "its folder cannot be made"
unset XDG_CONFIG_HOME HOME
expect 0 "$chalklight" settings
said "Without a home folder nothing is kept."
expect 1 "$chalklight" settings hand left
told "there is no home folder to keep settings in"

finish
