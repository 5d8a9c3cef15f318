"""A garment of our own invention, graded: for each kind of piece a maker gives, for a grade (how many steps above the smallest
size), the outline in the piece's own plane (mm, counter-clockwise, grain along +y) with its marks. Proportions and steps are made
up; they are those of no pattern. Smaller than for a grown person, so that forty pieces have room on one sheet.

A shape is a dict:
    edges   name → points (two: a line; four: a cubic), in order around
    fold    name of the edge on the fold, or None
    same    names of edges that are the same in all sizes
    notches (edge, mm along it, "single", "double", "v" or "t")
    drills  points
    darts   lists of points
    lengthen two points, or None
    grain   two points, or None; the same in all sizes, as is
    label   (middle of the words, degrees they are turned, height of their letters)
"""
import curves


def shape(edges, label, grain, **more):
    names = dict(fold=None, same=(), notches=[], drills=[], darts=[], lengthen=None)
    names.update(more)
    return dict(edges=edges, label=label, grain=grain, **names)


def bodice(w, h, g, neck, dart):
    """Half a front or back; its middle at the left."""
    W, H = w + 1.9 * g, h + 2.2 * g
    nw, sx, sy, ax, ay = 0.24 * w + 0.35 * g, 0.66 * w + 0.8 * g, H - 0.07 * h, W, 0.6 * h + 1.1 * g
    edges = {
        "hem": [(0, 0), (0.35 * W, 0), (0.7 * W, 1.5), (W - 0.05 * w, 4)],
        "side": [(W - 0.05 * w, 4), (ax, ay)],
        "armhole": [(ax, ay), (ax - 0.22 * w, ay + 0.02 * h), (sx - 0.08 * w, sy - 0.2 * h), (sx, sy)],
        "shoulder": [(sx, sy), (nw, H)],
        "neck": [(nw, H), (nw - 0.01 * w, H - 0.6 * neck), (0.5 * nw, H - neck), (0, H - neck)],
        "middle": [(0, H - neck), (0, 0)],
    }
    darts = [[(0.42 * W - 5, 0), (0.42 * W, 0.3 * h + g), (0.42 * W + 5, 0.3)]] if dart else []
    return shape(edges, ((0.42 * w, 0.62 * h), 0, 3.2), [(0.14 * w, 0.12 * h), (0.14 * w, 0.62 * h)], fold="middle",
                 notches=[("side", 0.55 * curves.length(edges["side"]), "single"),
                          ("armhole", 0.4 * curves.length(edges["armhole"]), "single" if dart else "double")],
                 darts=darts, drills=[(0.42 * W, 0.3 * h + g - 4)] if dart else [],
                 lengthen=[(0.02 * w, 0.42 * h), (0.9 * w, 0.42 * h)])


def sleeve(w, h, g):
    W, H, cap = w + 2.6 * g, h + 1.5 * g, 0.68 * h + 0.6 * g
    c, hem = W / 2, 0.16 * w
    edges = {
        "hem": [(hem, 0), (W - hem, 0)],
        "front seam": [(W - hem, 0), (W - 0.05 * w, 0.3 * h), (W, 0.5 * h), (W, cap)],
        "front cap": [(W, cap), (W - 0.2 * w, cap), (c + 0.22 * w, H), (c, H)],
        "back cap": [(c, H), (c - 0.22 * w, H), (0.16 * w, cap + 0.03 * h), (0, cap)],
        "back seam": [(0, cap), (0, 0.5 * h), (0.05 * w, 0.3 * h), (hem, 0)],
    }
    return shape(edges, ((0.52 * w, 0.6 * h), 0, 3.2), [(0.34 * w, 0.1 * h), (0.34 * w, 0.58 * h)],
                 notches=[("front cap", 0.36 * curves.length(edges["front cap"]), "single"),
                          ("back cap", 0.6 * curves.length(edges["back cap"]), "double"),
                          ("front cap", curves.length(edges["front cap"]) - 0.01, "t")],
                 lengthen=[(0.12 * w, 0.3 * h), (0.86 * w, 0.3 * h)])


