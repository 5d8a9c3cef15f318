"""A pattern sheet as a list of items in mm of the true sheet (origin lower left, y up), and the truth about it. Nothing here
knows of PDF or SVG. An item is a dict: `layer` (index), and either
    subs (a list of (edges, closed)) with `width`, `rgb`, `dash` of a stroke, or `fill`
or  text, at, turn (degrees), size (mm of the font), rgb
"""
import math

import curves
import garment

GAP = 0.4          # mm; the widest gap in a broken outline
HEADER = 128       # mm; of the large sheet, kept for squares, legend and instructions
COLOURS = [0x000000, 0xC00000, 0x0050C0, 0x008030, 0xC06000, 0x7020A0, 0x00808A, 0xB00070, 0x606060, 0x405000, 0x3030E0, 0x903000]
DASHES = [[], [6, 2], [2, 2], [8, 2, 1, 2], [1, 1.5], [10, 3], [4, 1, 1, 1], [6, 1.5, 1, 1.5, 1, 1.5], [3, 1], [12, 2, 2, 2],
          [5, 5], [2, 1, 0.5, 1]]
BLACK = 0x101010

WORDS = {
    "en": {"fabric": "fabric", "lining": "lining", "interfacing": "interfacing", "grain": "grain", "fold": "place on fold",
           "lengthen": "lengthen or shorten here"},
    "de": {"fabric": "Stoff", "lining": "Futter", "interfacing": "Einlage", "grain": "Fadenlauf", "fold": "im Stoffbruch",
           "lengthen": "hier verlängern oder kürzen"},
}
# How a cut is written, by language, kind and the number of the piece, so that not all are written alike.
CUTS = {
    ("en", "single"): ["cut {n} {m}", "Cut {n} {m}", "CUT {n} {m}", "cut {n}x {m}"],
    ("en", "pair"): ["cut {n} pair {m}", "Cut {n} pair {m}", "cut {n} pairs {m}"],
    ("en", "fold"): ["cut {n} {m} on fold", "Cut {n} on fold {m}", "cut {n} on the fold {m}"],
    ("de", "single"): ["{n} x zuschneiden {m}", "{n}x {m} zuschneiden", "{n}x aus {m}"],
    ("de", "pair"): ["{n} Paar {m} zuschneiden", "{n} Paar aus {m}"],
    ("de", "fold"): ["{n}x {m} im Bruch", "{n} x im Stoffbruch zuschneiden {m}", "{n}x im Bruch zuschneiden {m}"],
}


class Placed:
    """A piece where it lies on the sheet, in every size it is drawn in."""

    def __init__(self, piece, count):
        self.piece = piece
        sizes = piece["sizes"]
        self.sizes = sizes(count) if callable(sizes) else list(range(count)) if sizes is None else sizes
        self.shapes = {k: garment.make(piece, 0 if piece["common"] else k) for k in self.sizes}
        if all(kind != "fold" for _, _, kind in piece["cuts"]):
            for shape in self.shapes.values():
                shape["fold"] = None
        self.move = curves.Mover(piece["turn"])

    def edges(self, size):
        return {name: self.move.all(points) for name, points in self.shapes[size]["edges"].items()}

    @property
    def least(self):
        return self.shapes[self.sizes[0]]

    def box(self):
        points = [p for size in self.sizes for edge in self.edges(size).values() for p in curves.chords(edge)]
        xs, ys = zip(*points)
        return min(xs), min(ys), max(xs), max(ys)

    def shift(self, by):
        self.move = curves.Mover(self.piece["turn"], by)


