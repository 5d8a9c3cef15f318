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


def check(tool, folder, name):
    _, right = pattern_sheets.make(folder, name)
    path = os.path.join(folder, name + ".json")
    subprocess.run([tool, os.path.join(folder, name + ".truth.json"), path], check=True)
    with open(path, encoding="utf-8") as f:
        pattern = json.load(f)
    out = truth.compare(pattern, right)
    size = os.path.getsize(path)
    print(f"{name}: {size} bytes; " + "\n".join(out.lines()))
    return all(share == 100 for share in out.percent().values()) and not out.extra and out.worst <= 0.01 and size <= MOST_BYTES


def main(tool):
    with tempfile.TemporaryDirectory() as folder:
        sound = [check(tool, folder, name) for name in ("small", "a0")]
    sys.exit(not all(sound))


if __name__ == "__main__":
    main(sys.argv[1])
