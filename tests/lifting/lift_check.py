"""Whether the program lifts the sheets of pattern_sheets.py as they are meant: scale, pages joined, pieces; and its figures.

    python3 lift_check.py PROGRAM READER [--figures | --quick] [NAME ...]

PROGRAM: the built chalklight, READER: the built chalklight-sheet. Without names all sheets; --quick the small ones and one A0.
--figures prints `figure NAME VALUE UNIT` instead of what differs:

    sheet.lifted_pct        pieces whose outlines lie within truth.OUTLINE_MM in every size, of all
    sheet.outline_error_mm  the largest distance of an outline that was found
    sheet.names_pct, sheet.cuts_pct, sheet.grains_pct, sheet.notches_pct
                            what was found on them

Scale and joins are held to SCALE_PERCENT and JOIN_MM; their figures are those of bench_sheet_truth.c and bench_sheet_pages.c.
"""
import json
import os
import subprocess
import sys
import tempfile

import pattern_sheets
import truth

SCALE_PERCENT, JOIN_MM, FOUND_PERCENT = 0.01, 0.1, 95
SECONDS = 120
QUICK = [name for name in pattern_sheets.SHEETS if name.startswith("small")] + ["a0"]


class Lifted:
    """What the program said of a sheet, and the pattern it wrote (None: none)."""

    def __init__(self, program, reader, path, password):
        out = path + ".json"
        call = [program, "sheet", path, "--json", "--out", out, "--outline", "cutting", "--allowance", "0"]
        done = subprocess.run(call + ["--password-stdin"] * (password is not None), input=(password or "").encode(), timeout=SECONDS,
                              capture_output=True, env={**os.environ, "CHALKLIGHT_SHEET": reader}, check=False)
        self.code, self.complaint = done.returncode, done.stderr.decode(errors="replace")
        self.said = json.loads(done.stdout) if done.stdout.strip().startswith(b"{") else {}
        self.pattern = None
        if os.path.exists(out):
            with open(out, encoding="utf-8") as f:
                self.pattern = json.load(f)


def scale_error(said, right):
    return max(abs(found / true - 1) * 100 for found, true in zip(said["saved_at"], right["scale"]))


def join_error(said, right):
    """Of each page and its neighbours across and up, where both were placed."""
    own = {place["page"] - 1: place["shift_mm"] for place in said["pages"]["places"]}
    true = {(page["column"], page["row"]): page for page in right["pages"] if not page["empty"]}
    worst = 0
    for (column, row), page in true.items():
        for next_to in ((column + 1, row), (column, row + 1)):
            other = true.get(next_to)
            if other and page["page"] in own and other["page"] in own:
                for axis in (0, 1):
                    found = own[other["page"]][axis] - own[page["page"]][axis]
                    meant = other["to_sheet"][4 + axis] - page["to_sheet"][4 + axis]
                    worst = max(worst, abs(found - meant))
    return worst


class Tally:
    def __init__(self):
        self.outline = 0.0
        self.sums, self.sheets, self.bad = {}, 0, []

    def add(self, name, lifted, right):
        self.sheets += 1
        if lifted.code != 0 or not lifted.pattern:
            self.bad.append(f"{name}: left with {lifted.code}: {lifted.complaint.strip()[:300]}")
            self.sums.setdefault("pieces", []).append(0)
            return
        missing = [row * right["columns"] + column for column, row in right["missing"]]
        if lifted.said["pages"]["missing_cells"] != missing:
            self.bad.append(f"{name}: missing cells {lifted.said['pages']['missing_cells']}, not {missing}")
        if missing:
            return  # pieces that run into it cannot be whole
        scale = scale_error(lifted.said, right)
        join = join_error(lifted.said, right)
        found = truth.compare(lifted.pattern, right)
        self.outline = max(self.outline, found.worst)
        if scale > SCALE_PERCENT:
            self.bad.append(f"{name}: its scale is off by {scale:.4f} %")
        if join > JOIN_MM:
            self.bad.append(f"{name}: its pages are off by {join:.3f} mm")
        shares = found.percent()
        spec = pattern_sheets.SHEETS[name]
        if spec["layers"] == "none" and spec["look"] == "dash":
            del shares["notches"]  # too short for dashes: all sizes' are lines of the size that has none
        for key, share in shares.items():
            self.sums.setdefault(key, []).append(share)
        if min(shares.values()) < FOUND_PERCENT or found.extra:
            self.bad.append(f"{name}: " + "\n    ".join(found.lines()[:12]))

    def figures(self):
        mean = lambda key: sum(self.sums.get(key, [0])) / len(self.sums.get(key, [0]))
        print(f"figure sheet.outline_error_mm {self.outline:.6g} mm")
        for key, name in (("pieces", "lifted"), ("names", "names"), ("cuts", "cuts"), ("grains", "grains"), ("notches", "notches")):
            print(f"figure sheet.{name}_pct {mean(key):.6g} %")


def main(program, reader, words):
    names = [word for word in words if not word.startswith("--")] or (QUICK if "--quick" in words else list(pattern_sheets.SHEETS))
    tally = Tally()
    with tempfile.TemporaryDirectory() as folder:
        for name in names:
            path, right = pattern_sheets.make(folder, name)
            tally.add(name, Lifted(program, reader, path, right.get("password")), right)
    if "--figures" in words:
        tally.figures()
        return 0
    print(f"{tally.sheets} sheets")
    print("\n".join(tally.bad))
    return 1 if tally.bad else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2], sys.argv[3:]))
