"""Whether pages that pattern_sheets.py cut lie where the truth says, and lines go on across them.

    python3 pages_check.py PROGRAM [NAME ...]      PROGRAM: the built pages_dump.c

A page's shift may differ from the truth's by what is common to all. Points of outlines are held against the joined lines; a piece that
is drawn as one closed path has to come out as one.
"""
import json
import math
import os
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "lifting"))
import pattern_sheets as sheets  # noqa: E402

JOIN_MM = 0.1  # what the import promises of clean files
NAMES = [name for name, spec in sheets.SHEETS.items() if spec["tiles"]]
WAYS = {"frame": "label", "cut": "label", "lap": "order", "whole": "repeated"}
failures = []


def hold(what, right, *found):
    if not right:
        failures.append(f"{what}: {found}"[:600])


def dump(program, truth, folder):
    scale = [str(1 / s) for s in truth["scale"]]
    done = subprocess.run([program, os.path.join(folder, truth["file"]), *scale], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def shift_errors(truth, got):
    """Of each page; and the shift from the truth's sheet to the joined one."""
    off = []
    for place in got["places"]:
        page, scale = truth["pages"][place["page"]], truth["scale"]
        off.append([place["shift"][k] - page["shift_mm"][k] / scale[k] for k in (0, 1)])
    mean = [sum(o[k] for o in off) / len(off) for k in (0, 1)]
    return max(math.dist(o, mean) for o in off), mean


def page_of(truth, p):
    """The pages on which a point of the truth's sheet is seen."""
    pages = []
    for page in truth["pages"]:
        x, y = (truth["scale"][k] * p[k] - page["shift_mm"][k] for k in (0, 1))
        x0, y0, x1, y1 = page["window"]
        if x0 <= x <= x1 and y0 <= y <= y1:
            pages.append(page["page"])
    return pages


def outline_points(truth):
    return [p for piece in truth["pieces"] for size in piece["sizes"].values() for edge in size["outline"] for p in edge["points"][:1]]


def check_places(name, truth, got):
    for place in got["places"]:
        page = truth["pages"][place["page"]]
        hold(f"{name} cell", (place["column"], place["row"]) == (page["column"], page["row"]), place, page)
    placed, empty = {place["page"] for place in got["places"]}, set(got["empty"])
    hold(f"{name} pages", not got["left_out"] and len(placed) + len(empty) == len(truth["pages"]), placed, empty)
    # A page may show the end of a word and no line.
    lined = {page for p in outline_points(truth) for page in page_of(truth, p)}
    hold(f"{name} empty", {page["page"] for page in truth["pages"] if page["empty"]} <= empty and not empty & lined, empty)
    missing = [row * got["columns"] + column for column, row in truth["missing"]]
    gone = any(not page_of(truth, p) for p in outline_points(truth))
    hold(f"{name} missing", got["missing"] == (missing if gone else []), got["missing"], missing)
    hold(f"{name} how", got["how"] == WAYS[sheets.SHEETS[name]["tiles"]["kind"]], got["how"])


def grid_of(lines, edge=2.0):
    """Segments of lines by the squares they pass, to be looked up."""
    grid = {}
    for index, line in enumerate(lines):
        points = line["points"] + line["points"][:1] * line["closed"]
        for p, q in zip(points, points[1:]):
            steps = int(math.dist(p, q) / edge) + 1
            cells = {(round((p[0] + (q[0] - p[0]) * k / steps) / edge), round((p[1] + (q[1] - p[1]) * k / steps) / edge))
                     for k in range(steps + 1)}
            for cell in cells:
                grid.setdefault(cell, []).append((index, p, q))
    return grid


def distance(p, a, b):
    by = (b[0] - a[0], b[1] - a[1])
    length = by[0] ** 2 + by[1] ** 2
    t = max(0, min(1, ((p[0] - a[0]) * by[0] + (p[1] - a[1]) * by[1]) / length)) if length else 0
    return math.dist(p, (a[0] + t * by[0], a[1] + t * by[1]))


def near(grid, p, edge=2.0):
    """The nearest line to a point, for each line near it."""
    found = {}
    c, r = round(p[0] / edge), round(p[1] / edge)
    for i in (-1, 0, 1):
        for j in (-1, 0, 1):
            for index, a, b in grid.get((c + i, r + j), ()):
                found[index] = min(found.get(index, math.inf), distance(p, a, b))
    return found


def on_cubic(points, t):
    while len(points) > 1:
        points = [[p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])] for p, q in zip(points, points[1:])]
    return points[0]


def check_outlines(name, truth, got, by):
    """How far the outlines' points are off. Outlines that are drawn as one closed path have to come out as one."""
    lines = [line for line in got["lines"] if not line["lettering"]]
    grid, worst = grid_of(lines), 0
    for piece in truth["pieces"]:
        for size in piece["sizes"].values():
            common, seen = None, True
            for p in [on_cubic(edge["points"], k / 8) for edge in size["outline"] for k in range(8)]:
                if not page_of(truth, p):
                    seen = False
                    continue
                found = near(grid, [p[0] + by[0], p[1] + by[1]])
                worst = max(worst, min(found.values(), default=math.inf))
                here = {index for index, d in found.items() if d <= JOIN_MM and lines[index]["closed"]}
                common = here if common is None else common & here
            one_path = sheets.SHEETS[name]["join"] == "piece" and not piece["shares_edge"] and not piece["same_edges"]
            hold(f"{name} whole outline", common or not (one_path and seen), piece["name"])
    hold(f"{name} outlines", worst <= JOIN_MM, worst)
    return worst


def check_furniture(name, truth, got):
    kind = sheets.SHEETS[name]["tiles"]["kind"]
    words = [text[2] for text in got["texts"]]
    for page in truth["pages"]:
        label = {"frame": chr(65 + page["column"]) + str(page["row"] + 1),
                 "whole": f"Page {page['page'] + 1} of {len(truth['pages'])}"}.get(kind)
        hold(f"{name} label", label not in words, label)
    hold(f"{name} words in cut", not any(w.startswith(("row ", "Reihe ")) for w in words))
    places = [tuple(round(x) for x in text[:2]) + (text[2],) for text in got["texts"]]
    hold(f"{name} texts once", len(places) == len(set(places)), len(places), len(set(places)))
    hold(f"{name} texts", len(places) > len(truth["pieces"]), len(places))


def main(program, names):
    worst = 0
    with tempfile.TemporaryDirectory() as folder:
        sheets.main(folder, names)
        for name in names:
            with open(os.path.join(folder, name + ".truth.json"), encoding="utf-8") as f:
                truth = json.load(f)
            got = dump(program, truth, folder)
            check_places(name, truth, got)
            error, by = shift_errors(truth, got)
            hold(f"{name} shifts", error <= JOIN_MM, error)
            outlines = check_outlines(name, truth, got, by)
            check_furniture(name, truth, got)
            print(f"{name}: shifts {error:.5f} mm, outlines {outlines:.5f} mm, {got['find_ms']} + {got['join_ms']} ms")
            worst = max(worst, error, outlines)
    print(f"worst {worst:.5f} mm")
    for failure in failures:
        print(failure, file=sys.stderr)
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2:] or NAMES))
