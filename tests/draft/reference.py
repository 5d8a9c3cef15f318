"""Whether Python, which reads arithmetic by itself, gets the same out of the same texts: 10 000 drawn formulas, each
evaluated by eval() and as a pattern's. Sines and their like are Python's math module's, of degrees.

    python3 reference.py PROGRAM      PROGRAM: the built evaluate.c

A formula whose outcome hangs on the last digits of a sine (1 / (sin(30) - 0.5), floor(2 * cos(60))) proves nothing and
is drawn again: it is evaluated once more with every such function off by a few parts in 10^13, and must come out alike.
"""
import ast
import json
import math
import random
import subprocess
import sys
import tempfile

COUNT, IN_FILE = 10000, 50
TOLERANCE = 1e-9          # relative; of outcomes below 1 mm absolute
LARGEST, FARTHEST = 1e12, 1e5  # no intermediate outcome and no outcome is larger, by pattern's own rule

NAMES = {"hip": 940.0, "waist_girth": 712.5, "bust": 883.0, "ease": 40.0, "ratio": 1.625, "dart_intake": 0.0,
         "minus": -37.25}


class Degrees:
    """The functions of formulas, from Python's math module, off by a share and a bit when told so."""

    def __init__(self, share, bit):
        self.share, self.bit = share, bit

    def off(self, value):
        return value * (1 + self.share) + self.bit

    def sin(self, a):
        if math.fmod(a, 90) == 0:
            return (0.0, 1.0, 0.0, -1.0)[int(math.fmod(a, 360) / 90)]
        return self.off(math.sin(math.radians(math.fmod(a, 360))))

    def cos(self, a):
        return self.sin(math.fmod(a, 360) + 90) if math.fmod(a, 90) == 0 else self.off(
            math.cos(math.radians(math.fmod(a, 360))))

    def tan(self, a):
        if math.fmod(abs(a), 180) == 90:
            raise ValueError("tangent of a right angle")
        if math.fmod(a, 180) == 0:
            return 0.0
        return self.off(math.tan(math.radians(math.fmod(a, 360))))

    def atan2(self, y, x):
        return self.off(math.degrees(math.atan2(y + 0.0, x + 0.0)))

    def hypot(self, a, b):
        return self.off(math.hypot(a, b))

    def room(self):
        return dict(NAMES, __builtins__={}, min=min, max=max, abs=abs, sqrt=math.sqrt, floor=math.floor,
                    ceil=math.ceil, sin=self.sin, cos=self.cos, tan=self.tan, atan2=self.atan2, hypot=self.hypot)


def parts_of(text):
    """Compiled: the text as a whole, then whatever in it is reckoned."""
    tree = ast.parse(text.strip(), mode="eval")
    functions = {id(call.func) for call in ast.walk(tree) if isinstance(call, ast.Call)}
    return [compile(ast.Expression(part), text, "eval") for part in ast.walk(tree)
            if isinstance(part, ast.expr) and id(part) not in functions]


def python_says(parts, functions):
    """A number, or words: what Python raises, and whether any part is too large for ours."""
    room, says = functions.room(), set()
    for part in parts:
        try:
            if abs(eval(part, room)) >= LARGEST:
                says.add("large")
        except ZeroDivisionError:
            says.add("zero")
        except ValueError:
            says.add("domain")
    if says:
        return " and ".join(sorted(says))
    value = float(eval(parts[0], room))
    return value if abs(value) <= FARTHEST else "large"


SAID = {"pattern.divides_by_zero": "zero", "pattern.no_root": "domain", "pattern.no_tangent": "domain",
        "pattern.too_large": "large"}


def alike(a, b, tolerance):
    if isinstance(a, str) or isinstance(b, str):
        return a == b
    return abs(a - b) <= tolerance * max(1, abs(b))


def is_clear(parts, says):
    """Where two things are wrong, which is met first is nobody's rule."""
    return not (isinstance(says, str) and " and " in says) and all(
        alike(python_says(parts, Degrees(share, bit)), says, TOLERANCE / 10)
        for share, bit in ((3e-13, 1e-15), (-3e-13, -1e-15)))


