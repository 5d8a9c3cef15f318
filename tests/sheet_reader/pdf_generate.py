"""Writes PDFs object by object, so that what stands in them is known without any library: sheets with layers, pages with odd
boxes, forms, text, images. Each maker returns the truth that the check in pdf_reference.py holds the reader to:

    pages   width and height in mm
    layers  (name, index of the parent or -1, on by default, paths on it)
    loose   paths on no layer
    square  corners of the 100 mm square in mm, and its layer
    and more where a file is about more: texts, images, notes, exit
"""
import math
import zlib

MM = 72 / 25.4
SIZES = [str(size) for size in range(32, 56, 2)]
PIECES = 40
A0 = (841, 1189)


class Pdf:
    """Objects by number; references are "n 0 R"."""

    def __init__(self):
        self.objects = []

    def add(self, body):
        self.objects.append(body if isinstance(body, bytes) else body.encode("latin-1"))
        return len(self.objects)

    def set(self, number, body):
        self.objects[number - 1] = body if isinstance(body, bytes) else body.encode("latin-1")

    def stream(self, data, entries="", packed=True):
        data = data if isinstance(data, bytes) else data.encode("latin-1")
        if packed:
            data = zlib.compress(data)
            entries += " /Filter /FlateDecode"
        head = f"<< {entries} /Length {len(data)} >>\nstream\n".encode("latin-1")
        return self.add(head + data + b"\nendstream")

    def group(self, name, more=""):
        return self.add(f"<< /Type /OCG /Name {text(name)} {more} >>")

    def write(self, root):
        out, at = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n", []
        for number, body in enumerate(self.objects, 1):
            at.append(len(out))
            out += f"{number} 0 obj\n".encode() + body + b"\nendobj\n"
        start = len(out)
        out += f"xref\n0 {len(at) + 1}\n0000000000 65535 f \n".encode()
        out += b"".join(f"{place:010d} 00000 n \n".encode() for place in at)
        out += f"trailer\n<< /Size {len(at) + 1} /Root {root} 0 R /ID [<00112233445566778899aabbccddeeff> <00>] >>\n".encode()
        return out + f"startxref\n{start}\n%%EOF\n".encode()


def text(words):
    """A text string: as it is, or UTF-16 when that does not do."""
    if words.isascii():
        return "(" + words.replace("\\", "\\\\").replace("(", "\\(").replace(")", "\\)") + ")"
    return "<feff" + words.encode("utf-16-be").hex() + ">"


def refs(numbers):
    return "[" + " ".join(f"{number} 0 R" for number in numbers) + "]"


def document(pdf, pages, properties="", catalog=""):
    """Pages are (content object, resources, page entries)."""
    tree = pdf.add("")
    kids = []
    for content, resources, entries in pages:
        kids.append(pdf.add(f"<< /Type /Page /Parent {tree} 0 R /Contents {content} 0 R "
                            f"/Resources << {resources} >> {entries} >>"))
    pdf.set(tree, f"<< /Type /Pages /Kids {refs(kids)} /Count {len(kids)} >>")
    optional = f"/OCProperties << {properties} >>" if properties else ""
    return pdf.write(pdf.add(f"<< /Type /Catalog /Pages {tree} 0 R {optional} {catalog} >>"))


def media(width_mm, height_mm):
    return f"/MediaBox [0 0 {width_mm * MM:.6f} {height_mm * MM:.6f}]"


def square(x, y, side=100):
    """Of so many mm with its lower left corner there, in points."""
    return f"{x * MM:.6f} {y * MM:.6f} m {(x + side) * MM:.6f} {y * MM:.6f} l {(x + side) * MM:.6f} " \
           f"{(y + side) * MM:.6f} l {x * MM:.6f} {(y + side) * MM:.6f} l h S\n"


def corners(x, y, side=100):
    return [(x, y), (x + side, y), (x + side, y + side), (x, y + side)]


def outline(x, y, wide, high):
    """A closed outline of lines and curves, in points."""
    out = f"{x * MM:.3f} {y * MM:.3f} m\n"
    for k in range(8):
        a = 2 * math.pi * (k + 1) / 8
        px, py = x + wide * (1 - math.cos(a)) / 2, y + high * math.sin(a) / 2
        if k % 2:
            out += f"{(px - 3) * MM:.3f} {(py + 2) * MM:.3f} {(px + 2) * MM:.3f} {(py - 3) * MM:.3f} " \
                   f"{px * MM:.3f} {py * MM:.3f} c\n"
        else:
            out += f"{px * MM:.3f} {py * MM:.3f} l\n"
    return out + "h S\n"