def collar(w, h, g):
    W, H = w + 2.0 * g, h + 0.3 * g
    edges = {
        "neck": [(0, 0), (0.4 * W, 0), (0.75 * W, 0.08 * h), (W, 0.3 * h)],
        "front": [(W, 0.3 * h), (W + 8, H)],
        "outer": [(W + 8, H), (0.8 * W, H - 0.12 * h), (0.4 * W, H - 0.25 * h), (0, H - 0.25 * h)],
        "middle": [(0, H - 0.25 * h), (0, 0)],
    }
    return shape(edges, ((0.55 * w, 0.45 * h), 4, 2.4), [(0.1 * w, 0.12 * h), (0.1 * w, 0.62 * h)], fold="middle",
                 notches=[("neck", 0.62 * curves.length(edges["neck"]), "v")])


def stand(w, h, g):
    W = w + 2.0 * g
    edges = {
        "neck": [(0, 0), (0.5 * W, 0), (0.8 * W, 2), (W, 7)],
        "front": [(W, 7), (W + 9, 9), (W + 8, 7 + 0.9 * h), (W - 3, 5 + 0.9 * h)],
        "upper": [(W - 3, 5 + 0.9 * h), (0.8 * W, h), (0.5 * W, h), (0, h)],
        "middle": [(0, h), (0, 0)],
    }
    return shape(edges, ((0.5 * w, 0.5 * h), 0, 2.2), [(0.1 * w, 0.15 * h), (0.1 * w, 0.85 * h)], fold="middle",
                 same=("middle",), notches=[("neck", 0.5 * curves.length(edges["neck"]), "single")])


def rounded(w, h, g, right="right"):
    """A cuff: two corners rounded."""
    W, r = w + 1.8 * g, 0.18 * h
    k = r * 0.5523
    edges = {
        "lower": [(r, 0), (W, 0)],
        right: [(W, 0), (W, h)],
        "upper": [(W, h), (r, h)],
        "upper round": [(r, h), (r - k, h), (0, h - r + k), (0, h - r)],
        "left": [(0, h - r), (0, r)],
        "lower round": [(0, r), (0, r - k), (r - k, 0), (r, 0)],
    }
    return shape(edges, ((0.55 * w, 0.5 * h), 0, 2.6), [(0.17 * w, 0.2 * h), (0.17 * w, 0.8 * h)],
                 notches=[("upper", 0.5 * (W - r), "single")], drills=[(0.1 * w, 0.5 * h)])


def under_cuff(w, h, g):
    """What lies to the right of a cuff and shares its right edge; origin where the cuff has its own."""
    left, right = w + 1.8 * g, 1.9 * w + 3.2 * g
    edges = {
        "lower": [(left, 0), (right, 0.1 * h)],
        "right": [(right, 0.1 * h), (right, 0.9 * h)],
        "upper": [(right, 0.9 * h), (left, h)],
        "right of cuff": [(left, h), (left, 0)],
    }
    return shape(edges, ((1.5 * w + 12, 0.5 * h), 0, 2.6), [(1.2 * w + 22, 0.2 * h), (1.2 * w + 22, 0.8 * h)],
                 notches=[("upper", 0.4 * curves.length(edges["upper"]), "single")])


def princess(w, h, g, which):
    """A middle panel and a side panel along one curved seam, each made with the other in one plane."""
    W, H = w + 1.4 * g, h + 2 * g
    seam = [(W, 0), (W - 0.08 * w, 0.3 * H), (W + 0.12 * w, 0.6 * H), (W - 0.05 * w, H)]
    if which == "middle":
        edges = {"hem": [(0, 0), (W, 0)], "seam": seam, "upper": [seam[3], (0, H - 6)], "middle": [(0, H - 6), (0, 0)]}
        return shape(edges, ((0.5 * w, 0.45 * h), 90, 2.8), [(0.2 * w, 0.15 * h), (0.2 * w, 0.75 * h)],
                     notches=[("seam", 0.45 * curves.length(seam), "single")])
    right = W + 0.9 * w + 1.4 * g
    edges = {
        "hem": [(W, 0), (right, 3)],
        "side": [(right, 3), (right - 6, 0.4 * H), (right - 6, 0.5 * H), (right + 2, 0.75 * H)],
        "armhole": [(right + 2, 0.75 * H), (W + 0.5 * w, 0.72 * H), (W + 0.2 * w, 0.85 * H), seam[3]],
        "seam of middle": curves.backwards(seam),
    }
    return shape(edges, ((1.55 * w + 12, 0.4 * h), 90, 2.8), [(1.27 * w + 18, 0.1 * h), (1.27 * w + 18, 0.6 * h)],
                 notches=[("side", 0.5 * curves.length(edges["side"]), "single")])


