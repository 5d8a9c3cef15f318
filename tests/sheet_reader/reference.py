"""Whether python3-svgelements, another reading of SVG, draws the same: reference.py OUTLINES FOLDER

100 drawings by a fixed seed: sizes in all units, transforms, shapes, and paths with every command in
every way of writing. Ends of segments agree within 1e-6 mm, controls of cubics too; an arc's cubics run
where it runs, with its length, within a thousandth. (That they lie on it to 5e-6 is measured in test_svg_path.c.)"""
import math
import os
import random
import subprocess
import sys

from svgelements import SVG, Arc, Close, CubicBezier, Line, Move, Path, QuadraticBezier, Shape

MM = 25.4 / 96


def number(r):
    value = r.choice([r.uniform(-100, 100), r.randint(-50, 50), r.uniform(-1, 1)])
    text = r.choice(["%.3f", "%.1f", "%g", "%.2e"]) % value
    if text.startswith("0.") and r.random() < 0.5:
        text = text[1:]
    if text.startswith("-0.") and r.random() < 0.5:
        text = "-" + text[2:]
    return text


def numbers(r, count):
    return [number(r) for _ in range(count)]


def joined(r, words):
    """As close together as the grammar allows, or not."""
    out = ""
    for word in words:
        touches = not out or word[0] == "-" or (word[0] == "." and "." in last and "e" not in last)
        out += ("" if touches and r.random() < 0.7 else r.choice([" ", ",", " , ", "\n"]) if out else r.choice(["", " "])) + word
        last = word
    return out


def arc(r):
    radii = ["%.2f" % r.uniform(0.5, 60) for _ in range(2)]
    return radii + ["%d" % r.randint(-180, 180)] + [r.choice("01"), r.choice("01")] + numbers(r, 2)


