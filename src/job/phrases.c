#include "job/phrases.h"

#include "base/buffer.h"
#include "base/words.h"

#include <ctype.h>
#include <string.h>

enum { MOST_SLOTS = 3, MOST_BYTES = 400 /* longer texts are no phrases; bounds the ways that one is divided */ };

const char *job_single_spaced(struct arena *a, const char *text)
{
    char *out = base_arena_copy_text(a, text), *to = out;
    for (const char *from = text; *from; from++)
        if (!isspace((unsigned char)*from))
            *to++ = *from;
        else if (to > out && to[-1] != ' ')
            *to++ = ' ';
    while (to > out && to[-1] == ' ')
        to--;
    *to = '\0';
    return out;
}

/* What stands in braces is filled in. Of two that fit a text the first is meant.
 * To the translator: the words in braces stay as they are, in any order; the others are typed by her. */
static const char *const phrases[] = {
    BASE_TR("lengthen {line} by {length}"),
    BASE_TR("shorten {line} by {length}"),
    BASE_TR("lengthen {line} to body"),
    BASE_TR("shorten {line} to body"),
    BASE_TR("lengthen {line} to {length}"),
    BASE_TR("shorten {line} to {length}"),
    BASE_TR("take in {seam} at {level} by {length} each side"),
    BASE_TR("take in {seam} at {level} by {length}"),
    BASE_TR("let out {seam} at {level} by {length} each side"),
    BASE_TR("let out {seam} at {level} by {length}"),
    BASE_TR("fuller bust by {length}"),
    BASE_TR("fuller bust"),
    BASE_TR("allow {length} at {edge}"),
    BASE_TR("cut {piece} {length} wide"),
};
enum { PHRASES = sizeof phrases / sizeof phrases[0] };

/* A text as a phrase divides it. */
struct divided {
    struct arena *a;
    const enum units_length
        *unit; /* lengths have to be some, bare numbers in that unit; NULL: anything may stand there */
    struct slot {
        const char *name; /* "line}…", in the phrase */
        const char *text;
    } slots[MOST_SLOTS];
    size_t count;
};

static bool is_slot(const struct slot *slot, const char *name)
{
    size_t length = strlen(name);
    return strncmp(slot->name, name, length) == 0 && slot->name[length] == '}';
}

static bool same(const char *one, const char *other)
{
    while (*one && tolower((unsigned char)*one) == tolower((unsigned char)*other))
        one++, other++;
    return !*one && !*other;
}

static bool divides(struct divided *d, const char *phrase, const char *text);

/* A slot takes as much as leaves the rest of the phrase its words. */
static bool fills(struct divided *d, const char *phrase, const char *text)
{
    const char *rest = strchr(phrase, '}') + 1;
    size_t slot = d->count++;
    for (size_t length = strlen(text); length; length--) {
        double mm;
        d->slots[slot] = (struct slot){ phrase + 1, base_arena_copy_bytes(d->a, text, length) };
        bool fits = (*rest || !text[length]) && divides(d, rest, text + length);
        if (fits &&
            (!d->unit || !is_slot(&d->slots[slot], "length") || units_parse_length(d->slots[slot].text, *d->unit, &mm)))
            return true;
        d->count = slot + 1;
    }
    d->count = slot;
    return false;
}

static bool divides(struct divided *d, const char *phrase, const char *text)
{
    while (*phrase && *phrase != '{' && tolower((unsigned char)*phrase) == tolower((unsigned char)*text))
        phrase++, text++;
    return *phrase == '{' ? d->count < MOST_SLOTS && fills(d, phrase, text) : !*phrase && !*text;
}

/* The phrase with its slots filled. */
static const char *filled(struct arena *a, const char *phrase, const struct divided *d)
{
    struct base_buffer out = { .a = a };
    for (const char *at = phrase; *at; at++)
        if (*at != '{') {
            base_buffer_print(&out, "%c", *at);
        } else {
            for (size_t i = 0; i < d->count; i++)
                if (strcspn(at + 1, "}") == strcspn(d->slots[i].name, "}") &&
                    strncmp(at + 1, d->slots[i].name, strcspn(at + 1, "}") + 1) == 0)
                    base_buffer_print(&out, "%s", d->slots[i].text);
            at += strcspn(at, "}");
        }
    return base_buffer_text(&out);
}

/* --- names ------------------------------------------------------------------------------------------------------- */

static bool calls(const struct divided *d, const struct pattern *p, const char *name, const char *text)
{
    return name && (same(name, text) || same(pattern_worded(d->a, p, name), text));
}

static const char *line_name(const struct divided *d, const struct pattern *p, const char *text)
{
    for (size_t i = 0; i < p->piece_count; i++)
        for (size_t line = 0; line < p->pieces[i].line_count; line++)
            if (calls(d, p, p->pieces[i].lines[line].name, text))
                return p->pieces[i].lines[line].name;
    return text;
}

/* "side" is all seams "side, …": whatever of a seam's name ends before a comma may be meant. */
static const char *seam_name(const struct divided *d, const struct pattern *p, const char *text)
{
    for (size_t i = 0; i < p->seam_count; i++)
        for (const char *end = p->seams[i].name; end;) {
            end = strstr(end, ", ");
            size_t length = end ? (size_t)(end - p->seams[i].name) : strlen(p->seams[i].name);
            const char *part = base_arena_copy_bytes(d->a, p->seams[i].name, length);
            if (calls(d, p, part, text))
                return part;
            end = end ? end + 2 : NULL;
        }
    return text;
}

