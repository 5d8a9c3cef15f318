"""Every PDF below a folder of open data through the reader: none crashes it or keeps it for long, and each ends in a sound
result or in one of the outcomes that are told. Prints how many ended how.

    python3 pdf_corpus.py PROGRAM FOLDER      PROGRAM: the built pdf_dump.c
"""
import collections
import glob
import os
import sys

import pdf_reader as reader

OUTCOMES = {0: "read", 10: "not a sheet", 11: "password needed", 12: "password wrong", 13: "too large", 14: "damaged"}
NOTES = {1: "mended", 3: "scans", 5: "content left out", 7: "for viewing only"}


def main(program, folder):
    counts, bad = collections.Counter(), []
    files = sorted(glob.glob(os.path.join(folder, "**", "*.pdf"), recursive=True))
    for path in files:
        try:
            sheet = reader.read(program, path)
        except (AssertionError, ValueError, reader.Hung) as trouble:
            bad.append(f"{os.path.relpath(path, folder)}: {trouble}")
            continue
        counts[OUTCOMES[sheet["exit"]]] += 1
        if sheet["exit"] == 0:
            counts.update(f"with {name}" for name in {NOTES[note["code"]] for note in sheet["notes"]})
            counts["pages"] += len(sheet["pages"])
            counts["layers"] += len(sheet["layers"])
            counts["items"] += len(sheet["items"])
    print(f"{len(files)} files:", ", ".join(f"{count} {name}" for name, count in counts.most_common()))
    print("\n".join(bad))
    return 1 if bad or not files else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2]))
