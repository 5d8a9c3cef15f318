"""Holds a pattern file that was lifted from a sheet against the sheet's truth (pattern_sheets.py), in own arithmetic.

    python3 truth.py PATTERN TRUTH      prints what was found, and what differs

Outlines: a piece of the file may lie elsewhere than on the sheet, so it is first shifted, in all sizes alike, by the way between the
centres of area in its smallest size; it is neither turned nor mirrored nor stretched. The distance of two outlines is the largest
one from a point of either to the nearest of the other; cubics are taken as chords (CHORDS of them: on a curve 200 mm long that turns
by a right angle they stray 0.003 mm).

A piece is found when every size's outline lies within OUTLINE_MM. Its name, cuts, grain and notches are looked for on the piece of the
file that lies nearest to it.
"""
import collections
import json
import math
import sys

import curves

OUTLINE_MM = 0.05
NOTCH_MM = 0.5
GRAIN_DEGREES = 0.5
CHORDS = 128
REACH = 2.0  # mm; outlines that lie farther apart somewhere differ by "much"
MUCH = 1e9
UNITS = {"mm": 1, "cm": 10, "in": 25.4}
FAR = 8  # mm; outlines whose extents differ by more are not compared


# ------------------------------------------------------------------------------------------------------------- outlines

def flat(edges):
    """The corners of a closed outline's chords, without its first one again."""
    return [p for edge in edges for p in curves.chords(edge, CHORDS)[:-1]]


def centre(points):
    """Of area."""
    area = x = y = 0
    for a, b in zip(points, points[1:] + points[:1]):
        cross = a[0] * b[1] - b[0] * a[1]
        area += cross
        x += (a[0] + b[0]) * cross
        y += (a[1] + b[1]) * cross
    return (x / (3 * area), y / (3 * area)) if area else points[0]


def extent(points):
    xs, ys = zip(*points)
    return max(xs) - min(xs), max(ys) - min(ys)


class Ring:
    """A closed outline's chords by the cells they touch."""

    def __init__(self, points):
        self.points, self.cells = points, collections.defaultdict(list)
        for a, b in zip(points, points[1:] + points[:1]):
            steps = max(1, math.ceil(curves.distance(a, b) / REACH))
            for k in range(steps + 1):
                x, y = a[0] + (b[0] - a[0]) * k / steps, a[1] + (b[1] - a[1]) * k / steps
                cell = self.cells[math.floor(x / REACH), math.floor(y / REACH)]
                if not cell or cell[-1] != (a, b):
                    cell.append((a, b))

    def away(self, p):
        best = MUCH
        column, row = math.floor(p[0] / REACH), math.floor(p[1] / REACH)
        for i in (-1, 0, 1):
            for j in (-1, 0, 1):
                for a, b in self.cells.get((column + i, row + j), ()):
                    best = min(best, square_away(p, a, b))
        return math.sqrt(best) if best < MUCH else MUCH


def square_away(p, a, b):
    dx, dy = b[0] - a[0], b[1] - a[1]
    long = dx * dx + dy * dy
    t = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / long if long else 0
    t = min(max(t, 0), 1)
    x, y = a[0] + t * dx - p[0], a[1] + t * dy - p[1]
    return x * x + y * y


def far_apart(one, other, shift=(0, 0)):
    """The distance of two closed outlines of points; the second is shifted first."""
    moved = [(x + shift[0], y + shift[1]) for x, y in other]
    there, back = Ring(moved), Ring(one)
    worst = 0
    for ring, points in ((there, one), (back, moved)):
        for p in points:
            worst = max(worst, ring.away(p))
            if worst >= MUCH:
                return MUCH
    return worst


# ----------------------------------------------------------------------------------------------------- the pattern's file

class LiftedPiece:
    """A piece of a pattern file in every size."""

    def __init__(self, pattern, piece):
        self.piece, self.count = piece, len(pattern["sizes"])
        self.unit = UNITS[pattern["unit"]]
        self.label = piece.get("label", piece["name"])
        self.cuts = [cut for cut in pattern["views"][0]["cut"] if cut["piece"] == piece["name"]]

    def value(self, value, size):
        if isinstance(value, list):
            value = value[size]
        if isinstance(value, str):
            number, unit = value.split()
            return float(number) * UNITS[unit]
        return value * self.unit

    def point(self, name, size):
        return tuple(self.value(value, size) for value in self.piece["points"][name])

    def edge(self, edge, size):
        """Its lines and cubics."""
        path, out = edge["path"], []
        here = self.point(path[0], size)
        for step in path[1:]:
            names = step if isinstance(step, list) else [step]
            out.append([here] + [self.point(name, size) for name in names])
            here = out[-1][-1]
        return out

    def edges(self, size):
        if "rectangle" in self.piece:
            w, h = (self.value(self.piece["rectangle"][key], size) for key in ("width", "height"))
            return [[(0, 0), (w, 0)], [(w, 0), (w, h)], [(w, h), (0, h)], [(0, h), (0, 0)]]
        return [part for edge in self.piece["outline"] for part in self.edge(edge, size)]

    def notches(self, size):
        """(place, double, v)"""
        return [(self.notch_place(notch, size), notch.get("double", False), notch.get("shape") == "v")
                for notch in self.piece.get("notches", [])]

    def notch_place(self, notch, size):
        names = [edge["name"] for edge in self.piece["outline"]]
        parts = self.edge(self.piece["outline"][names.index(notch["edge"])], size)
        whole = sum(curves.length(part) for part in parts)
        way = self.value(notch["at"], size) if "at" in notch else whole - self.value(notch["from_end"], size)
        for part in parts:
            long = curves.length(part)
            if way <= long or part is parts[-1]:
                return curves.at(part, curves.parameter(part, min(max(way, 0), long)))
            way -= long
        return parts[0][0]

    def grain(self, size):
        """Direction in degrees, 0 to 180, or None when it is not told."""
        if "grain" not in self.piece:
            return 90
        a, b = (self.point(name, size) for name in self.piece["grain"])
        return math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) % 180


