"""Does Python's json module take and refuse the same damaged documents as json_verdict?

Python is laxer in known ways, and those are made strict here: NaN and Infinity, numbers too large, names met twice, half
surrogate pairs, zero characters, nesting and long numbers beyond our bounds.
"""
import json
import math
import random
import re
import subprocess
import sys

DEEPEST = 64
LONGEST_NUMBER = 63
RUNS = 20000

SEEDS = [
    b'{"chalklight": "pattern", "version": 1, "sizes": ["1", "2"], "points": {"a": [0.5, -12e3], "b": [1, 2]}}',
    b'[true, false, null, -0, 1E+2, 0.25, "\\u00bd\\ud83d\\ude00\\n\\"", {"a": {"b": [[], {}]}}]',
    ' "37½ in \\\\ \\/ €" '.encode(),
    b"\xef\xbb\xbf[1,\n\t2 ,\r\n3]",
]
PIECES = [b'"', b"\\", b"{", b"}", b"[", b"]", b",", b":", b"0", b"-", b"+", b".", b"e", b"1e400", b"NaN", b"Infinity",
          b"null", b"\\u0000", b"\\ud800", b"\\udc00", b"\\u00e4", b"\xc3\xa4", b"\xff", b"\x00", b"\x1f", b"\x7f", b" ",
          b"\n", b"'", b"/", b'"a":1,', b"[" * 70, b"7" * 70, b"\xef\xbb\xbf", b"\xc2\xa0", b"\x0c"]


def damaged(rng):
    doc = bytearray(rng.choice(SEEDS))
    for _ in range(rng.randint(1, 3)):
        at = rng.randint(0, len(doc))
        what = rng.randrange(4)
        if what == 0:
            doc[at:at] = rng.choice(PIECES)
        elif what == 1:
            del doc[at:at + rng.randint(1, 4)]
        elif what == 2 and at < len(doc):
            doc[at] ^= 1 << rng.randrange(8)
        else:
            other = rng.choice(SEEDS)
            start = rng.randint(0, len(other))
            doc[at:at] = other[start:start + rng.randint(1, 12)]
    return bytes(doc)


def no_constant(word):
    raise ValueError(word)


def finite(text):
    if len(text) > LONGEST_NUMBER or not math.isfinite(float(text)):
        raise ValueError(text)
    return float(text)


def all_different(pairs):
    if len({name for name, _ in pairs}) != len(pairs):
        raise ValueError("a name twice")
    for name, _ in pairs:
        check_text(name)
    return dict(pairs)


def check_text(text):
    if re.search("[\0\ud800-\udfff]", text):
        raise ValueError("zero or half a pair")


def check(value, depth):
    if isinstance(value, str):
        check_text(value)
    if isinstance(value, (list, dict)):
        if depth == DEEPEST:
            raise ValueError("too deep")
        for child in value.values() if isinstance(value, dict) else value:
            check(child, depth + 1)


def is_taken(doc):
    try:
        text = doc.removeprefix(b"\xef\xbb\xbf").decode("utf-8")
        check(json.loads(text, parse_constant=no_constant, parse_float=finite, parse_int=finite,
                         object_pairs_hook=all_different), 0)
        return True
    except (ValueError, OverflowError, RecursionError):
        return False


def main():
    rng = random.Random(1)
    docs = [damaged(rng) for _ in range(RUNS)]
    stream = b"".join(b"%d\n" % len(doc) + doc for doc in docs)
    ours = subprocess.run([sys.argv[1]], input=stream, stdout=subprocess.PIPE, check=True).stdout.decode()
    theirs = "".join("1" if is_taken(doc) else "0" for doc in docs)
    unlike = [(doc, mine) for doc, mine, other in zip(docs, ours, theirs) if mine != other]
    for doc, mine in unlike[:10]:
        print(repr(doc), "taken by us alone" if mine == "1" else "refused by us alone")
    print(f"{len(docs)} documents, {theirs.count('1')} taken, {len(unlike)} decided otherwise")
    enough = RUNS // 20 < theirs.count("1") < RUNS - RUNS // 20
    return 0 if len(ours) == RUNS and not unlike and enough else 1


sys.exit(main())
