"""A drawn sheet as a PDF, in the ways of several producers: see pattern_sheets.py for what a spec says."""
import math
import os
import sys

import curves
import letters
import tiles

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "sheet_reader"))
import pdf_generate as pdfs  # noqa: E402

MM = pdfs.MM
FONT = pdfs.FONT


def name(k):
    return f"/L{k}"


class Writer:
    """The operators of items. `across`: from mm of the sheet to mm of the page, (ax, ay, shift): page = a * sheet - shift."""

    def __init__(self, spec, across, unit, height):
        self.spec, self.across, self.unit, self.height = spec, across, unit, height
        self.mode, self.digits = spec["cm"], spec["digits"]

    def number(self, value):
        out = f"{value:.{self.digits}f}"
        return out.rstrip("0").rstrip(".") if "." in out else out

    def to_page(self, p):
        ax, ay, (sx, sy) = self.across
        return (ax * p[0] - sx) * self.unit, (ay * p[1] - sy) * self.unit

    def point(self, p, origin=(0, 0)):
        if self.mode == "pt":
            p = self.to_page(p)
        elif self.mode == "flip":
            p = (p[0], self.height - p[1])
        elif self.mode == "local":
            p = (p[0] - origin[0], p[1] - origin[1])
        return f"{self.number(p[0])} {self.number(p[1])}"

    def matrix(self, origin=(0, 0)):
        """What stands before drawing that is not in points already."""
        ax, ay, (sx, sy) = self.across
        ax, ay, sx, sy = ax * self.unit, ay * self.unit, sx * self.unit, sy * self.unit
        if self.mode == "pt":
            return ""
        if self.mode == "flip":
            return f"{ax:.8f} 0 0 {-ay:.8f} {-sx:.6f} {ay * self.height - sy:.6f} cm\n"
        return f"{ax:.8f} 0 0 {ay:.8f} {ax * origin[0] - sx:.6f} {ay * origin[1] - sy:.6f} cm\n"

    def length(self, value):
        return f"{value * self.unit * self.across[0]:.4f}" if self.mode == "pt" else f"{value:.4f}"

    def items(self, items, marked):
        """All of them, in marked content where `marked` says so."""
        out, open_layer, look = [], None, None
        if self.mode in ("mm", "flip"):
            out.append("q\n" + self.matrix())
        for item in items:
            layer = item["layer"] if marked else None
            if layer != open_layer:
                if open_layer is not None:
                    out.append("EMC\n")
                if layer is not None:
                    out.append(f"/OC {name(layer)} BDC\n")
                open_layer = layer
            if "text" in item:
                out.append(self.text(item))
                look = None
                continue
            now = self.look(item)
            if self.mode == "local":
                origin = item["subs"][0][0][0][0]
                out.append("q " + self.matrix(origin) + now + self.path(item, origin) + "Q\n")
                continue
            if now != look:
                out.append(now)
                look = now
            out.append(self.path(item))
        if open_layer is not None:
            out.append("EMC\n")
        if self.mode in ("mm", "flip"):
            out.append("Q\n")
        return "".join(out)

    def look(self, item):
        rgb = item.get("fill", item.get("rgb"))
        three = " ".join(f"{(rgb >> s & 255) / 255:.3g}" for s in (16, 8, 0))
        if "fill" in item:
            return f"{three} rg\n"
        dash = " ".join(self.length(value) for value in item["dash"])
        return f"{self.length(item['width'])} w [{dash}] 0 d {three} RG\n"

    def path(self, item, origin=(0, 0)):
        out = []
        for edges, closed in item["subs"]:
            out.append(f"{self.point(edges[0][0], origin)} m\n")
            last = edges[-1] if not (closed and len(edges[-1]) == 2) else None
            for edge in edges:
                if edge is edges[-1] and last is None:
                    break  # the closing line
                ends = " ".join(self.point(p, origin) for p in edge[1:])
                out.append(f"{ends} {'l' if len(edge) == 2 else 'c'}\n")
            if closed:
                out.append("h\n")
        return "".join(out) + ("f\n" if "fill" in item else "S\n")

    def text(self, item):
        mode = self.spec["text"]
        if mode == "outlines":
            return "".join(self.filled(one) for one in letters.outlines(item))
        parts, x = [], 0
        pieces = {"line": [item["text"]], "words": item["text"].split(" "), "letters": list(item["text"])}[mode]
        for part in pieces:
            if part.strip():
                parts.append((x, part))
            x += letters.width(part + (" " if mode == "words" else ""), item["size"])
        return "".join(self.run(item, along, part) for along, part in parts)

    def filled(self, item):
        if self.mode == "local":
            origin = item["subs"][0][0][0][0]
            return "q " + self.matrix(origin) + self.look(item) + self.path(item, origin) + "Q\n"
        return self.look(item) + self.path(item)

    def run(self, item, along, words):
        c, s = math.cos(math.radians(item["turn"])), math.sin(math.radians(item["turn"]))
        at = (item["at"][0] + c * along, item["at"][1] + s * along)
        size, up = item["size"], 1
        before, after = "", ""
        if self.mode == "pt":
            size *= self.unit * self.across[0]
        elif self.mode == "flip":
            up = -1
        elif self.mode == "local":
            before, after = "q " + self.matrix(), "Q\n"
        where = self.point(at) if self.mode != "local" else f"{at[0]:.4f} {at[1]:.4f}"
        rgb = item["rgb"]
        three = " ".join(f"{(rgb >> k & 255) / 255:.3g}" for k in (16, 8, 0))
        coded = words.encode("cp1252").replace(b"\\", b"\\\\").replace(b"(", b"\\(").replace(b")", b"\\)").decode("latin-1")
        turn = f"{c:.6f} {up * s:.6f} {-s:.6f} {up * c:.6f}" if up > 0 else f"{c:.6f} {-s:.6f} {-s:.6f} {-c:.6f}"
        return f"{before}BT /F {size:.4f} Tf {three} rg {turn} {where} Tm ({coded}) Tj ET\n{after}"


