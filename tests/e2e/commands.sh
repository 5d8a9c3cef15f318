#!/bin/sh
# The main path by commands, without a display: commands.sh CHALKLIGHT TOP
. "$2/tests/e2e/expect.sh"

expect 0 "$chalklight" --help
said "chalklight COMMAND"
said "do not look into the lens"
expect 0 "$chalklight" --version
expect 2 "$chalklight"
expect 2 "$chalklight" sew
told "no command “sew”"

# Size: upper bust 89 cm lies nearest to size 5 (88.3), full bust 96.5 nearest to the group drawn for 97 there.
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$demo/guide.json"
said "Size 5"
said "Cup group C-D"
# Finished bust in size 5, C-D: 104.3 cm, so the ease of 96.5 cm is 7.8; hip 110 against 102.
said "7.8 cm"
said "110 cm      110 cm        8 cm       10 cm  tighter than intended by 2 cm"
# --unit reaches the table: 96.5 cm is 37.99 in.
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$demo/guide.json" --unit in
said "your bust is 38 in"
cp "$work/out" "$work/in-inches.txt"
expect 1 grep -F " cm" "$work/in-inches.txt"
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$demo/guide.json" --json
said '"size"'
said '"ok"'
# 32 1/2 in lies half way between 80.6 and 84.5 cm: a tie, and the larger is taken; both are shown.
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$demo/keeper.json"
said "Size 4"
said "halfway between size 3"
said 'to cut the other: --size "3", or the one in between: --size "3 to 4"'
said "Side by side:"
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$demo/keeper.json" --json
said '"between_this_and"'
said '"between_the_two"'
# The size between two, by her own choice: 0.4 of the way from 88.3 to 92.1 cm are 89.82, on a tape 89.8.
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$demo/guide.json" --size "5 to 6 at 40%" --cup A-B
said "Size 5 to 6 at 40%, as you chose: your upper bust is 89 cm, the chart has 89.8 cm."
said "Cup group A-B, as you chose"
expect 1 "$chalklight" size "$demo/pinafore.json" --body "$demo/guide.json" --size 5.4
told "“1 to 2 at 40%”"

# Measurements that are missing or hardly right: 37 in = 94 cm. Size and cup group are told, with what they rest on.
cat >"$work/body.json" <<'EOF'
{ "chalklight": "body", "version": 1, "name": "Slip", "unit": "cm",
  "measurements": { "upper bust": 89, "bust": 37, "waist": 83 } }
EOF
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$work/body.json"
told "37 cm is small for a full bust. Read in inches? That is 94 cm."
said "Correct that before you cut"
said "smaller than the body, tighter than intended by 7 cm"
sed 's/"bust": 37, //' "$work/body.json" >"$work/no-bust.json"
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$work/no-bust.json"
told "the cup group is an estimate"
said "Cup group A-B, an estimate"
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$work/no-bust.json" --made-to body
said "bust: not measured, estimated from the upper bust as"
sed 's/"upper bust": 89, "bust": 37/"bust": 96/' "$work/body.json" >"$work/no-upper-bust.json"
expect 0 "$chalklight" size "$demo/pinafore.json" --body "$work/no-upper-bust.json"
told "size and cup group are estimates"
said "Size 6, an estimate"

# Drafted pieces at true scale: the size by measurements, and the same by name; a skirt's front is cut on the fold.
expect 0 "$chalklight" draft "$demo/pinafore.json" --body "$demo/guide.json" --view A --out "$work/by-body.svg"
said "Size 5"
said "12 pieces, Size 5, cup C-D"
expect 0 "$chalklight" draft "$demo/pinafore.json" --size 5 --cup C-D --view A --out "$work/by-name.SVG"
expect 0 cmp "$work/by-body.svg" "$work/by-name.SVG"
expect 0 grep -F ">Cut 1 on the fold, fabric</text>" "$work/by-name.SVG"
expect 0 "$chalklight" draft "$demo/pinafore.json" --size 5 --cup C-D --out "$work/pieces.dxf" --json
said '"stitching_mm"'
expect 0 grep -F "PIECE NAME: skirt front midi" "$work/pieces.dxf"

# The pattern in the words that it has for her language; what is read by scripts stays.
expect 0 env LC_ALL=C.UTF-8 LANGUAGE=de "$chalklight" list "$demo/pinafore.json" --body "$demo/guide.json" --view A
said "Latzkleid Möwenfels, Ausführung A: Latz und Rock, knielang"
said "Rockvorderteil (skirt front)"
expect 0 env LC_ALL=C.UTF-8 LANGUAGE=de "$chalklight" list "$demo/pinafore.json" --body "$demo/guide.json" --view A --json
said '"piece": "skirt front"'

