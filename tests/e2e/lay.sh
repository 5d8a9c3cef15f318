#!/bin/sh
# Layouts by commands: lay.sh CHALKLIGHT TOP PYTHON [--prove]: GEOS looks for overlaps, too, by python3-shapely
. "$2/tests/e2e/expect.sh"
python=$3
prove=${4-}
check() {
    expect 0 "$python" "$top/tests/e2e/lay_check.py" "$@" $prove
}
lay() {
    expect 0 "$chalklight" lay "$@"
}
pattern="$demo/pinafore.json"
job="$work/a.job"
expect 0 "$chalklight" job "$pattern" --body "$demo/guide.json" --view A --out "$job"
expect 0 "$chalklight" draft "$job" --out "$work/draft.svg" --json
cp "$work/out" "$work/draft.json"

# Found, told, kept and drawn; the same again changes nothing.
lay "$job" --rounds 1 --out "$work/a.svg"
said "Fabric, 150 cm wide, folded lengthwise"
said "Nothing was said of this cloth; that is a usual one."
said "of washed cloth. Buy "
said "Cloth used: "
said "Bib front "
said "Making the cloth ready"
said "Interfacing, 90 cm wide"
is_there "$work/a-fabric.svg"
is_there "$work/a-interfacing.svg"
is_not_there "$job.old"
cp "$job" "$work/first.job"
lay "$job" --rounds 1 --for fabric --out "$work/f.json" --json
cp "$work/out" "$work/again.json"
expect 0 cmp "$job" "$work/first.job"
check "$work/f.json" "$work/a-fabric.svg" --drafted "$work/draft.json"
check "$work/again.json" "$work/a-fabric.svg"
lay "$job" --rounds 1 --for interfacing --json
cp "$work/out" "$work/interfacing.json"
check "$work/interfacing.json" "$work/a-interfacing.svg"
expect 0 "$chalklight" check "$job"
said "Fabric, 150 cm wide, folded lengthwise: needs "
# Of a pattern nothing is kept; the same seed finds the same.
lay "$pattern" --body "$demo/guide.json" --view A --for fabric --rounds 1 --out "$work/p.svg"
expect 0 cmp "$work/p.svg" "$work/a-fabric.svg"
expect 1 "$chalklight" lay "$pattern" --body "$demo/guide.json" --view A --for fabric --rounds 1 --out "$work/p.svg"
told "is there already"

# Other cloth: 5 % of warp and 4 % of weft gone in the wash; 1.6 m are 1.52 m washed.
cat >"$work/linen.json" <<'END'
{ "chalklight": "cloth", "version": 1, "name": "Blue linen", "unit": "cm", "kind": "woven", "width": 140,
  "shrinkage": { "along": 5, "across": 4 }, "spread": "single" }
END
lay "$job" --on "$work/linen.json" --rounds 0 --for fabric --json
cp "$work/out" "$work/linen.out"
said '"name": "Blue linen"'
is_there "$job.old"
check "$work/linen.out"
lay "$job" --rounds 0 --for fabric
said "Fabric “Blue linen”, 140 cm wide, in a single layer"
said "because it shrinks by 5 %"
for spread in single folded "folded to 45 cm" "to the middle" across; do
    lay "$job" --spread "$spread" --width "160 cm" --rounds 0 --for fabric --json
    cp "$work/out" "$work/spread.json"
    check "$work/spread.json"
done
lay "$pattern" --body "$demo/keeper.json" --view C --for fabric --rounds 1 --widths --unit in
said " yd"
said "  width "
lay "$pattern" --body "$demo/guide.json" --view C --rounds 0 --seed 18446744073709551615

# Cloth of which nobody said how it lies is not folded for one piece of either hand, which would leave the other over.
cat >"$work/one.json" <<'END'
{ "chalklight": "pattern", "version": 1, "name": "p", "unit": "cm", "sizes": ["1"], "chart": { "hip": [90] },
  "main_measurement": "hip", "pieces": [ { "name": "r", "points": { "a": [0, 0], "b": [20, 0], "c": [0, 30] },
    "outline": [ { "name": "l", "path": ["a", "b", "c", "a"] } ] } ],
  "views": [ { "name": "A", "cut": [ { "piece": "r", "count": 1 } ] }, { "name": "B", "cut": [ { "piece": "r", "pairs": 1 } ] } ] }
END
lay "$work/one.json" --view A --size 1
said "in a single layer"
lay "$work/one.json" --view B --size 1
said "folded lengthwise"

