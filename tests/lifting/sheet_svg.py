"""A drawn sheet as an SVG drawing, in the ways of two producers: "title" (millimetres by the view box, groups with a title, lines
in presentation attributes) and "id" (96 units to the inch, groups with an id within one that shifts them, styles in classes)."""
from xml.sax.saxutils import escape

import letters
import sheet_pdf


class Writer:
    def __init__(self, sheet):
        self.sheet, self.spec = sheet, sheet.spec
        self.unit = 1 if self.spec["svg"] == "title" else 96 / 25.4
        self.shift = (0, 0) if self.spec["svg"] == "title" else (30, -12)  # of the groups within "id"

    def point(self, p):
        (ax, ay), (sx, sy) = self.spec["scale"], self.shift
        x, y = ax * p[0] * self.unit - sx, (self.sheet.paper[1] - p[1]) * ay * self.unit - sy
        return f"{x:.4f},{y:.4f}"

    def length(self, value):
        return f"{value * self.unit * self.spec['scale'][0]:.4f}"

    def look(self, item):
        if "fill" in item:
            return {"fill": f"#{item['fill']:06x}", "stroke": "none"}
        out = {"fill": "none", "stroke": f"#{item['rgb']:06x}", "stroke-width": self.length(item["width"])}
        if item["dash"]:
            out["stroke-dasharray"] = " ".join(self.length(value) for value in item["dash"])
        return out

    def attributes(self, item):
        look = self.look(item)
        if self.spec["svg"] == "title":
            return " ".join(f'{key}="{value}"' for key, value in look.items())
        return 'style="' + ";".join(f"{key}:{value}" for key, value in look.items()) + '"'

    def path(self, item):
        out = []
        for edges, closed in item["subs"]:
            out.append("M" + self.point(edges[0][0]))
            shown = edges[:-1] if closed and len(edges[-1]) == 2 else edges
            out += [("L" if len(edge) == 2 else "C") + " ".join(self.point(p) for p in edge[1:]) for edge in shown]
            if closed:
                out.append("z")
        return f'<path {self.attributes(item)} d="{" ".join(out)}"/>\n'

    def text(self, item):
        if self.spec["text"] == "outlines":
            return "".join(self.path(one) for one in letters.outlines(item))
        x, y = self.point(item["at"]).split(",")
        turn = f' transform="rotate({-item["turn"]:.4f} {x} {y})"' if item["turn"] else ""
        return f'<text x="{x}" y="{y}" font-family="Helvetica" font-size="{self.length(item["size"])}"{turn}>' \
               f'{escape(item["text"])}</text>\n'

    def group(self, k, name):
        inside = "".join(self.text(item) if "text" in item else self.path(item) for item in self.sheet.items if item["layer"] == k)
        if self.spec["svg"] == "title":
            return f"<g><title>{escape(name)}</title>\n{inside}</g>\n"
        return f'<g id="{escape(name)}">\n{inside}</g>\n'

    def whole(self):
        wide, high = (side * scale for side, scale in zip(self.sheet.paper, self.spec["scale"]))
        groups = "".join(self.group(k, name) for k, (name, _) in enumerate(self.sheet.layers))
        if self.spec["svg"] == "title":
            size = f'width="{wide:g}mm" height="{high:g}mm" viewBox="0 0 {wide:g} {high:g}"'
            body = groups
        else:
            size = f'width="{wide * self.unit:.6f}" height="{high * self.unit:.6f}"'
            body = f'<g transform="translate({self.shift[0]} {self.shift[1]})">\n{groups}</g>\n'
        return f'<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" {size}>\n{body}</svg>\n'


def write(sheet):
    """(bytes, truth)"""
    data = Writer(sheet).whole().encode()
    shown = [0] * len(sheet.layers)
    for item in sheet.items:
        sheet_pdf.count_paths(item, shown, sheet.spec)
    scale, paper = sheet.spec["scale"], sheet.paper
    page = dict(size=(paper[0] * scale[0], paper[1] * scale[1]), column=0, row=0, shift=(0, 0), window=None)
    truth = sheet.truth()
    truth.update(layers=sheet_pdf.layer_truth(sheet.spec, sheet, shown), scale=list(scale), columns=1, rows=1, missing=[],
                 pages=[sheet_pdf.tell_page(sheet.spec, 0, page, scale, False)], style=sheet_pdf.style_truth(sheet.spec, sheet))
    return data, truth
