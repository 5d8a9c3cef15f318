"""Whether truth.py tells a lifted pattern that is right from one that is not: the truth of a sheet written as a pattern equals it,
and each spoiled copy is told by what was spoiled. Hand-worked: what is moved is known."""
import copy
import sys

import drawing
import pattern_sheets
import sheet_pdf
import truth

failures = []


def hold(what, right, *found):
    if not right:
        failures.append(f"{what}: {found}"[:500])


def told(pattern, right):
    return truth.compare(pattern, right)


def check_right(pattern, right):
    out = told(pattern, right)
    hold("as it is", all(share == 100 for share in out.percent().values()) and not out.told and not out.extra, out.lines())
    hold("as it is", out.worst <= 1e-6, out.worst)
    moved = copy.deepcopy(pattern)
    for piece in moved["pieces"]:
        for point in piece["points"].values():
            point[0] = [x + 500 for x in point[0]] if isinstance(point[0], list) else point[0] + 500
    hold("elsewhere", not told(moved, right).told, told(moved, right).lines())


def check_spoiled(pattern, right):
    """(what is done to a copy, which share falls below 100)"""
    def corner(p):  # so far that the shift, a little of it, does not hide it
        p["pieces"][0]["points"]["e1"][0][2] += 0.08

    def mirror(p):
        for point in p["pieces"][1]["points"].values():
            point[0] = [-x for x in point[0]] if isinstance(point[0], list) else -point[0]

    def rename(p):
        p["pieces"][2]["label"] = "Piece"

    def count(p):
        p["views"][0]["cut"][1]["pairs"] = 2

    def cloth(p):
        p["views"][0]["cut"][0]["cloth"] = "lining"

    def fold(p):
        del p["pieces"][0]["fold"]

    def grain(p):
        p["pieces"][0]["points"]["grain 2"][0] += 2

    def notch(p):
        p["pieces"][1]["notches"][0]["at"][1] += 0.7

    def double(p):
        p["pieces"][1]["notches"][0]["double"] = True

    for spoil, share in ((corner, "pieces"), (mirror, "pieces"), (rename, "names"), (count, "cuts"), (cloth, "cuts"),
                         (fold, "cuts"), (grain, "grains"), (notch, "notches"), (double, "notches")):
        spoiled = copy.deepcopy(pattern)
        spoil(spoiled)
        out = told(spoiled, right)
        fallen = [name for name, value in out.percent().items() if value < 100]
        hold(spoil.__name__, share in fallen and (spoil is mirror or fallen == [share]) and out.told, fallen, out.told)
    gone = copy.deepcopy(pattern)
    del gone["pieces"][3]
    hold("a piece gone", told(gone, right).pieces == len(right["pieces"]) - 1)


def main():
    for name in ("small", "small_letters"):
        right = sheet_pdf.write(drawing.Sheet(pattern_sheets.SHEETS[name]))[1]
        pattern = truth.pattern_of(right)
        check_right(pattern, right)
        check_spoiled(pattern, right)
    print("\n".join(failures))
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
