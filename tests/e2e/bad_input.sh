#!/bin/sh
# What a person could give wrongly: one clear sentence, nothing lost, no crash. bad_input.sh CHALKLIGHT TOP
. "$2/tests/e2e/expect.sh"
pattern="$demo/pinafore.json"
body="$demo/guide.json"

# Wrong use: exit code 2.
expect 2 "$chalklight" size
told "which PATTERN?"
expect 2 "$chalklight" size "$pattern"
told "--body FILE is needed"
expect 2 "$chalklight" size "$pattern" --bdy x
told "perhaps --body"
expect 2 "$chalklight" crosses --mat 900x600
told "there is no option --mat here; it belongs to other commands"
expect 2 "$chalklight" size "$pattern" --body
told "needs a value"
expect 2 "$chalklight" size "$pattern" extra --body "$body"
told "one word too many"
expect 2 "$chalklight" size "$pattern" --body "$body" --json=yes
expect 2 "$chalklight" size "$pattern" --body "$body" --unit ell
expect 2 "$chalklight" crosses --frame 12x --out "$work/x.png"

expect 2 "$chalklight" list "$pattern" --view A --size 4 --cup A-B --fraction 10
told "--fraction is 8 or 16, not “10”"
expect 2 "$chalklight" list "$pattern" --view A --size 4 --cup A-B --json --csv
told "two ways to print one list"
expect 2 "$chalklight" list "$pattern" --view A --size 4 --cup A-B --out "$work/list.pdf"
told "ends in .csv for a list or in .svg for sheets"

# A list without measurements needs names, and says which there are, all at once.
expect 1 "$chalklight" list "$pattern"
told "which view is it?"
told "which size is it? The pattern has “1”"
told "which cup group is it? The pattern has “A-B”, “C-D”"
expect 1 "$chalklight" list "$pattern" --view A --size 40 --cup A-B
told "no size “40”"
expect 1 "$chalklight" list "$work/none.json" --view A --size 4
told "none.json: cannot be opened"
sed 's/"size": 1.2/"size": 0/' "$pattern" >"$work/stud.json"
expect 1 "$chalklight" list "$work/stud.json" --view A --size 4 --cup A-B
told "views[0].notions[1].size: is 0 cm; it must be more than zero"

# What stands in a file is told in the file's own unit, unless another is asked for: 103 in mm, 1 in of a body in inches.
cat >"$work/mm.json" <<'END'
{ "chalklight": "pattern", "version": 1, "name": "p", "unit": "mm", "sizes": ["1"], "chart": { "hip": [900] },
  "main_measurement": "hip", "pieces": [ { "name": "r", "allowance": 10, "rectangle": { "width": 103, "height": 200 },
    "notches": [ { "edge": "top", "at": "hip - 905" } ], "buttons": [ { "kind": "button", "from": "near left",
    "to": "near right", "count": 1, "first": "hip - 905" } ] } ],
  "views": [ { "name": "A", "cut": [ { "piece": "r", "count": 1 } ] } ] }
END
expect 1 "$chalklight" check "$work/mm.json"
told "comes to -5 mm in size 1"
expect 1 "$chalklight" list "$work/mm.json" --size 1
told "comes to -5 mm in size 1"
expect 1 "$chalklight" check "$work/mm.json" --unit cm
told "comes to -0.5 cm in size 1"
sed 's/103/-5/' "$work/mm.json" >"$work/below.json"
expect 1 "$chalklight" check "$work/below.json"
told "is -5 mm"
echo '{ "chalklight": "body", "version": 1, "name": "b", "unit": "in", "measurements": { "hip": -1 } }' >"$work/in.json"
expect 1 "$chalklight" check "$work/in.json"
told "-1 in"

# Files that are not there, not files, empty, cut off, of another kind, newer, hostile.
expect 1 "$chalklight" size "$work/none.json" --body "$body"
told "none.json: cannot be opened"
expect 1 "$chalklight" size "$work" --body "$body"
: >"$work/empty.json"
expect 1 "$chalklight" check "$work/empty.json"
head -c 3000 "$pattern" >"$work/cut.json"
expect 1 "$chalklight" check "$work/cut.json"
told "cut.json:"
expect 1 "$chalklight" size "$body" --body "$body"
told "pattern"
sed 's/"version": [0-9]*/"version": 99/' "$pattern" >"$work/newer.json"
expect 1 "$chalklight" check "$work/newer.json"
told "newer"
i=0
while [ $i -lt 2000 ]; do printf '['; i=$((i + 1)); done >"$work/deep.json"
expect 1 "$chalklight" check "$work/deep.json"
head -c 20000000 /dev/zero >"$work/huge.json"
expect 1 "$chalklight" check "$work/huge.json"
told "larger than"
head -c 5000 /dev/urandom >"$work/noise.json"
expect 1 "$chalklight" check "$work/noise.json"
sed 's/"hip": \[84/"hip": [NaN/' "$pattern" >"$work/nan.json"
expect 1 "$chalklight" check "$work/nan.json"
sed 's/"hip": \[84/"hip": [1e999/' "$pattern" >"$work/inf.json"
expect 1 "$chalklight" check "$work/inf.json"
sed 's/"hip": \[84, /"hip": [/' "$pattern" >"$work/short.json"
expect 1 "$chalklight" check "$work/short.json"
told "a list of 9 where the sizes number 10"

