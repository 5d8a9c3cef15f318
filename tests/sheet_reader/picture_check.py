"""Whether the reader finds in pictures what was drawn in them dot by dot: how large they are, and outlines that follow the
ink. The truth is what was drawn, and hand-worked.

    python3 picture_check.py PROGRAM      PROGRAM: the built pdf_dump.c
"""
import math
import os
import sys
import tempfile

import pdf_reader as reader
import picture_write as write

DONE, NOT_A_SHEET, TOO_LARGE, DAMAGED, DPI_NEEDED = 0, 10, 13, 14, 15  # enum sheet_exit
MENDED, SCAN, STRETCHED = 1, 3, 6  # enum sheet_note_code
STROKED, FILLED, TRACED = 1, 2, 32
failures = []


def hold(what, right, *found):
    if not right:
        failures.append(f"{what}: {found}")


def paths(sheet):
    return [item for item in sheet.get("items", []) if item["kind"] == "path"]


def flat(part):
    """A closed outline as points: its curves in 16 steps; lines are told from curves by their count."""
    points, at, out = part["points"], 1, [tuple(part["points"][0])]
    for kind in part["kinds"]:
        if kind == 0:
            out.append(tuple(points[at]))
            at += 1
            continue
        p, q, r, s = out[-1], points[at], points[at + 1], points[at + 2]
        for k in range(1, 17):
            t = k / 16
            out.append(tuple((1 - t) ** 3 * p[i] + 3 * t * (1 - t) ** 2 * q[i] + 3 * t * t * (1 - t) * r[i] + t ** 3 * s[i]
                             for i in (0, 1)))
        at += 3
    return out


def area(outline):
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(outline, outline[1:] + outline[:1])) / 2


def box(outline):
    return [min(p[0] for p in outline), min(p[1] for p in outline), max(p[0] for p in outline), max(p[1] for p in outline)]


def near(a, b, within):
    return len(a) == len(b) and all(abs(x - y) <= within for x, y in zip(a, b))


def draw(wide, high, is_ink):
    """Dots of black where the middle of a dot, from the lower left, is ink."""
    return [bytes(0 if is_ink(x + 0.5, high - y - 0.5) else 255 for x in range(wide)) for y in range(high)]


class Tried:
    """A folder of files, each read by the program."""

    def __init__(self, program, folder):
        self.program, self.folder, self.count = program, folder, 0

    def read(self, data, dpi=None):
        self.count += 1
        path = os.path.join(self.folder, f"picture{self.count}")
        with open(path, "wb") as f:
            f.write(data)
        return reader.read(self.program, path, None, dpi)


def check_outlines(tried):
    """A ring and a block, at 300 dots per inch: no point of an outline is further from the true edge than a dot, and areas are
    right within 1 %."""
    dot = 25.4 / 300

    def ring(x, y):
        return 60 <= math.hypot(x - 150, y - 160) <= 120

    def block(x, y):
        return 300 <= x < 420 and 40 <= y < 90

    sheet = tried.read(write.png(draw(460, 300, lambda x, y: ring(x, y) or block(x, y))))
    hold("outlines page", near(sheet["pages"][0], [460 * dot, 300 * dot], 0.001), sheet["pages"])
    hold("outlines note", [(n["code"], n["a"], n["b"]) for n in sheet["notes"]] == [(SCAN, 1, 300)], sheet["notes"])
    hold("outlines look", all(item["flags"] == FILLED | TRACED for item in paths(sheet)), paths(sheet)[:1])
    found = sorted(paths(sheet), key=lambda item: -len(item["parts"]))
    hold("outlines parts", [len(item["parts"]) for item in found] == [2, 1], [len(i["parts"]) for i in found])
    outer, hole = [[(x / dot, y / dot) for x, y in flat(part)] for part in found[0]["parts"]]
    for name, outline, r in (("outer", outer, 120), ("hole", hole, 60)):
        off = max(abs(math.hypot(x - 150, y - 160) - r) for x, y in outline)
        hold(f"ring {name}", off <= 1 and abs(abs(area(outline)) / (math.pi * r * r) - 1) <= 0.01, off, area(outline))
    hold("ring turns", area(outer) * area(hole) < 0, area(outer), area(hole))
    rest = [(x / dot, y / dot) for x, y in flat(found[1]["parts"][0])]
    hold("block", near(box(rest), [300, 40, 420, 90], 1) and abs(area(rest) / (120 * 50) - 1) <= 0.01, box(rest))