static const char *level_name(const struct divided *d, const struct pattern *p, const char *text)
{
    for (size_t i = 0; i < p->row_count; i++)
        if (calls(d, p, p->chart[i].name, text))
            return p->chart[i].name;
    return text;
}

/* A piece's label may be another's, too: names go first, then labels of pieces that are cut. A label may also be as the
 * file has it, from when another language was spoken. */
static const struct pattern_piece *find_piece(const struct divided *d, const struct job_altered *of, const char *text)
{
    const struct pattern *p = of->pattern;
    for (size_t i = 0; i < p->piece_count; i++)
        if (of->is_cut[i] && calls(d, p, p->pieces[i].name, text))
            return &p->pieces[i];
    for (size_t i = 0; i < p->piece_count; i++)
        if (of->is_cut[i] &&
            (same(p->pieces[i].label, text) || same(p->pieces[i].label, pattern_worded(d->a, p, text))))
            return &p->pieces[i];
    return NULL;
}

static const char *edge_name(const struct divided *d, const struct job_altered *of, const char *text)
{
    const char *dot = strrchr(text, '.');
    const struct pattern_piece *piece =
        dot ? find_piece(d, of, base_arena_copy_bytes(d->a, text, (size_t)(dot - text))) : NULL;
    for (size_t i = 0; piece && i < piece->edge_count; i++)
        if (calls(d, of->pattern, piece->edges[i].name, dot + 1))
            return base_arena_print(d->a, "%s.%s", piece->name, piece->edges[i].name);
    return text;
}

static void name_slots(struct divided *d, const struct job_altered *of)
{
    for (size_t i = 0; i < d->count; i++) {
        struct slot *slot = &d->slots[i];
        const struct pattern_piece *piece = is_slot(slot, "piece") ? find_piece(d, of, slot->text) : NULL;
        if (piece)
            slot->text = piece->name;
        if (is_slot(slot, "line"))
            slot->text = line_name(d, of->pattern, slot->text);
        if (is_slot(slot, "seam"))
            slot->text = seam_name(d, of->pattern, slot->text);
        if (is_slot(slot, "level"))
            slot->text = level_name(d, of->pattern, slot->text);
        if (is_slot(slot, "edge"))
            slot->text = edge_name(d, of, slot->text);
    }
}

static void word_slots(struct divided *d, const struct pattern *p)
{
    for (size_t i = 0; i < d->count; i++) {
        struct slot *slot = &d->slots[i];
        const char *dot = is_slot(slot, "edge") ? strrchr(slot->text, '.') : NULL;
        if (dot)
            slot->text = base_arena_print(
                d->a, "%s.%s",
                pattern_worded(d->a, p, base_arena_copy_bytes(d->a, slot->text, (size_t)(dot - slot->text))),
                pattern_worded(d->a, p, dot + 1));
        else if (!is_slot(slot, "length"))
            slot->text = pattern_worded(d->a, p, slot->text);
    }
}

/* --- whole phrases ------------------------------------------------------------------------------------------------ */

/* The phrase that divides the text, in her language or in English; PHRASES: none does. */
static size_t find_phrase(struct divided *d, const char *text, bool hers)
{
    size_t i = strlen(text) <= MOST_BYTES ? 0 : PHRASES;
    for (; i < PHRASES; i++) {
        d->count = 0;
        if (divides(d, hers ? base_tr(phrases[i]) : phrases[i], text))
            return i;
    }
    return PHRASES;
}

/* English of a phrase in one language; NULL when the text is none. Lengths that are none are for the reader to tell. */
static const char *english_of(struct arena *a, const struct job_altered *of, const char *text, bool hers)
{
    struct divided d = { .a = a, .unit = &of->unit };
    const char *words = job_single_spaced(a, text);
    size_t found = find_phrase(&d, words, hers);
    d.unit = NULL;
    if (found == PHRASES)
        found = find_phrase(&d, words, hers);
    if (found == PHRASES)
        return NULL;
    name_slots(&d, of);
    return filled(a, phrases[found], &d);
}

const char *job_phrase_english(struct arena *a, const struct job_altered *of, const char *text)
{
    const char *words = english_of(a, of, text, false);
    if (!words)
        words = english_of(a, of, text, true);
    return words ? words : job_single_spaced(a, text);
}

const char *job_phrase_kept(struct arena *a, const struct job_altered *of, const char *text)
{
    const char *hers = english_of(a, of, text, false) ? NULL : english_of(a, of, text, true);
    return hers ? hers : text;
}

const char *job_phrase_shown(struct arena *a, const struct pattern *pattern, const char *kept)
{
    static const enum units_length any_unit = UNITS_MM;
    struct divided d = { .a = a, .unit = &any_unit };
    size_t found = find_phrase(&d, kept, false);
    if (found == PHRASES)
        return kept;
    word_slots(&d, pattern);
    return filled(a, base_tr(phrases[found]), &d);
}