PATHS_OF_PIECE = 4


def pieces(size, count=PIECES):
    """So many pieces of a size: outline, grain line, two notches; a label."""
    out = f"q 0.5 w [{2 + size} {1 + size % 3}] 0 d {size / 12:.3f} 0 {1 - size / 12:.3f} RG\n"
    for k in range(count):
        x, y = 20 + (k % 5) * 160, 200 + (k // 5) * 118
        wide, high = 100 + 3 * size, 70 + 2 * size
        out += outline(x, y, wide, high)
        out += f"{(x + 40) * MM:.3f} {y * MM:.3f} m {(x + 40) * MM:.3f} {(y + 30) * MM:.3f} l S\n"
        for at in (20, 30):
            out += f"{(x + at) * MM:.3f} {(y + 10) * MM:.3f} m {(x + at) * MM:.3f} {(y + 15) * MM:.3f} l S\n"
        out += f"BT /F 12 Tf {(x + 45) * MM:.3f} {y * MM:.3f} Td (Piece {k + 1} size {SIZES[size]}) Tj ET\n"
    return out + "Q\n"


FONT = "/Font << /F << /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >> >>"


def sheet(count=PIECES, config="", off=()):
    """A0 with a layer of common lines (with the square) and one for each of twelve sizes."""
    pdf = Pdf()
    groups = [pdf.group(name) for name in ["Common"] + SIZES]
    content = f"/OC /G0 BDC\n{square(20, 20)}EMC\n"
    for size in range(len(SIZES)):
        content += f"/OC /G{size + 1} BDC\n{pieces(size, count)}EMC\n"
    names = " ".join(f"/G{k} {group} 0 R" for k, group in enumerate(groups))
    config = config.format(*[f"{group} 0 R" for group in groups])
    properties = f"/OCGs {refs(groups)} /D << /Order {refs(groups)} {config} >>"
    data = document(pdf, [(pdf.stream(content), f"{FONT} /Properties << {names} >>", media(*A0))], properties)
    truth = {"pages": [A0], "square": (corners(20, 20), 0), "loose": 0, "texts": count * len(SIZES),
             "layers": [("Common", -1, 0 not in off, 1)] +
                       [(name, -1, k + 1 not in off, count * PATHS_OF_PIECE) for k, name in enumerate(SIZES)]}
    return data, truth


def sheet_off():
    return sheet(3, "/OFF [{1} {2} {3} {12}]", {1, 2, 3, 12})


def sheet_base_off():
    return sheet(3, "/BaseState /OFF /ON [{0} {5}]", set(range(13)) - {0, 5})


def sheet_unchanged():
    return sheet(3, "/BaseState /Unchanged /OFF [{4}]", {4})


def nested():
    """Order with headings, groups below groups, a group that it does not name, and two of one name."""
    pdf = Pdf()
    a, b, c, d, e, f = [pdf.group(name) for name in ["Front", "Größe 36", "Größe 38", "Front", "Loose", "Back"]]
    content = "".join(f"/OC /{name} BDC {square(10, 10 + k)} EMC\n" * (k + 1) for k, name in enumerate("abcdef"))
    names = " ".join(f"/{name} {group} 0 R" for name, group in zip("abcdef", (a, b, c, d, e, f)))
    order = f"[{a} 0 R [{b} 0 R {c} 0 R] [(Back sheets) {f} 0 R [{d} 0 R]]]"
    config = f"/Order {order} /Locked [{a} 0 R] /RBGroups [[{b} 0 R {c} 0 R]] /OFF [{c} 0 R]"
    data = document(pdf, [(pdf.stream(content), f"/Properties << {names} >>", media(200, 200))],
                    f"/OCGs {refs((e, a, b, c, d, f))} /D << {config} >>")
    layers = [("Front", -1, True, 1), ("Größe 36", 0, True, 2), ("Größe 38", 0, False, 3), ("Back sheets", -1, True, 0),
              ("Back", 3, True, 6), ("Front", 4, True, 4), ("Loose", -1, True, 5)]
    return data, {"pages": [(200, 200)], "layers": layers, "loose": 0, "locked": [0], "radio": [1, 2]}


# Membership dictionaries over A (on) and B (off): entries, what the layer is called, whether it is on (hand-worked).
MEMBERSHIPS = [
    ("/OCGs {a}", "A", True),
    ("/OCGs [{a}] /P /AllOn", "A", True),
    ("/OCGs [{b}]", "B", False),
    ("/OCGs [{a} {b}]", "A or B", True),
    ("/OCGs [{a} {b}] /P /AnyOn", "A or B", True),
    ("/OCGs [{a} {b}] /P /AllOn", "A and B", False),
    ("/OCGs [{a} {b}] /P /AnyOff", "not A or not B", True),
    ("/OCGs [{a} {b}] /P /AllOff", "not A and not B", False),
    ("/OCGs [{a} null {b}] /P /AllOn", "A and B", False),
    ("/OCGs [{a}] /VE [/Not {a}]", "not A", False),
    ("/VE [/And {a} [/Not {b}]]", "A and not B", True),
    ("/VE [/Or [/Not {a}] {b}]", "not A or B", False),
    ("/VE [/Not [/Or {a} {b}]]", "not (A or B)", False),
    ("/VE [/And [/Or {a} {b}] [/Not [/And {a} {b}]]]", "(A or B) and not (A and B)", True),
    ("/VE [/And [/And {a}]]", "A", True),
    ("/OCGs []", None, True),
    ("/OCGs [null]", None, True),
]


def memberships():
    pdf = Pdf()
    a, b = pdf.group("A"), pdf.group("B")
    where = {"a": f"{a} 0 R", "b": f"{b} 0 R"}
    content, names, paths, states = "", "", {"A": 0, "B": 0}, {"A": True, "B": False}
    for k, (entries, name, on) in enumerate(MEMBERSHIPS):
        number = pdf.add(f"<< /Type /OCMD {entries.format(**where)} >>")
        names += f"/M{k} {number} 0 R "
        content += f"/OC /M{k} BDC\n" + square(10, 10 + k) * (k + 1) + "EMC\n"
        paths[name] = paths.get(name, 0) + k + 1
        states.setdefault(name, on)
    data = document(pdf, [(pdf.stream(content), f"/Properties << {names} >>", media(200, 200))],
                    f"/OCGs {refs((a, b))} /D << /Order {refs((a, b))} /OFF [{b} 0 R] >>")
    layers = [(name, -1, states[name], count) for name, count in paths.items() if name]
    return data, {"pages": [(200, 200)], "layers": layers, "loose": paths[None]}


def within():
    """Layers within layers, marked content that is no layer, marks across text, marks left open and closed too often."""
    pdf = Pdf()
    a, b, c = pdf.group("A"), pdf.group("B"), pdf.group("C")
    content = f"EMC EMC {square(1, 1)}" \
              f"/OC /a BDC {square(2, 2)} /Span << /MCID 1 >> BDC {square(3, 3)} EMC /Art BMC {square(4, 4)} EMC\n" \
              f"/OC /b BDC {square(5, 5)} EMC /OC /c BDC {square(6, 6)} EMC {square(7, 7)} EMC {square(8, 8)}\n" \
              f"BT /F 10 Tf 10 10 Td (none) Tj /OC /a BDC 0 20 Td (on A) Tj EMC 0 20 Td (none again) Tj ET\n" \
              f"/OC /missing BDC {square(9, 9)} EMC /OC << /Type /OCG /Name (In place) >> BDC {square(10, 10)}"
    names = f"/a {a} 0 R /b {b} 0 R /c {c} 0 R"
    data = document(pdf, [(pdf.stream(content), f"{FONT} /Properties << {names} >>", media(200, 200))],
                    f"/OCGs {refs((a, b, c))} /D << /Order [{a} 0 R [{b} 0 R] {c} 0 R] /OFF [{c} 0 R] >>")
    layers = [("A", -1, True, 4), ("B", 0, True, 1), ("C", -1, False, 0), ("A and C", -1, False, 1),
              ("In place", -1, True, 1)]
    return data, {"pages": [(200, 200)], "layers": layers, "loose": 3,
                  "words": [("none", -1), ("on A", 0), ("none again", -1)]}


def forms():
    """Layers on forms and on an image; a form within a form, one that names itself, one that leaves a mark open."""
    pdf = Pdf()
    a, b, c = pdf.group("A"), pdf.group("B"), pdf.group("C")
    box = "/Type /XObject /Subtype /Form /BBox [0 0 600 600]"
    inner = pdf.stream(square(1, 1), f"{box} /OC {b} 0 R /Matrix [1 0 0 1 {10 * MM:.6f} 0]")
    outer = pdf.stream(square(2, 2) + "/I Do\n" + square(3, 3),
                       f"{box} /OC {a} 0 R /Resources << /XObject << /I {inner} 0 R >> >>")
    open_mark = pdf.stream(f"/OC /a BDC {square(4, 4)}", f"{box} /Resources << /Properties << /a {a} 0 R >> >>")
    itself = len(pdf.objects) + 1
    pdf.stream(square(5, 5) + "/S Do\n", f"{box} /Resources << /XObject << /S {itself} 0 R >> >>")
    image = pdf.stream(bytes(range(16)), f"/Type /XObject /Subtype /Image /Width 4 /Height 4 /ColorSpace /DeviceGray "
                                         f"/BitsPerComponent 8 /OC {c} 0 R")
    content = f"/I Do /O Do /O Do /M Do {square(6, 6)} /S Do q 30 0 0 30 100 100 cm /P Do Q {square(7, 7)}"
    objects = f"/I {inner} 0 R /O {outer} 0 R /M {open_mark} 0 R /S {itself} 0 R /P {image} 0 R"
    data = document(pdf, [(pdf.stream(content), f"/XObject << {objects} >>", media(200, 200))],
                    f"/OCGs {refs((a, b, c))} /D << /Order [{a} 0 R [{b} 0 R] {c} 0 R] >>")
    layers = [("A", -1, True, 5), ("B", 0, True, 3), ("C", -1, True, 0)]
    return data, {"pages": [(200, 200)], "layers": layers, "loose": 3, "images": [("C", 1, 1)],
                  "square": (corners(11, 1), 1)}


def units():
    """UserUnit 2: the same numbers, twice as large."""
    pdf = Pdf()
    content = pdf.stream(square(10, 10, 50) + "2 w [4 2] 0 d " + square(30, 30))
    data = document(pdf, [(content, "", f"{media(200, 100)} /UserUnit 2")])
    return data, {"pages": [(400, 200)], "layers": [], "loose": 2, "square": (corners(20, 20), -1),
                  "widths": [2 / MM, 4 / MM], "dashes": [[], [8 / MM, 4 / MM]]}


def turned():
    """Rotate, inherited and by odd numbers: where a square whose corners are known on the paper comes to lie (hand-worked)."""
    pdf, pages, sizes = Pdf(), [], []
    for turn in (0, 90, 180, 270, -90, 450):
        pages.append((pdf.stream(square(20, 30)), "", f"{media(300, 200)} /Rotate {turn}"))
        sizes.append((300, 200) if turn % 180 == 0 else (200, 300))
    places = [(20, 30), (30, 180), (180, 70), (70, 20), (70, 20), (30, 180)]
    return document(pdf, pages), {"pages": sizes, "layers": [], "loose": 6, "lower_left": places}


def boxes():
    """Boxes: away from zero, corners swapped, cropped, cropped beyond the paper, without area, none at all."""
    def box(name, x0, y0, x1, y1):
        return f"/{name} [{x0 * MM:.6f} {y0 * MM:.6f} {x1 * MM:.6f} {y1 * MM:.6f}]"
    rows = [
        (box("MediaBox", -50, -100, 250, 200), (300, 300), (60, 110)),
        (box("MediaBox", 250, 200, -50, -100), (300, 300), (60, 110)),
        (box("MediaBox", 0, 0, 300, 300) + box("CropBox", 5, 7, 200, 250), (195, 243), (5, 3)),
        (box("MediaBox", 0, 0, 300, 300) + box("CropBox", -10, -10, 200, 400), (200, 300), (10, 10)),
        (box("MediaBox", 0, 0, 300, 300) + box("CropBox", 50, 50, 50, 90), (300, 300), (10, 10)),
        (box("MediaBox", 0, 0, 300, 300) + box("CropBox", 400, 400, 500, 500), (300, 300), (10, 10)),
        (box("MediaBox", 0, 0, 0, 0), (215.9, 279.4), (10, 10)),
        ("", (215.9, 279.4), (10, 10)),
        (box("MediaBox", 0, 0, 300, 300) + box("CropBox", 5, 7, 200, 250) + "/Rotate 90 /UserUnit 2", (486, 390), (6, 180)),
    ]
    pdf = Pdf()
    data = document(pdf, [(pdf.stream(square(10, 10)), "", entries) for entries, _, _ in rows])
    return data, {"pages": [size for _, size, _ in rows], "layers": [], "loose": len(rows),
                  "lower_left": [place for _, _, place in rows]}


def painted():
    """Each way to paint a path, once; with a pattern, with a run of colours, through a clip, under a mask."""
    pdf = Pdf()
    box = "20 20 100 100 re"
    ways = ["S", "s", "f", "F", "f*", "B", "B*", "b", "b*"]
    tile = pdf.stream("0 0 3 3 re f 1 1 m 4 4 l S", "/Type /Pattern /PatternType 1 /PaintType 1 /TilingType 1 /BBox [0 0 5 5] "
                      "/XStep 5 /YStep 5 /Resources << >>")
    shade = pdf.add("<< /ShadingType 2 /ColorSpace /DeviceRGB /Coords [0 0 200 0] /Function << /FunctionType 2 /N 1 "
                    "/Domain [0 1] /C0 [1 0 0] /C1 [0 0 1] >> >>")
    mask = pdf.stream("0 0 50 50 re f", "/Type /XObject /Subtype /Form /BBox [0 0 600 600] "
                      "/Group << /S /Transparency /CS /DeviceGray >>")
    content = "1 0 0 rg 0 0 1 RG 3 w\n" + "".join(f"{box} {way}\n" for way in ways)
    content += f"q /Pattern cs /T scn {box} f Q q /Pattern cs /H scn {box} f* Q q {box} W n /S sh Q\n"
    content += f"q {box} W n 30 30 10 10 re f Q {box} n q /M gs {box} f Q 5 5 m S 6 6 m h S\n"
    resources = f"/Pattern << /T {tile} 0 R /H << /PatternType 2 /Shading {shade} 0 R >> >> /Shading << /S {shade} 0 R >> " \
                f"/ExtGState << /M << /SMask << /S /Luminosity /G {mask} 0 R >> >> >>"
    data = document(pdf, [(pdf.stream(content), resources, media(200, 200))])
    red, blue, grey = 0xFF0000, 0x0000FF, 0x808080
    looks = [(1, blue), (1, blue), (2, red), (2, red), (6, red), (3, blue), (7, blue), (3, blue), (7, blue),
             (10, grey), (14, grey), (10, grey), (2, red), (2, red)]
    return data, {"pages": [(200, 200)], "layers": [], "looks": looks}


def lettering():
    """Text that is placed, turned and scaled; a word in two pieces; a gap; one font written in the file's own operators."""
    pdf = Pdf()
    glyph = pdf.stream("1000 0 0 0 750 750 d1 0 0 750 750 re f")
    drawn = pdf.add(f"<< /Type /Font /Subtype /Type3 /FontBBox [0 0 750 750] /FontMatrix [0.001 0 0 0.001 0 0] "
                    f"/CharProcs << /a {glyph} 0 R >> /Encoding << /Type /Encoding /Differences [97 /a] >> "
                    f"/FirstChar 97 /LastChar 97 /Widths [1000] /Resources << >> >>")
    content = f"BT /F 20 Tf {30 * MM:.6f} {40 * MM:.6f} Td (Cut 2) Tj ET\n" \
              f"BT /F 10 Tf 0 2 -2 0 {60 * MM:.6f} {70 * MM:.6f} Tm (Gr\\374n) Tj ET\n" \
              f"BT /F 10 Tf {10 * MM:.6f} {90 * MM:.6f} Td [(Wa) 20 (ist)] TJ 200 0 Td (far) Tj ET\n" \
              f"BT /T 10 Tf {10 * MM:.6f} {120 * MM:.6f} Td (aa) Tj ET\n" \
              f"BT 3 Tr /F 10 Tf {10 * MM:.6f} {130 * MM:.6f} Td (unseen) Tj ET\n"
    fonts = FONT.replace(">> >>", f">> /T {drawn} 0 R >>")
    data = document(pdf, [(pdf.stream(content), fonts, media(200, 200))])
    runs = [("Cut 2", 30, 40, 1, 0, 20 / MM), ("Grün", 60, 70, 0, 1, 20 / MM), ("Waist", 10, 90, 1, 0, 10 / MM),
            ("far", 10 + 200 / MM, 90, 1, 0, 10 / MM), ("aa", 10, 120, 1, 0, 10 / MM), ("unseen", 10, 130, 1, 0, 10 / MM)]
    return data, {"pages": [(200, 200)], "layers": [], "loose": 0, "runs": runs, "parts_of": {"aa": 2}}


def scan():
    """A page that is an image alone, one that is a mask alone, and one with a drawing over the image."""
    pdf = Pdf()
    grey = pdf.stream(bytes([0, 50, 100, 150, 200, 250]), "/Type /XObject /Subtype /Image /Width 3 /Height 2 "
                      "/ColorSpace /DeviceGray /BitsPerComponent 8")
    mask = pdf.stream(bytes([0b01100000, 0b11100000]), "/Type /XObject /Subtype /Image /Width 3 /Height 2 /ImageMask true")
    place = f"q {150 * MM:.6f} 0 0 {100 * MM:.6f} {10 * MM:.6f} {20 * MM:.6f} cm /P Do Q\n"
    pages = [(pdf.stream(place), f"/XObject << /P {grey} 0 R >>", media(200, 200)),
             (pdf.stream(place), f"/XObject << /P {mask} 0 R >>", media(200, 200)),
             (pdf.stream(place + square(1, 1)), f"/XObject << /P {grey} 0 R >>", media(200, 200))]
    at = [150, 0, 0, 100, 10, 20]
    return document(pdf, pages), {"pages": [(200, 200)] * 3, "layers": [], "loose": 3, "scans": [(1, 1), (2, 1)],
                                  "pictures": [((1, 1), at, 128, 128)] * 3}


def clipped():
    """Lines seen through windows: within each other, turned, round, of several, of the whole page, of a form's box, of letters,
    under a mask. The lines themselves come whole (the boxes: hand-worked)."""
    def window(x, y, wide, high):
        return f"{x * MM:.6f} {y * MM:.6f} {wide * MM:.6f} {high * MM:.6f} re"

    def around(x, y, r):
        k = 0.5522847498 * r  # a quarter of a circle
        pts = [(x + r, y), (x + r, y + k), (x + k, y + r), (x, y + r), (x - k, y + r), (x - r, y + k), (x - r, y),
               (x - r, y - k), (x - k, y - r), (x, y - r), (x + k, y - r), (x + r, y - k), (x + r, y)]
        at = [f"{px * MM:.6f} {py * MM:.6f}" for px, py in pts]
        return f"{at[0]} m {' '.join(at[1:4])} c {' '.join(at[4:7])} c {' '.join(at[7:10])} c {' '.join(at[10:13])} c h"

    pdf, line = Pdf(), square(20, 20)
    form = pdf.stream(line, f"/Type /XObject /Subtype /Form /BBox [0 0 {50 * MM:.6f} {60 * MM:.6f}] /Matrix [1 0 0 1 {5 * MM:.6f} 0]")
    mask = pdf.stream("0 0 50 50 re f", "/Type /XObject /Subtype /Form /BBox [0 0 600 600] "
                      "/Group << /S /Transparency /CS /DeviceGray >>")
    content = line + f"q {window(10, 20, 30, 40)} W n {line} q {window(20, 0, 100, 30)} W* n {line} Q {line} Q {line}" \
        f"q {window(0, 0, 200, 200)} W n {line} Q q {window(-9, -9, 999, 999)} W n {line} Q\n" \
        f"q {window(10, 20, 30, 40)} W n q {window(60, 70, 5, 5)} W n {line} Q Q\n" \
        f"q {around(100, 90, 40)} W n {line} Q q {window(10, 10, 20, 20)} {window(50, 60, 10, 10)} W n {line} Q\n" \
        f"q 0 1 -1 0 {100 * MM:.6f} 0 cm {window(10, 20, 30, 40)} W n {line} Q\n" \
        f"q 0.6 0.8 -0.8 0.6 {100 * MM:.6f} 0 cm {window(0, 0, 50, 50)} W n {line} Q\n" \
        f"/F Do q /M gs {line} Q q {window(10, 20, 30, 40)} W S {line} Q q W n {line} Q {line}"
    resources = f"/XObject << /F {form} 0 R >> /ExtGState << /M << /SMask << /S /Luminosity /G {mask} 0 R >> >> >>"
    data = document(pdf, [(pdf.stream(content), resources, media(200, 200))])
    one, far = [10, 20, 40, 60, 0], 1e7
    # the form's matrix moves its box and its line by 5 mm; by 3-4-5 a square of 50 turned: 100 - 40 to 100 + 30, 0 to 70
    clips = [None, one, [20, 20, 40, 30, 0], one, None, None, None, [60, 70, 60, 70, 0], [60, 50, 140, 130, 1],
             [10, 10, 60, 70, 1], [40, 10, 80, 40, 0], [60, 0, 130, 70, 1], [5, 0, 55, 60, 0], [-far, -far, far, far, 1],
             None, one, [far] * 4 + [0], None]  # through no path at all nothing is seen
    return data, {"pages": [(200, 200)], "layers": [], "clips": clips}


def labelled():
    """Page labels: each way to number (ISO 32000-2, table 159), by a tree of two nodes, one of which comes again and one that is
    its own kid; a prefix in UTF-16; a first page before any; too large for letters."""
    pdf = Pdf()
    low = pdf.add("<< /Limits [1 6] /Nums [1 << /S /D >> 3 << /S /R /P (A-) /St 4 >> 6 << /S /r /St 1998 >>] >>")
    high = pdf.add(f"<< /Limits [8 17] /Nums [8 << /S /A >> 10 << /S /a /St 26 >> 12 << /P {text('Größe ')} >> "
                   "13 << /S /D /P (p. ) /St -3 >> 14 << >> 15 << /S /A /St 2000000000 >> 16 << /S /X /P (?) >> 17 7] >>")
    itself = len(pdf.objects) + 1
    pdf.add(f"<< /Kids [{low} 0 R {itself} 0 R {high} 0 R] >>")
    content = pdf.stream(square(10, 10))
    data = document(pdf, [(content, "", media(200, 200))] * 18, catalog=f"/PageLabels {itself} 0 R")
    labels = ["", "1", "2", "A-IV", "A-V", "A-VI", "mcmxcviii", "mcmxcix", "A", "B", "z", "aa", "Größe ", "p. 1", "",
              "2000000000", "?", "?"]
    return data, {"pages": [(200, 200)] * 18, "layers": [], "loose": 18, "labels": labels}


def annotated():
    """Appearances on pages (ISO 32000-2, 12.5.5): each fits its rectangle, by its own matrix, on a layer, in one of two states;
    hidden ones, links and what is a mark alone are not drawn; over a scan, which stays one. The squares: hand-worked."""
    def rect(x, y, wide, high):
        return f"[{x * MM:.6f} {y * MM:.6f} {(x + wide) * MM:.6f} {(y + high) * MM:.6f}]"

    def appearance(pdf, entries="", side=100):
        """Two squares of so many mm, one above the other and `side` apart, in a box that is as wide and twice as high."""
        return pdf.stream(square(0, 0, side) + square(0, side, side),
                          f"/Type /XObject /Subtype /Form /BBox {rect(0, 0, side, 2 * side)} {entries}")

    pdf = Pdf()
    a, b = pdf.group("A"), pdf.group("B")
    plain, turned_one = appearance(pdf), appearance(pdf, "/Matrix [0 1 -1 0 300 7]")
    on_b = appearance(pdf, f"/OC {b} 0 R")
    notes = [
        f"/Subtype /Stamp /Rect {rect(10, 20, 50, 100)} /AP << /N {plain} 0 R >>",  # half as large: squares of 50
        f"/Subtype /Square /Rect {rect(70, 20, 20, 10)} /AP << /N {turned_one} 0 R >> /OC {a} 0 R",  # lying: squares of 10
        f"/Subtype /FreeText /Rect {rect(100, 20, 10, 10)} /AP << /N {on_b} 0 R >>",  # flat: 10 by 5
        f"/Subtype /Widget /Rect {rect(10, 130, 5, 10)} /AP << /N << /Off {plain} 0 R /On {plain} 0 R >> >> /AS /On",
        f"/Subtype /Widget /Rect {rect(10, 150, 5, 10)} /AP << /N << /Off {plain} 0 R >> >> /AS /On",  # no such state: told
        f"/Subtype /Ink /Rect {rect(10, 170, 5, 10)} /F 2 /AP << /N {plain} 0 R >>",
        f"/Subtype /Ink /Rect {rect(10, 170, 5, 10)} /F 32 /AP << /N {plain} 0 R >>",
        f"/Subtype /Line /Rect {rect(10, 170, 0, 10)} /AP << /N {plain} 0 R >>",  # no area: told
        f"/Subtype /Link /Rect {rect(10, 170, 5, 10)} /AP << /N {plain} 0 R >>",
        f"/Subtype /Text /Rect {rect(10, 170, 5, 10)} /AP << /N {plain} 0 R >>",  # a mark: told
        f"/Subtype /Highlight /Rect {rect(10, 170, 5, 10)}",  # no appearance: told
    ]
    grey = pdf.stream(bytes([0, 50, 100, 150, 200, 250]), "/Type /XObject /Subtype /Image /Width 3 /Height 2 "
                      "/ColorSpace /DeviceGray /BitsPerComponent 8")
    place = f"q {150 * MM:.6f} 0 0 {100 * MM:.6f} {10 * MM:.6f} {20 * MM:.6f} cm /P Do Q\n"
    on_scan = f"/Subtype /Stamp /Rect {rect(1, 2, 3, 6)} /AP << /N {plain} 0 R >>"
    # the first page leaves its state open
    pages = [(pdf.stream(f"q 2 0 0 2 0 0 cm /OC /a BDC {square(0, 0, 50)}"), f"/Properties << /a {a} 0 R >>",
              f"{media(200, 200)} /Annots [{' '.join('<< /Type /Annot ' + note + ' >>' for note in notes)}]"),
             (pdf.stream(place), f"/XObject << /P {grey} 0 R >>", f"{media(200, 200)} /Annots [<< {on_scan} >>]")]
    data = document(pdf, pages, f"/OCGs {refs((a, b))} /D << /OFF [{b} 0 R] >>")
    boxes = [(0, 0, 100, 100), (10, 20, 60, 70), (10, 70, 60, 120), (80, 20, 90, 30), (70, 20, 80, 30), (100, 20, 110, 25),
             (100, 25, 110, 30), (10, 130, 15, 135), (10, 135, 15, 140), None, (1, 2, 4, 5), (1, 5, 4, 8)]
    return data, {"pages": [(200, 200)] * 2, "layers": [("A", -1, True, 3), ("B", -1, False, 2)], "loose": 7, "boxes": boxes,
                  "scans": [(2, 1)], "pictures": [((1, 1), [150, 0, 0, 100, 10, 20], 128, 128)], "left_out": 4}


def many_pages():
    """Three thousand pages in one list: each is found without counting from the first."""
    pdf = Pdf()
    content = pdf.stream(square(10, 10))
    return document(pdf, [(content, "", media(210, 297))] * 3000), {"pages": [(210, 297)] * 3000, "layers": [], "loose": 3000}


def bomb():
    """Ten forms, each drawing the next ten times: ten to the tenth squares if nobody stops."""
    pdf = Pdf()
    first = len(pdf.objects) + 1
    for k in range(10):
        own = f"/Resources << /XObject << /N {first + k + 1} 0 R >> >>"
        pdf.stream("/N Do " * 10, f"/Type /XObject /Subtype /Form /BBox [0 0 9 9] {own}")
    pdf.stream(square(1, 1), "/Type /XObject /Subtype /Form /BBox [0 0 9 9]")
    return document(pdf, [(pdf.stream("/N Do"), f"/XObject << /N {first} 0 R >>", media(200, 200))]), {"bounded": True}


def order_of_itself():
    """An Order that holds itself, twice; conditions of conditions; names of every length."""
    pdf = Pdf()
    a = pdf.group("A" * 3000)
    order = pdf.add("")
    pdf.set(order, f"[{a} 0 R {order} 0 R {order} 0 R]")
    ve = pdf.add("")
    pdf.set(ve, f"[/And {a} 0 R {ve} 0 R {ve} 0 R]")
    names = f"/m << /Type /OCMD /VE {ve} 0 R >>"
    data = document(pdf, [(pdf.stream(f"/OC /m BDC {square(1, 1)} EMC"), f"/Properties << {names} >>", media(200, 200))],
                    f"/OCGs [{a} 0 R] /D << /Order {order} 0 R >>")
    return data, {"bounded": True}


def without_table():
    """A sheet whose table of objects is gone, as after a broken download."""
    data, truth = sheet(3)
    truth["mended"] = True
    return data[:data.index(b"\nxref\n")] + b"\n", truth


def large_numbers():
    """Coordinates that no sheet has: the page is read all the same."""
    pdf = Pdf()
    content = pdf.stream(f"-1e30 -1e30 m 1e30 0 l 5 1e38 l h S {square(1, 1)} 1e20 0 0 1e20 0 0 cm 1e30 0 m 1 1 l S")
    return document(pdf, [(content, "", media(200, 200))]), {"bounded": True, "pages": [(200, 200)],
                                                             "square": (corners(1, 1), -1)}


MAKERS = [sheet, sheet_off, sheet_base_off, sheet_unchanged, nested, memberships, within, forms, units, turned, boxes,
          painted, lettering, scan, clipped, labelled, annotated, many_pages, bomb, order_of_itself, without_table, large_numbers]
