"""Whether pikepdf, which reads the content of pages operator by operator and knows nothing of this reader, counts as many
painted paths on each layer: in the files of pdf_generate.py, in the sheets of lifting/pattern_sheets.py, and in the open data
when a folder is given.

    python3 pdf_reference.py PROGRAM [FOLDER]      PROGRAM: the built pdf_dump.c

It counts paths on pages, in forms and in appearances. Where several conditions apply at once, or one that is not a single group, the layer's
name is the reader's own; those are counted together as "several". Patterns, letters drawn by operators, and what is filled
with a pattern or a run of colours are not counted.
"""
import collections
import glob
import os
import sys
import tempfile

import pikepdf

import pdf_generate as generate
import pdf_reader as reader

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "lifting"))
import pattern_sheets  # noqa: E402

PAINT = {"S", "s", "f", "F", "f*", "B", "B*", "b", "b*"}
FILL = {"f", "F", "f*"}
START = {"m", "re"}
SEGMENT = {"l", "c", "v", "y", "h", "re"}
FORMS_DEEP = 24
CLIP_PATTERN, TRACED = 8, 32
HIDDEN, NO_VIEW = 2, 32
NOT_DRAWN = {"/Link", "/Popup", "/TrapNet", "/Text", "/FileAttachment", "/Sound", "/Movie", "/Screen", "/RichMedia", "/3D"}


FILL_COLOR = {"g", "rg", "k", "cs", "sc"}
SEVERAL = "several"


def single(condition):
    """The group that a membership dictionary or expression comes down to; None: no condition; SEVERAL."""
    if isinstance(condition, pikepdf.Array):
        if str(condition[0]) == "/Not":
            return SEVERAL
        parts = [single(part) for part in list(condition)[1:]]
    elif isinstance(condition, pikepdf.Dictionary) and condition.get("/Type") == "/OCMD":
        if "/VE" in condition:
            return single(condition["/VE"])
        groups = condition.get("/OCGs")
        parts = list(groups) if isinstance(groups, pikepdf.Array) else [groups]
        if str(condition.get("/P", "/AnyOn")) in ("/AnyOff", "/AllOff") and any(parts):
            return SEVERAL
    else:
        return condition if isinstance(condition, pikepdf.Dictionary) else None
    parts = [part for part in parts if isinstance(part, (pikepdf.Dictionary, str))]
    return None if not parts else parts[0] if len(parts) == 1 else SEVERAL


def parents_of(order, parent=None, found=None):
    """By object, the group above each group of an Order."""
    found, last = {} if found is None else found, parent
    for entry in order:
        if isinstance(entry, pikepdf.Array):
            parents_of(entry, last, found)
        elif isinstance(entry, pikepdf.Dictionary):
            last = entry.objgen
            found.setdefault(last, parent)
    return found


class Count:
    """Paths by layer, told by its object; marked content as a stack of conditions or None."""

    def __init__(self, parents):
        self.paths = collections.Counter()
        self.parents = parents

    def is_below(self, group, above):
        for _ in range(100):
            if group in (above, None):
                break
            group = self.parents.get(group)
        return group == above

    def layer_of(self, marks):
        """None, a group's name, or SEVERAL."""
        now = None
        for condition in marks:
            group = single(condition)
            if group is None:
                continue
            if group == SEVERAL or now == SEVERAL:
                return SEVERAL
            if now is not None and not self.is_below(group.objgen, now.objgen):
                return SEVERAL
            now = group
        return None if now is None else str(now.get("/Name", ""))

    def content(self, source, resources, marks, above):
        floor, has_points, has_segments, pattern, kept = len(marks), False, False, False, []
        for operands, operator in pikepdf.parse_content_stream(source):
            op = str(operator)
            if op in ("BDC", "BMC"):
                marks.append(self.group(operands, resources) if op == "BDC" else None)
            elif op == "EMC" and len(marks) > floor:
                marks.pop()
            elif op == "Do":
                self.form(operands, resources, marks, above)
            elif op in PAINT:
                if has_segments and not (pattern and op in FILL):
                    self.paths[self.layer_of(marks)] += 1
            elif op == "q":
                kept.append(pattern)
            elif op == "Q" and kept:
                pattern = kept.pop()
            elif op == "scn":
                pattern = bool(operands) and isinstance(operands[-1], pikepdf.Name)
            elif op in FILL_COLOR:
                pattern = False
            if op in START or op in SEGMENT:
                has_points = has_points or op in START
                has_segments = has_segments or (op in SEGMENT and has_points)
            if op in PAINT or op == "n":
                has_points = has_segments = False
        del marks[floor:]

    def group(self, operands, resources):
        if str(operands[0]) != "/OC" or len(operands) < 2:
            return None
        if isinstance(operands[1], pikepdf.Dictionary):
            return operands[1]
        return resources.get("/Properties", {}).get(str(operands[1]))

    def form(self, operands, resources, marks, above):
        form = resources.get("/XObject", {}).get(str(operands[0]))
        if not isinstance(form, pikepdf.Stream) or form.get("/Subtype") != "/Form" or form.objgen in above:
            return
        if len(above) >= FORMS_DEEP:
            return
        marks.append(form.get("/OC"))
        self.content(form, form.get("/Resources", resources), marks, above + [form.objgen])
        marks.pop()


    def appearances(self, page):
        for annot in page.obj.get("/Annots", []):
            form, rect = annot.get("/AP", {}).get("/N"), [float(v) for v in annot.get("/Rect", [0] * 4)]
            if isinstance(form, pikepdf.Dictionary) and not isinstance(form, pikepdf.Stream):
                form = form.get(str(annot.get("/AS", "")))
            if not isinstance(form, pikepdf.Stream) or str(annot.get("/Subtype")) in NOT_DRAWN or rect[0] == rect[2] or \
                    rect[1] == rect[3] or int(annot.get("/F", 0)) & (HIDDEN | NO_VIEW):
                continue
            self.content(form, form.get("/Resources", pikepdf.Dictionary()), [annot.get("/OC"), form.get("/OC")], [form.objgen])


