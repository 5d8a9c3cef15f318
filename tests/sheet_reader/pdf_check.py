"""Whether the reader finds in the PDFs of pdf_generate.py what stands in them: exact counts on every layer, lengths within a
thousandth of a millimetre, colours, dashes, text and where it stands. The truth is what was written, and hand-worked.

    python3 pdf_check.py PROGRAM      PROGRAM: the built pdf_dump.c

Encrypted ones are made by qpdf.
"""
import os
import subprocess
import sys
import tempfile

import pdf_generate as generate
import pdf_reader as reader

NEAR = 0.001
DONE, PASSWORD_NEEDED, PASSWORD_WRONG, DAMAGED = 0, 11, 12, 14  # enum sheet_exit
MENDED, SCAN, LEFT_OUT = 1, 3, 5  # enum sheet_note_code
failures = []


def hold(what, right, *found):
    if not right:
        failures.append(f"{what}: {found}")


def near(a, b, within=NEAR):
    return len(a) == len(b) and all(abs(x - y) <= within for x, y in zip(a, b))


def points(item):
    return [tuple(p) for part in item["parts"] for p in part["points"]]


def paths(sheet):
    return [item for item in sheet["items"] if item["kind"] == "path"]


def check_pages(name, sheet, truth):
    want, got = truth["pages"], sheet["pages"]
    hold(f"{name} pages", len(got) == len(want) and all(near(a, b) for a, b in zip(got, want)), got, want)


def check_layers(name, sheet, truth):
    got = [(layer["name"], layer["parent"], bool(layer["flags"] & 1), reader.paths_on(sheet, k))
           for k, layer in enumerate(sheet["layers"])]
    hold(f"{name} layers", got == truth["layers"], got, truth["layers"])
    for key, bit in (("locked", 2), ("radio", 4)):
        found = [k for k, layer in enumerate(sheet["layers"]) if layer["flags"] & bit]
        hold(f"{name} {key}", found == truth.get(key, []), found)


def check_square(name, sheet, truth):
    want, layer = truth["square"]
    alike = [item for item in paths(sheet) if item["layer"] == layer and len(points(item)) == 4 and
             all(near(a, b) for a, b in zip(points(item), want))]
    hold(f"{name} square", len(alike) >= 1 and alike[0]["parts"][0]["closed"] == 1, len(alike), want)


def check_lower_left(name, sheet, truth):
    """By page: the square's lowest and leftmost place."""
    for page, want in enumerate(truth["lower_left"]):
        all_points = [p for item in paths(sheet) if item["page"] == page for p in points(item)]
        low = (min(p[0] for p in all_points), min(p[1] for p in all_points)) if all_points else (1e9, 1e9)
        # a corner is told: of a turned square it is the one that lies there after turning
        hold(f"{name} page {page}", any(near(p, want) for p in all_points), low, want)


def check_runs(name, sheet, truth):
    got = [(item["text"], *item["run"]) for item in sheet["items"] if item["kind"] == "run"]
    hold(f"{name} runs", len(got) == len(truth["runs"]) and
         all(a[0] == b[0] and near(a[1:], b[1:]) for a, b in zip(got, truth["runs"])), got, truth["runs"])
    for item in sheet["items"]:
        if item["kind"] == "run":
            least = truth["parts_of"].get(item["text"], len(item["text"].replace(" ", "")))
            hold(f"{name} outlines of {item['text']}", len(item["parts"]) >= least, len(item["parts"]))


def check_words(name, sheet, truth):
    got = [(item["text"], item["layer"]) for item in sheet["items"] if item["kind"] == "run"]
    hold(f"{name} words", got == truth["words"], got)


def check_looks(name, sheet, truth):
    got = [(item["flags"], item["rgb"]) for item in paths(sheet)]
    # a point that was closed is a dot and stays; a point alone is nothing
    hold(f"{name} looks", got[:-1] == truth["looks"] and got[-1] == (1, 0x0000FF), got, truth["looks"])
    ways = [item for item in paths(sheet) if item["flags"] & 1]
    hold(f"{name} widths", all(near([item["width"]], [3 / generate.MM]) for item in ways), ways[:1])


def check_strokes(name, sheet, truth):
    hold(f"{name} widths", near([item["width"] for item in paths(sheet)], truth["widths"]))
    for item, want in zip(paths(sheet), truth["dashes"]):
        hold(f"{name} dashes", near(item["dash"], want), item["dash"], want)


def check_pictures(name, sheet, truth):
    got = [(tuple(item["pixels"]), item["at"], item["first"], item["last"]) for item in sheet["items"]
           if item["kind"] == "image"]
    hold(f"{name} pictures", len(got) == len(truth["pictures"]) and
         all(a[0] == b[0] and near(a[1], b[1]) and a[2:] == b[2:] for a, b in zip(got, truth["pictures"])), got)
    scans = [(note["a"], note["b"]) for note in sheet["notes"] if note["code"] == SCAN]
    hold(f"{name} scans", scans == truth["scans"], scans)


