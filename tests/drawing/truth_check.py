"""Whether the test squares of the sheets in ../lifting/pattern_sheets.py are found with their sizes, and say at what scale each was
saved: within 0.01 %, a square of 100 mm as 100.000 mm.

    python3 truth_check.py PROGRAM [NAME ...]      PROGRAM: the built sheet_truth.c
"""
import os
import sys
import tempfile

here = os.path.dirname(os.path.abspath(__file__))
sys.path[:0] = [os.path.join(here, "..", "lifting"), os.path.join(here, "..", "sheet_reader")]
import pattern_sheets as sheets  # noqa: E402
import pdf_reader as reader  # noqa: E402

SIDE_MM, PLACE_MM, SHARE = 0.0005, 0.001, 0.0001
QUICK = [name for name in sheets.SHEETS if name.startswith("small")] + [
    "a0", "a0_94", "a0_97_100", "a0_broken", "a0_outlined_text", "a0_rotated", "a0_user_unit", "a0_frame_letter_94"]
failures = []


def hold(what, right, *found):
    if not right:
        failures.append(f"{what}: {found}"[:600])


def on_sheet(page, p):
    a, b, c, d, e, f = page["to_sheet"]
    return a * p[0] + c * p[1] + e, b * p[0] + d * p[1] + f


def check(name, found, truth):
    hold(f"{name} exit", found["exit"] == 0, found["exit"])
    if found["exit"]:
        return
    across, up = truth["scale"]
    told = {round(square["width"] / across): square for square in found["squares"]}
    hold(f"{name} squares", len(found["squares"]) == len(truth["squares"]), found["squares"])
    for square in truth["squares"]:
        side, got = square["side_mm"], told.get(round(square["side_mm"]))
        if not got:
            hold(f"{name} {square['text']}", False, "not found")
            continue
        hold(f"{name} {square['text']} side", abs(got["width"] / across - side) <= SIDE_MM and
             abs(got["height"] / up - side) <= SIDE_MM, got)
        hold(f"{name} {square['text']} place", all(abs(a - b) <= PLACE_MM for a, b in zip(
            on_sheet(truth["pages"][got["page"]], got["corner"]), square["corner"])), got)
        outlines = sheets.SHEETS[name]["text"] == "outlines"
        hold(f"{name} {square['text']} words", abs(got["written"] - (0 if outlines else side)) < 1e-6, got)
    hold(f"{name} scale", all(abs(a / b - 1) <= SHARE for a, b in zip(found["saved"], truth["scale"])), found)
    hold(f"{name} kind", found["kind"] == ("true" if across == up == 1 else "off"), found["kind"])


def main(program, names):
    with tempfile.TemporaryDirectory() as folder:
        for name in names or QUICK:
            path, truth = sheets.make(folder, name)
            check(name, reader.read(program, path, truth.get("password")), truth)
    print(f"{len(names or QUICK)} sheets")
    print("\n".join(failures))
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2:]))