def inherited(page, key):
    node = page.obj
    for _ in range(100):
        if key in node:
            return node[key]
        if "/Parent" not in node:
            break
        node = node["/Parent"]
    return pikepdf.Dictionary()


def count_by_pikepdf(path):
    """Paths by layer, and the names of all groups."""
    with pikepdf.open(path) as pdf:
        properties = pdf.Root.get("/OCProperties")
        properties = properties if isinstance(properties, pikepdf.Dictionary) else pikepdf.Dictionary()
        count = Count(parents_of(properties.get("/D", {}).get("/Order", [])))
        for page in pdf.pages:
            count.content(page, inherited(page, "/Resources"), [], [])
            count.appearances(page)
        names = {str(group.get("/Name", "")) for group in properties.get("/OCGs", []) if isinstance(group, pikepdf.Dictionary)}
    return count.paths, names


def count_by_reader(sheet, groups):
    paths = collections.Counter()
    for item in sheet["items"]:
        if item["kind"] == "path" and not item["flags"] & (CLIP_PATTERN | TRACED):
            name = None if item["layer"] < 0 else sheet["layers"][item["layer"]]["name"]
            made_up = name not in groups and name is not None and (" and " in name or " or " in name or "not " in name)
            paths[SEVERAL if made_up else name] += 1
    return paths


def compare(program, path, bad):
    sheet = reader.read(program, path)
    if sheet["exit"] != 0:
        return 0
    theirs, groups = count_by_pikepdf(path)
    ours = count_by_reader(sheet, groups)
    if ours != theirs:
        bad.append(f"{os.path.basename(path)}: {dict(ours)} pikepdf: {dict(theirs)}")
    return sum(theirs.values())


def main(program, folder=None):
    bad, files, counted = [], 0, 0
    skipped = collections.Counter()
    with tempfile.TemporaryDirectory() as temporary:
        paths = []
        for maker in generate.MAKERS:
            path = os.path.join(temporary, maker.__name__ + ".pdf")
            data, truth = maker()
            if "bounded" not in truth:
                with open(path, "wb") as f:
                    f.write(data)
                paths.append(path)
        paths += [pattern_sheets.make(temporary, name)[0] for name, spec in pattern_sheets.SHEETS.items() if not {"encrypt", "svg"} & set(spec)]
        if folder:
            paths += sorted(glob.glob(os.path.join(folder, "**", "*.pdf"), recursive=True))
        for path in paths:
            try:
                counted += compare(program, path, bad)
                files += 1
            except Exception as trouble:  # pikepdf's own troubles with broken files are many
                skipped[type(trouble).__name__] += 1
    print(f"{files} files, {counted} paths, {len(bad)} files differ; pikepdf could not read: {dict(skipped)}")
    print("\n".join(bad))
    return 1 if bad or not counted else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