def place(blocks, count, paper, header):
    """In rows from the top, highest first."""
    placed = [[Placed(piece, count) for piece in block] for block in blocks]
    boxes = []
    for block in placed:
        each = [piece.box() for piece in block]
        boxes.append((min(b[0] for b in each), min(b[1] for b in each), max(b[2] for b in each), max(b[3] for b in each)))
    order = sorted(range(len(placed)), key=lambda k: boxes[k][1] - boxes[k][3])
    x, y, high, gap, edge = 12, paper[1] - header, 0, 9, 12
    for k in order:
        x0, y0, x1, y1 = boxes[k]
        if x + x1 - x0 > paper[0] - edge:
            x, y, high = edge, y - high - gap, 0
        high = max(high, y1 - y0)
        assert y - high >= 6, "the sheet is too small for its pieces"
        for piece in placed[k]:
            piece.shift((x - x0, y - (y1 - y0) - y0))
        x += x1 - x0 + gap
    return [piece for block in placed for piece in block]


class Sheet:
    """Collects items while the pieces are drawn. `spec`: a row of pattern_sheets.SHEETS."""

    def __init__(self, spec):
        self.spec, self.items = spec, []
        self.sizes = spec["sizes"]
        self.common, self.words = 0, 1
        self.layers = [("Common", "common"), ("Text", "text")] + [(name, "size") for name in spec["layer_names"]]
        self.paper = spec["paper"]
        self.placed = place(spec["blocks"](), len(self.sizes), self.paper, spec["header"])
        self.squares = []
        self.draw()

    def look(self, size):
        """Of a size's lines; None: of lines common to all."""
        spec = self.spec
        if size is None:
            return dict(width=0.35, rgb=BLACK, dash=[])
        return dict(width=spec["width"], rgb=COLOURS[size] if "colour" in spec["look"] else 0,
                    dash=DASHES[size] if "dash" in spec["look"] else [])

    def layer(self, size):
        return self.common if size is None else size + 2

    def path(self, size, subs, **more):
        self.items.append(dict(layer=self.layer(size), subs=subs, **{**self.look(size), **more}))

    def line(self, size, *points, **more):
        self.path(size, [([[a, b] for a, b in zip(points, points[1:])], False)], **{"dash": [], **more})

    def filled(self, size, *points):
        ring = list(points) + [points[0]]
        self.items.append(dict(layer=self.layer(size), subs=[([[a, b] for a, b in zip(ring, ring[1:])], True)], fill=BLACK))

    def text(self, words, at, turn=0, size=3, layer=None, middle=True):
        wide = 0.5 * size * len(words) if middle else 0
        c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        at = (at[0] - c * wide / 2, at[1] - s * wide / 2)
        self.items.append(dict(layer=self.words if layer is None else layer, text=words, at=at, turn=turn, size=size, rgb=BLACK,
                               font=self.spec["font"]))

    def draw(self):
        self.header()
        order = [(piece, size) for size in range(len(self.sizes)) for piece in self.placed]
        if self.spec["order"] == "by piece":
            order = [(piece, size) for piece in self.placed for size in range(len(self.sizes))]
        for piece in self.placed:
            self.common_lines(piece)
        for piece, size in order:
            if size in piece.sizes and not piece.piece["common"]:
                self.size_lines(piece, size)
        for piece in self.placed:
            self.marks_of_all(piece)
        if self.spec["join"] == "size":
            self.items = in_one(self.items)

    # Outlines

    def common_lines(self, piece):
        edges = piece.edges(piece.sizes[0])
        if piece.piece["common"]:
            self.outline(None, list(edges.values()), True)
            self.marks(piece, piece.sizes[0], None)
        else:
            for name in piece.least["same"]:
                if name != piece.piece["shares"]:
                    self.outline(None, [edges[name]], False)

    def size_lines(self, piece, size):
        edges = piece.edges(size)
        left_out = [name in piece.least["same"] or name == piece.piece["shares"] for name in edges]
        for run, closed in runs(list(edges.values()), left_out):
            self.outline(size, run, closed)
        if self.spec["stitching"]:
            ring = curves.inside(list(edges.values()), self.spec["stitching"])
            self.path(size, [([[a, b] for a, b in zip(ring, ring[1:] + ring[:1])], True)], dash=[1.5, 1])
        self.marks(piece, size, size)
        if self.spec["tags"] and piece.piece["number"] % 3 == 0:
            at = next(iter(edges.values()))[0]
            self.text(self.sizes[size], (at[0] + 1 + 4 * (size % 4), at[1] + 1), size=2, layer=self.layer(size), middle=False)

    def outline(self, size, run, closed):
        join = self.spec["join"]
        if self.spec["chords"]:
            run = fine(run, self.spec["chords"])
        if join in ("piece", "size"):
            self.path(size, [(run, closed)])
        elif join == "edges":
            for edge in run:
                self.path(size, [([edge], False)])
        else:
            for k, part in enumerate(broken(run, closed)):
                self.path(size, [(part, False)])
                if k % 5 == 0:  # once more, and some of it a third time, the other way
                    self.path(size, [(part, False)])
                    self.path(size, [([curves.backwards(curves.between(part[0], 0.2, 0.7))], False)])

    # Marks

    def marks(self, piece, size, layer):
        shape, edges = piece.shapes[size], piece.edges(size)
        for notch in shape["notches"]:
            self.notch(layer, edges[notch[0]], notch)
        for drill in shape["drills"]:
            self.drill(layer, piece.move(drill))
        for dart in shape["darts"]:
            a, tip, b = piece.move.all(dart)
            if self.spec["join"] == "edges":
                self.line(layer, a, tip, dash=self.look(layer)["dash"])
                self.line(layer, tip, b, dash=self.look(layer)["dash"])
            else:
                self.line(layer, a, tip, b, dash=self.look(layer)["dash"])

    def notch(self, layer, edge, notch):
        kind = notch[2]
        for off in ((-3, 3) if kind == "double" else (0,)):
            t = curves.parameter(edge, notch[1] + off)
            p, (dx, dy) = curves.at(edge, t), curves.direction(edge, t)
            inward = lambda along, deep: (p[0] + along * dx - deep * dy, p[1] + along * dy + deep * dx)
            if kind == "v":
                self.line(layer, inward(-2, 0), inward(0, 4.5), inward(2, 0))
            else:
                self.line(layer, inward(0, -1.5 if self.spec["notch_across"] else 0), inward(0, 5))
            if kind == "t":
                self.line(layer, inward(-2, 5), inward(2, 5))

    def drill(self, layer, p, r=1.5):
        k = r * 0.5523
        x, y = p
        ring = [[(x + r, y), (x + r, y + k), (x + k, y + r), (x, y + r)], [(x, y + r), (x - k, y + r), (x - r, y + k), (x - r, y)],
                [(x - r, y), (x - r, y - k), (x - k, y - r), (x, y - r)], [(x, y - r), (x + k, y - r), (x + r, y - k), (x + r, y)]]
        self.path(layer, [(ring, True)], dash=[])
        self.line(layer, (x - 2.5, y), (x + 2.5, y))
        self.line(layer, (x, y - 2.5), (x, y + 2.5))

    def marks_of_all(self, piece):
        least, words = piece.least, WORDS[piece.piece["language"]]
        if least["grain"]:
            self.grain(piece, [piece.move(p) for p in least["grain"]], words)
        if least["fold"]:
            self.fold(piece, piece.edges(piece.sizes[0])[least["fold"]], words)
        if least["lengthen"]:
            self.lengthen(piece, words)
        self.label(piece)

    def grain(self, piece, line, words):
        (x0, y0), (x1, y1) = line
        away = curves.distance(*line)
        dx, dy = (x1 - x0) / away, (y1 - y0) / away
        self.line(None, *line)
        heads = [(line[1], 1)] + ([(line[0], -1)] if piece.piece["number"] % 3 else [])
        for (x, y), way in heads:
            a = (x - way * 4 * dx - 1.5 * dy, y - way * 4 * dy + 1.5 * dx)
            b = (x - way * 4 * dx + 1.5 * dy, y - way * 4 * dy - 1.5 * dx)
            if self.spec["arrows"] == "filled":
                self.filled(None, (x, y), a, b)
            else:
                self.line(None, a, (x, y), b)
        if piece.piece["number"] % 2 and away > 18:
            turn = math.degrees(math.atan2(dy, dx))
            self.text(words["grain"], ((x0 + x1) / 2 - dy * 1, (y0 + y1) / 2 + dx * 1), turn, 2.2)

    def fold(self, piece, edge, words):
        """A bracket whose ends point at the fold; it lies inside."""
        away = curves.distance(*edge)
        (x, y), (dx, dy) = edge[0], curves.direction(edge, 0.5)
        inside = lambda along, deep: (x + along * dx - deep * dy, y + along * dy + deep * dx)
        a, b = 0.25 * away, 0.75 * away
        self.line(None, inside(a, 0.6), inside(a, 5), inside(b, 5), inside(b, 0.6))
        for at in (a, b):
            if self.spec["arrows"] == "filled":
                self.filled(None, inside(at, 0.3), inside(at - 0.8, 2.5), inside(at + 0.8, 2.5))
            else:
                self.line(None, inside(at - 0.8, 2.5), inside(at, 0.3), inside(at + 0.8, 2.5))
        if away > 30:
            self.text(words["fold"], inside(away / 2, 7.5), math.degrees(math.atan2(dy, dx)), 2.0)

    def lengthen(self, piece, words):
        a, b = piece.move.all(piece.least["lengthen"])
        for up in (0, 3):
            self.line(None, (a[0], a[1] + up), (b[0], b[1] + up), dash=[3, 1.5] if self.spec["look"] == "colour" else [])
        self.text(words["lengthen"], ((a[0] + b[0]) / 2, a[1] + 0.7), 0, 1.9)

    def label(self, piece):
        at, turn, size = piece.least["label"]
        at, turn = piece.move(at), turn + (piece.piece["turn"] if piece.piece["turn"] != 180 else 0)
        lines = label_lines(piece.piece, self.spec["labels"])
        c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        for k, words in enumerate(lines):
            down = (k - (len(lines) - 1) / 2) * 1.35 * size + 0.35 * size
            self.text(words, (at[0] + s * down, at[1] - c * down), turn, size)

    # What stands above the pieces

    def header(self):
        top = self.paper[1] - 12
        for x, side, words in self.spec["squares"]:
            y = top - side
            ring = [(x, y), (x + side, y), (x + side, y + side), (x, y + side), (x, y)]
            if self.spec["join"] == "edges":
                for a, b in zip(ring, ring[1:]):
                    self.path(None, [([[a, b]], False)])
            else:
                self.path(None, [([[a, b] for a, b in zip(ring, ring[1:])], True)])
            self.text(words, (x + side / 2, y + side / 2), 0, min(5, side / 8), self.words)
            self.squares.append(dict(side_mm=side, corner=[x, y], text=words))
        x, y = self.spec["legend"], top - 4
        for words in self.spec["instructions"]:
            self.text(words, (x, y), 0, 3.2, middle=False)
            y -= 5
        for k, name in enumerate(self.sizes):
            across, down = divmod(k, 6)
            self.line(k, (x + 45 * across, y - 6 * down), (x + 45 * across + 25, y - 6 * down), dash=self.look(k)["dash"])
            self.text(name, (x + 45 * across + 27, y - 6 * down - 1), 0, 3, self.layer(k), middle=False)
        if self.spec["border"]:
            w, h = self.paper
            ring = [(3, 3), (w - 3, 3), (w - 3, h - 3), (3, h - 3), (3, 3)]
            self.path(None, [([[a, b] for a, b in zip(ring, ring[1:])], True)])

    # What is true

    def truth(self):
        return dict(sizes=self.sizes, paper_mm=list(self.paper), squares=self.squares,
                    pieces=[piece_truth(piece, self.sizes) for piece in self.placed])


