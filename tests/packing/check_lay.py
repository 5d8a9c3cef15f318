"""Proves a lay of lay_bench with GEOS: check_lay.py SET.json LAY.json

Every piece is there as often as it is asked for, in a rotation that it may have, within the strip, and no two share more
than 1e-6 of the smaller one's area."""
import json
import math
import sys

from shapely.affinity import rotate, translate
from shapely.geometry import Polygon


def fail(why):
    sys.exit(f"check_lay: {why}")


def placed(pieces, p):
    piece = pieces[p["piece"]]
    if p["rotation_deg"] not in piece["rotations_deg"]:
        fail(f"piece {p['piece']} may not be turned by {p['rotation_deg']}")
    turned = rotate(Polygon(piece["outline"]), p["rotation_deg"], origin=(0, 0))
    return translate(turned, p["x"], p["y"])


def check_counts(pieces, placements):
    for i, piece in enumerate(pieces):
        laid = sum(p["piece"] == i for p in placements)
        if laid != piece["count"]:
            fail(f"piece {i} lies {laid} times, not {piece['count']}")


def check_within(shapes, width, length):
    slack = 1e-8 * width
    for i, s in enumerate(shapes):
        x0, y0, x1, y1 = s.bounds
        if x0 < -slack or y0 < -slack or x1 > length + slack or y1 > width + slack:
            fail(f"placement {i} is outside: {s.bounds}, strip {length} x {width}")


def worst_overlap(shapes):
    worst = 0.0
    for i, s in enumerate(shapes):
        for k in range(i + 1, len(shapes)):
            share = s.intersection(shapes[k]).area / min(s.area, shapes[k].area)
            worst = max(worst, share)
            if share > 1e-6:
                fail(f"placements {i} and {k} share {share:.3g} of the smaller one")
    return worst


def main():
    with open(sys.argv[1], encoding="utf-8") as f:
        wanted = json.load(f)
    with open(sys.argv[2], encoding="utf-8") as f:
        lay = json.load(f)
    check_counts(wanted["pieces"], lay["placements"])
    shapes = [placed(wanted["pieces"], p) for p in lay["placements"]]
    check_within(shapes, wanted["strip_width"], lay["length"])
    worst = worst_overlap(shapes)
    density = 100 * sum(s.area for s in shapes) / (wanted["strip_width"] * lay["length"])
    if not math.isclose(density, lay["density_pct"], abs_tol=1e-4):
        fail(f"density is {density}, not {lay['density_pct']}")
    print(f"density {density:.4f} %, worst overlap {worst:.2g}")


if __name__ == "__main__":
    main()
