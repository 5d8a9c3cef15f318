#!/bin/sh
# A tearing plan, a choice that is taken, and what does not tear: tear.sh CHALKLIGHT TOP PYTHON
. "$2/tests/e2e/expect.sh"
python=$3

# The trade's example: two panels of 34 in as cut, 5/8 in allowances, gathered to 34 in, out of 56 in of usable cloth.
cat >"$work/skirt.json" <<'END'
{ "chalklight": "pattern", "version": 2, "outline": "stitching line", "name": "Two panels", "unit": "in", "sizes": ["1"],
  "pieces": [ { "name": "panel", "label": "Skirt panel", "rectangle": { "width": 32.75, "height": 20 }, "allowance": "5/8 in" },
    { "name": "band", "rectangle": { "width": 34, "height": 2 } },
    { "name": "pocket", "points": { "a": [0, 0], "b": [5, 0], "c": [0, 5] },
      "outline": [ { "name": "edge", "path": ["a", "b", "c", "a"] } ] } ],
  "seams": [ { "name": "waist", "join": [ ["panel.top", "panel.top"], ["band.bottom"] ], "ratio": "65.5 / 34" } ],
  "views": [ { "name": "A", "cut": [ { "piece": "panel", "count": 2 }, { "piece": "pocket", "count": 2 },
    { "piece": "band", "count": 1, "cloth": "lining" } ] } ] }
END
cat >"$work/cloth.json" <<'END'
{ "chalklight": "cloth", "version": 1, "unit": "in", "name": "Blue lawn", "width": 58, "selvedge": 1, "length": 60 }
END
sed 's/"width"/"kind": "knit", "width"/' "$work/cloth.json" >"$work/knit.json"

# By hand: 1 + 2 x (21 1/4 + 1) = 45 1/2 in; 2 x 34 - 4 x 5/8 = 65 1/2 in, over 34 in 1.93; 2 x 28 - 2 1/2 = 53 1/2, 1.57.
expect 0 "$chalklight" tear "$work/skirt.json" --view A --size 1 --on "$work/cloth.json" --off-square "1 in" --unit in \
    --across
quiet
said "Fabric: “Blue lawn”, 58 in wide, 56 in without selvedges"
said "needs 45 1/2 in of washed cloth; of the 60 in at hand 14 1/2 in are left over"
said "from the torn end 44 1/2 in are needed"
said "65 1/2 in to 34 in (1.93 : 1)"
said "53 1/2 in to 34 in (1.57 : 1)"
said "cut panel 28 in wide"
said "No rectangles, to be laid out: pocket"

# Along the cloth the two panels follow each other: 1 + 2 x 21 1/4 + 1 = 44 1/2 in, a step of 1/8 yd less. Two of 28 in
# need less still, across.
expect 0 "$chalklight" tear "$work/skirt.json" --view A --size 1 --on "$work/cloth.json" --off-square "1 in" --unit in
said "needs 44 1/2 in of washed cloth"
said "Strips across the cloth would need 45 1/2 in (--across)."
said "Tear off one length: 43 1/2 in from the torn end."
said "0 in and 21 1/4 in"
said "44 1/2 in, along"
said "cut panel 28 in wide"

# Taken, it changes the list and the plan; the fuller seam is told with its ratio and not as a mismatch.
expect 0 "$chalklight" job "$work/skirt.json" --view A --size 1 --out "$work/job.json"
expect 0 "$chalklight" alter "$work/job.json" --alter "cut skirt panel 29 in wide"
expect 0 "$chalklight" alter "$work/job.json" --alter "cut skirt panel 28 wide" --unit in
said "1  cut skirt panel 28 wide"
told "53 1/2 in are gathered to 34 in (1.57 : 1)"
expect 0 "$chalklight" list "$work/job.json" --unit in
said "28 × 21 1/4 in"
said "gathered from 53 1/2 in to 34 in"
expect 0 "$chalklight" tear "$work/job.json" --on "$work/cloth.json" --unit in
said "2 × Skirt panel"
said "needs 22 1/4 in"

# A job that has been laid out has its cloth.
expect 0 "$chalklight" lay "$work/job.json" --for fabric --on "$work/cloth.json" --rounds 0
expect 0 "$chalklight" tear "$work/job.json" --unit in
said "Fabric: “Blue lawn”, 58 in wide"