def label_lines(piece, way):
    """The words on a piece. `way`: "lines" one for each thing, "title" number and name in one, "one" the first cut there too."""
    language = piece["language"]
    cuts = []
    for count, material, kind in piece["cuts"]:
        forms = CUTS[language, kind]
        if kind == "pair" and count == 1:
            forms = [form for form in forms if "pairs" not in form]
        form = forms[piece["number"] % len(forms)]
        word = WORDS[language].get(material, "")
        if not word:
            form = form.replace(" aus {m}", "x zuschneiden" if "x" not in form else " zuschneiden")
        cuts.append(" ".join(form.format(n=count, m=word).split()))
    number = str(piece["number"])
    if way == "lines":
        return [number, piece["name"]] + cuts
    title = {"title": f"{number} {piece['name']}", "one": f"{number}. {piece['name']}"}[way]
    if way == "one":
        return [f"{title} - {cuts[0]}"] + cuts[1:]
    return [title] + cuts


def piece_truth(piece, sizes):
    own = piece.piece
    fold = piece.least["fold"]
    return dict(
        name=own["name"], number=own["number"], language=own["language"],
        cuts=[dict(count=count, material=material, pairs=kind == "pair", on_fold=kind == "fold") for count, material, kind in own["cuts"]],
        common=own["common"], shares_edge=own["shares"] is not None, same_edges=list(piece.least["same"]),
        grain=[list(piece.move(p)) for p in piece.least["grain"]] if piece.least["grain"] else None,
        lengthen=[list(piece.move(p)) for p in piece.least["lengthen"]] if piece.least["lengthen"] else None,
        fold_edge=fold,
        sizes={sizes[k]: size_truth(piece, k) for k in piece.sizes})


