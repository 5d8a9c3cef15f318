#!/bin/sh
# Drawn sheets by commands: sheet.sh CHALKLIGHT TOP READER PYTHON
# The sheets are those of tests/lifting/pattern_sheets.py; what is true of them was set down before they were drawn.
. "$2/tests/e2e/expect.sh"
export CHALKLIGHT_SHEET="$3"
"$4" "$top/tests/lifting/pattern_sheets.py" "$work" small small_frame small_frame_missing small_94 small_aes_256 small_svg >/dev/null || exit 1

# Five pieces in four sizes, in English and German.
expect 0 "$chalklight" sheet "$work/small.pdf"
said "The 10 cm square is true"
said "1  Front "
said "1 on the fold of fabric"
said "2  Ärmel "
said "1 pair of fabric"
said "2 of fabric, 2 of interfacing"
said "36 to 42"
quiet
expect 0 "$chalklight" sheet "$work/small.pdf" --json
said '"scale": "true"'
said '"name": "Under cuff"'
expect 0 "$chalklight" sheet "$work/small_svg.svg" --unit in
said "The 10 cm square is true"

# Pages put together, one of them missing; a sheet saved at another scale.
expect 0 "$chalklight" sheet "$work/small_frame.pdf"
said "Pages joined: 2 across, 2 down, by their numbers"
expect 0 "$chalklight" sheet "$work/small_frame_missing.pdf"
said "A page is missing at row 1, column 2"
expect 0 "$chalklight" sheet "$work/small_94.pdf"
said "The 10 cm square measures 9.4 cm here: this sheet was saved at 94 %. All lengths are put right."
expect 0 "$chalklight" sheet "$work/small_94.pdf" --as-drawn
said "Left as it is drawn."
expect 0 "$chalklight" sheet "$work/small_94.pdf" --layers 38,Common
said "size 38"
cp "$work/out" "$work/layers.txt"
expect 1 grep -F "size 40" "$work/layers.txt"

# A pattern of it: whether the allowance is in the outline is asked, never assumed.
expect 2 "$chalklight" sheet "$work/small_94.pdf" --out "$work/small.json"
told "is the seam allowance within the outlines?"
expect 2 "$chalklight" sheet "$work/small_94.pdf" --out "$work/small.json" --outline cutting
told "how wide is the seam allowance?"
expect 2 "$chalklight" sheet "$work/small_94.pdf" --out "$work/small.pdf"
told "--out needs a name that ends in .json"
is_not_there "$work/small.json"
expect 0 "$chalklight" sheet "$work/small_94.pdf" --out "$work/small.json" --outline cutting --allowance "1 cm" --name "Tern"
said "A pattern of 5 pieces"
expect 1 "$chalklight" sheet "$work/small_94.pdf" --out "$work/small.json" --outline cutting --allowance "1 cm"
told "is there already"
# The cuff is narrower than its allowances; it is cut all the same, and the proof-reader says so.
expect 1 "$chalklight" check "$work/small.json"
told "piece “Cuff” has no stitching line in size 36"
said "pattern “Tern”: 4 sizes, 5 pieces"
expect 0 "$chalklight" list "$work/small.json" --view all --size 38
said "Front"
expect 0 "$chalklight" draft "$work/small.json" --size "38 to 40" --out "$work/between.svg"
is_there "$work/between.svg"
expect 0 "$chalklight" sheet "$work/small_frame.pdf" --out "$work/joined.svg"
expect 0 "$chalklight" sheet "$work/joined.svg"
said "The 10 cm square is true"

# What a person could give wrongly.
expect 1 "$chalklight" sheet "$work/small_aes_256.pdf"
told "is locked with a password; give it with --password-stdin"
expect 1 sh -c "echo wrong | \"$chalklight\" sheet \"$work/small_aes_256.pdf\" --password-stdin"
told "is locked with another password"
expect 0 sh -c "echo 'Schürze Größe 36' | \"$chalklight\" sheet \"$work/small_aes_256.pdf\" --password-stdin"
said "The 10 cm square is true"
expect 2 "$chalklight" sheet "$work/small.pdf" --password-stdin
told "nothing came from standard input"
expect 1 "$chalklight" sheet "$work/small.pdf" --layers 37
told "there is no layer “37” here"
expect 2 "$chalklight" sheet "$work/small_frame.pdf" --across 5
told "--across 5: there are only 4 pages"
expect 2 "$chalklight" sheet "$work/small.pdf" --across none
expect 2 "$chalklight" sheet "$work/small.pdf" --side-is x
expect 2 "$chalklight" sheet "$work/small.pdf" --side-is "4 in" --as-drawn
expect 1 "$chalklight" sheet "$work/none.pdf"
told "none.pdf: cannot be opened"
expect 1 "$chalklight" sheet "$demo/pinafore.json"
told "is neither a PDF, an SVG, a PNG nor a JPEG"
: >"$work/empty.pdf"
expect 1 "$chalklight" sheet "$work/empty.pdf"
head -c 2000 "$work/small.pdf" >"$work/half.pdf"
expect 1 "$chalklight" sheet "$work/half.pdf"
for option in "--outline cutting" "--allowance 1" "--name Tern"; do
    expect 2 "$chalklight" sheet "$work/small.pdf" $option
    told "is for a pattern of the pieces"
done
# At the table what cannot go on is told at once.
expect 2 "$chalklight" lift "$work/small.pdf" --out "$work/small.svg"
told "--out needs a name that ends in .json"
expect 1 "$chalklight" lift "$work/none.pdf"
told "none.pdf: cannot be opened"
expect 1 "$chalklight" lift "$work/small.pdf" --out "$work/none/small.json"
told "its folder is not there"
# One page, one fault in it: it is no second page.
cat >"$work/fault.svg" <<'SVG'
<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">
<path d="M 10 10 L 50 nan" stroke="black"/><path d="M 10 x" stroke="black"/></svg>
SVG
expect 0 "$chalklight" sheet "$work/fault.svg"
said "The file is damaged"
cat >"$work/square.svg" <<'SVG'
<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="300mm" viewBox="0 0 400 300">
<rect x="20" y="20" width="95.5" height="95.5" fill="none" stroke="black"/>
<path d="M 150 50 L 350 50 L 350 250 L 150 250 Z" fill="none" stroke="black"/></svg>
SVG
expect 0 "$chalklight" sheet "$work/square.svg"
expect 1 "$chalklight" sheet "$work/square.svg" --out "$work/square.json" --outline stitching --allowance 0
told "nothing says what it is meant as"
is_not_there "$work/square.json"
# 95.5 mm meant as 4 in (101.6 mm) makes the 200 mm piece 212.8 mm wide.
expect 0 "$chalklight" sheet "$work/square.svg" --side-is "4 in" --out "$work/square.json" --outline stitching --allowance 0
expect 0 "$chalklight" list "$work/square.json" --view all --unit mm
said "213"
finish
