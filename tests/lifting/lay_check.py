"""Whether pieces lifted from a sheet lie on cloth as those of the pattern that the sheet was drawn from.

    python3 lay_check.py PROGRAM READER

PROGRAM: the built chalklight, READER: the built chalklight-sheet. A sheet of pattern_sheets.py is lifted; its truth, in the edges that
it was drawn with, is written as a pattern file as well, and both are laid on the same cloth, with a gap between the pieces. Then the
lay of the original must do for the lifted pieces: each is put where the original's lies (their centres of area on each other, in own
arithmetic), must be that very outline, keep the gap to its neighbours (shapely, which is GEOS) and end where that ends. What a lay of
their own needs is told beside it: it is another search over outlines that differ in the last hundredths, so only nearly the same.
"""
import json
import math
import os
import subprocess
import sys
import tempfile

from shapely.geometry import Point, Polygon

import curves
import pattern_sheets

SHEET, SIZE = "small", "40"
GAP, OUTLINE_MM, NEARLY = 2.0, 0.05, 0.03  # mm, mm, a share of the length
CLOTH = {"chalklight": "cloth", "version": 1, "unit": "mm", "kind": "woven", "width": 500, "spread": "folded", "gap": GAP}
ROUNDS, SECONDS = "3", 120


def rounded(point):
    return [round(v, 6) for v in point]


def way_to(edge, at):
    """Along the edge to its place nearest to that."""
    points = curves.chords(edge, curves.PARTS)
    k = min(range(len(points)), key=lambda i: curves.distance(points[i], at))
    return sum(curves.distance(a, b) for a, b in zip(points[:k], points[1:k + 1]))


def notches_of(size, names):
    """Which are there counts, as it decides what is its own mirror image; their places, to a chord."""
    for notch in size["notches"]:
        k = next(k for k, edge in enumerate(size["outline"]) if edge["edge"] == notch["edge"])
        yield {"edge": names[k], "at": round(way_to(size["outline"][k]["points"], notch["at"]), 3)}


def piece_of(p):
    """A piece of the truth as a pattern's, in the edges it was drawn with."""
    size = p["sizes"].get(SIZE, next(iter(p["sizes"].values())))
    edges = size["outline"]
    points, outline = {}, []
    for k, edge in enumerate(edges):
        points[f"p{k}"] = rounded(edge["points"][0])
        controls = [f"c{k} {i}" for i in range(len(edge["points"]) - 2)]
        points.update({name: rounded(at) for name, at in zip(controls, edge["points"][1:])})
        end = f"p{(k + 1) % len(edges)}"
        outline.append({"name": edge["edge"] if edge["edge"] == p["fold_edge"] else f"e{k}", "path": [f"p{k}", [*controls, end] if controls else end]})
    piece = {"name": p["name"], "points": points, "outline": outline}
    piece["notches"] = list(notches_of(size, [edge["name"] for edge in outline]))
    if p["fold_edge"]:
        piece["fold"] = p["fold_edge"]
    if p["grain"]:
        points.update({"grain 1": rounded(p["grain"][0]), "grain 2": rounded(p["grain"][1])})
        piece["grain"] = ["grain 1", "grain 2"]
    return piece


def cuts_of(p):
    for cut in p["cuts"]:
        row = {"piece": p["name"], "pairs" if cut["pairs"] else "count": cut["count"]}
        if cut["material"] in (None, "fabric"):
            yield row


def original(right):
    return {"chalklight": "pattern", "version": 2, "name": "drawn", "unit": "mm", "outline": "cutting line", "sizes": [SIZE],
            "pieces": [piece_of(p) for p in right["pieces"]],
            "views": [{"name": "all", "label": "all", "cut": [cut for p in right["pieces"] for cut in cuts_of(p)]}]}


def run(words, reader):
    done = subprocess.run(words, capture_output=True, timeout=SECONDS, env={**os.environ, "CHALKLIGHT_SHEET": reader}, check=False)
    if done.returncode != 0:
        sys.exit(f"{' '.join(words)}: left with {done.returncode}: {done.stderr.decode(errors='replace')}")
    return done.stdout