# ------------------------------------------------------------------------------------------------------------ comparing

class Compared:
    """What was found; `told`: what differs, a sentence each."""

    def __init__(self):
        self.pieces = self.names = self.cuts = self.grains = self.notches = self.notches_all = self.grains_all = 0
        self.all, self.extra, self.worst, self.told = 0, 0, 0.0, []

    def percent(self):
        of = lambda part, whole: 100 * part / whole if whole else 100.0
        return dict(pieces=of(self.pieces, self.all), names=of(self.names, self.all), cuts=of(self.cuts, self.all),
                    grains=of(self.grains, self.grains_all), notches=of(self.notches, self.notches_all))

    def lines(self):
        shares = ", ".join(f"{name} {share:.1f} %" for name, share in self.percent().items())
        return [f"{shares}; outlines within {self.worst:.4f} mm; {self.extra} pieces too many"] + self.told


def compare(pattern, truth):
    """Both as read from JSON."""
    out = Compared()
    lifted = [LiftedPiece(pattern, piece) for piece in pattern["pieces"]]
    taken = set()
    for want in truth["pieces"]:
        out.all += 1
        places = sizes_of(pattern, want, out)
        if places:
            piece_against(out, want, places, lifted, taken)
    out.extra = len(lifted) - len(taken)
    return out


def sizes_of(pattern, want, out):
    """{size's name: its place in the file}, for the sizes that the piece has. "EU 34 / UK 6" is 34, too."""
    words = [[name] + name.replace("/", " ").split() for name in pattern["sizes"]]
    places = {size: k for size in want["sizes"] for k, own in enumerate(words) if size in own}
    if len(places) < len(want["sizes"]):
        out.told.append(f"{want['name']}: sizes {sorted(set(want['sizes']) - set(places))} are not in the file")
    return places


def piece_against(out, want, places, lifted, taken):
    rings = {size: flat([[tuple(p) for p in edge["points"]] for edge in one["outline"]]) for size, one in want["sizes"].items()}
    size = next(iter(places))
    found, shift = nearest(rings[size], places[size], lifted, taken)
    if found is None:
        out.told.append(f"{want['name']}: no piece of the file is like it")
        return
    taken.add(found)
    piece = lifted[found]
    apart = {size: far_apart(rings[size], flat(piece.edges(at)), shift) for size, at in places.items()}
    worst = max(apart, key=apart.get)
    if apart[worst] < MUCH:
        out.worst = max(out.worst, apart[worst])
    if apart[worst] <= OUTLINE_MM and len(places) == len(want["sizes"]):
        out.pieces += 1
    else:
        much = f"{apart[worst]:.3f} mm" if apart[worst] < MUCH else "much"
        out.told.append(f"{want['name']}: its outline is off by {much} in size {worst}")
    name_against(out, want, piece)
    cuts_against(out, want, piece)
    grain_against(out, want, piece, places[size])
    for size, at in places.items():
        notches_against(out, want, piece, size, at, shift)


def nearest(ring, at, lifted, taken):
    """The index of the piece whose outline lies nearest, and the shift from it to the truth."""
    best = (MUCH * 2, None, None)
    wide, high = extent(ring)
    middle = centre(ring)
    for k, piece in enumerate(lifted):
        if k in taken:
            continue
        other = flat(piece.edges(at))
        w, h = extent(other)
        if abs(w - wide) > FAR or abs(h - high) > FAR:
            continue
        own = centre(other)
        shift = (middle[0] - own[0], middle[1] - own[1])
        apart = (far_apart(ring, other, shift), abs(w - wide) + abs(h - high))
        if best[1] is None or apart < best[0]:
            best = (apart, k, shift)
    return best[1], best[2]


def name_against(out, want, piece):
    label = " ".join(piece.label.lower().split())
    name = want["name"].lower()
    if label in (name, f"{want['number']} {name}", f"{want['number']}. {name}"):
        out.names += 1
    else:
        out.told.append(f"{want['name']}: it is called “{piece.label}”")


