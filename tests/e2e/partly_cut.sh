#!/bin/sh
# A job that is partly cut: what is cut stays where it lies, and nothing moves its lines. partly_cut.sh CHALKLIGHT TOP
# CUT_SOME PYTHON
. "$2/tests/e2e/expect.sh"
cut_some=$3
python=$4
job="$work/p.job"

expect 0 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view A --out "$job"
expect 0 "$chalklight" lay "$job" --for fabric --width "140 cm" --spread folded --rounds 1
expect 0 "$cut_some" "$job" 3
cp "$job" "$work/before.job"
cp "$job.journal" "$work/before.journal"

# Places of pieces that are in both jobs alike.
alike() {
    "$python" - "$work/before.job" "$job" <<'END'
import json, sys
jobs = [json.load(open(p))["cloths"][0]["laid"] for p in sys.argv[1:]]
print(sum(one in jobs[1] for one in jobs[0]), "of", len(jobs[0]))
END
}

# Another search: the three stay, what is done at the table does, too.
expect 0 "$chalklight" lay "$job" --for fabric --seed 5 --rounds 30 --let-go
told "what is cut of the fabric stays where it lies: "
expect 0 cmp "$job.journal" "$work/before.journal"
expect 0 alike
if ! grep -qE '^([3-9]|[1-9][0-9]) of' "$work/out"; then fault "three places as they were"; fi
expect 0 "$cut_some" "$job" 3

cp "$work/before.job" "$job"
expect 1 "$chalklight" lay "$job" --for fabric --width "150 cm" --rounds 1
told "the fabric is partly cut: that cloth and what is torn off it stay as they are"
expect 0 "$chalklight" lay "$job" --for fabric --width "150 cm" --rounds 1 --try
expect 1 "$chalklight" tear "$job" --for fabric --keep
told "the fabric is partly cut: that cloth"
expect 1 "$chalklight" alter "$job" --trial
told "the fabric is partly cut: pattern, view, size, measurements and alterations stay as they are"
expect 1 "$chalklight" job "$demo/pinafore.json" --body "$demo/guide.json" --view B --out "$job" --replace
told "is a job that is partly cut at the table; give the new one another name"
expect 0 cmp "$job" "$work/before.job"
expect 0 cmp "$job.journal" "$work/before.journal"

# What is not cut may be changed: other cloths, and the journal stays the job's.
expect 0 "$chalklight" lay "$job" --for interfacing --rounds 1
expect 0 cmp "$job.journal" "$work/before.journal"
expect 0 "$cut_some" "$job" 3

# On a table that was set up anew what is cut stays cut, and its journal goes on.
expect 0 "$cut_some" "$job" 3 1024 600
if [ -e "$job.journal.old" ]; then fault "the journal goes on"; fi
expect 0 "$cut_some" "$job" 3
finish