# 41 mm from waist to knee, where 580 are drawn for: questioned, and named where nothing can be drafted to it.
echo '{ "chalklight": "body", "version": 1, "name": "b", "unit": "in", "measurements": { "upper bust": 33, "bust": 36,' \
    '"waist": 29, "hip": 39, "waist to knee": "1 5/8" } }' >"$work/odd.json"
expect 0 "$chalklight" size "$pattern" --body "$work/odd.json"
told "1 5/8 in is small for “waist to knee”"
expect 1 "$chalklight" list "$pattern" --view D --body "$work/odd.json" --made-to body
told "“waist to knee” is farthest from the size"

# Several faults of one file are told at once, each with its line.
sed -e 's/"unit": "cm"/"unit": "ell"/' -e 's/"main_measurement": "upper bust"/"main_measurement": "neck"/' \
    "$pattern" >"$work/two.json"
expect 1 "$chalklight" check "$work/two.json"
told "two.json:6: unit"
told "neck"

# Choices that the pattern does not have.
expect 1 "$chalklight" job "$pattern" --body "$body" --view Z --out "$work/job.json"
told "no view “Z”"
expect 1 "$chalklight" job "$pattern" --body "$body" --out "$work/job.json"
told "which view"
expect 1 "$chalklight" job "$pattern" --body "$body" --view A --size 99 --out "$work/job.json"
told "no size “99”"
expect 1 "$chalklight" job "$pattern" --body "$body" --view A --cup Q --out "$work/job.json"
is_not_there "$work/job.json"
expect 0 "$chalklight" job "$pattern" --body "$body" --view A --out "$work/job.json"
expect 1 "$chalklight" frame "$work/job.json" --out "$work/x.png" --piece sleeve
told "no piece “sleeve”"
expect 1 "$chalklight" frame "$work/job.json" --out "$work/x.png" --section 1
told "this job has no layout to show a section of"
expect 2 "$chalklight" frame "$work/job.json" --out "$work/x.png" --section first
told "--section needs a number from 1, not “first”"
expect 2 "$chalklight" frame "$work/job.json" --out "$work/x.png" --rotate north
expect 2 "$chalklight" frame "$work/job.json" --out "$work/x.png" --pan 5
expect 2 "$chalklight" frame "$work/job.json" --out "$work/x.png" --weight 40
expect 1 "$chalklight" arrange "$work/job.json" --out "$work/x.png"
told "no cloth is told for this job yet: chalklight lay JOB"
expect 1 "$chalklight" arrange "$pattern" --out "$work/x.png"
cloth='"cloths": [ { "material": "fabric", "cloth": { "width": "30 cm" } } ],'
sed "s/\"view\":/$cloth \"view\":/" "$work/job.json" >"$work/narrow.json"
expect 1 "$chalklight" arrange "$work/narrow.json" --out "$work/x.png"
told "wide"
sed "s/\"view\":/$cloth \"view\":/; s/30 cm/150 cm/" "$work/job.json" >"$work/cloth.json"
expect 2 "$chalklight" arrange "$work/cloth.json" --out "$work/x.png" --side up
told "--side is near, right, far or left"
expect 2 "$chalklight" arrange "$work/cloth.json" --out "$work/x.png" --frame 9x9
expect 1 "$chalklight" arrange "$work/cloth.json" --out "$work/cloth.json"
is_not_there "$work/x.png"
expect 2 "$chalklight" frame "$work/job.json" --out "$work/x.png" --side up
is_not_there "$work/x.png"
head -c 2000 "$work/job.json" >"$work/torn.json"
expect 1 "$chalklight" frame "$work/torn.json" --out "$work/x.png"

# Drafted pieces: nothing is written before all is known, and nothing that is there is written over.
expect 2 "$chalklight" draft "$pattern" --size 5 --cup A-B
told "--out PATH is needed"
expect 2 "$chalklight" draft "$pattern" --size 5 --cup A-B --out "$work/pieces.pdf"
told "ends in .svg or .dxf"
expect 2 "$chalklight" draft "$pattern" --size 5 --cup A-B --out "$work/pieces"
expect 1 "$chalklight" draft "$pattern" --size 99 --cup A-B --out "$work/pieces.svg"
told "no size “99”"
expect 1 "$chalklight" draft "$pattern" --cup A-B --out "$work/pieces.svg"
told "which size is it? The pattern has “1”"
expect 1 "$chalklight" draft "$pattern" --size 5 --out "$work/pieces.svg"
told "which cup group is it? The pattern has “A-B”"
expect 1 "$chalklight" draft "$pattern" --size 5 --cup A-B --view Z --out "$work/pieces.svg"
told "no view “Z”"
expect 1 "$chalklight" draft "$pattern" --body "$work/none.json" --out "$work/pieces.svg"
expect 1 "$chalklight" draft "$pattern" --size 5 --cup A-B --out "$work/no/such/pieces.svg"
told "cannot be saved"
is_not_there "$work/pieces.svg"
is_not_there "$work/pieces.pdf"
expect 0 "$chalklight" draft "$pattern" --size 5 --cup A-B --out "$work/pieces.svg"
cp "$work/pieces.svg" "$work/first.svg"
expect 1 "$chalklight" draft "$pattern" --size 6 --cup A-B --out "$work/pieces.svg"
told "is there already"
expect 0 cmp "$work/pieces.svg" "$work/first.svg"
expect 0 "$chalklight" draft "$pattern" --size 6 --cup A-B --out "$work/pieces.svg" --replace
expect 0 cmp "$work/pieces.svg.old" "$work/first.svg"

