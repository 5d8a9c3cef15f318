"""Letters: how wide Helvetica's are (Adobe's font metrics of the fourteen base fonts), and the outlines of installed fonts', as cubics."""
import functools
import logging
import math
import unicodedata

from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.basePen import decomposeQuadraticSegment, decomposeSuperBezierSegment
from fontTools.ttLib import TTFont

logging.getLogger("fontTools").setLevel(logging.ERROR)  # not its remarks on the font's date
FONTS = "/usr/share/fonts/"
LATO = "truetype/lato/Lato-Regular.ttf"
WIDTHS = dict(zip(map(chr, range(32, 127)), [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556, 556, 556, 556,
    278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722,
    667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222,
    833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584]))


def width(words, size):
    """Of words in Helvetica."""
    return sum(WIDTHS.get(unicodedata.normalize("NFD", c)[0], 556) for c in words) * size / 1000


@functools.lru_cache
def opened(font):
    return TTFont(FONTS + font)


@functools.lru_cache(maxsize=None)
def glyph(letter, font=LATO):
    """Subpaths of lists of cubics and lines in units of the font's size, and how far the next letter stands."""
    glyphs = opened(font).getGlyphSet()
    name = opened(font).getBestCmap()[ord(letter)]
    pen = DecomposingRecordingPen(glyphs)
    glyphs[name].draw(pen)
    em, subs, now, here = opened(font)["head"].unitsPerEm, [], [], None
    for step, points in pen.value:
        if step == "moveTo":
            now, here = [], points[0]
        elif step == "lineTo":
            now.append([here, points[0]])
            here = points[0]
        elif step == "qCurveTo":
            if points[-1] is None:
                raise ValueError("a contour without a point on it")
            for control, end in decomposeQuadraticSegment(points):
                now.append(cubic(here, control, end))
                here = end
        elif step == "curveTo":
            for first, second, end in decomposeSuperBezierSegment(points):
                now.append([here, first, second, end])
                here = end
        elif step in ("closePath", "endPath") and now:
            if here != now[0][0]:
                now.append([here, now[0][0]])
            subs.append(now)
    scaled = [[[(x / em, y / em) for x, y in edge] for edge in sub] for sub in subs]
    return scaled, glyphs[name].width / em


def cubic(a, b, c):
    third = lambda p, q: (p[0] + 2 * (q[0] - p[0]) / 3, p[1] + 2 * (q[1] - p[1]) / 3)
    return [a, third(a, b), third(c, b), c]


def outlines(item):
    """A text item as filled paths, one for each word."""
    c, s = math.cos(math.radians(item["turn"])), math.sin(math.radians(item["turn"]))
    x, out, font = 0, [], item.get("font", LATO)
    for word in item["text"].split(" "):
        subs = []
        for letter in word:
            contours, wide = glyph(letter, font)
            for contour in contours:
                moved = [[turned(item, c, s, x + px, py) for px, py in edge] for edge in contour]
                subs.append((moved, True))
            x += wide
        x += glyph(" ", font)[1]
        if subs:
            out.append(dict(layer=item["layer"], subs=subs, fill=item["rgb"]))
    return out


def turned(item, c, s, x, y):
    x, y = x * item["size"], y * item["size"]
    return item["at"][0] + c * x - s * y, item["at"][1] + s * x + c * y