# As JSON: no rectangle lost, strips one behind the other, the length that of all of them.
expect 0 "$chalklight" tear "$demo/pinafore.json" --view D --size 5 --cup A-B --width "140 cm" --off-square "3 cm" --across --json
quiet
cp "$work/out" "$work/plan.json"
cat >"$work/sum.py" <<'END'
import json, sys
plan = json.load(open(sys.argv[1]))["tearing_plan"]
at = 0
for strip in plan["strips"]:
    assert abs(strip["from_mm"] - at) < 1e-3
    at = strip["to_mm"]
    assert abs(at - strip["from_mm"] - strip["trimmed_mm"] - 2 * plan["margin_mm"]) < 1e-6
    for piece in strip["pieces"]:
        assert piece["from_mm"] + piece["width_mm"] <= plan["usable_width_mm"] + 1e-6
        assert piece["up_mm"] + piece["height_mm"] <= strip["trimmed_mm"] + 1e-6
assert abs(plan["off_square_mm"] + at - plan["length_mm"]) < 1e-6
print(sum(len(strip["pieces"]) for strip in plan["strips"]))
END
expect 0 "$python" "$work/sum.py" "$work/plan.json"
said 13 # the demo's list: straps 2, waistbands 2 and 4, ties 2, panels 1 and 2
expect 0 "$chalklight" tear "$demo/pinafore.json" --view D --size 5 --cup A-B --along
said "Tear off one length"
said "No cloth was told"
expect 1 "$chalklight" tear "$demo/pinafore.json" --view D --size 5 --cup A-B --for interfacing
told "fusible interfacing does not tear true"
echo '{ "chalklight": "cloth", "version": 1, "unit": "cm", "width": 90, "kind": "woven" }' >"$work/sewn-in.json"
expect 0 "$chalklight" tear "$demo/pinafore.json" --view D --size 5 --cup A-B --for interfacing --on "$work/sewn-in.json"
said "Interfacing"

# Kept in the job: the rest alone is laid, behind the last tear, and what both together take is told.
job="$work/d.job"
expect 0 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view D --out "$job"
expect 0 "$chalklight" lay "$job" --for fabric --width "140 cm" --rounds 0
expect 0 "$chalklight" tear "$job" --off-square "3 cm" --across --keep --json
cp "$work/out" "$work/torn.json"
told "so its layout was taken off the cloth"
is_there "$job.old"
expect 0 "$chalklight" tear "$job" --keep
quiet # as it is kept already
said "The job keeps this plan: \`chalklight lay\` lays the rest behind it"
said "It is 3 cm off square"
expect 0 "$chalklight" lay "$job" --for fabric --rounds 1 --json --widths
cp "$work/out" "$work/rest.json"
cat >"$work/both.py" <<'END'
import json, sys
plan = json.load(open(sys.argv[1]))["tearing_plan"]
lay = json.load(open(sys.argv[2]))["layouts"][0]
torn, both, width = lay["torn_first"], lay["both"], lay["as_it_lies"]["usable_mm"]
def area(points):
    return abs(sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(points, points[1:] + points[:1]))) / 2
strips = {p["piece"] for s in plan["strips"] for p in s["pieces"]}
assert plan["kept"] and not plan["along"]
assert strips == {"strap", "waistband front", "waistband back", "tie", "skirt panel front", "skirt panel back"}
rests = [p for r in torn["rests"] for p in r["pieces"]]
assert {p["piece"] for p in lay["pieces"] + rests} == {"bib front full", "bib back", "front facing full", "back facing"}
assert sum(p["copies"] for p in lay["pieces"]) + len(rests) == 6 and rests and plan["rests_used"] and plan["spared_mm"] > 10
for r in torn["rests"]:
    strip = plan["strips"][r["strip"] - 1]
    x0, y0, x1, y1 = r["from_end_mm"], r["from_edge_mm"], r["from_end_mm"] + r["long_mm"], r["from_edge_mm"] + r["wide_mm"]
    begin = strip["from_mm"] + 12.7
    assert begin - 1e-6 <= x0 and x1 <= begin + strip["trimmed_mm"] + 1e-6 and -1e-6 <= y0 and y1 <= width + 1e-6
    for s in strip["pieces"]: # none of its rectangles reaches into it
        assert (s["from_mm"] + s["width_mm"] <= y0 + 1e-6 or s["from_mm"] >= y1 - 1e-6
                or begin + s["up_mm"] + s["height_mm"] <= x0 + 1e-6 or begin + s["up_mm"] >= x1 - 1e-6)
    for p in r["pieces"]:
        assert all(-1e-6 <= x <= r["long_mm"] + 1e-6 and -1e-6 <= y <= r["wide_mm"] + 1e-6 for x, y in p["outline_mm"])