# A job to the body: hers instead of the chart's, and what she has not measured estimated and named.
expect 0 "$chalklight" job "$demo/skirt.json" --body "$demo/guide.json" --view A --out "$work/skirt-job.json"
said "Made to your measurements. A size only stands in for what you have not measured."
said "Drafted to the measurements of Nore."
said "skirt length: not measured, estimated from the chart as 58 cm"
expect 0 "$chalklight" draft "$demo/skirt.json" --size 4 --made-to size --out "$work/by-chart.svg"
# A trial garment, what was pinned typed back, and the final one; each step keeps the job that was.
cp "$top/tests/fuzz/seeds/job/fitted" "$work/fitted.json"
expect 0 "$chalklight" alter "$work/fitted.json"
said "Trial garment"
said "  2  take in s at waist by 6 mm"
expect 0 "$chalklight" alter "$work/fitted.json" --final --alter "let out s at bust by 3 mm"
is_there "$work/fitted.json.old"
said "  4  let out s at bust by 3 mm"
expect 0 "$chalklight" alter "$work/fitted.json" --drop 1
said "  3  let out s at bust by 3 mm"
expect 1 "$chalklight" alter "$work/fitted.json" --alter "take in hem at waist by 6 mm"
told "there is no seam “hem” between pieces that are cut; there are “s”"
expect 2 "$chalklight" alter "$work/fitted.json" --drop 9
expect 2 "$chalklight" list "$work/fitted.json" --size 2
told "is a job, which has its size"
expect 0 "$chalklight" list "$work/fitted.json"
said "Blended by level"

# Table: crosses, an empty file of readings, and a calibration from filled-in ones.
expect 0 "$chalklight" crosses --frame 1280x800 --out "$work/crosses.png" --readings "$work/empty.json"
is_there "$work/crosses.png"
expect 1 "$chalklight" calibrate "$work/empty.json" --out "$work/none.json"
told "13 of 13 crosses still wait"
is_not_there "$work/none.json"
expect 0 "$chalklight" calibrate "$top/calibration/sample-readings.json" --out "$work/table.json"
said "cross 1 "
is_there "$work/table.json"
expect 0 "$chalklight" check "$work/table.json"
# A reading with its numbers exchanged makes no table; JSON says what was meant and what the others come to.
sed 's/\[44.15, 29.00\]/[29.00, 44.15]/' "$top/calibration/sample-readings.json" >"$work/exchanged.json"
expect 1 "$chalklight" calibrate "$work/exchanged.json" --json --out "$work/without.json"
said '"slip": "swapped"'
said '"set_aside": true'
said '"covariance"'
said '"line_of_100_mm"'
is_not_there "$work/without.json"

# Rulings a thousandth short, and the tape between the corners of nine crosses a pixel a millimetre apart.
{
  printf '{ "chalklight": "readings", "version": 2, "name": "taped", "unit": "mm", "tape_sigma": 0.1,\n'
  printf '"frame": { "width": 1200, "height": 800 }, "readings": [\n'
  for y in 0 400 800; do
    for x in 0 600 1200; do
      at="$(awk "BEGIN { print $x / 1.001, $y / 1.001 }" | sed 's/ /, /')"
      printf '{ "cross": %d, "pixel": [%d, %d], "at": [%s] },\n' $((1 + x / 600 + 3 * y / 400)) "$x" $((800 - y)) "$at"
    done
  done
  tape='{ "kind": "distance", "cross": %d, "pixel": [%d, %d], "other": %d, "other_pixel": [%d, %d], "distance": %s }%s\n'
  # shellcheck disable=SC2059
  printf "$tape" 1 0 800 3 1200 800 1200 , 7 0 0 9 1200 0 1200 , 1 0 800 7 0 0 800 , 3 1200 800 9 1200 0 800 ,
  # shellcheck disable=SC2059
  printf "$tape" 1 0 800 9 1200 0 1442.22 , 3 1200 800 7 0 0 1442.22 ''
  printf ']}\n'
} >"$work/taped.json"
expect 0 "$chalklight" calibrate "$work/taped.json" --out "$work/ruled.json"
told "the mat's rulings are off: a metre along measures 1001 mm"
expect 0 "$chalklight" calibrate "$work/taped.json" --out "$work/followed.json" --follow-tape
said "1001 mm along and 1001 mm away; the table follows the tape"
# Rulings a hundredth short: tape and crosses contradict each other, and the tape is followed all the same.
awk '/"at"/ { match($0, /"at": \[[^]]*\]/); split(substr($0, RSTART + 7, RLENGTH - 8), p, ", ")
  sub(/"at": \[[^]]*\]/, sprintf("\"at\": [%.6f, %.6f]", p[1] * 1.001 / 1.01, p[2] * 1.001 / 1.01)) } { print }' \
  "$work/taped.json" >"$work/much.json"