def size_truth(piece, size):
    shape, edges = piece.shapes[size], piece.edges(size)
    notches = []
    for edge, way, kind in shape["notches"]:
        notches.append(dict(at=list(curves.at(edges[edge], curves.parameter(edges[edge], way))), kind=kind, edge=edge))
    return dict(outline=[dict(edge=name, points=[list(p) for p in edge]) for name, edge in edges.items()], notches=notches,
                drills=[list(piece.move(p)) for p in shape["drills"]],
                darts=[[list(piece.move(p)) for p in dart] for dart in shape["darts"]])


def runs(edges, left_out):
    """The stretches of edges that are not left out, and whether they close."""
    if not any(left_out):
        return [(edges, True)]
    out, count = [], len(edges)
    start = left_out.index(True)
    for k in range(start, start + count):
        if left_out[k % count]:
            out.append([])
        else:
            out[-1].append(edges[k % count])
    return [(run, False) for run in out if run]


def fine(run, chords):
    """Every edge as so many chords."""
    out = []
    for edge in run:
        points = [curves.at(edge, k / chords) for k in range(chords + 1)]
        out += [[a, b] for a, b in zip(points, points[1:])]
    return out


def broken(run, closed):
    """The run in parts that begin within edges, with gaps along the edge: between the halves of each long edge, and before every
    second corner. A straight line across a gap is the edge."""
    parts, now = [], []
    for k, edge in enumerate(run):
        long = curves.length(edge)
        if long < 20:
            now.append(edge)
            continue
        gap = [0, 0.15, 0.3, GAP][k % 4] / long
        middle = 0.37
        first, second = curves.between(edge, 0, middle), curves.between(edge, middle + gap, 1)
        now.append(first)
        parts.append(now)
        now = [second]
        if k % 2 and (closed or k + 1 < len(run)):
            now = [curves.between(second, 0, 1 - 0.25 / curves.length(second))]
            parts.append(now)
            now = []
    if now:
        parts.append(now)
    return parts


def in_one(items):
    """All outlines of a layer and look as one path, where the first of them stood."""
    out, first = [], {}
    for item in items:
        key = (item["layer"], item.get("rgb"), item.get("width"), tuple(item.get("dash", ())))
        if "subs" not in item or "fill" in item:
            out.append(item)
        elif key in first:
            first[key]["subs"] += item["subs"]
        else:
            first[key] = dict(item, subs=list(item["subs"]))
            out.append(first[key])
    return out
