"""A sheet cut into pages to print at home, in four styles:

    frame   a rectangle on each page, the drawing up to it, rectangles of neighbours put side by side; labels "A1", "B2":
            the column's letter, the row's number from the top
    lap     neighbours show the same stretch twice; corner marks and triangles, running numbers
    cut     no frame; up to a margin, outside of which stands "row 2, column 3"
    whole   as frame, but every page holds the whole drawing under a clip; "Page 3 of 12"

A page is a dict: size (mm), column, row (from the top), window (x0, y0, x1, y1 on the page), and shift: a point of the page is
scale * sheet - shift.
"""
import math

PAPERS = {"A4": (210, 297), "Letter": (215.9, 279.4)}
GREY = 0x909090


def pages(spec, paper, scale):
    style = spec["tiles"]
    page = PAPERS[style["paper"]]
    margin, lap = style["margin"], style.get("lap", 0)
    window = (page[0] - 2 * margin, page[1] - 2 * margin)
    step = (window[0] - lap, window[1] - lap)
    wide, high = paper[0] * scale[0], paper[1] * scale[1]
    columns = max(1, math.ceil((wide - lap) / step[0] - 1e-9))
    rows = max(1, math.ceil((high - lap) / step[1] - 1e-9))
    places = [(c, r) for r in range(rows) for c in range(columns)]
    if style.get("down_first"):
        places = [(c, r) for c in range(columns) for r in range(rows)]
    out = []
    for number, (c, r) in enumerate(places, 1):
        left, low = c * step[0], high - r * step[1] - window[1]
        out.append(dict(size=page, column=c, row=r, number=number, of=len(places), shift=(left - margin, low - margin),
                        window=(margin, margin, page[0] - margin, page[1] - margin)))
    gone = style.get("missing")
    missing = [[p["column"], p["row"]] for p in out if (p["column"], p["row"]) == gone]
    return [p for p in out if (p["column"], p["row"]) != gone], columns, rows, missing


def letters_of(column):
    return chr(ord("A") + column)


def stroke(*points, rgb=0x404040, width=0.2):
    return dict(layer=None, subs=[([[a, b] for a, b in zip(points, points[1:])], False)], width=width, rgb=rgb, dash=[])


def words(text, at, size, rgb=0x404040):
    return dict(layer=None, text=text, at=at, turn=0, size=size, rgb=rgb)


def frame(page, style):
    """What each page shows beside the sheet's drawing, on the page, on no layer of the sheet."""
    kind = style["kind"]
    x0, y0, x1, y1 = page["window"]
    out = []
    if kind in ("frame", "whole"):
        out.append(stroke((x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)))
    if kind == "frame":
        out.append(words(letters_of(page["column"]) + str(page["row"] + 1), ((x0 + x1) / 2 - 8, (y0 + y1) / 2), 14, GREY))
    if kind == "whole":
        out.append(words(f"Page {page['number']} of {page['of']}", (x0 + 2, 3), 3))
    if kind == "lap":
        out += lap_marks(page, style["lap"])
        out.append(words(str(page["number"]), (x0 + 6, y0 + 6), 8, GREY))
    if kind == "cut":
        text = style["words"].format(row=page["row"] + 1, column=page["column"] + 1)
        out.append(words(text, (x0 + 4, 2.2), 2.8))
    return out


def lap_marks(page, lap):
    """Corners of what is seen, and triangles half way that meet their neighbours' on the glued page."""
    x0, y0, x1, y1 = page["window"]
    out = []
    for x, y, dx, dy in ((x0, y0, 1, 1), (x1, y0, -1, 1), (x1, y1, -1, -1), (x0, y1, 1, -1)):
        out.append(stroke((x + 7 * dx, y), (x, y), (x, y + 7 * dy)))
    half = lap / 2
    mx, my = (x0 + x1) / 2, (y0 + y1) / 2
    for tip, across in (((x0 + half, my), (0, 1)), ((x1 - half, my), (0, 1)), ((mx, y0 + half), (1, 0)), ((mx, y1 - half), (1, 0))):
        inward = (math.copysign(5, mx - tip[0]) if across[1] else 0, math.copysign(5, my - tip[1]) if across[0] else 0)
        a = (tip[0] + inward[0] + 4 * across[0], tip[1] + inward[1] + 4 * across[1])
        b = (tip[0] + inward[0] - 4 * across[0], tip[1] + inward[1] - 4 * across[1])
        out.append(stroke(tip, a, b, tip))
    return out
