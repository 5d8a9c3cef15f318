"""What a person reads, in every language: plain words, and in a translation the places that English has.
words.py CATALOGUE.pot LANGUAGE.po ...

The words that are no sewist's are the glossary's of the trade (own choice, no source); what a place looks like is C's printf
and app/sentence.h's {0}. Whether a text is translated at all, gettext's msgcmp tells (words.sh)."""
import re
import subprocess
import sys

BANNED = {
    "en": ["residual", "covarian", "sigma", "homograph", "jacobian", "eigen", "chi-square", "degrees of freedom", "matrix",
           "iterat", "parameter", "invalid", "null", "exception", "please", " error", "vertex"],
    "de": ["residu", "kovarian", "sigma", "homograph", "jacobi", "eigenvektor", "freiheitsgrad", "matrix", "iterat", "parameter",
           "ungültig", "ausnahme", "fehlgeschlagen", "benutzer", "strichstärke"],
}
LEAST_TEXTS = 600
PLACE = re.compile(r"\{\d\}|%(?:\d+\$)?[-+ 0#]*(?:\d+|\*)?(?:\.(?:\d+|\*))?(?:hh|h|ll|l|z|t)?[a-zA-Z%]")


def texts(path):
    """(whether it may have places, [msgid, msgid_plural], [msgstr ...]) of each entry, as msgcat writes them."""
    whole = subprocess.run(["msgcat", "--no-wrap", path], check=True, capture_output=True, text=True).stdout
    for block in whole.split("\n\n"):
        lines = re.findall(r'^(msg\w+(?:\[\d\])?) "(.*)"$', re.sub(r'"\n"', "", block), re.M)
        words = dict(lines)
        if words.get("msgid"):
            yield ("no-c-format" not in block, [words["msgid"]] + [words[k] for k in words if k == "msgid_plural"],
                   [words[k] for k in words if k.startswith("msgstr")])


def places(text):
    """What is filled in, in any order; numbered places count as the ones they stand for."""
    return sorted(set(re.sub(r"\d+\$", "", p) for p in PLACE.findall(text) if p != "%%"))


def faults_of(language, said):
    bare = re.sub(r"--[a-z-]+", "", said).lower()
    return [f"“{word}” in: {said}" for word in BANNED[language] if word in bare]


def main():
    faults, count = [], 0
    for _, english, _ in texts(sys.argv[1]):
        count += 1
        for said in english:
            faults += faults_of("en", said)
    for path in sys.argv[2:]:
        language = path.rsplit("/", 1)[-1].split(".")[0]
        for has_places, english, said in texts(path):
            for words in said:
                faults += faults_of(language, words)
            if has_places and any(words and places(words) != places(english[-1]) for words in said[-1:]):
                faults.append(f"other places than in “{english[-1]}”: {said[-1]}")
            if any(words and "?" not in words and english[0].endswith("?") for words in said):
                faults.append(f"no question any more: {said[0]}")
    if count < LEAST_TEXTS:
        faults.append(f"only {count} texts were found: the test has lost its way")
    if faults:
        print("\n".join(faults))
    sys.exit(1 if faults else 0)


main()
