"""Whether a layout that `chalklight lay --json` tells is what it says, and its drawing shows the same.

    python3 lay_check.py LAYOUT.json [DRAWING.svg] [--drafted DRAFT.json] [--prove]

LAYOUT: what `lay --out FILE.json` wrote; its first layout is looked at. DRAWING: `lay --out FILE.svg` of the same one.
--drafted: what `draft --json` says of the same pieces, whose lengths the outlines must have. --prove: GEOS, by shapely,
finds no overlap. Everything is worked out here from the outlines, by the shoelace formula and Pythagoras.
"""
import json
import math
import re
import sys
import xml.etree.ElementTree as ElementTree

SVG = "{http://www.w3.org/2000/svg}"
MARGIN_MM = 40.0  # the drawing's, by its header
failed = 0


def check(so, words):
    global failed
    if not so:
        failed += 1
        print("not so:", words)


def near(a, b, by, words):
    check(abs(a - b) <= by, f"{words}: {a} is not {b}")


def area(points):
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(points, points[1:] + points[:1])) / 2


def perimeter(points):
    return sum(math.dist(a, b) for a, b in zip(points, points[1:] + points[:1]))


def laid(layout):
    return [p for p in layout["pieces"] if p["laid"]]


def figures(layout):
    pieces, cloth, lies = laid(layout), layout["cloth"], layout["as_it_lies"]
    far = max(x for p in pieces for x, _ in p["outline_mm"])
    layers_long = 2 if cloth["spread"] == "folded across" else 1
    near(layout["as_it_lies_length_mm"], far, 1e-6, "the length is where the last piece ends")
    folded = layout.get("fold_mm", far)
    near(layout["length_mm"], folded * layers_long, 1e-6, "the length opened out")
    cut = sum(abs(area(p["outline_mm"])) * (2 if p["on_fold"] else p["copies"]) for p in pieces)
    near(layout["used"], cut / (lies["usable_mm"] * folded * layers_long), 1e-9, "the share in pieces")
    shrink = 0 if cloth.get("washed") else cloth.get("shrinkage", {}).get("along", 0) / 100
    unwashed = layout["length_mm"] / (1 - shrink)
    step = 100 if layout["to_buy_mm"] % 100 == 0 else 36 * 25.4 / 8
    check(0 <= layout["to_buy_mm"] - unwashed < step + 1e-6, f"{layout['to_buy_mm']} bought, {unwashed} needed")
    for p in pieces:
        check(all(-1e-6 <= y <= lies["width_mm"] + 1e-6 for _, y in p["outline_mm"]), f"{p['name']} lies on the cloth")
        check(all(x >= -1e-6 for x, _ in p["outline_mm"]), f"{p['name']} does not pass the cut end")
        near(p["from_cut_end_mm"], min(x for x, _ in p["outline_mm"]), 1e-9, p["name"])
        if p["on_fold"]:
            folds = [b["from_mm"] for b in lies["bands"] if b["fold_at_from"]]
            folds += [b["to_mm"] for b in lies["bands"] if b["fold_at_to"]]
            on = [f for f in folds for y in (p["from_near_edge_mm"], max(y for _, y in p["outline_mm"])) if abs(y - f) < 1e-6]
            check(on, f"{p['name']} lies on a fold")


def lengths(layout, drafted):
    """An outline is as long as drafted; opened out it is twice the line that is cut."""
    known = {p["name"]: p for p in drafted["pieces"]}
    for p in laid(layout):
        want = known[p["piece"]]
        got = perimeter(p["outline_mm"])
        check(any(abs(got - mm) < 1e-3 for mm in (want["outline_mm"], 2 * want["cut_mm"])), f"{p['name']} measures {got}")


def path_points(d):
    return [tuple(float(n) for n in pair.split(",")) for pair in re.findall(r"-?[\d.]+,-?[\d.]+", d)]


def drawing(layout, path):
    root = ElementTree.parse(path).getroot()
    box = [float(n) for n in root.get("viewBox").split()]
    near(float(root.get("width").removesuffix("mm")), box[2], 1e-9, "1 unit is 1 mm across")
    near(float(root.get("height").removesuffix("mm")), box[3], 1e-9, "1 unit is 1 mm up")
    groups = [g for g in root.iter(SVG + "g") if g.get("class") == "piece"]
    pieces = laid(layout)
    check([g.find(SVG + "title").text for g in groups] == [p["name"] for p in pieces], "the drawing's pieces")
    for group, piece in zip(groups, pieces):
        cut = next(p for p in group.iter(SVG + "path") if p.get("class") == "cut")
        points = [(x - MARGIN_MM, box[3] - MARGIN_MM - y) for x, y in path_points(cut.get("d"))]
        check(len(points) == len(piece["outline_mm"]), f"{piece['name']} is drawn whole")
        off = max(math.dist(a, b) for a, b in zip(points, piece["outline_mm"]))
        check(off < 2e-4, f"{piece['name']} is drawn {off} mm off")
        check(any(p.get("class") == "grain" for p in group.iter(SVG + "path")), f"{piece['name']} has its grain")


def prove(layout):
    from shapely.geometry import Polygon

    shapes = [Polygon(p["outline_mm"]) for p in laid(layout)]
    blocked = [Polygon(b) for b in layout["as_it_lies"]["blocked_mm"]]
    check(all(s.is_valid for s in shapes), "outlines are sound")
    for i, a in enumerate(shapes):
        for b in shapes[:i] + blocked:
            over = a.intersection(b).area
            check(over <= 1e-6 * min(a.area, b.area), f"{laid(layout)[i]['name']} lies over another by {over} mm²")


def main(words):
    options = [w for w in words if w.startswith("--")]
    drafted = words.pop(words.index("--drafted") + 1) if "--drafted" in options else None
    files = [w for w in words if not w.startswith("--")]
    with open(files[0], encoding="utf-8") as f:
        layout = json.load(f)["layouts"][0]
    figures(layout)
    if drafted:
        with open(drafted, encoding="utf-8") as f:
            lengths(layout, json.load(f))
    if len(files) > 1:
        drawing(layout, files[1])
    if "--prove" in options:
        prove(layout)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