def leaning(x, y):
    """A line of 5 dots that leans by 3 to 4, 300 dots long, from 60, 40."""
    along, off = (x - 60) * 0.6 + (y - 40) * 0.8, (y - 40) * 0.6 - (x - 60) * 0.8
    return 0 <= along <= 300 and abs(off) <= 2.5


def off_segment(p, a, b):
    dx, dy = b[0] - a[0], b[1] - a[1]
    t = max(0, min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)))
    return math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy)


def in_dots(item, dpi=300):
    return [[(x / 25.4 * dpi, y / 25.4 * dpi) for x, y in part["points"]] for part in item["parts"]]


def check_lines(tried):
    """Drawn lines come as strokes along their middle, within a dot and as wide as they are drawn: one that leans, a circle, and
    two that cross, of which each goes on straight."""
    sheet = tried.read(write.png(draw(400, 400, leaning)))
    found = paths(sheet)
    hold("line", len(found) == 1 and found[0]["flags"] == STROKED | TRACED, len(found))
    line = in_dots(found[0])[0]
    off = [off_segment(p, (60, 40), (240, 280)) for p in line]
    ends = sorted([line[0], line[-1]])
    hold("line ends", math.dist(ends[0], (60, 40)) <= 2.5 and math.dist(ends[1], (240, 280)) <= 2.5 and max(off) <= 1, ends, max(off))
    hold("line width", abs(found[0]["width"] / 25.4 * 300 - 5) <= 1.5, found[0]["width"] / 25.4 * 300)
    circle = paths(tried.read(write.png(draw(400, 400, lambda x, y: abs(math.hypot(x - 200, y - 190) - 150) <= 2))))
    hold("circle", len(circle) == 1 and circle[0]["parts"][0]["closed"] == 1, len(circle))
    points = in_dots(circle[0])[0]
    far = max(abs(math.hypot(x - 200, y - 190) - 150) for x, y in points)
    hold("circle is round", far <= 1 and abs(area(points)) > 0.99 * math.pi * 150 * 150, far, area(points))
    cross = paths(tried.read(write.png(draw(400, 400, lambda x, y: leaning(x, y) or (20 <= x < 380 and 150 <= y < 154)))))
    spans = sorted(box([p for part in in_dots(item) for p in part]) for item in cross)
    hold("cross", len(cross) == 2 and near(spans[0], [20, 152, 380, 152], 2.5) and near(spans[1], [60, 40, 240, 280], 2.5), spans)


def check_joints(tried):
    """A T: the bar goes on straight, and the stem ends on it. A square with corners stays one closed line."""
    tee = paths(tried.read(write.png(draw(400, 300, lambda x, y: (20 <= x < 380 and 200 <= y < 205) or
                                          (198 <= x < 203 and 30 <= y < 200)))))
    spans = sorted(box(in_dots(item)[0]) for item in tee)
    hold("tee", len(tee) == 2 and near(spans[0], [20, 202.5, 380, 202.5], 2.5) and near(spans[1], [200.5, 30, 200.5, 202.5], 2.5), spans)
    square = paths(tried.read(write.png(draw(400, 300, lambda x, y: max(abs(x - 200), abs(y - 150)) <= 102 and
                                             max(abs(x - 200), abs(y - 150)) >= 98))))
    hold("square", len(square) == 1 and square[0]["parts"][0]["closed"] == 1 and
         near(box(in_dots(square[0])[0]), [100, 50, 300, 250], 1), [in_dots(s) for s in square][:1])