# What is held in place stays to the last digit.
awk '!done && sub(/"piece": "[^"]*",/, "& \"held\": true,") { done = 1 } { print }' "$job" >"$work/held.job"
place() {
    grep -m 1 '"turn"' "$work/held.job"
    grep -m 1 '"shift"' "$work/held.job"
}
place >"$work/held"
lay "$work/held.job" --seed 7 --rounds 0 --for fabric
said "held in place"
place >"$work/still"
expect 0 cmp "$work/held" "$work/still"
# What changes nothing leaves no copy; nor does only trying another cloth.
rm -f "$work/held.job.old"*
cp "$work/held.job" "$work/was.job"
lay "$work/held.job" --seed 7 --rounds 0 --for fabric
said "which stays"
lay "$work/held.job" --try --let-go --width "170 cm" --rounds 0 --for fabric
said "which is for another cloth or another spread, stays"
expect 0 cmp "$work/held.job" "$work/was.job"
is_not_there "$work/held.job.old"
# Let go, the piece lies as it may; the job that had it held is kept beside.
cp "$work/was.job" "$work/free.job"
lay "$work/free.job" --let-go --rounds 0 --for fabric
expect 1 grep -q '"held"' "$work/free.job"
expect 0 cmp "$work/free.job.old" "$work/was.job"
# The cloth that the job has, told anew, is no other cloth.
lay "$job" --on "$work/linen.json" --rounds 0 --for fabric
rm -f "$job.old"*
lay "$job" --on "$work/linen.json" --rounds 0 --for fabric
said "which stays"
is_not_there "$job.old"

# Too short: what does not fit is named, the rest is laid.
sed 's/"width": 140/"width": 140, "length": 60/' "$work/linen.json" >"$work/short.json"
expect 1 "$chalklight" lay "$job" --try --on "$work/short.json" --rounds 0 --for fabric --json
cp "$work/out" "$work/short.out"
expect 1 "$chalklight" lay "$job" --on "$work/short.json" --rounds 0 --for fabric
said "at hand"
said "not fit: “"
said "All of it needs "
told "pieces of the fabric do not fit"
# What is told to be needed is what the same search needs on cloth that is long enough.
lay "$pattern" --body "$demo/guide.json" --view A --on "$work/linen.json" --seed 1 --rounds 0 --for fabric --json
cp "$work/out" "$work/enough.out"
expect 0 "$python" -c 'import json, sys
short, enough = (json.load(open(path))["layouts"][0] for path in sys.argv[1:])
assert short["on_more"]["to_buy_mm"] == enough["to_buy_mm"] > 600, (short["on_more"], enough["to_buy_mm"])' \
    "$work/short.out" "$work/enough.out"

# Its sections as they lie on the table.
expect 0 "$chalklight" frame "$job" --section 1 --out "$work/section.png"
expect 1 "$chalklight" frame "$job" --section 99 --out "$work/none.png"
told "there is no section 99: this job's layouts have "
expect 1 test -e "$work/none.png"

# A piece that was turned by hand and held, 30 degrees off the grain and past the others: it stays so, which is told. Two
# over each other by hand make way, which is told.
"$python" -c 'import json, sys
job = json.load(open(sys.argv[1]))
laid = next(c for c in job["cloths"] if c["material"] == "fabric")["laid"]
band = next(p for p in laid if p["piece"] == "pocket")
band.update(held=True, turn=band["turn"] + 30, shift=[3000, 600])
json.dump(job, open(sys.argv[2], "w"))
band.update(held=False, shift=laid[0]["shift"])
json.dump(job, open(sys.argv[3], "w"))' "$job.old" "$work/turned.job" "$work/over.job"
lay "$work/turned.job" --rounds 0 --for fabric
said "30° off the grain, held in place"
told "stays 30° off the grain, as it was laid by hand"
lay "$work/over.job" --rounds 0 --for fabric
said "in which pieces lay over each other"
# A held piece that the view does not cut any more.
sed 's/"piece": "pocket"/"piece": "purse"/' "$work/turned.job" >"$work/lost.job"
lay "$work/lost.job" --rounds 0 --for fabric
told "“purse” in the layout of the fabric is not cut like that any more; where it was held in place, that is let go"

cp "$work/was.job" "$work/held.job"
# Other pieces do not lie where those lay.
expect 0 "$chalklight" alter "$work/held.job" --alter "fuller bust by 2 cm"
told "their layout was taken off the cloth"
expect 1 grep -q laid "$work/held.job"