# A lens that cannot be; the table stays as it was.
cat >"$work/flat.json" <<'EOF'
{ "chalklight": "table", "version": 1, "name": "flat", "made": "2026-11-25", "sample": false, "unit": "mm",
  "frame": { "width": 1920, "height": 1080 },
  "map": { "h": [700, 0, 700, 0, -700, 400, 0, 0], "k1": 0, "p1": 0, "p2": 0 },
  "residual": { "rms": 0.2, "worst": 0.4 }, "readings": 13 }
EOF
cp "$work/flat.json" "$work/same.json"
expect 2 "$chalklight" lens "$work/flat.json"
told "--height LENGTH is needed"
expect 2 "$chalklight" lens "$work/flat.json" --height 1800
told "--foot ALONG,AWAY is needed"
expect 2 "$chalklight" lens "$work/flat.json" --height tall --foot 0,0
expect 2 "$chalklight" lens "$work/flat.json" --height 1800 --foot 5
expect 2 "$chalklight" lens "$work/flat.json" --height 18 --foot 0,0
told "30 cm to 10 m"
expect 2 "$chalklight" lens "$work/flat.json" --height 1800 --foot 0,0 --board "$work/same.json"
told "not by both"
expect 2 "$chalklight" lens "$work/flat.json" --board "$work/same.json" --thickness 1
expect 1 "$chalklight" lens "$work/flat.json" --board "$work/same.json" --thickness 18
told "clearly smaller"
expect 1 "$chalklight" lens "$body" --height 1800 --foot 0,0
expect 0 cmp "$work/flat.json" "$work/same.json"

# Cloth that cannot be.
begin_job() { "$chalklight" job "$pattern" --body "$body" --view A --out "$work/thick.json" "$@"; }
expect 2 begin_job --cloth thick
told "not a thickness"
expect 2 begin_job --layers 2
told "needs --cloth"
expect 2 begin_job --cloth 3 --layers two
expect 2 begin_job --cloth 3 --layers 0
expect 2 begin_job --cloth 40 --layers 3
told "more than can be made up for"
expect 2 begin_job --mat-goes 3 --mat-comes 3
is_not_there "$work/thick.json"

# Places that cannot be written: told, and what was there stays.
expect 1 "$chalklight" job "$pattern" --body "$body" --view A --out "$work/no/such/job.json"
told "cannot be saved"
expect 1 "$chalklight" frame "$work/job.json" --out "$work/no/such/x.png"
mkdir "$work/job.d"
expect 1 "$chalklight" job "$pattern" --body "$body" --view A --out "$work/job.d"
cp "$work/job.json" "$work/kept.json"
expect 1 "$chalklight" job "$pattern" --body "$work/none.json" --view A --out "$work/kept.json"
expect 0 cmp "$work/job.json" "$work/kept.json"
expect 1 sh -c '"$1" check "$2" >/dev/full' sh "$chalklight" "$pattern"

# A source that changed after the job was made is told, and the job goes on with its copy.
cp "$pattern" "$work/mine.json"
expect 0 "$chalklight" job "$work/mine.json" --body "$body" --view A --out "$work/mine-job.json"
expect 0 "$chalklight" frame "$work/mine-job.json" --out "$work/before.png"
sed 's/"sizes": \["1"/"sizes": ["one"/' "$pattern" >"$work/mine.json"
expect 0 "$chalklight" frame "$work/mine-job.json" --out "$work/after.png"
told "has changed since the job was made"
expect 0 cmp "$work/before.png" "$work/after.png"

# Readings that do not fix a table.
sample="$top/calibration/sample-readings.json"
sed '0,/"at": \[[^]]*\]/s//"at": ["3 cm", "50 cm"]/' "$sample" >"$work/wrong.json"
expect 1 "$chalklight" calibrate "$work/wrong.json" --out "$work/table.json"
told "ross"
is_not_there "$work/table.json"
# A name in another encoding, as an old disk may have it: no file of ours can hold it.
expect 2 "$chalklight" list "$(printf 'm\366we.json')"
told "“m?we.json” is not written in UTF-8"
expect 2 "$chalklight" list "$(printf 'm\366we.json')" --json
said '"code": "use.not_utf8"'

finish