class Draw:
    def __init__(self, seed):
        self.random = random.Random(seed)

    def pick(self, *choices):
        return self.random.choice(choices)

    def space(self):
        return self.pick("", "", " ", "  ")

    def number(self):
        r = self.random
        return self.pick(str(r.randint(0, 9)), str(r.randint(1, 400)), "%.1f" % r.uniform(0, 50),
                         "%.4f" % r.uniform(0, 3), ".5", self.pick("0", "0.0", "90", "45", "180", "30"))

    def operand(self, depth):
        kind = self.random.random()
        if depth <= 0 or kind < 0.25:
            return self.pick(self.number(), self.number(), self.pick(*NAMES))
        if kind < 0.5:
            return "(" + self.space() + self.sum(depth - 1) + self.space() + ")"
        if kind < 0.6:
            return self.pick("-", "+", "--", "- ") + self.operand(depth - 1)
        if kind < 0.85:
            name = self.pick("abs", "sqrt", "sin", "cos", "tan", "floor", "ceil")
            return name + self.space() + "(" + self.sum(depth - 1) + ")"
        name = self.pick("min", "max", "atan2", "hypot")
        count = self.random.randint(2, 4) if name in ("min", "max") else 2
        return name + "(" + ("," + self.space()).join(self.sum(depth - 1) for _ in range(count)) + ")"

    def sum(self, depth):
        text = self.operand(depth)
        for _ in range(self.pick(0, 1, 1, 2, 3)):
            text += self.space() + self.pick("+", "-", "*", "/") + self.space() + self.operand(depth - 1)
        return text

    def formula(self):
        return self.sum(self.random.randint(1, 4))


def pattern_of(formulas):
    """One point to a line, so that what is told of it can be told apart; the file's unit is mm."""
    chart = {name: [NAMES[name]] for name in ("hip", "bust")}
    values = {name: value for name, value in NAMES.items() if name not in chart}
    points = {"o": [0, 0], "e": [9, 0], "n": [0, 9]}
    points.update({"p%d" % i: [text, 0] for i, text in enumerate(formulas)})
    outline = [{"name": a + b, "path": [a, b]} for a, b in ("oe", "en", "no")]
    piece = '{ "name": "p", "outline": %s, "points": {\n%s } }' % (
        json.dumps(outline), ",\n".join("%s: %s" % (json.dumps(k), json.dumps(v)) for k, v in points.items()))
    return '''{ "chalklight": "pattern", "version": 1, "name": "P", "unit": "mm", "sizes": ["S"], "chart": %s,
"main_measurement": "hip", "values": %s, "pieces": [ %s ],
"views": [ { "name": "A", "cut": [ { "piece": "p", "count": 1 } ] } ] }''' % (
        json.dumps(chart), json.dumps(values), piece)


def ours_say(program, formulas):
    with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
        file.write(pattern_of(formulas))
        file.flush()
        out = subprocess.run([program, file.name], capture_output=True, text=True)
    if out.returncode:
        sys.exit("not read: %s" % out.stderr)
    said = dict(line.split() for line in out.stdout.splitlines())
    answers = [said["p%d" % i] for i in range(len(formulas))]
    return [SAID.get(a, a) if a.startswith(("draft", "pattern")) else float(a) for a in answers]


def main(program):
    draw, drawn, formulas = Draw(1), 0, []
    while len(formulas) < COUNT:
        text = draw.formula()
        drawn += 1
        if len(text) > 400:
            continue
        parts = parts_of(text)
        says = python_says(parts, Degrees(0, 0))
        if is_clear(parts, says):
            formulas.append((text, says))
    worst, wrong, counts = 0, 0, {}
    for first in range(0, COUNT, IN_FILE):
        some = formulas[first:first + IN_FILE]
        for (text, says), ours in zip(some, ours_say(program, [t for t, _ in some])):
            word = says if isinstance(says, str) else "a number"
            counts[word] = counts.get(word, 0) + 1
            if not alike(ours, says, TOLERANCE):
                wrong += 1
                print("%s: ours %s, Python %s" % (text, ours, says))
            elif word == "a number":
                worst = max(worst, abs(ours - says) / max(1, abs(says)))
    print("%d formulas of %d drawn: %s; numbers differ by at most %.2g of themselves" % (
        COUNT, drawn, ", ".join("%s %d" % (k, v) for k, v in sorted(counts.items())), worst))
    sys.exit(1 if wrong or min(counts.get(k, 0) for k in ("zero", "domain", "large")) < 50 else 0)


main(sys.argv[1])