BLOCK = draw(120, 60, lambda x, y: 20 <= x < 80 and 10 <= y < 50)  # 60 by 40 dots, its lower left corner at 20, 10


def check_block(name, sheet, dpi, within=1.0):
    """BLOCK at so many dots per inch, along and across."""
    x, y = dpi if isinstance(dpi, tuple) else (dpi, dpi)
    hold(f"{name} exit", sheet["exit"] == DONE, sheet["exit"])
    if sheet["exit"] != DONE:
        return
    hold(f"{name} page", near(sheet["pages"][0], [120 * 25.4 / x, 60 * 25.4 / y], 0.01), sheet["pages"])
    found = paths(sheet)
    if len(found) != 1 or len(found[0]["parts"]) != 1:
        hold(f"{name} outlines", False, len(found))
        return
    got = [v / 25.4 * d for v, d in zip(box(flat(found[0]["parts"][0])), (x, y, x, y))]
    hold(f"{name} block", near(got, [20, 10, 80, 50], within), got)


def turned(value):
    """A block in squares of 8 dots, 15 by 8 of them, as it is stored by Exif 2.32, Orientation: 3 upside down; 6 the first row
    is the right side, the first column the top; 8 the first row is the left side, the first column the bottom."""
    seen = [[0 if 3 <= x < 10 and 2 <= y < 6 else 255 for x in range(15)] for y in range(8)]
    return {1: seen, 3: [row[::-1] for row in seen[::-1]],
            6: [[seen[c][14 - r] for c in range(8)] for r in range(15)],
            8: [[seen[7 - c][r] for c in range(8)] for r in range(15)]}[value]


def check_resolutions(tried):
    check_block("png", tried.read(write.png(BLOCK, 150)), 150)
    stretched = tried.read(write.png(BLOCK, (200, 100)))
    check_block("png stretched", stretched, (200, 100))
    hold("png stretched note", [n["code"] for n in stretched["notes"]] == [SCAN, STRETCHED], stretched["notes"])
    hold("png without", tried.read(write.png(BLOCK, None))["exit"] == DPI_NEEDED)
    hold("png of 0", tried.read(write.png(BLOCK, 0))["exit"] == DPI_NEEDED)
    check_block("png asked", tried.read(write.png(BLOCK, None), 250), 250)
    check_block("png asked otherwise", tried.read(write.png(BLOCK, 72), 250), 250)
    squares = turned(1)
    for name, heads, dpi in (("jfif inch", [write.jfif(1, 150, 150)], 150), ("jfif cm", [write.jfif(2, 100, 100)], 254),
                             ("exif little", [write.exif(200, True)], 200), ("exif big", [write.exif(150, False)], 150),
                             ("exif cm", [write.exif(100, True, 3)], 254),
                             ("jfif before exif", [write.jfif(1, 150, 150), write.exif(300, True)], 150),
                             ("exif where jfif is none", [write.jfif(0, 1, 1), write.exif(300, True)], 300),
                             ("exif before jfif", [write.exif(300, True), write.jfif(1, 150, 150)], 150)):
        sheet = tried.read(write.jpeg(squares, heads))
        hold(f"{name} exit", sheet["exit"] == DONE, sheet["exit"])
        if sheet["exit"] == DONE:
            hold(f"{name} page", near(sheet["pages"][0], [120 * 25.4 / dpi, 64 * 25.4 / dpi], 0.01), sheet["pages"])
    for name, heads in (("jpeg without", []), ("jfif none", [write.jfif(0, 1, 1)]), ("jfif of 0", [write.jfif(1, 0, 0)])):
        hold(name, tried.read(write.jpeg(squares, heads))["exit"] == DPI_NEEDED)


def check_turned(tried):
    """However it is stored: 24 to 80 across and 16 to 48 up of 120 by 64 dots."""
    for value in (1, 3, 6, 8):
        sheet = tried.read(write.jpeg(turned(value), [write.exif(254, True, 2, value)]))
        hold(f"turned {value} page", near(sheet["pages"][0], [12, 6.4], 0.01), sheet["pages"])
        hold(f"turned {value} notes", [n["code"] for n in sheet["notes"]] == [SCAN], sheet["notes"])
        got = [v * 10 for v in box(flat(paths(sheet)[0]["parts"][0]))]
        hold(f"turned {value} block", near(got, [24, 16, 80, 48], 1.5), got)


