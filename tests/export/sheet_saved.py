"""Whether sheets of ../lifting/pattern_sheets.py, saved as SVG, are read again as they were: each page and
the joined sheet, every line within 0.001 mm.

    python3 sheet_saved.py PROGRAM [NAME ...]      PROGRAM: the built sheet_saved.c
"""
import os
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "lifting"))
import pattern_sheets as sheets  # noqa: E402

NAMES = ["a0", "a0_nested", "a0_outlined_text", "small_broken", "small_letters", "small_whole", "small_lap", "small_cut", "small_svg_id"]


def main(program, names):
    with tempfile.TemporaryDirectory() as folder:
        files = [sheets.make(folder, name)[0] for name in names or NAMES]
        return subprocess.run([program] + files).returncode


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2:]))