assert not lay["left_out"] and torn["off_square_mm"] == 30 and width == 1400 - 2 * 12.5
assert abs(torn["length_mm"] - 30 - sum(s["trimmed_mm"] + 2 * 12.7 for s in plan["strips"])) < 1e-6
assert abs(both["length_mm"] - torn["length_mm"] - lay["length_mm"]) < 1e-6
assert 0 <= both["to_buy_mm"] - both["length_mm"] < 100 and both["to_buy_mm"] % 100 == 0
used = sum(p["width_mm"] * p["height_mm"] for s in plan["strips"] for p in s["pieces"])
used += sum(area(p["outline_mm"]) for p in rests)
used += sum(area(p["outline_mm"]) * (2 if p["on_fold"] else p["copies"]) for p in lay["pieces"])
assert abs(both["used"] - used / (width * both["length_mm"])) < 1e-6
assert all(row["length_mm"] > torn["length_mm"] / 2 for row in lay["other_widths"] if row["fits"])
END
expect 0 "$python" "$work/both.py" "$work/torn.json" "$work/rest.json"
expect 0 "$chalklight" check "$job"
said "with its torn strips"
expect 0 "$chalklight" frame "$job" --section 1 --out "$work/section.png"
is_there "$work/section.png"
# What strips leave is cut by itself, after the layout: a section more, and less cloth in all; or left alone if she likes.
said_less() { expect 0 "$python" -c 'import json, sys
print(json.load(open(sys.argv[1]))["layouts"][0]["both"]["length_mm"] < json.load(open(sys.argv[2]))["layouts"][0]["both"]["length_mm"] - 10)' "$1" "$2"; said True; }
expect 0 "$chalklight" tear "$job"
said "the rest of strip 2, ≈61.2 × 60.9 cm, is used for: Bib front"
said "above “Gathered skirt front” and “Gathered skirt back”, ≈117.4 × 22.8 cm, is used for: Front facing"
said "On the table each of them follows the layout as a cloth of its own (N)"
expect 0 "$chalklight" frame "$job" --section 2 --out "$work/section2.png"
expect 0 "$chalklight" tear "$job" --out "$work/rests.svg"
expect 0 "$python" -c 'import json, sys, xml.dom.minidom as x
cut = [p for p in x.parse(sys.argv[1]).getElementsByTagName("path") if p.getAttribute("class") == "cut"]
rests = json.load(open(sys.argv[2]))["tearing_plan"]["rests"]
print(len(cut) == 13 + sum(len(r["pieces"]) for r in rests))' "$work/rests.svg" "$work/torn.json"
said True
expect 0 "$chalklight" tear "$job" --keep --leave-rests
told "so its layout was taken off the cloth"
expect 0 "$chalklight" lay "$job" --for fabric --rounds 1 --json
cp "$work/out" "$work/without.json"
said_less "$work/rest.json" "$work/without.json"
expect 1 "$chalklight" frame "$job" --section 2 --out "$work/section3.png"
expect 0 "$chalklight" tear "$job"
said "has room for: Bib front"
# On a length that does not do for what is laid behind the strips, what these leave is told of.
echo '{ "chalklight": "cloth", "version": 1, "unit": "cm", "width": 140, "length": 175 }' >"$work/short.json"
expect 1 "$chalklight" lay "$job" --for fabric --on "$work/short.json" --rounds 0 --try
told "what the torn strips leave has room for other pieces, but the job leaves it alone: \`chalklight tear $job --keep\`"
expect 2 "$chalklight" tear "$job" --drop --leave-rests
# Behind strips along the cloth likewise, where one length was torn off for them.
expect 0 "$chalklight" tear "$job" --along --keep
said "Tear off one length"
expect 0 "$chalklight" lay "$job" --for fabric --rounds 0
said "This layout lies behind them, its cut end where they were torn off, and needs"
said "Both together need"
# What is altered takes the layout off, and the plan stays; dropped, rectangles are laid again.
expect 0 "$chalklight" alter "$job" --alter "cut skirt panel front 60 cm wide"
told "their layout was taken off the cloth"
expect 0 "$chalklight" tear "$job"
said "The job keeps this plan"
expect 0 "$chalklight" tear "$job" --drop
said "The rectangles of the fabric are laid out with the rest again."
expect 0 "$chalklight" lay "$job" --for fabric --rounds 0
said "Strap"
expect 2 "$chalklight" tear "$job" --drop
told "the job keeps no tearing plan of the fabric"
expect 2 "$chalklight" tear "$job" --keep --drop
expect 2 "$chalklight" tear "$demo/pinafore.json" --view D --size 5 --cup A-B --keep
told "is no job, which alone keeps a plan"
# Other cloth that does not tear, and a material all of which is torn.
expect 0 "$chalklight" tear "$work/job.json" --keep
expect 1 "$chalklight" lay "$work/job.json" --for fabric --on "$work/knit.json" --rounds 0
told "the rectangles of the fabric are torn before it is laid out, but there is no tearing plan: knitted cloth"
expect 0 "$chalklight" tear "$work/job.json" --for lining --keep
expect 0 "$chalklight" lay "$work/job.json" --rounds 0
said "All that is cut of the lining is torn"
# There is no layout of it: what is asked for as figures or as a drawing is that of its tearing plan, one strip of 2 in,
# half an inch trimmed on either side.
expect 0 "$chalklight" lay "$work/job.json" --for lining --rounds 0 --out "$work/lining.svg" --json
said '"drawing": '
expect 0 "$python" -c 'import sys, xml.dom.minidom as x
print(len([p for p in x.parse(sys.argv[1]).getElementsByTagName("path") if p.getAttribute("class") == "cut"]))' "$work/lining.svg"
said 1
expect 0 "$chalklight" lay "$work/job.json" --for lining --rounds 0 --out "$work/lining.json"
expect 0 "$python" -c 'import json, sys
lay, = json.load(open(sys.argv[1]))["layouts"]
print(lay["material"], lay["pieces"], round(lay["both"]["length_mm"] / 25.4, 3))' "$work/lining.json"
said "lining [] 3.0"
expect 1 "$chalklight" tear "$work/job.json" --on "$work/knit.json" --keep
told "knitted cloth cannot be torn"

# What does not go.
expect 1 "$chalklight" tear "$work/skirt.json" --view A --size 1 --on "$work/knit.json"
told "knitted cloth cannot be torn"
told "instead"
expect 1 "$chalklight" tear "$demo/skirt.json" --view B --size 5 --width "1 m"
told "no rectangle is cut of the fabric"
expect 2 "$chalklight" tear "$work/skirt.json" --view A --size 1 --off-square two
told "--off-square LENGTH needs a length from 0 to 100 cm, not “two”"
expect 2 "$chalklight" tear "$work/skirt.json" --view A --size 1 --margin "-1 cm"
expect 2 "$chalklight" tear "$work/skirt.json" --view A --size 1 --along --across
expect 1 "$chalklight" alter "$work/job.json" --alter "cut pocket 28 in wide"
told "no rectangle that is cut is named so"
expect 1 "$chalklight" alter "$work/job.json" --alter "cut panel 1 in wide"
told "its allowances alone take"

# Its drawing: a whole SVG file, kept apart from one that is there already; no other kind.
expect 0 "$chalklight" tear "$work/skirt.json" --view A --size 1 --on "$work/cloth.json" --out "$work/plan.svg"
said "Drawn at true scale: $work/plan.svg"
expect 0 "$python" -c 'import sys, xml.dom.minidom as x
print(len([p for p in x.parse(sys.argv[1]).getElementsByTagName("path") if p.getAttribute("class") == "cut"]))' "$work/plan.svg"
said 2
expect 1 "$chalklight" tear "$work/skirt.json" --view A --size 1 --on "$work/cloth.json" --out "$work/plan.svg"
expect 2 "$chalklight" tear "$work/skirt.json" --view A --size 1 --on "$work/cloth.json" --out "$work/plan.png"

# Too little cloth: 1 + 2 x 22 1/4 in are needed (above), of 40 in; sold by 1/8 yd they are 49 1/2 in. The plan is told.
sed 's/"length": 60/"length": 40/' "$work/cloth.json" >"$work/short.json"
expect 1 "$chalklight" tear "$work/skirt.json" --view A --size 1 --on "$work/short.json" --off-square "1 in" --unit in --across
told "45 1/2 in of washed cloth are needed, and 40 in are at hand, 5 1/2 in too little; a length of 49 1/2 in as bought would do"
said "44 1/2 in"
said "the 40 in at hand are too little. Buy 1 3/8 yd."
expect 0 "$chalklight" job "$work/skirt.json" --view A --size 1 --out "$work/short-job.json"
cp "$work/short-job.json" "$work/as-it-was.json"
expect 1 "$chalklight" tear "$work/short-job.json" --on "$work/short.json" --keep
expect 0 cmp "$work/short-job.json" "$work/as-it-was.json"
# Where all is torn there is nothing to arrange, which is no fault.
cat >"$work/band.json" <<'END'
{ "chalklight": "pattern", "version": 2, "outline": "cutting line", "name": "Band", "unit": "in", "sizes": ["1"],
  "pieces": [ { "name": "band", "rectangle": { "width": 34, "height": 5 } } ],
  "views": [ { "name": "A", "cut": [ { "piece": "band", "count": 2 } ] } ] }
END
expect 0 "$chalklight" job "$work/band.json" --size 1 --out "$work/band.job"
expect 0 "$chalklight" tear "$work/band.job" --on "$work/cloth.json" --keep
expect 0 "$chalklight" arrange "$work/band.job" --out "$work/band.png"
told "all that is cut of the fabric is torn or cut of what strips leave; nothing is left to be laid out"
is_there "$work/band.png"
finish