def box(item):
    if "text" in item:
        wide = letters.width(item["text"], item["size"]) + item["size"]
        x, y = item["at"]
        return x - wide, y - wide, x + wide, y + wide
    points = [p for edges, _ in item["subs"] for edge in edges for p in edge]
    return min(p[0] for p in points), min(p[1] for p in points), max(p[0] for p in points), max(p[1] for p in points)


def touches(one, window):
    return one[0] <= window[2] and one[2] >= window[0] and one[1] <= window[3] and one[3] >= window[1]


def groups(pdf, spec, layers):
    """Objects that the layers' names in the content stand for, and /OCProperties."""
    how = spec["layers"]
    if how == "none":
        return [], ""
    names = [layer for layer, _ in layers]
    made = [pdf.group(one) for one in names]
    order, off, extra = pdfs.refs(made), "", []
    if how == "nested":
        heads = [pdf.group("Pattern"), pdf.group("Sizes")]
        extra = heads
        order = f"[{heads[0]} 0 R {pdfs.refs(made[:2])} {heads[1]} 0 R {pdfs.refs(made[2:])}]"
    if how == "off":
        off = f"/OFF {pdfs.refs(made[2:])}"
    properties = f"/OCGs {pdfs.refs(made + extra)} /D << /Order {order} {off} >>"
    if how == "membership":
        sizes = made[2:]
        made = [pdf.add(f"<< /Type /OCMD /OCGs {pdfs.refs(sizes)} /P /AnyOn >>"), made[1]] + [
            pdf.add(f"<< /Type /OCMD /OCGs [{one} 0 R] /P /AllOn >>") if k % 2 else
            pdf.add(f"<< /Type /OCMD /VE [/And {one} 0 R] >>") for k, one in enumerate(sizes)]
    return made, properties


def layer_truth(spec, sheet, shown):
    """As the reader is to name them; the Common layer of the membership variant is "34 or 36 or …"."""
    if spec["layers"] == "none":
        return []
    sizes = [layer for layer, role in sheet.layers if role == "size"]
    out = []
    for k, (layer, role) in enumerate(sheet.layers):
        if spec["layers"] == "membership" and k == 0:
            layer = " or ".join(sizes)
        above = {"nested": "Sizes" if role == "size" else "Pattern"}.get(spec["layers"])
        out.append(dict(name=layer, role=role, size=sheet.sizes[k - 2] if role == "size" else None, parent=above,
                        on=not (spec["layers"] == "off" and role == "size"), paths=shown[k]))
    return out


def one_page(spec, paper, scale):
    size = (paper[0] * scale[0], paper[1] * scale[1])
    return [dict(size=size, column=0, row=0, number=1, of=1, shift=(0, 0), window=None)], 1, 1, []


def write(sheet):
    """(bytes, truth)"""
    spec, paper, scale = sheet.spec, sheet.paper, sheet.spec["scale"]
    pages, columns, rows, missing = (tiles.pages if spec["tiles"] else one_page)(spec, paper, scale)
    pdf = pdfs.Pdf()
    made, properties = groups(pdf, spec, sheet.layers)
    resources = FONT
    if made:
        resources += " /Properties << " + " ".join(f"{name(k)} {one} 0 R" for k, one in enumerate(made)) + " >>"
    boxes = [box(item) for item in sheet.items]
    shown = [0] * len(sheet.layers)
    whole = whole_form(pdf, sheet, resources) if spec["tiles"] and spec["tiles"]["kind"] == "whole" else None
    out, page_truth = [], []
    unit = MM / spec["user_unit"]
    for index, page in enumerate(pages):
        across = (*scale, page["shift"])
        writer = Writer(spec, across, unit, paper[1])
        inside = sheet.items
        if page["window"]:
            x0, y0, x1, y1 = page["window"]
            sx, sy = page["shift"]
            window = ((x0 + sx) / scale[0], (y0 + sy) / scale[1], (x1 + sx) / scale[0], (y1 + sy) / scale[1])
            inside = [item for item, one in zip(sheet.items, boxes) if touches(one, window)]
        content, own = page_content(pdf, spec, writer, page, inside, made, resources, whole)
        for item in (sheet.items if whole else inside):
            count_paths(item, shown, spec)
        entries = page_entries(spec, page)
        out.append((pdf.stream(content, packed=spec["packed"]), own, entries))
        page_truth.append(tell_page(spec, index, page, scale, not inside))
    data = pdfs.document(pdf, out, properties)
    truth = sheet.truth()
    truth.update(layers=layer_truth(spec, sheet, shown), scale=list(scale), columns=columns, rows=rows, missing=missing,
                 pages=page_truth, style=style_truth(spec, sheet))
    return data, truth


