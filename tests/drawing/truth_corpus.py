"""The test squares of every file below a folder of open data: none crashes the program or keeps it for long. Prints what how many
say. None of them is a sewing pattern that was saved at another scale, so hardly any should be asked about.

    python3 truth_corpus.py PROGRAM FOLDER      PROGRAM: the built sheet_truth.c
"""
import collections
import glob
import os
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "sheet_reader"))
import pdf_reader as reader  # noqa: E402

ASKED_MOST = 0.02  # of the files that were read


def main(program, folder):
    counts, bad, asked = collections.Counter(), [], []
    files = sorted(path for kind in ("pdf", "svg") for path in glob.glob(os.path.join(folder, "**", "*." + kind), recursive=True))
    for path in files:
        try:
            found = reader.read(program, path)
        except (AssertionError, ValueError, reader.Hung) as trouble:
            bad.append(f"{os.path.relpath(path, folder)}: {trouble}")
            continue
        counts[found.get("kind", "not read")] += 1
        if found.get("kind") not in (None, "no square"):
            asked.append(f"{os.path.relpath(path, folder)}: {found['squares']}")
    print(f"{len(files)} files:", ", ".join(f"{count} {name}" for name, count in counts.most_common()))
    print("\n".join(asked + bad))
    return 1 if bad or not files or len(asked) > ASKED_MOST * (len(files) - counts["not read"]) else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2]))
