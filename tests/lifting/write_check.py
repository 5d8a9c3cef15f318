"""Whether what is written of lifted pieces is what was drawn (truth.py), when nothing on the way to it erred: of the large sheet, and of
the small one.

    python3 write_check.py WRITE_TRUTH
"""
import json
import os
import subprocess
import sys
import tempfile

import pattern_sheets
import truth

MOST_BYTES = 2 * 1024 * 1024  # so much of a pattern a job takes in


# A sheet, how near the chords of its curves are drawn and what grid its points lie on (mm), and how near what is written has to be.
# Points in tenths of a point lie on a grid of 0.035 mm.
SHEETS = [("a0", 0.002, 0, 0.01), ("small", 0.002, 0, 0.01), ("small", 0.01, 0.0035, 0.02), ("small", 0.002, 0.035, 0.05),
          ("small", 0.02, 0.1, 0.15)]


def check(tool, folder, name, chord, grid, near):
    _, right = pattern_sheets.make(folder, name)
    path = os.path.join(folder, name + ".json")
    subprocess.run([tool, os.path.join(folder, name + ".truth.json"), path, str(chord), str(grid)], check=True)
    with open(path, encoding="utf-8") as f:
        pattern = json.load(f)
    out = truth.compare(pattern, right)
    size = os.path.getsize(path)
    print(f"{name}, chords {chord}, grid {grid}: {size} bytes; " + "\n".join(out.lines()))
    found = [share for what, share in out.percent().items() if what != "pieces" or near <= truth.OUTLINE_MM]
    return min(found) == 100 and not out.extra and out.worst <= near and size <= MOST_BYTES


def main(tool):
    with tempfile.TemporaryDirectory() as folder:
        sound = [check(tool, folder, *sheet) for sheet in SHEETS]
    sys.exit(not all(sound))


if __name__ == "__main__":
    main(sys.argv[1])