def count_paths(item, shown, spec):
    if "subs" in item:
        shown[item["layer"]] += 1
    elif spec["text"] == "outlines":
        shown[item["layer"]] += len(letters.outlines(item))


def style_truth(spec, sheet):
    looks = [sheet.look(k) for k in range(len(sheet.sizes))]
    return [dict(size=name, rgb=f"{look['rgb']:06x}", dash=look["dash"]) for name, look in zip(sheet.sizes, looks)]


def whole_form(pdf, sheet, resources):
    """The whole drawing as one form, in points of the sheet as saved."""
    spec, scale = sheet.spec, sheet.spec["scale"]
    content = Writer(spec, (*scale, (0, 0)), MM, sheet.paper[1]).items(sheet.items, spec["layers"] != "none")
    return pdf.stream(content, f"/Type /XObject /Subtype /Form /BBox [0 0 {sheet.paper[0] * scale[0] * MM:.4f} "
                               f"{sheet.paper[1] * scale[1] * MM:.4f}] /Resources << {resources} >>")


def page_content(pdf, spec, writer, page, inside, made, resources, whole):
    """(operators, resources)"""
    begin, end = "", ""
    if spec["turn"] == 90:  # turned on the paper, so that it is upright as shown
        begin, end = f"q 0 1 -1 0 {page['size'][1] * writer.unit:.6f} 0 cm\n", "Q\n"
    if spec["box"] != (0, 0):
        begin, end = f"q 1 0 0 1 {spec['box'][0] * writer.unit:.6f} {spec['box'][1] * writer.unit:.6f} cm\n", "Q\n"
    frame = ""
    if page["window"]:
        x0, y0, x1, y1 = (value * MM for value in page["window"])
        begin += f"q {x0:.4f} {y0:.4f} {x1 - x0:.4f} {y1 - y0:.4f} re W n\n"
        end = "Q\n" + end
        on_page = Writer({**spec, "cm": "pt"}, (1, 1, (0, 0)), MM, 0)
        frame = on_page.items(tiles.frame(page, spec["tiles"]), False)
    if whole:
        sx, sy = page["shift"]
        content = f"q 1 0 0 1 {-sx * MM:.4f} {-sy * MM:.4f} cm /Whole Do Q\n"
        return begin + content + end + frame, f"{FONT} /XObject << /Whole {whole} 0 R >>"
    if spec["layers"] == "forms":
        content, objects = "", ""
        for k, group in enumerate(made):
            mine = [item for item in inside if item["layer"] == k]
            form = pdf.stream(writer.items(mine, False), f"/Type /XObject /Subtype /Form /BBox [-9999 -9999 9999 9999] "
                                                         f"/OC {group} 0 R /Resources << {FONT} >>")
            content += f"{name(k)} Do\n"
            objects += f"{name(k)} {form} 0 R "
        return begin + content + end + frame, f"{FONT} /XObject << {objects} >>"
    return begin + writer.items(inside, spec["layers"] != "none") + end + frame, resources


def page_entries(spec, page):
    wide, high = (side * MM / spec["user_unit"] for side in page["size"])
    more = f"/UserUnit {spec['user_unit']}" if spec["user_unit"] != 1 else ""
    if spec["turn"] == 90:
        wide, high, more = high, wide, more + " /Rotate 90"
    x, y = (value * MM / spec["user_unit"] for value in spec["box"])
    if (x, y) == (0, 0):
        return f"/MediaBox [0 0 {wide:.6f} {high:.6f}] {more}"
    return f"/MediaBox [{x - 40:.6f} {y - 70:.6f} {x + wide + 30:.6f} {y + high + 20:.6f}] " \
           f"/CropBox [{x:.6f} {y:.6f} {x + wide:.6f} {y + high:.6f}] {more}"


def tell_page(spec, index, page, scale, empty):
    sx, sy = page["shift"]
    return dict(page=index, column=page["column"], row=page["row"], size_mm=list(page["size"]), shift_mm=[sx, sy], empty=empty,
                window=list(page["window"]) if page["window"] else None,
                to_sheet=[1 / scale[0], 0, 0, 1 / scale[1], sx / scale[0], sy / scale[1]])