def pocket(w, h, g):
    edges = {
        "left low": [(0, 0.22 * h), (w / 2, 0)],
        "right low": [(w / 2, 0), (w, 0.22 * h)],
        "right": [(w, 0.22 * h), (w, h)],
        "opening": [(w, h), (0, h)],
        "left": [(0, h), (0, 0.22 * h)],
    }
    return shape(edges, ((0.58 * w, 0.5 * h), 0, 2.4), [(0.2 * w, 0.3 * h), (0.2 * w, 0.82 * h)],
                 notches=[("right", 0.85 * 0.78 * h, "single"), ("left", 0.15 * 0.78 * h, "single")],
                 same=tuple(edges))


def flap(w, h, g):
    W = w + 1.0 * g
    r = 0.35 * h
    k = r * 0.5523
    edges = {
        "lower": [(r, 0), (W - r, 0)],
        "right round": [(W - r, 0), (W - r + k, 0), (W, r - k), (W, r)],
        "right": [(W, r), (W, h)],
        "upper": [(W, h), (0, h)],
        "left": [(0, h), (0, r)],
        "left round": [(0, r), (0, r - k), (r - k, 0), (r, 0)],
    }
    return shape(edges, ((0.56 * w, 0.52 * h), 0, 2.2), [(0.16 * w, 0.3 * h), (0.16 * w, 0.85 * h)], same=("left",),
                 notches=[("upper", 0.5 * W, "v")])


def facing(w, h, g):
    """Bent: along a neck and down a front."""
    W, H = w + 0.9 * g, h + 2.2 * g
    edges = {
        "lower": [(0, 0), (0.55 * W, 0)],
        "inner": [(0.55 * W, 0), (0.5 * W, 0.5 * H), (0.6 * W, 0.75 * H), (W, 0.88 * H)],
        "shoulder": [(W, 0.88 * H), (0.9 * W, H)],
        "neck": [(0.9 * W, H), (0.5 * W, 0.97 * H), (0.12 * W, 0.85 * H), (0, 0.7 * H)],
        "front": [(0, 0.7 * H), (0, 0)],
    }
    return shape(edges, ((0.3 * w, 0.36 * h), 90, 2.4), [(0.12 * w, 0.1 * h), (0.12 * w, 0.6 * h)],
                 notches=[("front", 0.3 * curves.length(edges["front"]), "single"),
                          ("neck", 0.5 * curves.length(edges["neck"]), "single")])


def waistband(w, h, g):
    W = w + 2.8 * g
    edges = {"lower": [(0, 0), (W, 0)], "end": [(W, 0), (W, h)], "upper": [(W, h), (0, h)], "start": [(0, h), (0, 0)]}
    return shape(edges, ((0.5 * w, 0.5 * h), 0, 2.6), [(0.1 * w, 0.5 * h), (0.3 * w, 0.5 * h)], same=("start",),
                 notches=[("lower", 0.25 * W, "single"), ("lower", 0.5 * W, "double"), ("lower", 0.75 * W, "single")])


def yoke(w, h, g):
    W = w + 1.8 * g
    edges = {
        "lower": [(0, 0), (W - 4, 0.04 * h)],
        "armhole": [(W - 4, 0.04 * h), (W - 6, 0.2 * h), (W - 5, 0.4 * h), (W, 0.56 * h)],
        "shoulder": [(W, 0.56 * h), (0.42 * w, h)],
        "neck": [(0.42 * w, h), (0.36 * w, 0.84 * h), (0.15 * w, 0.78 * h), (0, 0.78 * h)],
        "middle": [(0, 0.78 * h), (0, 0)],
    }
    return shape(edges, ((0.5 * w, 0.36 * h), 0, 2.8), [(0.1 * w, 0.1 * h), (0.1 * w, 0.68 * h)], fold="middle",
                 same=("neck", "middle"), notches=[("armhole", 0.5 * curves.length(edges["armhole"]), "double")])


