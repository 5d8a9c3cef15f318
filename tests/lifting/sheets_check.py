"""Whether the reader finds the sheets of pattern_sheets.py as they were written: pages, layers with their state and exact counts
of painted paths, squares, and every point of every outline within 0.001 mm, brought back to the sheet by the truth's map.

    python3 sheets_check.py PROGRAM [NAME ...]      PROGRAM: the built pdf_dump.c
"""
import collections
import os
import sys
import tempfile

import pattern_sheets as sheets

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "sheet_reader"))
import pdf_reader as reader  # noqa: E402

NEAR = 0.001
QUICK = [name for name in sheets.SHEETS if name.startswith("small")] + [
    "a0", "a0_nested", "a0_membership", "a0_forms", "a0_off", "a0_user_unit", "a0_rotated", "a0_box", "a0_97_100", "a0_whole_a4"]
BROKEN = ("broken",)  # whose outlines have gaps, so that not every point of the truth is drawn
failures = []


def hold(what, right, *found):
    if not right:
        failures.append(f"{what}: {found}"[:600])


def on_sheet(truth, page, p):
    a, b, c, d, e, f = truth["pages"][page]["to_sheet"]
    return a * p[0] + c * p[1] + e, b * p[0] + d * p[1] + f


class Cloud:
    """All points of paths on the sheet, to be looked up by place."""

    def __init__(self, sheet, truth):
        self.cells = collections.defaultdict(list)
        for item in sheet["items"]:
            if item["kind"] == "path":
                for part in item["parts"]:
                    for p in part["points"]:
                        x, y = on_sheet(truth, item["page"], p)
                        self.cells[round(x), round(y)].append((x, y))

    def has(self, p):
        column, row = round(p[0]), round(p[1])
        return any(abs(x - p[0]) <= NEAR and abs(y - p[1]) <= NEAR for i in (-1, 0, 1) for j in (-1, 0, 1)
                   for x, y in self.cells.get((column + i, row + j), ()))


def check_layers(name, sheet, truth):
    got, want = collections.Counter(), collections.Counter()
    for k, layer in enumerate(sheet["layers"]):
        parent = sheet["layers"][layer["parent"]]["name"] if layer["parent"] >= 0 else None
        got[layer["name"], parent, bool(layer["flags"] & 1)] += reader.paths_on(sheet, k)
    for layer in truth["layers"]:
        want[layer["name"], layer["parent"], layer["on"]] += layer["paths"]
    hold(f"{name} layers", +got == +want, +got - +want, +want - +got)


def check(name, sheet, truth):
    hold(f"{name} exit", sheet["exit"] == 0, sheet["exit"])
    if sheet["exit"]:
        return
    want = [page["size_mm"] for page in truth["pages"]]
    hold(f"{name} pages", len(want) == len(sheet["pages"]) and
         all(abs(a - b) <= NEAR for p, q in zip(want, sheet["pages"]) for a, b in zip(p, q)), sheet["pages"])
    check_layers(name, sheet, truth)
    cloud = Cloud(sheet, truth)
    for square in truth["squares"]:
        (x, y), side = square["corner"], square["side_mm"]
        corners = [(x, y), (x + side, y), (x + side, y + side), (x, y + side)]
        hold(f"{name} {square['text']}", all(cloud.has(p) for p in corners), corners)
    if name.endswith(BROKEN) or truth["missing"]:
        return
    for piece in truth["pieces"]:
        for size, one in piece["sizes"].items():
            gone = [p for edge in one["outline"] for p in edge["points"] if not cloud.has(p)]
            hold(f"{name} {piece['name']} {size}", not gone, gone)


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