# What a person could give wrongly.
wrong() {
    want=$1
    sentence=$2
    shift 2
    expect "$want" "$chalklight" lay "$@"
    told "$sentence"
}
cloth() {
    echo "{ \"chalklight\": \"cloth\", \"version\": 1, \"unit\": \"cm\", $1 }" >"$work/cloth.json"
}
wrong 2 "--width needs the width of the cloth" "$job" --width 0
wrong 2 "--spread is single, folded" "$job" --spread twice
wrong 2 "--seconds needs a number above zero" "$job" --seconds 0
wrong 2 "needs a whole number from 0 to 1000000" "$job" --rounds -1
wrong 2 "needs a whole number from 0 to 18446744073709551615" "$job" --seed 18446744073709551616
wrong 2 "are two ends of one search" "$job" --rounds 1 --seconds 1
wrong 2 "--for is fabric, lining or interfacing" "$job" --for felt
wrong 2 "ends in .svg for a drawing or in .json" "$job" --out "$work/x.png"
wrong 1 "nothing of the view is cut from lining; it has pieces of fabric and interfacing" "$job" --for lining
wrong 1 "this is a pattern file, not a cloth file" "$job" --on "$pattern"
wrong 1 "is read by this command and would be lost" "$job" --out "$work/linen.json" --on "$work/linen.json" --for fabric
wrong 1 "this is a body file" "$demo/guide.json"
wrong 1 "is 57.91 cm wide across the grain, too wide for this cloth: take cloth at least 63 cm wide" "$job" --for fabric --width "60 cm" --spread single
wrong 1 "fabric: cloth 150 cm wide, 141.5 cm of it to be cut from, cannot be folded to a depth of 90 cm" "$job" --for fabric --width "150 cm" --spread "folded to 90 cm"
cloth '"width": 150, "length": 120, "repeat": { "along": 200 }'
wrong 1 "cloth.json: a repeat of 200 cm along is longer than the cloth" "$job" --for fabric --on "$work/cloth.json"
told "take a longer length, or leave the repeat out and match by eye"
expect 1 "$chalklight" check "$work/cloth.json"
told "cloth.json: a repeat of 200 cm along is longer than the cloth"
cloth '"width": 150, "repeat": { "across": 148 }'
wrong 1 "cloth.json: a repeat of 148 cm across is wider than the cloth, which has 147.5 cm" "$job" --for fabric --on "$work/cloth.json"
told "take wider cloth, or leave the repeat out and match by eye"
# Of 147.5 cm the fold nearest to the middle is after 21 half repeats of 3.5 cm: 73.5 cm, 28.94 in, on a tape 28 15/16.
cloth '"width": 150, "spread": "folded", "repeat": { "across": 7 }'
lay "$job" --for fabric --on "$work/cloth.json" --rounds 0 --try --unit in
told "fold the cloth 28 15/16 in from its near edge"
# Folded crosswise it is folded on a half repeat of 5.5 cm behind the last piece, which is told, and twice that is needed.
cloth '"width": 150, "spread": "folded across", "repeat": { "along": 11 }'
lay "$job" --for fabric --on "$work/cloth.json" --rounds 0 --try --json
cp "$work/out" "$work/across.json"
expect 0 "$python" -c 'import json, math, sys
lay = json.load(open(sys.argv[1]))["layouts"][0]
fold = math.ceil(lay["as_it_lies_length_mm"] / 55 - 1e-9) * 55
cut = sum(abs(sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(q, q[1:] + q[:1]))) / 2 * (2 if p["on_fold"] else p["copies"])
          for p in lay["pieces"] for q in [p["outline_mm"]])
print(abs(lay["fold_mm"] - fold) < 1e-6, abs(lay["length_mm"] - 2 * fold) < 1e-6, abs(lay["used"] - cut / (1475 * 2 * fold)) < 1e-6)' "$work/across.json"
said "True True True"
cloth '"outline": [[0,0],[100,0],[100,80],[0,80]]'
wrong 1 "leave --width out" "$job" --for fabric --on "$work/cloth.json" --width 90
wrong 1 "a scrap is not bought in other widths, so --widths has none to tell" "$job" --for fabric --on "$work/cloth.json" --widths --rounds 0 --try
sed 's/"shift": \[[-0-9.]*/"shift": [-5000/' "$work/was.job" >"$work/off.job"
expect 1 "$chalklight" check "$work/off.job"
told "past what can be cut there"
wrong 1 "off the cloth" "$work/off.job" --for fabric
told "with --let-go all of the fabric is arranged anew"
lay "$work/off.job" --for fabric --let-go --rounds 0
said "in which pieces lay over each other or where they may not"
wrong 1 "its folder is not there" "$job" --for fabric --out "$work/none/x.svg" --seconds 600

