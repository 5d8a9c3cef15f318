"""wrapped.py TEMPLATE: the template's texts as a catalogue, each translated by itself in « », with letters behind that make
it a third longer, as German is. The grammar of a catalogue is gettext's (manual, 3 "The Format of PO Files")."""
import re
import sys

KEPT = {"code of this language": "de", "decimal mark": ","}


def texts_of(block):
    """{"msgid": …, …} of one entry, as they are quoted there."""
    texts, name = {}, None
    for line in block.splitlines():
        begun = re.match(r'(msg\S+) "(.*)"$', line)
        more = re.match(r'"(.*)"$', line)
        if begun:
            name = begun[1]
            texts[name] = begun[2]
        elif more and name:
            texts[name] += more[1]
    return texts


def third_of(words):
    more = len(words) // 3
    return "e" * more if more < 5 else (" eeeee" * more)[:more].rstrip()


def wrapped(text):
    """Line ends stay outside, as gettext asks."""
    before, words, after = re.fullmatch(r"((?:\\n)*)(.*?)((?:\\n)*)", text).groups()
    return "%s«%s%s»%s" % (before, words, third_of(words), after)


def entry_of(texts):
    context = texts.get("msgctxt")
    lines = ['msgctxt "%s"' % context] if context else []
    lines.append('msgid "%s"' % texts["msgid"])
    if "msgid_plural" in texts:
        lines.append('msgid_plural "%s"' % texts["msgid_plural"])
        lines.append('msgstr[0] "%s"' % wrapped(texts["msgid"]))
        lines.append('msgstr[1] "%s"' % wrapped(texts["msgid_plural"]))
    else:
        lines.append('msgstr "%s"' % KEPT.get(context, wrapped(texts["msgid"])))
    return "\n".join(lines)


print('msgid ""\nmsgstr "Content-Type: text/plain; charset=UTF-8\\n"\n'
      '"Plural-Forms: nplurals=2; plural=(n != 1);\\n"\n')
with open(sys.argv[1], encoding="utf-8") as template:
    for block in template.read().split("\n\n")[1:]:
        texts = texts_of(block)
        if texts.get("msgid"):
            print(entry_of(texts) + "\n")