expect 0 "$chalklight" calibrate "$work/much.json" --out "$work/much_followed.json" --follow-tape
said "1010 mm along and 1010 mm away; the table follows the tape"
# The distances alone float: laid by two crosses, the far one lies at zero and the near one along from it.
grep -v '"at"' "$work/taped.json" >"$work/tapes.json"
expect 0 "$chalklight" calibrate "$work/tapes.json" --out "$work/laid.json" --lay 9,3 --turn-over --json
said '"floats": true'
said '"code": "calibration.floats"'
# Where a pixel falls, in whole mm, by the saved map without its lens terms, which are nothing here.
falls() {
  awk -v u="$1" -v v="$2" '/"h":/ { gsub(/[^-0-9.,e]/, ""); sub(/^,?/, ""); split($0, h, ",")
    rho = sqrt(1200 * 1200 + 800 * 800) / 2; x = (u - 600) / rho; y = (v - 400) / rho; d = h[7] * x + h[8] * y + 1
    printf "at %d, %d\n", (h[1] * x + h[2] * y + h[3]) / d + 1000.5, (h[4] * x + h[5] * y + h[6]) / d + 1000.5 }
  ' "$work/laid.json"
}
expect 0 falls 1200 0
said "at 1000, 1000"
expect 0 falls 1200 800
said "at 1800, 1000"
expect 0 falls 0 0
said "at 1000, 2200"
expect 2 "$chalklight" calibrate "$work/tapes.json" --out "$work/none.json" --lay 9
told "such as 1,3"
expect 1 "$chalklight" calibrate "$work/tapes.json" --out "$work/none.json" --lay 9,4
told "no distance was measured from or to cross 4"
expect 1 "$chalklight" calibrate "$work/taped.json" --out "$work/none.json" --lay 1,3
told "these readings say where the picture lies"
expect 1 "$chalklight" calibrate "$top/calibration/sample-readings.json" --out "$work/none.json" --follow-tape
told "do not tell how far the rulings are off"
is_not_there "$work/none.json"

# What is there is not written over: not by a slip, and by --replace it is kept beside.
sed 's/"made": "[0-9-]*"/"made": "2001-02-03"/' "$work/table.json" >"$work/first.json"
cp "$work/first.json" "$work/kept.json"
expect 1 "$chalklight" calibrate "$top/calibration/sample-readings.json" --out "$work/kept.json"
told "kept.json: is there already: the table “"
told "made 2001-02-03, of 13 readings"
told "Give --replace"
expect 0 cmp "$work/first.json" "$work/kept.json"
expect 0 "$chalklight" calibrate "$top/calibration/sample-readings.json" --out "$work/kept.json" --replace
told "kept.json: was there already and is kept as $work/kept.json.old"
expect 0 cmp "$work/first.json" "$work/kept.json.old"
expect 0 cmp "$work/table.json" "$work/kept.json"
expect 0 "$chalklight" calibrate "$top/calibration/sample-readings.json" --out "$work/kept.json" --replace
expect 0 cmp "$work/first.json" "$work/kept.json.old"
expect 0 cmp "$work/table.json" "$work/kept.json.old2"
expect 1 "$chalklight" crosses --out "$work/kept.json"
told "is no picture"
expect 0 cmp "$work/table.json" "$work/kept.json"
cp "$work/empty.json" "$work/filled.json"
expect 1 "$chalklight" crosses --out "$work/crosses.png" --readings "$work/filled.json"
told "filled.json: is there already"
expect 0 cmp "$work/empty.json" "$work/filled.json"

# The lens, by tape: the table keeps it. By a board: everything is smaller by 2 % about (600, 300), so that a board of 36 mm
# puts the lens 36 / 0.02 = 1800 mm high over there.
cp "$work/table.json" "$work/hung.json"
expect 0 "$chalklight" lens "$work/hung.json" --height "180 cm" --foot "45 cm, -12 cm"
said "hangs 180 cm above the table"
said "At the near side they fall on the work before you"
expect 0 "$chalklight" lens "$work/hung.json" --unit mm
said "hangs 1800 mm above the table, over the spot 450 mm along and -120 mm away"
expect 0 "$chalklight" check "$work/hung.json"
said "lens 180 cm high"
cat >"$work/flat.json" <<'EOF'
{ "chalklight": "table", "version": 1, "name": "flat", "made": "2026-11-25", "sample": false, "unit": "mm",
  "frame": { "width": 1920, "height": 1080 },
  "map": { "h": [700, 0, 700, 0, -700, 400, 0, 0], "k1": 0, "p1": 0, "p2": 0 },
  "residual": { "rms": 0.2, "worst": 0.4 }, "readings": 13 }
