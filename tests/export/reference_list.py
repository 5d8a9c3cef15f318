"""Do Python's csv and XML modules read the cutting list as the program's JSON has it?

Each view of a pattern is listed three ways: as CSV (RFC 4180), as JSON and as sheets (SVG). Rows, sizes and notions must
agree, and each sketch, enlarged by the scale beside it, must be as large as its piece.
"""
import csv
import glob
import io
import json
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET

SVG = "{http://www.w3.org/2000/svg}"
MARK_MM = {"mm": 1.0, "cm": 1.0, "in": 25.4 / 16}
PER = {"mm": 1.0, "cm": 10.0, "in": 25.4}


def run(program, *words):
    done = subprocess.run([program, "list", *words], capture_output=True, check=True)
    return done.stdout.decode("utf-8")


def same_length(text, mm, unit):
    assert abs(float(text) * PER[unit] - mm) <= MARK_MM[unit] / 2 + 1e-6, (text, mm, unit)


def compare_csv(text, told, unit):
    assert text.count("\n") == text.count("\r\n")
    rows = list(csv.DictReader(io.StringIO(text, newline=""), strict=True))
    assert all(None not in row and None not in row.values() for row in rows)
    assert len(rows) == len(told["lines"]) + len(told["notions"])
    for row, line in zip(rows, told["lines"]):
        assert (row["kind"], row["name"], row["label"]) == (line["kind"], line["piece"], line["label"])
        assert (row["count"], row["material"]) == (str(line["count"]), line["material"])
        assert (row["hand"] or None) == line["hand"] and row["fused on"] == line.get("fuse", "")
        assert (row["on the fold"] == "yes") == line["on_fold"]
        for name in ("finished", "cut", "opened"):
            extent = line.get("as_cut" if name == "cut" else name)
            for side in ("width", "height"):
                assert bool(row[f"{name} {side}"]) == (extent is not None)
                if extent:
                    same_length(row[f"{name} {side}"], extent[side + "_mm"], unit)
        assert row["fullness"].count("seam “") == len(line["fullness"])
    for row, notion in zip(rows[len(told["lines"]):], told["notions"]):
        assert (row["kind"], row["name"], row["count"]) == ("notion", notion["name"], str(notion["count"]))
        for name in ("size", "length"):
            if name + "_mm" in notion:
                same_length(row[name], notion[name + "_mm"], unit)


def drawn_size(sketch):
    """Of the cut line, on paper."""
    path = next(p for p in sketch.iter(SVG + "path") if p.get("class") == "cut")
    numbers = [float(n) for n in re.findall(r"-?[\d.]+", path.get("d"))]
    across, down = numbers[0::2], numbers[1::2]
    return max(across) - min(across), max(down) - min(down)


def compare_sheets(stem, told):
    sketches, words = [], []
    for page in range(1, len(glob.glob(stem + "-*.svg")) + 1):
        top = ET.parse(f"{stem}-{page}.svg").getroot()
        assert (top.get("width"), top.get("height"), top.get("viewBox")) == ("210mm", "297mm", "0 0 210 297")
        sketches += [g for g in top.iter(SVG + "g") if g.get("class") == "sketch"]
        words += [t.text for t in top.iter(SVG + "text")]
    assert len(sketches) == len(told["lines"])
    for sketch, line in zip(sketches, told["lines"]):
        name, scale = re.fullmatch(r"(.*), 1 : (\d+)", sketch.find(SVG + "title").text).groups()
        assert name == line["piece"]
        for drawn, side in zip(drawn_size(sketch), ("width_mm", "height_mm")):
            assert abs(drawn * int(scale) - line["as_cut"][side]) < 0.1, (name, side)
    for notion in told["notions"]:
        assert any(notion["name"] in w for w in words)


def main():
    program, pattern = sys.argv[1:3]
    listed = 0
    with tempfile.TemporaryDirectory() as folder:
        for view in "ABCD":
            for size, group, unit in (("1", "A-B", "cm"), ("6", "C-D", "in"), ("10", "C-D", "mm")):
                words = [pattern, "--view", view, "--size", size, "--cup", group, "--unit", unit, "--fraction", "16"]
                stem = os.path.join(folder, f"{view}{size}")
                told = json.loads(run(program, *words, "--json", "--out", stem + ".svg"))
                compare_csv(run(program, *words, "--csv"), told, unit)
                compare_sheets(stem, told)
                listed += len(told["lines"])
    print(f"{listed} lines agree")


main()