# A job that is at the table just now (fcntl(2): a lock of the whole journal) is not arranged behind its back.
echo "chalklight journal 1" >"$work/was.job.journal"
expect 1 "$python" -c 'import fcntl, subprocess, sys
held = open(sys.argv[1], "r+")
fcntl.lockf(held, fcntl.LOCK_EX)
sys.exit(subprocess.run(sys.argv[2:], close_fds=True).returncode)' "$work/was.job.journal" "$chalklight" lay "$work/was.job"
told "was.job.journal"
rm "$work/was.job.journal"

# Ctrl-C keeps the best so far.
expect 0 "$python" "$top/tests/e2e/stop.py" "$chalklight" lay "$work/free.job" --for fabric --seconds 600
said "of washed cloth"
told "the best layout so far is kept"
# It is the fabric's search that it ends: the interfacing has all its rounds.
lay "$work/free.job" --try --for interfacing --rounds 40 --json
cp "$work/out" "$work/whole.out"
expect 0 "$python" "$top/tests/e2e/stop.py" "$chalklight" lay "$work/free.job" --try --rounds 40 --json
cp "$work/out" "$work/stopped.out"
expect 0 "$python" -c 'import json, sys
whole, stopped = (json.load(open(path))["layouts"] for path in sys.argv[1:])
assert stopped[0]["rounds"] < 40 and stopped[1]["rounds"] == whole[0]["rounds"] > 0, [s["rounds"] for s in stopped]' \
    "$work/whole.out" "$work/stopped.out"

# Behind a plan whose strips' rests are used there is none before those are looked at.
expect 0 "$chalklight" job "$pattern" --body "$demo/guide.json" --view A --out "$work/torn.job"
expect 0 "$chalklight" tear "$work/torn.job" --width "112 cm" --keep
said "is used for"
expect 1 "$python" "$top/tests/e2e/stop.py" "$chalklight" lay "$work/torn.job" --for fabric --seconds 600
told "stopped as you asked, before the fabric had a layout"

# Fused in a block: the interfacing's layout is that rectangle and what is fused by itself, and the list says so.
expect 0 "$chalklight" job "$pattern" --body "$demo/guide.json" --view A --out "$work/block.job"
cat >"$work/block.json" <<'END'
{ "chalklight": "cloth", "version": 1, "unit": "cm", "width": 140, "spread": "folded", "fuse_block": 60 }
END
cat >"$work/fusible.json" <<'END'
{ "chalklight": "cloth", "version": 1, "unit": "cm", "width": 90 }
END
lay "$work/block.job" --for fabric --on "$work/block.json" --rounds 1 --out "$work/block.svg"
told "“Waistband front” is cut through two layers, and fewer of it are fused: it lies outside the block, fuse it by itself"
said "  First fuse it in a block, on the wrong side of the cloth opened out, at the cut end, as far to either side of the fold: one piece of interfacing, "
expect 0 grep -q 'class="fused"' "$work/block.svg"
lay "$work/block.job" --for interfacing --on "$work/fusible.json" --rounds 1
said "  The fabric is fused in a block before its pieces are cut: that is “Block” below, one piece of interfacing, "
said "  Block "
said "  Waistband front  1"
said "Do not press it: the iron would stick it to the board."
cp "$work/out" "$work/interfacing.txt"
expect 1 grep -q "acing (" "$work/interfacing.txt"
lay "$work/block.job" --for interfacing --width "40 cm" --rounds 1
told "this interfacing lies 40 cm wide: it is cut as 2 strips, each "
said "  Block 2 "
lay "$work/block.job" --for interfacing --rounds 1 --json
cp "$work/out" "$work/block.out"
said '"fabric_block": {'
check "$work/block.out"
expect 0 "$chalklight" check "$work/block.job"
said "Nothing to mend."
expect 0 "$chalklight" list "$work/block.job"
said "fuse it on the fabric first, then cut out of both: "
# With another block of the fabric, that layout is of yesterday; with the same one it is not.
cp "$work/block.job" "$work/other.job"
lay "$work/other.job" --for fabric --rounds 1
cp "$work/err" "$work/told.txt"
expect 1 grep -q "another block" "$work/told.txt"
sed 's/"fuse_block": 60/"fuse_block": 40/' "$work/block.json" >"$work/narrow.json"
lay "$work/other.job" --for fabric --on "$work/narrow.json" --rounds 1
told "the fabric is fused in another block than its interfacing is laid for: lay that anew, too, with --for interfacing"
# A trial garment needs no interfacing, and the job keeps it for the final one.
expect 0 "$chalklight" alter "$work/block.job" --trial
lay "$work/block.job" --rounds 1
expect 0 "$chalklight" check "$work/block.job"
said "Interfacing, 40 cm wide, in a single layer: not needed, as a trial garment is cut of its main fabric alone"
finish