EOF
sed 's/\[700, 0, 700, 0, -700, 400, 0, 0\]/[686, 0, 698, 0, -686, 398, 0, 0]/' "$work/flat.json" >"$work/board.json"
expect 0 "$chalklight" lens "$work/flat.json" --board "$work/board.json" --thickness "36 mm"
said "Found from the board"
said "hangs 1800 mm above the table, over the spot 600 mm along and 300 mm away"

# A table set-up is never written over a file of another kind, nor over its own readings.
cp "$demo/guide.json" "$work/guide.json"
expect 1 "$chalklight" setup "$work/guide.json"
told "is no table"
expect 0 cmp "$demo/guide.json" "$work/guide.json"
expect 1 "$chalklight" setup "$work/both.json" --readings "$work/both.json"
told "cannot hold both"

# Job and frames.
expect 0 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view A --table "$work/table.json" --out "$work/job.json"
expect 0 "$chalklight" check "$work/job.json"
expect 0 "$chalklight" frame "$work/job.json" --out "$work/a.png"
said "$work/a.png"
expect 0 "$chalklight" frame "$work/job.json" --out "$work/b.png" --piece "bib back" --mirror --rotate 90 --pan 20,-10 --weight 2
expect 0 "$chalklight" frame "$work/job.json" --out "$work/c.png" --piece "bib back" --mirror --rotate=90 --pan=20,-10 --weight=2
expect 0 cmp "$work/b.png" "$work/c.png"
expect 1 cmp "$work/a.png" "$work/b.png"
expect 0 "$chalklight" frame "$work/job.json" --out "$work/d.png" --all --rulings --side far --chalk lemon
expect 0 "$chalklight" frame "$work/job.json" --out "$work/e.png" --square
expect 0 "$chalklight" frame "$work/job.json" --out "$work/f.png" --long-lines
expect 1 cmp "$work/e.png" "$work/f.png"
expect 2 "$chalklight" frame "$work/job.json" --out "$work/f.png" --square --long-lines
# The square is in her unit: 100 mm for a body in cm, 4 in by --unit or for a body in inches.
expect 0 "$chalklight" frame "$work/job.json" --out "$work/cm.png" --square --unit cm
expect 0 cmp "$work/e.png" "$work/cm.png"
expect 0 "$chalklight" frame "$work/job.json" --out "$work/in.png" --square --unit in
expect 1 cmp "$work/e.png" "$work/in.png"
sed -e 's/"unit": "cm"/"unit": "in"/' -e 's/: \([0-9.]*\)\([,} ]\)/: "\1 cm"\2/g' -e 's/"version": "1 cm"/"version": 1/' \
    "$demo/guide.json" >"$work/inches.json"
expect 0 "$chalklight" job "$demo/pinafore.json" --body "$work/inches.json" --view A --table "$work/table.json" --out "$work/inches-job.json"
expect 0 "$chalklight" frame "$work/inches-job.json" --out "$work/in-too.png" --square
expect 0 cmp "$work/in.png" "$work/in-too.png"

# Two layers of felt: off by some mm where the lens is not known, true and another picture where it is.
for table in table hung; do
    expect 0 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view A --table "$work/$table.json" \
        --cloth "3 mm" --layers 2 --out "$work/felt-$table.json"
    if [ $table = table ]; then said "lens not told"; else said "Drawn true on the cloth, 6 mm above the table"; fi
    expect 0 "$chalklight" check "$work/felt-$table.json"
    said "on cloth 6 mm above the table"
    expect 0 "$chalklight" frame "$work/felt-$table.json" --out "$work/felt-$table.png"
done
expect 0 grep -q '"layers": 2' "$work/felt-hung.json"
expect 1 cmp "$work/felt-hung.png" "$work/felt-table.png"
expect 0 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view A --table "$work/hung.json" \
    --cloth 1 --mat-goes 3 --out "$work/bare.json"
said "2 mm below the table"
expect 0 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view A --table "$work/table.json" \
    --cloth 3 --layers 2 --out "$work/told.json" --json
said '"surface_above_table_mm": 6'
said '"height_made_up_for": false'