def skirt(w, h, g):
    W, H = w + 2.0 * g, h + 1.4 * g
    top = 0.62 * W
    edges = {
        "hem": [(0, 0), (0.4 * W, 0), (0.75 * W, 3), (W + 6, 12)],
        "side": [(W + 6, 12), (W, 0.5 * H), (top + 8, 0.75 * H), (top, H)],
        "waist": [(top, H), (0.6 * top, H - 4), (0.3 * top, H - 5), (0, H - 5)],
        "middle": [(0, H - 5), (0, 0)],
    }
    return shape(edges, ((0.5 * w, 0.4 * h), 0, 3.2), [(0.2 * w, 0.15 * h), (0.2 * w, 0.7 * h)], fold="middle",
                 notches=[("side", 0.6 * curves.length(edges["side"]), "single")],
                 darts=[[(0.5 * top - 4, H - 4.4), (0.5 * top, 0.78 * H), (0.5 * top + 4, H - 3.6)]],
                 lengthen=[(0.05 * w, 0.25 * h), (0.95 * w, 0.25 * h)])


def trouser(w, h, g, seat):
    W, H = w + 1.6 * g, h + 2.4 * g
    fork = 0.66 * H
    edges = {
        "hem": [(0.18 * W, 0), (0.78 * W, 0)],
        "inside leg": [(0.78 * W, 0), (0.8 * W, 0.3 * H), (0.84 * W, 0.5 * H), (W + seat, fork)],
        "crotch": [(W + seat, fork), (W - 6, fork + 2), (0.86 * W, fork + 12), (0.82 * W, fork + 0.2 * H)],
        "middle": [(0.82 * W, fork + 0.2 * H), (0.78 * W - 0.2 * seat, H + 0.4 * seat)],
        "waist": [(0.78 * W - 0.2 * seat, H + 0.4 * seat), (0.1 * W, H)],
        "side": [(0.1 * W, H), (0, 0.8 * H), (0.04 * W, 0.45 * H), (0.18 * W, 0)],
    }
    return shape(edges, ((0.5 * w, 0.5 * h), 0, 3.2), [(0.3 * w, 0.1 * h), (0.3 * w, 0.62 * h)],
                 notches=[("inside leg", 0.5 * curves.length(edges["inside leg"]), "single" if seat < 10 else "double"),
                          ("side", 0.6 * curves.length(edges["side"]), "single")],
                 lengthen=[(0.2 * w, 0.25 * h), (0.78 * w, 0.25 * h)], drills=[(0.25 * W, 0.9 * H)])


def fly(w, h, g):
    H = h + 1.2 * g
    edges = {
        "straight": [(0, H), (0, 0)],
        "bend": [(0, 0), (0.7 * w, 0.02 * h), (w, 0.2 * h), (w, 0.42 * h)],
        "edge": [(w, 0.42 * h), (w, H)],
        "upper": [(w, H), (0, H)],
    }
    return shape(edges, ((0.56 * w, 0.62 * h), 90, 2.2), [(0.2 * w, 0.2 * h), (0.2 * w, 0.9 * h)],
                 notches=[("straight", 0.5 * H, "single")])


def strip(w, h, g):
    edges = {"lower": [(0, 0), (w, 0)], "end": [(w, 0), (w, h)], "upper": [(w, h), (0, h)], "start": [(0, h), (0, 0)]}
    return shape(edges, ((0.56 * w, 0.5 * h), 0, 2.0), [(0.05 * w, 0.5 * h), (0.25 * w, 0.5 * h)], same=tuple(edges))


def gusset(w, h, g):
    W, H = w + 1.2 * g, h + 0.8 * g
    edges = {"a": [(0, 0), (W / 2, -H / 2)], "b": [(W / 2, -H / 2), (W, 0)], "c": [(W, 0), (W / 2, H / 2)], "d": [(W / 2, H / 2), (0, 0)]}
    return shape(edges, ((0.55 * w, 0), 0, 2.2), [(0.28 * w, -0.12 * h), (0.28 * w, 0.12 * h)],
                 notches=[("a", 0.5 * curves.length(edges["a"]), "single")])