def lay(program, reader, pattern, cloth):
    words = [program, "lay", pattern, "--size", SIZE, "--for", "fabric", "--on", cloth, "--rounds", ROUNDS, "--json"]
    said = json.loads(run(words, reader))["layouts"][0]
    if said["left_out"]:
        sys.exit(f"{pattern}: {said['left_out']} pieces were left out")
    return said


def items(said):
    """What lies in a lay, by name; of several of one name in the order they are told."""
    count = {}
    for p in said["pieces"]:
        name = (p["piece"], count.setdefault(p["piece"], 0))
        count[p["piece"]] += 1
        yield name, p


def turned(p, point, back):
    """Mirror, then turn, of a point of the piece; or back."""
    angle = math.radians(p["turn_deg"]) * (-1 if back else 1)
    x, y = point
    side = -1 if p["mirror"] else 1
    if not back:
        x *= side
    x, y = x * math.cos(angle) - y * math.sin(angle), x * math.sin(angle) + y * math.cos(angle)
    return (x * side, y) if back else (x, y)


def shape_of(p):
    """A lifted item's outline in the piece's own plane, where that may lie."""
    return [turned(p, point, True) for point in p["outline_mm"]]


def put_as(shape, where):
    """That outline, its centre of area where the other's lies."""
    there = Polygon(where["outline_mm"]).centroid
    placed = Polygon([turned(where, point, False) for point in shape])
    here = placed.centroid
    return Polygon([(x + there.x - here.x, y + there.y - here.y) for x, y in placed.exterior.coords[:-1]])


def apart(p, q):
    """The farthest that a corner of either outline lies off the other."""
    return max(a.exterior.distance(Point(corner)) for a, b in ((p, q), (q, p)) for corner in b.exterior.coords)


def main(program, reader):
    bad = []
    with tempfile.TemporaryDirectory() as folder:
        pattern_sheets.make(folder, SHEET)
        at = lambda name: os.path.join(folder, name)
        with open(at(f"{SHEET}.truth.json"), encoding="utf-8") as f:
            right = json.load(f)
        for name, content in (("drawn.json", original(right)), ("cloth.json", CLOTH)):
            with open(at(name), "w", encoding="utf-8") as f:
                json.dump(content, f)
        run([program, "sheet", at(f"{SHEET}.pdf"), "--out", at("lifted.json"), "--outline", "cutting", "--allowance", "0"], reader)
        drawn, lifted = (lay(program, reader, at(name), at("cloth.json")) for name in ("drawn.json", "lifted.json"))
    own = dict(items(lifted))
    theirs = dict(items(drawn))
    if own.keys() != theirs.keys():
        sys.exit(f"lifted {sorted(own)}, drawn {sorted(theirs)}")
    placed = {}
    for name, where in theirs.items():
        if (own[name]["copies"], own[name]["on_fold"]) != (where["copies"], where["on_fold"]):
            bad.append(f"{name}: {own[name]['copies']} copies, on the fold {own[name]['on_fold']}; drawn {where['copies']}, {where['on_fold']}")
        placed[name] = put_as(shape_of(own[name]), where)
        off = apart(placed[name], Polygon(where["outline_mm"]))
        if off > OUTLINE_MM:
            bad.append(f"{name}: {off:.3f} mm off the outline it was drawn with")
    names = list(placed)
    for k, a in enumerate(names):
        for b in names[k + 1:]:
            if placed[a].distance(placed[b]) < GAP - 2 * OUTLINE_MM:
                bad.append(f"{a} and {b}: {placed[a].distance(placed[b]):.3f} mm apart")
    ends = max(p.bounds[2] for p in placed.values())
    if abs(ends - drawn["as_it_lies_length_mm"]) > OUTLINE_MM:
        bad.append(f"the lifted pieces end at {ends:.3f} mm, the drawn ones at {drawn['as_it_lies_length_mm']:.3f}")
    longer = lifted["as_it_lies_length_mm"] / drawn["as_it_lies_length_mm"] - 1
    if abs(longer) > NEARLY:
        bad.append(f"a lay of their own is {100 * longer:.1f} % longer")
    print("\n".join(bad) or f"{len(placed)} items lie alike; a lay of their own is {100 * longer:+.2f} % longer")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:3]))