def cuts_against(out, want, piece):
    told = sorted((cut.get("cloth", "fabric"), cut.get("pairs", 0), cut.get("count", 0)) for cut in piece.cuts)
    meant = sorted((cut["material"] or "fabric", cut["count"] if cut["pairs"] else 0, 0 if cut["pairs"] else cut["count"])
                   for cut in want["cuts"])
    folded = any(cut["on_fold"] for cut in want["cuts"])
    if told == meant and folded == ("fold" in piece.piece):
        out.cuts += 1
    else:
        out.told.append(f"{want['name']}: cut {told}{' on the fold' * ('fold' in piece.piece)}, not {meant}{' on the fold' * folded}")


def grain_against(out, want, piece, at):
    if not want["grain"]:
        return
    out.grains_all += 1
    (x0, y0), (x1, y1) = want["grain"]
    off = abs(math.degrees(math.atan2(y1 - y0, x1 - x0)) % 180 - piece.grain(at))
    if min(off, 180 - off) <= GRAIN_DEGREES:
        out.grains += 1
    else:
        out.told.append(f"{want['name']}: its grain is off by {min(off, 180 - off):.1f} degrees")


def notches_against(out, want, piece, size, at, shift):
    """A double one is two places or one that is told as double."""
    left = [((x + shift[0], y + shift[1]), double, v) for (x, y), double, v in piece.notches(at)]
    for notch in want["sizes"][size]["notches"]:
        out.notches_all += 1
        kind = (notch["kind"] == "double", notch["kind"] == "v")
        near = [one for one in left if curves.distance(one[0], notch["at"]) <= NOTCH_MM and one[1:] == kind]
        if near:
            left.remove(near[0])
            out.notches += 1
        else:
            out.told.append(f"{want['name']}: no {notch['kind']} notch on the {notch['edge']} in size {size}")
    for one in left:
        out.told.append(f"{want['name']}: a notch too many in size {size}")


# ------------------------------------------------------------------------------------------------- a pattern of the truth

def pattern_of(truth, name="Sheet"):
    """The pattern file that a lifter without fault would write: what the other side of a comparison may be made from. Pieces that are
    not there in all sizes have their nearest size's outline there."""
    sizes = truth["sizes"]
    pieces, cuts = [], []
    for piece in truth["pieces"]:
        pieces.append(written(piece, sizes))
        for cut in piece["cuts"]:
            count = {"pairs" if cut["pairs"] else "count": cut["count"]}
            cuts.append({"piece": piece["name"], **count, "cloth": cut["material"] or "fabric"})
    return {"chalklight": "pattern", "version": 2, "name": name, "unit": "mm", "outline": "cutting line", "sizes": sizes,
            "pieces": pieces, "views": [{"name": "A", "label": "A", "cut": cuts}]}


def written(piece, sizes):
    drawn = list(piece["sizes"])
    of = {size: piece["sizes"][size if size in drawn else drawn[0]] for size in sizes}
    points, outline = {}, []
    least = of[sizes[0]]
    for k, edge in enumerate(least["outline"]):
        names = []
        for i in range(len(edge["points"])):
            last, is_first = i == len(edge["points"]) - 1, i == 0
            one = f"e{(k + last) % len(least['outline'])}" if is_first or last else f"e{k}_{i}"
            names.append(one)
            if not last:
                points[one] = [[of[size]["outline"][k]["points"][i][axis] for size in sizes] for axis in (0, 1)]
        outline.append({"name": edge["edge"], "path": [names[0], names[1:] if len(names) == 4 else names[1]]})
    out = {"name": piece["name"], "points": points, "outline": outline, "notches": written_notches(least, of, sizes)}
    if piece["grain"]:
        for name, p in zip(("grain 1", "grain 2"), piece["grain"]):
            points[name] = list(p)
        out["grain"] = ["grain 1", "grain 2"]
    if piece["fold_edge"]:
        out["fold"] = piece["fold_edge"]
    return out


def written_notches(least, of, sizes):
    out = []
    for k, notch in enumerate(least["notches"]):
        at = []
        for size in sizes:
            edge = next(edge["points"] for edge in of[size]["outline"] if edge["edge"] == notch["edge"])
            at.append(way_to(edge, of[size]["notches"][k]["at"]))
        out.append({"edge": notch["edge"], "at": at, "shape": "v" if notch["kind"] == "v" else "slit", "double": notch["kind"] == "double"})
    return out


def way_to(edge, p):
    """Along an edge to the place nearest to a point that lies on it."""
    edge = [tuple(q) for q in edge]
    points, best, gone, at = curves.chords(edge), MUCH, 0, 0
    for a, b in zip(points, points[1:]):
        step = curves.distance(a, b)
        away = square_away(p, a, b)
        if away < best:
            best, at = away, gone + min(step, curves.distance(a, p))
        gone += step
    return at


def main(pattern_path, truth_path):
    with open(pattern_path, encoding="utf-8") as f:
        pattern = json.load(f)
    with open(truth_path, encoding="utf-8") as f:
        truth = json.load(f)
    print("\n".join(compare(pattern, truth).lines()))


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2])