def godet(w, h, g):
    H = h + 1.6 * g
    edges = {
        "hem": [(0, 8), (0.3 * w, -3), (0.7 * w, -3), (w, 8)],
        "right": [(w, 8), (w / 2, H)],
        "left": [(w / 2, H), (0, 8)],
    }
    return shape(edges, ((0.56 * w, 0.28 * h), 0, 2.4), [(0.42 * w, 0.08 * h), (0.42 * w, 0.6 * h)], same=(),
                 notches=[("right", 0.4 * curves.length(edges["right"]), "single")])


def hood(w, h, g):
    W, H = w + 1.1 * g, h + 1.7 * g
    edges = {
        "neck": [(0, 0), (0.3 * W, -5), (0.7 * W, 2), (W, 14)],
        "front": [(W, 14), (W, 0.88 * H)],
        "top": [(W, 0.88 * H), (0.6 * W, H)],
        "back": [(0.6 * W, H), (0.1 * W, H), (-0.16 * W, 0.6 * H), (0, 0)],
    }
    return shape(edges, ((0.55 * w, 0.5 * h), 0, 3.0), [(0.22 * w, 0.2 * h), (0.22 * w, 0.7 * h)],
                 notches=[("neck", 0.4 * curves.length(edges["neck"]), "single"),
                          ("back", 0.5 * curves.length(edges["back"]), "double")])


def tie(w, h, g):
    W = w + 2.0 * g
    edges = {"lower": [(0, 0), (W, 0)], "point low": [(W, 0), (W + h, h / 2)], "point high": [(W + h, h / 2), (W, h)],
             "upper": [(W, h), (0, h)], "start": [(0, h), (0, 0)]}
    return shape(edges, ((0.6 * w, 0.5 * h), 0, 2.2), [(0.06 * w, 0.5 * h), (0.26 * w, 0.5 * h)], same=("start",))


def bias(w, h, g):
    W = w + 1.5 * g
    edges = {"lower": [(0, 0), (W, 0)], "end": [(W, 0), (W + h, h)], "upper": [(W + h, h), (h, h)], "start": [(h, h), (0, 0)]}
    return shape(edges, ((0.65 * w, 0.5 * h), 0, 2.2), [(0.14 * w, 0.1 * h), (0.14 * w + 0.8 * h, 0.9 * h)], same=("start",))


FABRIC, LINING, INTERFACING = "fabric", "lining", "interfacing"


def one(name, number, maker, arguments, cuts, language="en", turn=0, sizes=None, shares=None, common=False):
    """A piece: `cuts` are (count, material or None, "single", "pair" or "fold"); `sizes` the indices it is drawn in, None: all;
    `shares` the name of its edge that a neighbour's line serves."""
    return dict(name=name, number=number, maker=maker, arguments=arguments, cuts=cuts, language=language, turn=turn,
                sizes=sizes, shares=shares, common=common)


