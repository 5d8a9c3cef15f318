"""Whole pattern sheets with what is true of them, as several producers might save them.

    python3 pattern_sheets.py FOLDER [NAME ...]      writes NAME.pdf (or .svg) and NAME.truth.json

The same bytes every time, but for those that qpdf encrypts. All of it is invented here.

The truth (lengths in mm; the sheet's origin is its lower left corner, y up, as the person sees it):

    name, file        password     of the encrypted ones: what opens it
    paper_mm          of the whole sheet
    sizes             names of the sizes, smallest first
    layers            [{name, parent, role: "common", "text" or "size", size, on, paths}]; none where the file has none. `paths`:
                      painted paths, on all pages
    style             [{size, rgb, dash}]: how each size's lines look
    scale             [across, up]: the file's lengths are so many times the true ones (saved at 94 %: 0.94)
    columns, rows     of the pages when joined; missing: [[column, row]]
    pages             [{page, column, row (from the top), size_mm, shift_mm, window, empty, to_sheet}]: a point of the page as the
                      reader gives it is scale * sheet - shift_mm; to_sheet [a b c d e f] takes it back: x = a px + c py + e,
                      y = b px + d py + f. `window`: where on the page the drawing is seen; null: everywhere. `empty`: the page
                      shows nothing of the sheet
    squares           [{side_mm, corner (lower left), text}]
    pieces            [{name, number, language, cuts: [{count, material or null, pairs, on_fold}], grain: two points or null,
                      lengthen, fold_edge: name or null, common: it is the same in all sizes and drawn once, shares_edge: one of its
                      edges is a neighbour's line, same_edges: drawn once for all sizes,
                      sizes: {size: {outline: [{edge, points}], notches: [{at, kind, edge}], drills, darts}}}]
                      outline: counter-clockwise, each edge begins where the one before ended; 2 points a line, 4 a cubic.
                      A notch is "single", "double" (two ticks 6 mm apart, `at` between them), "v" or "t"
"""
import json
import os
import subprocess
import sys

import drawing
import garment
import letters
import sheet_pdf
import sheet_svg

A0, A3 = (841, 1189), (297, 420)
WOMEN = [str(size) for size in range(32, 56, 2)]
FEW = ["36", "38", "40", "42"]
PASSWORD = "Schürze Größe 36"
INSTRUCTIONS = ["Invented jacket, skirt and trousers. Print at 100 %.", "Measure the square before you cut.",
                "Bitte vor dem Zuschneiden das Quadrat messen."]

# What a spec says, beside the sizes and names: `join` of outlines: "piece" one path, "edges" one for each edge, "size" all of a size,
# "broken" with gaps and lines drawn twice; `text`: "line", "words", "letters", "outlines" (of `font`); `cm`: coordinates in points ("pt"),
# mm, mm downwards ("flip"), mm from each path's start ("local"); `chords`: edges as so many straight lines, 0: as they are;
# `stitching`: how far inside each outline a second, dashed line runs, 0: none.
LARGE = dict(paper=A0, sizes=WOMEN, layer_names=WOMEN, blocks=garment.blocks, header=drawing.HEADER, look="dash", width=0.3, join="piece",
             order="by size", text="line", cm="pt", digits=4, layers="flat", arrows="filled", labels="title", tags=True,
             font=letters.LATO, notch_across=False, chords=0, border=False, stitching=0, scale=(1, 1), tiles=None, user_unit=1, turn=0,
             box=(0, 0), packed=True, squares=[(20, 100, "10 cm"), (130, 25.4, "1 in"), (230, 101.6, "4 in")], legend=370, instructions=INSTRUCTIONS)
SMALL = {**LARGE, "paper": A3, "sizes": FEW, "layer_names": FEW, "blocks": garment.small_blocks, "legend": 165,
         "squares": [(15, 100, "10 cm"), (122, 25.4, "1 in")], "instructions": INSTRUCTIONS[:1]}


def tiled(kind, paper="A4", margin=10, **more):
    return dict(kind=kind, paper=paper, margin=margin, **more)


