"""Whether svgelements and ezdxf, other people's readers of SVG and DXF, find in the files of `chalklight draft` the
lengths that the program drafted: every cut line, stitching line and grain, every edge along the stitching line, in every
size and cup group of the demo, within 0.01 mm. Of the SVG they are measured on the page (96 px an inch, CSS 2.1, 4.3.2),
so that its scale counts, too; of the DXF where the blocks are inserted.

    python3 reference.py CHALKLIGHT TOP
"""
import itertools
import json
import math
import os
import subprocess
import sys
import tempfile

import ezdxf
import svgelements

TOL_MM = 0.01
PX_PER_MM = 96 / 25.4
SQUARE_MM = 100

worst = {}
failed = 0


def must(what, is_so):
    global failed
    if not is_so:
        print("not so:", what)
        failed += 1


def compare(kind, what, got, want):
    off = abs(got - want)
    worst[kind] = max(worst.get(kind, 0), off)
    must(f"{what}: {got} mm, not {want}", off <= TOL_MM)


def run(program, *words):
    done = subprocess.run([program, *words], capture_output=True, text=True)
    must(f"{words}: exit code {done.returncode}: {done.stderr}", done.returncode == 0)
    return json.loads(done.stdout)


def along(points):
    return sum(math.dist(p, q) for p, q in itertools.pairwise(points))


def misses(lengths, start, places, around):
    """How far the ends of edges of those lengths, walked one after the other from `start`, lie from the line's points."""
    ends = ((start + at) % around for at in itertools.accumulate(lengths))
    return max(min(min(abs(end - p), around - abs(end - p)) for p in places) for end in ends)


def check_edges(what, points, piece):
    """The edges follow each other around the stitching line, either way round, from one of its points. On a fold the line
    is open: it begins where the fold's edge ends, which is one of the edges."""
    places = list(itertools.accumulate((math.dist(p, q) for p, q in itertools.pairwise(points)), initial=0))
    lengths, around = [e["drawn_mm"] for e in piece["edges"]], places[-1]
    is_open = sum(lengths) - around > 1
    rows = [lengths[i + 1:] + lengths[:i] for i in range(len(lengths))] if is_open else [lengths]
    rows = [r for r in rows if abs(sum(r) - around) <= TOL_MM]
    starts = [0] if is_open else places[:-1]
    best = min((misses(way, s, places, around) for r in rows for way in (r, r[::-1]) for s in starts), default=math.inf)
    compare("edges", what + " edges", best, 0)


# SVG

def px_points(path):
    points = []
    for segment in path:
        if isinstance(segment, svgelements.Move):
            points = [segment.end]
        else:
            must("straight lines only", isinstance(segment, (svgelements.Line, svgelements.Close)))
            points.append(segment.end)
    return [(p.x / PX_PER_MM, p.y / PX_PER_MM) for p in points]


def svg_group(piece, name):
    groups = [g for g in piece if isinstance(g, svgelements.Group) and g.values.get("class") == name]
    return [px_points(p) for g in groups for p in g if isinstance(p, svgelements.Path) and p.values.get("class") != "head"]


def check_svg(path, pieces):
    svg = svgelements.SVG.parse(path, ppi=96)
    squares = [e for e in svg.elements() if isinstance(e, svgelements.Rect)]
    must("one test square", len(squares) == 1)
    left, near, right, far = squares[0].bbox()
    compare("square", "test square", (right - left) / PX_PER_MM, SQUARE_MM)
    compare("square", "test square", (far - near) / PX_PER_MM, SQUARE_MM)
    groups = [g for g in svg if isinstance(g, svgelements.Group) and g.values.get("class") == "piece"]
    must(f"{len(pieces)} pieces in {path}", len(groups) == len(pieces))
    boxes = [(left / PX_PER_MM, near / PX_PER_MM, right / PX_PER_MM, far / PX_PER_MM)]
    for group, piece in zip(groups, pieces):
        what = f"{path}: {piece['name']}"
        (cut,), (stitching,), (grain,) = (svg_group(group, n) for n in ("cut", "stitching", "grain"))
        compare("svg cut", what + " cut", along(cut), piece["cut_mm"])
        compare("svg stitching", what + " stitching", along(stitching), piece["stitching_mm"])
        compare("svg grain", what + " grain", along(grain), piece["grain_mm"])
        check_edges(what, stitching, piece)
        boxes.append((min(x for x, _ in cut), min(y for _, y in cut), max(x for x, _ in cut), max(y for _, y in cut)))
    check_apart(path, boxes)