def blocks():
    """The pieces of the large sheet; those in one block are placed together."""
    upper = lambda count: list(range(count - 4, count))
    return [
        [one("Front", 1, bodice, (105, 190, 32, True), [(1, FABRIC, "fold")])],
        [one("Back", 2, bodice, (108, 192, 10, False), [(1, FABRIC, "fold")])],
        [one("Ärmel", 3, sleeve, (118, 150), [(1, FABRIC, "pair")], "de")],
        [one("Collar", 4, collar, (92, 44), [(2, FABRIC, "fold"), (1, INTERFACING, "fold")])],
        [one("Kragensteg", 5, stand, (90, 20), [(2, FABRIC, "fold"), (1, INTERFACING, "fold")], "de")],
        [one("Cuff", 6, rounded, (70, 42, "right"), [(2, FABRIC, "single"), (2, INTERFACING, "single")]),
         one("Under cuff", 7, under_cuff, (70, 42), [(2, FABRIC, "single")], shares="right of cuff")],
        [one("Patch pocket", 8, pocket, (64, 74), [(2, None, "single")], common=True)],
        [one("Pocket flap", 9, flap, (66, 30), [(4, FABRIC, "single")])],
        [one("Front facing", 10, facing, (66, 150), [(2, FABRIC, "single"), (2, INTERFACING, "single")])],
        [one("Rückwärtiger Beleg", 11, yoke, (78, 50), [(1, FABRIC, "fold"), (1, INTERFACING, "fold")], "de")],
        [one("Waistband", 12, waistband, (190, 34), [(1, FABRIC, "single"), (1, INTERFACING, "single")])],
        [one("Yoke", 13, yoke, (98, 64), [(2, FABRIC, "fold")])],
        [one("Vordere Rockbahn", 14, skirt, (108, 170), [(1, FABRIC, "fold"), (1, LINING, "fold")], "de")],
        [one("Skirt back", 15, skirt, (112, 172), [(1, None, "pair")])],
        [one("Hosenvorderteil", 16, trouser, (96, 210, 6), [(2, FABRIC, "pair")], "de")],
        [one("Trouser back", 17, trouser, (104, 212, 14), [(1, FABRIC, "pair")])],
        [one("Fly", 18, fly, (34, 92), [(1, FABRIC, "single")])],
        [one("Gürtelschlaufe", 19, strip, (110, 13), [(5, FABRIC, "single")], "de", common=True)],
        [one("Gusset", 20, gusset, (58, 40), [(2, FABRIC, "single")], sizes=upper)],
        [one("Godet", 21, godet, (62, 90), [(4, LINING, "single")])],
        [one("Kapuze", 22, hood, (96, 124), [(1, FABRIC, "pair"), (1, LINING, "pair")], "de")],
        [one("Tie", 23, tie, (150, 24), [(2, FABRIC, "single")])],
        [one("Schrägstreifen", 24, bias, (140, 22), [(1, FABRIC, "single")], "de")],
        [one("Centre panel", 25, princess, (60, 150, "middle"), [(1, FABRIC, "pair")]),
         one("Side panel", 26, princess, (60, 150, "side"), [(2, FABRIC, "pair")], shares="seam of middle")],
        [one("Front lining", 27, bodice, (96, 170, 30, True), [(1, LINING, "fold")])],
        [one("Rückenfutter", 28, bodice, (98, 172, 9, False), [(1, LINING, "fold")], "de")],
        [one("Sleeve lining", 29, sleeve, (110, 138), [(2, LINING, "single")], turn=180)],
        [one("Taschenbeutel", 30, hood, (64, 90), [(4, LINING, "single")], "de")],
        [one("Welt", 31, waistband, (74, 20), [(2, FABRIC, "single"), (2, INTERFACING, "single")], turn=90)],
        [one("Hem facing", 32, facing, (58, 120), [(1, FABRIC, "pair")], turn=90)],
        [one("Placket", 33, strip, (120, 22), [(2, FABRIC, "single")], turn=90, common=True)],
        [one("Ärmelbeleg", 34, collar, (84, 40), [(2, FABRIC, "single")], "de")],
        [one("Belt", 35, tie, (170, 26), [(1, FABRIC, "single"), (1, INTERFACING, "single")])],
        [one("Upper pocket", 36, flap, (72, 62), [(1, FABRIC, "single")], turn=17)],
        [one("Passe", 37, yoke, (88, 58), [(1, FABRIC, "fold")], "de")],
        [one("Peplum", 38, godet, (120, 96), [(2, FABRIC, "single")])],
        [one("Strap", 39, tie, (100, 20), [(2, None, "single")], turn=90)],
        [one("Seitenteil", 40, fly, (52, 130), [(1, FABRIC, "pair")], "de", turn=30)],
    ]


def small_blocks():
    return [
        [one("Front", 1, bodice, (92, 140, 30, True), [(1, FABRIC, "fold")])],
        [one("Ärmel", 2, sleeve, (100, 120), [(1, FABRIC, "pair")], "de")],
        [one("Cuff", 3, rounded, (50, 40, "right"), [(2, FABRIC, "single"), (2, INTERFACING, "single")]),
         one("Under cuff", 4, under_cuff, (50, 40), [(2, FABRIC, "single")], shares="right of cuff")],
        [one("Pocket", 5, pocket, (60, 68), [(2, None, "single")], common=True)],
    ]


def grade(index):
    """Steps above the smallest size: even at first, wider among the large sizes."""
    return index + 0.25 * max(0, index - 6)


def make(piece, index):
    return piece["maker"](piece["arguments"][0], piece["arguments"][1], grade(index), *piece["arguments"][2:])
