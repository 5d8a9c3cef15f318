"""Lines and cubics in the plane: an edge is a list of points, two of a line, four of a cubic. All plain arithmetic."""
import math

PARTS = 64  # a cubic is measured along so many chords: 1e-5 of its length for edges that turn less than a half turn


def at(edge, t):
    if len(edge) == 2:
        return tuple(a + (b - a) * t for a, b in zip(*edge))
    u = 1 - t
    return tuple(u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d for a, b, c, d in zip(*edge))


def split(edge, t):
    """The edge up to t and from there."""
    if len(edge) == 2:
        middle = at(edge, t)
        return [edge[0], middle], [middle, edge[1]]
    rows = [edge]
    while len(rows[-1]) > 1:
        rows.append([tuple(p + (q - p) * t for p, q in zip(a, b)) for a, b in zip(rows[-1], rows[-1][1:])])
    return [row[0] for row in rows], [row[-1] for row in reversed(rows)]


def between(edge, t0, t1):
    first = split(edge, t1)[0]
    return split(first, t0 / t1)[1]


def backwards(edge):
    return list(reversed(edge))


def chords(edge, parts=PARTS):
    if len(edge) == 2:
        return list(edge)
    return [at(edge, k / parts) for k in range(parts + 1)]


def distance(a, b):
    return math.hypot(b[0] - a[0], b[1] - a[1])


def length(edge):
    points = chords(edge)
    return sum(distance(a, b) for a, b in zip(points, points[1:]))


def parameter(edge, way):
    """Of the place so far along the edge."""
    if len(edge) == 2:
        return way / distance(*edge)
    points, gone = chords(edge), 0
    for k, (a, b) in enumerate(zip(points, points[1:])):
        step = distance(a, b)
        if gone + step >= way:
            return (k + (way - gone) / step) / PARTS
        gone += step
    return 1


def direction(edge, t):
    near = (max(t - 1e-4, 0), min(t + 1e-4, 1))
    a, b = at(edge, near[0]), at(edge, near[1])
    away = distance(a, b)
    return (b[0] - a[0]) / away, (b[1] - a[1]) / away


def area(edges):
    """Of a closed outline; above zero when it runs counter-clockwise."""
    points = [p for edge in edges for p in chords(edge)[:-1]]
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1])) / 2


def inside(edges, away, parts=24):
    """The points of a closed outline's chords moved so far inwards, with mitres: for outlines that have room for it."""
    points = [p for edge in edges for p in chords(edge, parts)[:-1]]
    out = []
    for a, b, c in zip(points[-1:] + points, points, points[1:] + points[:1]):
        (ux, uy), (vx, vy) = direction([a, b], 0.5), direction([b, c], 0.5)
        along = away * math.tan(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy) / 2)
        out.append((b[0] - away * uy - along * ux, b[1] + away * ux - along * uy))
    return out


class Mover:
    """Turn by degrees, stretch, then shift."""

    def __init__(self, turn=0, shift=(0, 0), stretch=(1, 1)):
        # quarter turns exactly
        c, s = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}.get(
            turn % 360, (math.cos(math.radians(turn)), math.sin(math.radians(turn))))
        self.turn = turn
        self.m = (c * stretch[0], s * stretch[1], -s * stretch[0], c * stretch[1], *shift)

    def __call__(self, p):
        a, b, c, d, e, f = self.m
        return a * p[0] + c * p[1] + e, b * p[0] + d * p[1] + f

    def all(self, points):
        return [self(p) for p in points]