# Without a table a job is drawn on the sample table, and the frame says so: the same readings measured by herself give
# another picture, and marked as a sample the same one.
expect 0 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view A --out "$work/loose.json"
expect 0 "$chalklight" frame "$work/loose.json" --out "$work/sample.png"
expect 1 cmp "$work/sample.png" "$work/a.png"
sed 's/"sample":[[:space:]]*false/"sample": true/' "$work/table.json" >"$work/marked.json"
expect 0 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view A --table "$work/marked.json" --out "$work/marked-job.json"
expect 0 "$chalklight" frame "$work/marked-job.json" --out "$work/marked.png"
expect 0 cmp "$work/sample.png" "$work/marked.png"

# The same choices give the same job, to the byte.
expect 0 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view A --table "$work/table.json" --out "$work/again.json"
expect 0 cmp "$work/job.json" "$work/again.json"

# A job that is there is not written over either; by --replace it is kept, with what was done at the table.
printf 'chalklight journal 1\nas it was\n' >"$work/again.json.journal"
cp "$work/again.json.journal" "$work/done"
expect 1 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view B --out "$work/again.json"
told "a job, with what was done at the table"
expect 0 cmp "$work/job.json" "$work/again.json"
expect 0 cmp "$work/done" "$work/again.json.journal"
expect 0 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view B --out "$work/again.json" --replace
expect 0 cmp "$work/job.json" "$work/again.json.old"
expect 0 cmp "$work/done" "$work/again.json.old.journal"
is_not_there "$work/again.json.journal"
expect 1 cmp "$work/job.json" "$work/again.json"

# A size of her own choice.
expect 0 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view A --size 7 --cup A-B --out "$work/seven.json"
said "Size 7"
expect 0 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view A --size "5 to 6" --out "$work/between.json"
said "Size 5 to 6, as you chose"
expect 0 grep -F '"size_position": 4.5' "$work/between.json"

# Cutting without a display: it says so and writes the frames.
expect 0 "$chalklight" cut "$work/job.json" --out "$work/frames"
told "no display"
said "$work/frames/01-"
expect 0 "$chalklight" demo --out "$work/demo"
told "no display"
for picture in "$work"/demo/*.png; do is_there "$picture"; done

# The cutting list: by hand from the demo's file, size 5: the back panel is 35.325 cm wide, the waistband 19.625.
expect 0 "$chalklight" list "$demo/pinafore.json" --view D --size 5 --cup C-D
said "“top” gathered from ≈35.3 cm to ≈19.6 cm, seam “back panel gathered”"
said "Concealed zip for the centre back, 32 cm long"
expect 0 "$chalklight" list "$demo/pinafore.json" --view A --body "$demo/keeper.json"
said "Size 4, cup A-B"
said "≈3 1/8 × ≈9 1/8 in" # of the strap, 8 by 23.2 cm; she measures in inches
expect 0 "$chalklight" list "$demo/pinafore.json" --view A --size 4 --cup A-B --json --out "$work/list.csv"
said '"label": "Torch pocket"'
expect 0 "$chalklight" list "$demo/pinafore.json" --view A --size 4 --cup A-B --csv
cp "$work/out" "$work/printed.csv"
expect 0 cmp "$work/list.csv" "$work/printed.csv"
expect 0 "$chalklight" list "$demo/pinafore.json" --view A --size 4 --cup A-B --out "$work/LIST.CSV"
expect 0 cmp "$work/list.csv" "$work/LIST.CSV"
expect 0 "$chalklight" list "$demo/pinafore.json" --view A --size 4 --cup A-B --out "$work/sheet.svg"
said "sheet-1.svg to $work/sheet-3.svg"
is_there "$work/sheet-3.svg"
rm "$work/sheet-1.svg"
expect 1 "$chalklight" list "$demo/pinafore.json" --view A --size 5 --cup A-B --out "$work/sheet.svg"
told "sheet-2.svg: is there already"
is_not_there "$work/sheet-1.svg"
expect 0 "$chalklight" list "$demo/pinafore.json" --view A --size 5 --cup A-B --out "$work/sheet.svg" --replace
told "sheet-2.svg: was there already and is kept as"

# Every file that comes with the program proof-reads.
for file in "$demo"/*.json "$top"/assets/drafts/*.json "$top"/calibration/*.json "$top"/calibration/mats/*.json; do
    expect 0 "$chalklight" check "$file"
    quiet
done

expect 0 "$chalklight" keys
said "Page Down"
said "by number pad or presenter"
said "it lies on the crossing that is named"
for command in size list setup crosses calibrate lens job arrange cut frame check demo keys; do
    expect 0 "$chalklight" "$command" --help
    said "--json"
done
finish