def check_kinds(tried):
    rgb = [bytes(v for grey in row for v in ((250, 240, 230) if grey else (30, 60, 120))) for row in BLOCK]
    check_block("rgb", tried.read(write.png(rgb, 300, 2)), 300)
    bits = [bytes(int("".join("01"[v > 0] for v in row[k:k + 8]), 2) for k in range(0, 120, 8)) for row in BLOCK]
    check_block("one bit", tried.read(write.png(bits, 300, 0, 1)), 300)
    check_block("palette", tried.read(write.png(bits, 300, 3, 1, bytes([200, 30, 30, 255, 255, 200]))), 300)
    clear = [bytes(v for grey in row for v in (0, 0 if grey else 255)) for row in BLOCK]
    check_block("clear around", tried.read(write.png(clear, 300, 4)), 300)
    deep = [bytes(v for grey in row for v in (grey, grey)) for row in BLOCK]
    check_block("sixteen bits", tried.read(write.png(deep, 300, 0, 16)), 300)
    pale = [bytes(190 if v == 0 else 235 for v in row) for row in BLOCK]
    check_block("pale", tried.read(write.png(pale)), 300)


def check_nothing(tried):
    """Paper without ink, with grain alone, with dust; all ink is an outline of the page."""
    plain = tried.read(write.png([bytes([255] * 90)] * 90))
    hold("plain", plain["exit"] == DONE and not paths(plain), paths(plain))
    grain = tried.read(write.png([bytes(240 + (x * 7 + y * 13) % 11 for x in range(90)) for y in range(90)]))
    hold("grain", not paths(grain), len(paths(grain)))
    # 0.2 mm are 2.36 dots of 300 to the inch: a patch of 2 by 2 is dust, one of 3 by 3 is a dot
    dust = tried.read(write.png(draw(90, 90, lambda x, y: (10 < x < 12 and 10 < y < 12) or (50 < x < 53 and 50 < y < 53))))
    hold("dust", len(paths(dust)) == 1, len(paths(dust)))


def check_fine(tried):
    """1200 dots per inch are more than drawings need: halved twice, the block is where it was, within its larger dots."""
    large = draw(480, 240, lambda x, y: 80 <= x < 320 and 40 <= y < 200)
    sheet = tried.read(write.png(large, 1200))
    check_block("fine", sheet, 300, 1)
    hold("fine note", [n["b"] for n in sheet["notes"]] == [1200], sheet["notes"])


def check_damaged(tried):
    whole = write.png(draw(300, 300, lambda x, y: (x * y) % 37 < 9))
    picture = write.jpeg(turned(1), [write.jfif(1, 150, 150)])
    for data, name in ((whole, "png"), (picture, "jpeg")):
        for share in range(20):
            sheet = tried.read(data[:len(data) * share // 20])
            told = any(note["code"] == MENDED for note in sheet.get("notes", []))
            hold(f"{name} cut off at {share}/20", sheet["exit"] in (NOT_A_SHEET, DAMAGED, DPI_NEEDED) or told, sheet["exit"])
    head = write.chunk(b"IHDR", b"\x7f\xff\xff\xff\x7f\xff\xff\xff\x08\0\0\0\0")
    huge = whole[:8] + head + whole[33:]
    hold("huge", tried.read(huge)["exit"] in (TOO_LARGE, DAMAGED), tried.read(huge)["exit"])


def main(program):
    with tempfile.TemporaryDirectory() as folder:
        tried = Tried(program, folder)
        for check in (check_outlines, check_lines, check_joints, check_resolutions, check_turned, check_kinds, check_nothing, check_fine, check_damaged):
            check(tried)
        print(f"{tried.count} pictures")
    for failure in failures:
        print(failure[:1500])
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