SHEETS = {
    "a0": LARGE,
    "a0_edges": {**LARGE, "join": "edges", "cm": "flip", "look": "colour", "text": "words", "arrows": "strokes", "labels": "lines",
                 "order": "by piece", "notch_across": True},
    "a0_broken": {**LARGE, "join": "broken", "cm": "local", "look": "colour dash", "text": "letters", "labels": "one"},
    "a0_outlined_text": {**LARGE, "text": "outlines", "cm": "mm", "join": "size", "look": "colour", "arrows": "strokes"},
    "a0_off": {**LARGE, "layers": "off"},
    "a0_nested": {**LARGE, "layers": "nested", "cm": "mm", "layer_names": [f"Size {size}" for size in WOMEN]},
    "a0_membership": {**LARGE, "layers": "membership", "join": "edges", "layer_names": [f"Größe {size}" for size in WOMEN]},
    "a0_forms": {**LARGE, "layers": "forms", "cm": "mm", "layer_names": [f"EU {size} / UK {int(size) - 28}" for size in WOMEN]},
    "a0_no_layers": {**LARGE, "layers": "none", "look": "colour dash", "order": "by piece", "cm": "flip"},
    "a0_no_layers_colour": {**LARGE, "layers": "none", "look": "colour", "join": "edges"},
    "a0_no_layers_dash": {**LARGE, "layers": "none", "look": "dash", "cm": "mm"},
    "a0_user_unit": {**LARGE, "user_unit": 2},
    "a0_rotated": {**LARGE, "turn": 90},
    "a0_box": {**LARGE, "box": (-133, 47), "border": True},
    "a0_94": {**LARGE, "scale": (0.94, 0.94)},
    "a0_110": {**LARGE, "scale": (1.1, 1.1), "cm": "mm"},
    "a0_97_100": {**LARGE, "scale": (0.97, 1), "cm": "mm"},
    "a0_200k": {**LARGE, "chords": 106},
    "a0_frame_a4": {**LARGE, "tiles": tiled("frame")},
    "a0_lap_a4": {**LARGE, "tiles": tiled("lap", margin=8, lap=15), "look": "colour"},
    "a0_cut_letter": {**LARGE, "tiles": tiled("cut", "Letter", 7, words="row {row}, column {column}"), "cm": "mm"},
    "a0_whole_a4": {**LARGE, "tiles": tiled("whole")},
    "a0_frame_letter_94": {**LARGE, "tiles": tiled("frame", "Letter", 12.7), "scale": (0.94, 0.94)},
    "a0_lap_a4_missing": {**LARGE, "tiles": tiled("lap", margin=8, lap=10, missing=(2, 1)), "join": "edges"},
    "small": SMALL,
    "small_letters": {**SMALL, "sizes": ["S", "M", "L", "XL"], "layer_names": ["S", "M", "L", "XL"], "join": "edges", "text": "words",
                      "look": "colour", "cm": "mm"},
    "small_broken": {**SMALL, "join": "broken", "cm": "flip", "labels": "lines"},
    "small_outlined_text": {**SMALL, "text": "outlines", "look": "colour dash"},
    "small_outlined_serif": {**SMALL, "text": "outlines", "font": "opentype/linux-libertine/LinLibertine_R.otf", "join": "edges"},
    "small_outlined_sans": {**SMALL, "text": "outlines", "font": "truetype/open-sans/OpenSans-Regular.ttf", "labels": "lines",
                            "cm": "flip"},
    "small_outlined_bold": {**SMALL, "text": "outlines", "font": "truetype/dejavu/DejaVuSans-Bold.ttf", "labels": "one", "cm": "mm"},
    "small_no_layers": {**SMALL, "layers": "none", "look": "colour dash", "order": "by piece"},
    "small_stitching": {**SMALL, "stitching": 6, "look": "colour"},
    "small_94": {**SMALL, "scale": (0.94, 0.94)},
    "small_frame": {**SMALL, "tiles": tiled("frame")},
    "small_frame_missing": {**SMALL, "tiles": tiled("frame", missing=(1, 0))},
    "small_lap": {**SMALL, "tiles": tiled("lap", margin=8, lap=12), "look": "colour"},
    "small_lap_letter": {**SMALL, "tiles": tiled("lap", "Letter", 6, lap=20, down_first=True), "text": "words"},
    "small_cut": {**SMALL, "tiles": tiled("cut", "A4", 7, words="Reihe {row} Spalte {column}"), "join": "edges"},
    "small_whole": {**SMALL, "tiles": tiled("whole", "Letter")},
    "small_lap_110": {**SMALL, "tiles": tiled("lap", margin=8, lap=12), "scale": (1.1, 1.1)},
    "small_svg": {**SMALL, "svg": "title"},
    "small_svg_id": {**SMALL, "svg": "id", "join": "edges", "look": "colour dash", "layer_names": [f"Size {size}" for size in FEW]},
    "small_svg_94": {**SMALL, "svg": "title", "text": "outlines", "scale": (0.94, 0.94)},
    "small_rc4": {**SMALL, "encrypt": ["128", "--use-aes=n", "--"]},
    "small_aes_128": {**SMALL, "encrypt": ["128", "--use-aes=y", "--"]},
    "small_aes_256": {**SMALL, "encrypt": ["256", "--"]},
}


def encrypt(path, how):
    """In place, by qpdf; the owner's password is another."""
    plain = path + ".plain"
    os.rename(path, plain)
    subprocess.run(["qpdf", "--allow-weak-crypto", plain, path, "--encrypt", PASSWORD, "owner"] + how, check=True)
    os.remove(plain)


def make(folder, name):
    """Writes the sheet of that name; gives its path and truth."""
    spec = SHEETS[name]
    kind, producer = ("svg", sheet_svg) if "svg" in spec else ("pdf", sheet_pdf)
    data, truth = producer.write(drawing.Sheet(spec))
    path = os.path.join(folder, f"{name}.{kind}")
    with open(path, "wb") as f:
        f.write(data)
    truth.update(name=name, file=os.path.basename(path))
    if "encrypt" in spec:
        encrypt(path, spec["encrypt"])
        truth["password"] = PASSWORD
    with open(os.path.join(folder, name + ".truth.json"), "w", encoding="utf-8") as f:
        json.dump(truth, f, ensure_ascii=False)
    return path, truth


def main(folder, names):
    os.makedirs(folder, exist_ok=True)
    for name in names or SHEETS:
        make(folder, name)


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2:])