def path(r):
    counts = {"L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "M": 2}
    out = r.choice("Mm") + joined(r, numbers(r, 2))
    last = "M"
    for _ in range(r.randint(1, 12)):
        # Not what they read in their own way: a smooth curve after one of the other kind, a path closed twice.
        letter = last = r.choice("LHVCQMALCA" + {"C": "SS", "S": "SS", "Q": "TT", "T": "TT", "Z": ""}.get(last, "Z"))
        out += r.choice(["", " "]) + (letter if r.random() < 0.5 else letter.lower())
        if letter == "A":
            out += " ".join(" ".join(arc(r)) for _ in range(r.randint(1, 2)))
        elif letter != "Z":
            out += joined(r, numbers(r, counts[letter] * r.randint(1, 3)))
    return '<path d="%s"/>' % out


def shape(r):
    a = ["%.2f" % r.uniform(1, 80) for _ in range(6)]
    return r.choice([
        path(r), path(r), path(r),
        '<line x1="%s" y1="%s" x2="%s" y2="%s"/>' % tuple(a[:4]),
        '<polygon points="%s"/>' % " ".join(numbers(r, 8)),
        '<polyline points="%s"/>' % " ,".join(numbers(r, 10)),
        '<rect x="%s" y="%s" width="%s" height="%s"/>' % tuple(a[:4]),
        '<circle cx="%s" cy="%s" r="%s"/>' % tuple(a[:3]),
        '<ellipse cx="%s" cy="%s" rx="%s" ry="%s"/>' % tuple(a[:4]),
    ])


def transform(r):
    return " ".join(r.choice([
        "translate(%s)" % joined(r, numbers(r, 2)),
        "rotate(%d)" % r.randint(-360, 360),
        "rotate(%d %s)" % (r.randint(-360, 360), joined(r, numbers(r, 2))),
        "scale(%.2f)" % r.uniform(0.2, 3),
        "scale(%.2f,%.2f)" % (r.uniform(0.2, 3), r.uniform(-3, -0.2)),
        "skewX(%d)" % r.randint(-60, 60),
        "skewY(%d)" % r.randint(-60, 60),
        "matrix(%s)" % " ".join("%.3f" % r.uniform(0.5, 2) for _ in range(6)),
    ]) for _ in range(r.randint(1, 3)))


def drawing(r):
    size, other = ("%d%s" % (r.randint(5, 500), r.choice(["mm", "px", "pt", "", "pc", "cm", "in"])) for _ in range(2))
    body = "".join('<g transform="%s">%s</g>' % (transform(r), "".join(shape(r) for _ in range(r.randint(1, 3))))
                   for _ in range(3))
    return '<svg xmlns="http://www.w3.org/2000/svg" width="%s" height="%s">%s</svg>' % (size, other, body)


def ours(text):
    """Drawings of (width, height, subpaths), each of (closed, points)."""
    out = []
    for line in text.splitlines():
        words = line.split()
        if words[0] == "page":
            out.append((float(words[1]), float(words[2]), []))
        elif words[0] == "part":
            out[-1][2].append((words[1] == "1", []))
        else:
            v = [float(w) for w in words]
            out[-1][2][-1][1].append([complex(v[i], v[i + 1]) for i in range(0, len(v), 2)])
    return out


def theirs(name):
    """Subpaths: (matrix, segments in their own units). Their arcs are not transformed by them: skewed ones go wrong."""
    out = []
    for element in SVG.parse(name, reify=False).elements():
        if not isinstance(element, Shape):
            continue
        path = Path(element)
        parts = []
        for segment in path:
            if isinstance(segment, Move):
                parts.append([])
                continue
            if parts and parts[-1] and isinstance(parts[-1][-1], Close):
                parts.append([])
            parts[-1].append(segment)
        out += [(element.transform, part) for part in parts if part]
    return out


def cubic(p, t):
    u = 1 - t
    return p[0] * u ** 3 + 3 * p[1] * u * u * t + 3 * p[2] * u * t * t + p[3] * t ** 3


def length(points):
    return sum(abs(b - a) for a, b in zip(points, points[1:]))


class Comparison:
    def __init__(self, height):
        self.height = height
        self.segments = 0
        self.matrix = None

    def mm(self, point):
        m, x, y = self.matrix, point.x, point.y
        return complex((m.a * x + m.c * y + m.e) * MM, self.height - (m.b * x + m.d * y + m.f) * MM)

    def near(self, a, b, what):
        limit = 1e-6 * max(1, abs(a) / 1000)
        assert abs(a - b) <= limit, "%s: %r is not %r" % (what, a, b)

    def arc(self, segment, at, rest):
        """The cubics from `at` to the arc's end."""
        end, samples = self.mm(segment.end), [at]
        while rest and abs(samples[-1] - end) > 1e-6 * max(1, abs(end) / 1000) or len(samples) == 1:
            part = rest.pop(0)
            assert len(part) == 3, "an arc is of cubics"
            whole = [samples[-1]] + part
            samples += [cubic(whole, i / 16) for i in range(1, 17)]
            samples[-1] = part[2]
        self.near(samples[-1], end, "an arc's end")
        want = [self.mm(segment.point(i / 128)) for i in range(129)]
        size = max(abs(p - want[0]) for p in want) + 1e-3
        assert abs(length(samples) - length(want)) <= 1e-3 * length(want) + 1e-6, "an arc's length"
        for probe in (want[32], want[64], want[96]):
            gap = min(distance(probe, a, b) for a, b in zip(samples, samples[1:]))
            assert gap <= 1e-3 * size, "an arc's way: %g of %g" % (gap, size)
        return samples[-1]

    def part(self, mine, theirs):
        closed, rest = mine
        self.matrix, segments = theirs
        rest = list(rest)
        start = at = rest.pop(0)[0]
        self.near(at, self.mm(segments[0].start), "a start")
        for segment in segments:
            self.segments += 1
            if isinstance(segment, Close):
                assert closed, "not closed"
                continue
            if isinstance(segment, Arc):
                if abs(self.mm(segment.end) - at) > 1e-9 or abs(segment.sweep) > 1:
                    at = self.arc(segment, at, rest)
                continue
            part = rest.pop(0)
            if isinstance(segment, CubicBezier):
                self.near(part[0], self.mm(segment.control1), "a control")
                self.near(part[1], self.mm(segment.control2), "a control")
            elif isinstance(segment, QuadraticBezier):
                control = self.mm(segment.control)
                self.near(part[0], at + (control - at) * 2 / 3, "a control")
            else:
                assert isinstance(segment, Line) and len(part) == 1
            at = part[-1]
            self.near(at, self.mm(segment.end), "an end")
        assert not rest, "more is drawn: %r" % rest
        return start


def distance(p, a, b):
    d = b - a
    if d == 0:
        return abs(p - a)
    t = min(1, max(0, ((p - a) * d.conjugate()).real / abs(d) ** 2))
    return abs(p - a - t * d)


def main():
    r = random.Random(1)
    names = []
    for i in range(100):
        names.append(os.path.join(sys.argv[2], "reference-%03d.svg" % i))
        with open(names[-1], "w") as out:
            out.write(drawing(r))
    answer = subprocess.run([sys.argv[1]] + names, stdout=subprocess.PIPE, check=True, text=True).stdout
    segments = wrong = 0
    for name, (_, height, parts) in zip(names, ours(answer)):
        want = theirs(name)
        comparison = Comparison(height)
        try:
            assert len(parts) == len(want), "%d subpaths, not %d" % (len(parts), len(want))
            for mine, their in zip(parts, want):
                comparison.part(mine, their)
        except (AssertionError, IndexError) as fault:
            wrong += 1
            print("%s: %s" % (name, fault))
        segments += comparison.segments
    print("%d drawings, %d segments, %d differ" % (len(names), segments, wrong))
    return wrong > 0 or segments < 3000


sys.exit(main())