def check_images(name, sheet, truth):
    got = [(sheet["layers"][item["layer"]]["name"], *item["pixels"]) for item in sheet["items"] if item["kind"] == "image"]
    hold(f"{name} images", got == truth["images"], got)


def check_clips(name, sheet, truth):
    """Of each item in turn: None, or the box and whether it only holds the clip."""
    got = [item["clip"] for item in sheet["items"]]
    hold(f"{name} clips", len(got) == len(truth["clips"]) and
         all((a is None) == (b is None) and (a is None or near(a, b)) for a, b in zip(got, truth["clips"])), got)


def check_labels(name, sheet, truth):
    hold(f"{name} labels", sheet["labels"] == truth["labels"], sheet["labels"])


def check_boxes(name, sheet, truth):
    """Of each path in turn: the box around its points; None: any."""
    got = [(min(x for x, _ in p), min(y for _, y in p), max(x for x, _ in p), max(y for _, y in p))
           for p in map(points, paths(sheet))]
    hold(f"{name} boxes", len(got) == len(truth["boxes"]) and
         all(b is None or near(a, b) for a, b in zip(got, truth["boxes"])), got)


def check_left_out(name, sheet, truth):
    got = sum(note["a"] for note in sheet["notes"] if note["code"] == LEFT_OUT)
    hold(f"{name} left out", got == truth["left_out"], sheet["notes"])


def check_texts(name, sheet, truth):
    got = sum(item["kind"] == "run" for item in sheet["items"])
    hold(f"{name} texts", got == truth["texts"], got)


def check_loose(name, sheet, truth):
    hold(f"{name} loose", reader.paths_on(sheet, -1) == truth["loose"], reader.paths_on(sheet, -1))


CHECKS = {"pages": check_pages, "layers": check_layers, "square": check_square, "lower_left": check_lower_left,
          "runs": check_runs, "words": check_words, "looks": check_looks, "widths": check_strokes,
          "pictures": check_pictures, "images": check_images, "texts": check_texts, "loose": check_loose, "clips": check_clips,
          "labels": check_labels, "boxes": check_boxes, "left_out": check_left_out}


def check(name, sheet, truth):
    hold(f"{name} exit", sheet["exit"] == DONE, sheet["exit"])
    if sheet["exit"] != DONE:
        return
    for key, one in CHECKS.items():
        if key in truth:
            one(name, sheet, truth)
    mended = any(note["code"] == MENDED for note in sheet["notes"])
    hold(f"{name} mended", mended == truth.get("mended", mended and "bounded" in truth), sheet["notes"])


# How qpdf is told to encrypt, by what the file then says; the owner's password is another one.
ENCRYPTIONS = [("rc4_40", ["40", "--"]), ("rc4_128", ["128", "--use-aes=n", "--"]),
               ("aes_128", ["128", "--use-aes=y", "--"]), ("aes_256", ["256", "--"])]
PASSWORD, OWNER = "Schürze Größe 36", "owner"


def check_encrypted(program, folder, plain, truth):
    for name, how in ENCRYPTIONS:
        path = os.path.join(folder, name + ".pdf")
        subprocess.run(["qpdf", "--allow-weak-crypto", plain, path, "--encrypt", PASSWORD, OWNER] + how, check=True)
        check(name, reader.read(program, path, PASSWORD), truth)
        check(name + " owner", reader.read(program, path, OWNER), truth)
        hold(f"{name} without", reader.read(program, path)["exit"] == PASSWORD_NEEDED)
        hold(f"{name} wrong", reader.read(program, path, "Schurze")["exit"] == PASSWORD_WRONG)


def check_cut_off(program, folder, data):
    """A file that ends anywhere: no crash, and never taken for whole."""
    for share in range(1, 20):
        path = os.path.join(folder, "cut_off.pdf")
        with open(path, "wb") as f:
            f.write(data[:len(data) * share // 20])
        sheet = reader.read(program, path)
        told = sheet["exit"] == DAMAGED or any(note["code"] == MENDED for note in sheet["notes"])
        hold(f"cut off at {share}/20", told, sheet["exit"])


def main(program):
    with tempfile.TemporaryDirectory() as folder:
        for maker in generate.MAKERS:
            data, truth = maker()
            path = os.path.join(folder, maker.__name__ + ".pdf")
            with open(path, "wb") as f:
                f.write(data)
            check(maker.__name__, reader.read(program, path), truth)
        check_encrypted(program, folder, os.path.join(folder, "sheet_off.pdf"), generate.sheet_off()[1])
        check_cut_off(program, folder, generate.sheet(3)[0])
    print(f"{len(generate.MAKERS)} kinds of files, {len(ENCRYPTIONS)} ways to encrypt")
    for failure in failures:
        print(failure[:1500])
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