def check_apart(what, boxes):
    for (i, a), (j, b) in itertools.combinations(enumerate(boxes), 2):
        is_apart = a[2] < b[0] or b[2] < a[0] or a[3] < b[1] or b[3] < a[1]
        must(f"{what}: {i} and {j} overlap", is_apart)


# DXF: layers after ASTM D6673-10, from memory

def dxf_points(polyline):
    points = [(v.dxf.location.x, v.dxf.location.y) for v in polyline.vertices]
    return points + points[:1] if polyline.is_closed else points


def check_dxf(path, pieces):
    drawing = ezdxf.readfile(path)
    must(f"{path} is R12", drawing.dxfversion == "AC1009")
    must(f"{path} has nothing to mend", not drawing.audit().errors)
    inserts = list(drawing.modelspace().query("INSERT"))
    must(f"{len(pieces)} pieces in {path}", len(inserts) == len(pieces))
    boxes = []
    for insert, piece in zip(inserts, pieces):
        what = f"{path}: {piece['name']}"
        entities = list(insert.virtual_entities())
        words = [e.dxf.text for e in entities if e.dxftype() == "TEXT"]
        must(f"{what} says its name: {words}", "PIECE NAME: " + piece["name"] in words)
        of = lambda kind, layer: [e for e in entities if e.dxftype() == kind and e.dxf.layer == str(layer)]
        (cut,), (stitching,), (grain,) = of("POLYLINE", 1), of("POLYLINE", 14), of("LINE", 7)
        outline, stitching = dxf_points(cut), dxf_points(stitching)
        compare("dxf outline", what + " outline", along(outline), piece["outline_mm"])
        compare("dxf stitching", what + " stitching", along(stitching), piece["stitching_mm"])
        compare("dxf grain", what + " grain", grain.dxf.start.distance(grain.dxf.end), piece["grain_mm"])
        folds = sum(line.dxf.start.distance(line.dxf.end) for line in of("LINE", 6))
        compare("dxf fold", what + " fold", folds, piece["outline_mm"] - piece["cut_mm"])
        check_edges(what, stitching, piece)
        boxes.append((min(x for x, _ in outline), min(y for _, y in outline),
                      max(x for x, _ in outline), max(y for _, y in outline)))
    check_apart(path, boxes)


def main():
    program, top = sys.argv[1:]
    pattern = os.path.join(top, "assets/demo/pinafore.json")
    with open(pattern, encoding="utf-8") as file:
        written = json.load(file)
    groups = [g["name"] for g in written["cup_groups"]]
    names = {p["name"]: p for p in written["pieces"]}
    count = 0
    with tempfile.TemporaryDirectory() as folder:
        for size, group, view in [(s, g, None) for s in written["sizes"] for g in groups] + \
                                 [("5", groups[0], v["name"]) for v in written["views"]]:
            for ending, check in (("svg", check_svg), ("dxf", check_dxf)):
                out = os.path.join(folder, f"{size}-{group}-{view}.{ending}")
                words = ["--view", view] if view else []
                said = run(program, "draft", pattern, "--size", size, "--cup", group, *words, "--out", out, "--json")
                if not view:
                    wanted = [n for n, p in names.items() if p.get("cup_group", group) == group]
                    must("all pieces of the cup group", [p["name"] for p in said["pieces"]] == wanted)
                check(out, said["pieces"])
                count += len(said["pieces"])
    print(f"{count} pieces; farthest off in mm:", {k: float(f"{v:.1e}") for k, v in sorted(worst.items())})
    print(f"{failed} failed")
    return failed > 0


sys.exit(main())
