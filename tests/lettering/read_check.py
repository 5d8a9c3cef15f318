"""Whether words are read from the outlines of their letters, in fonts that the program has and in such that it has not.

    python3 read_check.py PROGRAM                 holds each font of FONTS to what is asked of it
    python3 read_check.py PROGRAM --figures FONT ...   prints what is read of these (files below /usr/share/fonts)

PROGRAM: the built lettering_read_dump. The truth is the text itself, its letters as fontTools (of Debian's python3-fonttools) takes
them from the font's file. The labels are our own. Shares are of letters (edits from what was read to the truth) and of whole labels.
"""
import math
import os
import random
import subprocess
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "lifting"))
import letters  # pylint: disable=wrong-import-position

LABELS = ["Front bodice", "cut 2 on the fold", "Back", "Cut 1 pair fabric", "Sleeve 3", "cut 2, interfacing 1", "Vorderteil",
          "2x zuschneiden", "im Stoffbruch", "Rückenteil", "Ärmel 4", "Größe 36 - 46", "Grain line", "Fadenlauf",
          "lengthen or shorten here", "Kragen", "Pocket bag", "Waistband", "Mara wrap dress", "1 x Einlage", "Jacke Nr. 27",
          "Test square 10 cm", "4 in", "Size 34", "Lining", "Innenhose", "KRAGENSTEG", "BACK YOKE", "CUT 4", "Quaste 58", "XS", "XXL",
          "38", "Facing of the neckline", "Beleg vorn", "Knopfleiste (innen)", "Schulterpasse", "Zick-Zack", "Hüftpasse 90"]
SIZES, TURNS = (4, 6, 9, 14), (0, 0, 0, 90, -90, 4, None)  # None: any
APART, COLUMNS, CHORDS = 300, 8, 6
SEEN, UNSEEN = (98, 92), (98, 85)  # least of letters and of labels, percent; own bounds
SILENT_MOST = 2  # labels that are wrong without a doubt
FONTS = {
    "truetype/lato/Lato-Regular.ttf": SEEN,
    "truetype/dejavu/DejaVuSerif.ttf": SEEN,
    "truetype/open-sans/OpenSans-BoldItalic.ttf": UNSEEN,
    "opentype/linux-libertine/LinLibertine_R.otf": UNSEEN,
}


def flat(edge):
    """Points of a line or cubic behind its first."""
    if len(edge) == 2:
        return [edge[1]]
    out = []
    for i in range(1, CHORDS + 1):
        t = i / CHORDS
        share = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3)
        out.append(tuple(sum(w * p[axis] for w, p in zip(share, edge)) for axis in (0, 1)))
    return out


def page(font):
    """Shapes as the program reads them, and (label, its start) for each label."""
    rnd, shapes, truth = random.Random(1), [], []
    for i, label in enumerate(LABELS):
        turn = rnd.choice(TURNS)
        item = dict(text=label, at=(100 + APART * (i % COLUMNS), 100 + APART * (i // COLUMNS)), size=rnd.choice(SIZES), layer=0,
                    turn=rnd.uniform(-60, 60) if turn is None else turn, rgb=0, font=font)
        truth.append((label, item["at"]))
        for word in letters.outlines(item):
            for edges, _ in word["subs"]:
                points = [p for edge in edges for p in flat(edge)]
                shapes.append("0 " + " ".join(f"{x:.4f} {y:.4f}" for x, y in points))
    return shapes, truth


def edits(a, b):
    """Levenshtein's distance."""
    row = list(range(len(b) + 1))
    for i, x in enumerate(a, 1):
        before, row[0] = row[0], i
        for j, y in enumerate(b, 1):
            before, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, before + (x != y))
    return row[-1]


def read(program, shapes, truth):
    """For each label what was read where it stands, and whether that is doubtful."""
    done = subprocess.run([program], input="\n".join(shapes) + "\n", capture_output=True, text=True, check=True)
    out = [("", False)] * len(truth)
    for line in done.stdout.splitlines():
        doubtful, x, y, _, _, _, words = line.split(" ", 6)
        near = min(range(len(truth)), key=lambda k: math.dist(truth[k][1], (float(x), float(y))))
        so_far, doubt = out[near]
        out[near] = (f"{so_far} {words}".strip(), doubt or doubtful == "1")
    return out


def measure(program, font):
    """Percent of letters and labels that are right, labels that are wrong without a doubt, what is wrong."""
    shapes, truth = page(font)
    rows = read(program, shapes, truth)
    wrong = [(label, words, doubt) for (label, _), (words, doubt) in zip(truth, rows) if words != label]
    letter_count = sum(len(label) for label in LABELS)
    off = sum(edits(label, words) for label, words, _ in wrong)
    silent = sum(1 for _, words, doubt in wrong if words and not doubt)
    return 100 - 100 * off / letter_count, 100 - 100 * len(wrong) / len(LABELS), silent, wrong


def main(program, fonts):
    bad = 0
    for font in fonts or FONTS:
        of_letters, of_labels, silent, wrong = measure(program, font)
        print(f"{font}: {of_letters:.1f} % of letters, {of_labels:.1f} % of labels, {silent} wrong without a doubt")
        for label, words, doubt in wrong:
            print(f"    “{label}” is read as “{words}”{' (doubtful)' * doubt}")
        if not fonts:
            least = FONTS[font]
            bad += of_letters < least[0] or of_labels < least[1] or silent > SILENT_MOST
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[3:]))
