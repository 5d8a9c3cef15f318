"""Whether what is written and marked on whole pattern sheets (pattern_sheets.py) is found: which lines are which size, names, numbers,
counts, grain, fold, notches and other marks, each on at least 95 of 100. The sheets are invented here, and nothing was tuned to them.

    python3 marks_check.py DUMP FOLDER [NAME ...]
"""
import collections
import json
import math
import os
import subprocess
import sys

import pattern_sheets

NAMES = ["small", "small_letters", "small_broken", "small_no_layers", "a0_edges", "a0_broken", "a0_forms", "a0_no_layers_colour"]
LEAST = 0.95
NEAR = 0.3  # mm; a V drawn with two strokes has its middle where the strokes' width lets it
CLOTHS = {"fabric": 0, "interfacing": 1, "lining": 2}
GERMAN = {"oberstoff": 0, "einlage": 1, "futter": 2}


def centre(points):
    xs, ys = zip(*points)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def piece_of(pieces, want, sizes):
    """The lifted piece whose outline in the first of its sizes lies where it should."""
    size = next(iter(want["sizes"]))
    k = sizes.index(size)
    at = centre([p for edge in want["sizes"][size]["outline"] for p in edge["points"]])
    there = [p for p in pieces if p["outlines"][k]]
    return min(there, key=lambda p: math.dist(centre(p["outlines"][k]), at))


class Score:
    def __init__(self):
        self.right, self.all, self.wrong = collections.Counter(), collections.Counter(), []

    def add(self, what, right, say):
        self.all[what] += 1
        self.right[what] += bool(right)
        if not right:
            self.wrong.append(f"{what}: {say}")


def counts_of(found):
    """What is cut of which cloth, as (count, pairs, cloth)."""
    out = set()
    for k in range(3):
        number = found["counts"][k] or (found["count"] if found["cloths"] >> k & 1 or (not found["cloths"] and k == 0) else 0)
        if number:
            out.add((number, bool(found["pairs"]), k))
    return out


def cuts_of(want):
    return {(c["count"], c["pairs"], CLOTHS.get(c["material"] or "fabric", GERMAN.get(c["material"], 0))) for c in want["cuts"]}


def check_words(score, want, found):
    name = want["name"]
    score.add("name", found["name"] and found["name"].lower() == name.lower(), f"{name}: {found['name']}")
    score.add("number", found["number"] == str(want["number"]), f"{name}: {want['number']}, {found['number']}")
    score.add("count", counts_of(found) == cuts_of(want), f"{name}: {cuts_of(want)}, {counts_of(found)}")
    fold = any(c["on_fold"] for c in want["cuts"])
    score.add("on fold", bool(found["on_fold"]) == fold, f"{name}: {fold}, {found['on_fold']}")


def marks_in(found, kind, k):
    return [m for m in found["marks"] if m["kind"] == kind and m["size"] in (-1, k)]


def check_places(score, what, name, want, marks, place):
    """Each wanted place has a mark of its own, and there is none more."""
    left = list(marks)
    for at in want:
        near = min(left, key=lambda m: math.dist(place(m), at), default=None)
        right = near is not None and math.dist(place(near), at) <= NEAR
        score.add(what, right, f"{name}: none at {at}, nearest {near and place(near)}")
        if right:
            left.remove(near)
    for m in left:
        score.add(what, False, f"{name}: one too many at {place(m)}")


def check_marks(score, want, found, sizes):
    name = want["name"]
    for size, its in want["sizes"].items():
        k, say = sizes.index(size), f"{name} in {size}"
        notches = marks_in(found, "notch", k)
        check_places(score, "notch", say, [n["at"] for n in its["notches"]], notches, lambda m: m["points"][0])
        for n in its["notches"]:
            near = min(notches, key=lambda m: math.dist(m["points"][0], n["at"]), default=None)
            kind = near and ("v" if near["v"] else "double" if near["apart"] > 0 else "single")
            score.add("notch kind", kind == n["kind"].replace("t", "single"), f"{say}: {n['kind']}, {kind}")
        check_places(score, "drill", say, its["drills"], marks_in(found, "drill", k), lambda m: m["points"][0])
        check_places(score, "dart", say, [d[1] for d in its["darts"]], marks_in(found, "dart", k), lambda m: m["points"][1])
        if want["fold_edge"]:
            edge = next(e["points"] for e in its["outline"] if e["edge"] == want["fold_edge"])
            at = centre([edge[0], edge[-1]])
            check_places(score, "fold", say, [at], marks_in(found, "fold", k), lambda m: centre(m["points"]))


def check_grain(score, want, found):
    if not want["grain"]:
        return
    (ax, ay), (bx, by) = want["grain"]
    away = math.hypot(bx - ax, by - ay)
    cross = abs((bx - ax) * found["grain"][1] - (by - ay) * found["grain"][0]) / away
    score.add("grain", cross < 0.01 and not found["doubts"] & 4, f"{want['name']}: {want['grain']}, {found['grain']}")
    if want["lengthen"]:
        score.add("lengthen", marks_in(found, "lengthen", 0), want["name"])


def check_roles(score, truth, found):
    """Sizes are told by their place: layers may name them otherwise, "EU 32 / UK 4"."""
    called = dict(zip(found["sizes"], truth["sizes"]))
    layers = {layer["name"]: layer for layer in truth["layers"]}
    for s in found["strands"]:
        layer = layers.get(s["layer"])
        if layer:
            score.add("role", called.get(s["size"]) == layer["size"] and (s["role"] == "size") == (layer["role"] == "size"), s)
    score.add("role", len(found["sizes"]) == len(truth["sizes"]), found["sizes"])
    for style in truth["style"] if not layers else []:
        look = [int(style["rgb"], 16), len(style["dash"])]
        its = {called.get(s["size"]) for s in found["strands"] if [s["rgb"], len(s["dash"])] == look and s["length"] > 1000}
        score.add("role", style["size"] in its, f"{style}: {its}")


def check(dump, folder, name, times=1):
    path, truth = pattern_sheets.make(folder, name)
    answer = subprocess.run([dump, path, str(times)], capture_output=True, text=True, check=True)
    found, score = json.loads(answer.stdout), Score()
    check_roles(score, truth, found)
    for want in truth["pieces"]:
        piece = piece_of(found["pieces"], want, truth["sizes"])
        check_words(score, want, piece)
        check_marks(score, want, piece, truth["sizes"])
        check_grain(score, want, piece)
    shares = {what: score.right[what] / score.all[what] for what in score.all}
    print(f"{name}: " + ", ".join(f"{what} {100 * share:.1f} % of {score.all[what]}" for what, share in shares.items()) +
          f"; divided in {1000 * found['divide']:.1f} ms, lifted in {1000 * found['all']:.0f} ms", flush=True)
    poor = [what for what, share in shares.items() if share < LEAST]
    for line in score.wrong[:12 if poor else 0]:
        print("   ", line)
    return poor


def main(dump, folder, names):
    return any([check(dump, folder, name) for name in names or NAMES])


if __name__ == "__main__":
    os.makedirs(sys.argv[2], exist_ok=True)
    sys.exit(main(sys.argv[1], sys.argv[2], sys.argv[3:]))
