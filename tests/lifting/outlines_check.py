"""Whether the outlines of whole pattern sheets (pattern_sheets.py) come out as they were drawn: every piece in every size, no
piece that is none, each outline within 0.05 mm of the truth both ways, words and marks with the piece that they are on.

    python3 outlines_check.py DUMP FOLDER [NAME ...]
"""
import json
import math
import os
import subprocess
import sys

import curves
import pattern_sheets

NAMES = ["small", "small_letters", "small_broken", "a0_edges", "a0_broken"]
TOLERANCE = 0.05  # mm
SIZES = 4         # of a sheet that are held against the truth: the first, the last and some between


def ring_of(outline):
    """The truth's edges as a polygon of chords, well under a hundredth of a millimetre from them."""
    points = []
    for edge in outline:
        steps = 1 if len(edge["points"]) == 2 else 100
        points += [curves.at(edge["points"], k / steps) for k in range(steps)]
    return points


def resampled(ring, step=6.0):
    """Points along a ring, its corners among them."""
    out = []
    for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1]):
        n = max(1, math.ceil(math.dist((ax, ay), (bx, by)) / step))
        out += [(ax + (bx - ax) * k / n, ay + (by - ay) * k / n) for k in range(n)]
    return out


class Ring:
    """Distances to a ring's sides, found in cells."""

    CELL = 5.0

    def __init__(self, points):
        self.points, self.cells = points, {}
        for a, b in zip(points, points[1:] + points[:1]):
            n = max(1, math.ceil(math.dist(a, b) / (self.CELL / 2)))
            for k in range(n + 1):
                x, y = a[0] + (b[0] - a[0]) * k / n, a[1] + (b[1] - a[1]) * k / n
                self.cells.setdefault((int(x // self.CELL), int(y // self.CELL)), set()).add((a, b))

    def distance(self, p):
        i, j = int(p[0] // self.CELL), int(p[1] // self.CELL)
        sides = set().union(*(self.cells.get((i + k, j + m), ()) for k in (-1, 0, 1) for m in (-1, 0, 1)))
        return min((curves_distance(p, a, b) for a, b in sides), default=math.inf)

    def box(self):
        xs, ys = zip(*self.points)
        return min(xs), min(ys), max(xs), max(ys)


def curves_distance(p, a, b):
    dx, dy = b[0] - a[0], b[1] - a[1]
    length2 = dx * dx + dy * dy
    t = 0 if length2 == 0 else max(0, min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length2))
    return math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy)


def off(found, true):
    """How far two rings are apart at most, as far as samples tell, both ways."""
    a, b = Ring([tuple(p) for p in found]), Ring(true)
    if max(abs(u - v) for u, v in zip(a.box(), b.box())) > 1:
        return math.inf
    return max(max(b.distance(p) for p in resampled(a.points)), max(a.distance(p) for p in resampled(true)))


def roles(truth):
    sizes = truth["sizes"]
    return [str(sizes.index(layer["size"])) if layer["role"] == "size" else "common" for layer in truth["layers"]]


def signed_area(ring):
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1])) / 2


def shape_of(shapes, ring, k):
    """The shape whose box in that size is nearest."""
    want = Ring(ring).box()
    there = [s for s in shapes if s["outlines"][k]]
    return min(there, key=lambda s: max(abs(u - v) for u, v in zip(want, Ring([tuple(p) for p in s["outlines"][k]]).box())))


def check_piece(piece, sizes, shapes, flaws):
    worst, its = 0, set()
    step = max(1, (len(sizes) - 1) // (SIZES - 1))
    for k, size in enumerate(sizes):
        if size not in piece["sizes"] or (k % step and k + 1 < len(sizes)):
            continue
        ring = ring_of(piece["sizes"][size]["outline"])
        shape = shape_of(shapes, ring, k)
        its.add(shapes.index(shape))
        apart = off(shape["outlines"][k], ring)
        worst = max(worst, apart)
        if apart > TOLERANCE:
            flaws.append(f"{piece['name']} in size {size} is {apart:.3f} mm off")
        if signed_area(shape["outlines"][k]) <= 0:
            flaws.append(f"{piece['name']} in size {size} runs clockwise")
    if len(its) != 1:
        flaws.append(f"{piece['name']} is {len(its)} shapes")
    shape = shapes[min(its)]
    there = [k for k, outline in enumerate(shape["outlines"]) if outline]
    if there != [k for k, size in enumerate(sizes) if size in piece["sizes"]]:
        flaws.append(f"{piece['name']} is there in sizes {there}")
    if bool(shape["one_size"]) != piece["common"]:
        flaws.append(f"{piece['name']} is taken for one size or not")
    check_marks(piece, sizes, shape, flaws)
    return worst, shape


def near_lines(shape, at, near):
    return any(curves_distance(at, a, b) <= near for line in shape["lines"] for a, b in zip(line, line[1:] or line))


def check_marks(piece, sizes, shape, flaws):
    """Some line of the shape is where each of its marks is: notches, drill marks, darts' tips, both ends of the grain."""
    for size in piece["sizes"]:
        its = piece["sizes"][size]
        places = [(n["at"], 3.1) for n in its["notches"]] + [(p, 0.01) for p in its["drills"]] + [(d[1], 0.01) for d in its["darts"]]
        places += [(p, 0.01) for p in piece["grain"] or []]
        for at, near in places:
            if not near_lines(shape, at, near):
                flaws.append(f"{piece['name']} in size {size} has no line at {at}")


def check(dump, folder, name, times=1):
    path, truth = pattern_sheets.make(folder, name)
    answer = subprocess.run([dump, path, str(times)] + roles(truth), capture_output=True, text=True, check=True)
    found = json.loads(answer.stdout)
    shapes, flaws, worst, taken = found["shapes"], [], 0, []
    for piece in truth["pieces"]:
        apart, shape = check_piece(piece, truth["sizes"], shapes, flaws)
        worst, taken = max(worst, apart), taken + [id(shape)]
        if truth_is_written(name) and not any(piece["name"].lower() in text.lower() for text in shape["texts"]):
            flaws.append(f"{piece['name']} has only the words {shape['texts']}")
    for shape in shapes:
        if id(shape) not in taken:
            flaws.append(f"{shape['texts']} is no piece")
    print(f"{name}: {len(shapes)} shapes, {len(truth['pieces'])} pieces, worst {worst:.4f} mm, {found['loose']} loose lines, "
          f"{1000 * found['seconds']:.0f} ms", flush=True)
    return flaws


def truth_is_written(name):
    """Where letters and outlines of letters stand for words, those are not put together here."""
    return pattern_sheets.SHEETS[name]["text"] == "line"


def main(dump, folder, names):
    flaws = {name: check(dump, folder, name) for name in names or NAMES}
    for name, its in flaws.items():
        for flaw in its[:20]:
            print(f"{name}: {flaw}")
    return any(flaws.values())


if __name__ == "__main__":
    os.makedirs(sys.argv[2], exist_ok=True)
    sys.exit(main(sys.argv[1], sys.argv[2], sys.argv[3:]))
