#include "job/alterations.h"

#include "base/words.h"
#include "job/names.h"
#include "job/phrases.h"

#include <assert.h>
#include <ctype.h>
#include <string.h>

#define MOST_MM 500.0         /* no garment is altered by more than half a metre at one place (our own bound) */
#define SAME_MM 1e-6          /* two readings of one length */
#define MOST_WIDTH_MM 20000.0 /* no rectangle is cut wider than a ruffle of 20 m (our own bound) */

static const struct err_kind not_read = {
    "job.alteration", ERR_FAULT,
    BASE_TR(
        "“{0}” is no alteration; write “lengthen LINE by 2 cm”, “shorten LINE by 2 cm”, “lengthen LINE to 42 cm”, "
        "“lengthen LINE to "
        "body”, “take in SEAM "
        "at LEVEL by 6 mm”, “let out SEAM at LEVEL by 6 mm”, “fuller bust by 4 cm”, “allow 4 cm at PIECE.EDGE” or “cut "
        "PIECE 70 cm wide”")
};
static const struct err_kind no_length = { "job.alteration_length", ERR_FAULT,
                                           BASE_TR("“{0}”: “{1}” is no length; write one such as “6 mm” or “1/4 in”") };
static const struct err_kind too_little = {
    "job.alteration_none", ERR_FAULT, BASE_TR("“{0}”: write a length above nothing; {1} is the other way round")
};
static const struct err_kind too_much = {
    "job.alteration_large", ERR_FAULT,
    BASE_TR("“{0}” comes to a change of {1}, and no place is altered by more than {2}")
};
static const struct err_kind no_line = {
    "job.no_line", ERR_FAULT, BASE_TR("“{0}”: no piece that is cut has a lengthen line named “{1}”; there are {2}")
};
static const struct err_kind no_measure = {
    "job.no_measure", ERR_FAULT,
    BASE_TR(
        "“{0}”: the pattern does not say how long the line “{1}” is drawn; write “by” how much it is to be longer")
};
static const struct err_kind no_own = {
    "job.no_own_measure", ERR_FAULT,
    BASE_TR("“{0}”: she has no measurement “{1}”; add it to the body file, or write how "
            "long it is to be, such as “to 42 cm”")
};
static const struct err_kind no_seam = {
    "job.no_seam", ERR_FAULT, BASE_TR("“{0}”: there is no seam “{1}” between pieces that are cut; there are {2}")
};
static const struct err_kind no_level = {
    "job.no_level", ERR_FAULT,
    BASE_TR("“{0}”: the seam has no point at a level “{1}”; the pattern's levels there are {2}")
};
static const struct err_kind no_edge = {
    "job.no_edge", ERR_FAULT, BASE_TR("“{0}”: no piece that is cut has an edge “{1}”; write PIECE.EDGE, such as “{2}”")
};
static const struct err_kind no_rectangle = {
    "job.no_rectangle", ERR_FAULT,
    BASE_TR("“{0}”: no rectangle that is cut is named so; only a rectangle's width can be given, and there are {1}")
};
static const struct err_kind no_width = { "job.no_width", ERR_FAULT,
                                          BASE_TR("“{0}”: a rectangle is cut more than nothing and at most {1} wide") };
static const struct err_kind no_spread = {
    "job.no_spread", ERR_FAULT, BASE_TR("“{0}”: no piece that is cut has slashes marked for a fuller bust")
};
static const struct err_kind no_bust = {
    "job.no_bust", ERR_FAULT,
    BASE_TR("“{0}”: without a measured full bust say by how much, such as “fuller bust by 4 cm”")
};
static const struct err_kind full_enough = {
    "job.full_enough", ERR_FAULT,
    BASE_TR("“{0}”: the pattern is drawn for a bust of {1}, and yours is {2}; it is full enough")
};

/* An alteration under way. */
struct reading {
    struct arena *a;
    const struct job_altered *of;
    const char *text;
    struct err_place place;
    struct err_list *errs;
};

static bool refuse(const struct reading *r, const struct err_kind *kind, struct err_arg one, struct err_arg two)
{
    base_err(r->errs, kind, r->place, ERR_TEXT(r->text), one, two);
    return false;
}

static bool refuse_name(const struct reading *r, const struct err_kind *kind, const char *name, const char *known)
{
    return refuse(r, kind, ERR_TEXT(name), known ? ERR_TEXT(known) : ERR_NONE);
}

/* What stands behind words that the text begins with, in small or capital letters; NULL when it does not begin so. */
static const char *behind(const char *text, const char *words)
{
    while (*words && tolower((unsigned char)*text) == tolower((unsigned char)*words))
        text++, words++;
    return *words ? NULL : text;
}

/* Parts a text at the last place where the words stand in it; false when they do not. */
static bool part(struct arena *a, const char *text, const char *words, const char **before, const char **after)
{
    const char *last = NULL;
    for (const char *at = text; *at; at++)
        if (behind(at, words))
            last = at;
    if (!last)
        return false;
    *before = base_arena_copy_bytes(a, text, (size_t)(last - text));
    *after = last + strlen(words);
    return true;
}

/* The text without those words at its end. */
static const char *without_end(struct arena *a, const char *text, const char *words)
{
    size_t length = strlen(text), tail = strlen(words);
    if (length <= tail || !behind(text + length - tail, words))
        return text;
    return base_arena_copy_bytes(a, text, length - tail);
}

static bool read_length(const struct reading *r, const char *text, double *mm)
{
    return units_parse_length(text, r->of->unit, mm) || refuse_name(r, &no_length, text, NULL);
}

static bool is_within(const struct reading *r, double mm)
{
    return fabs(mm) <= MOST_MM || refuse(r, &too_much, ERR_MM(mm), ERR_MM(MOST_MM));
}

static bool read_amount(const struct reading *r, const char *text, double *mm)
{
    if (!read_length(r, without_end(r->a, text, " each side"), mm))
        return false;
    return (*mm > 0 || refuse(r, &too_little, ERR_MM(*mm), ERR_NONE)) && is_within(r, *mm);
}

/* The next lengthen line with a name of a piece that is cut; *piece and *line go on from where they are. */
static const struct pattern_line *next_line(const struct job_altered *of, size_t *piece, size_t *line)
{
    for (; *piece < of->pattern->piece_count; ++*piece, *line = 0)
        while (of->is_cut[*piece] && *line < of->pattern->pieces[*piece].line_count) {
            const struct pattern_line *found = &of->pattern->pieces[*piece].lines[(*line)++];
            if (found->name)
                return found;
        }
    return NULL;
}

static const struct pattern_line *find_line(const struct job_altered *of, const char *name)
{
    size_t piece = 0, at = 0;
    const struct pattern_line *line;
    while ((line = next_line(of, &piece, &at)) && strcmp(line->name, name) != 0)
        continue;
    return line;
}

/* Adds a name to a list for a sentence, once. */
static const char *add_name(struct arena *a, const char *list, const char *name)
{
    const char *quoted = base_arena_print(a, base_tr("“%s”"), name);
    if (!list || strstr(list, quoted))
        return list ? list : quoted;
    return base_arena_print(a, "%s, %s", list, quoted);
}

/* A name as she reads it. */
static const char *worded(const struct reading *r, const char *name)
{
    return pattern_worded(r->a, r->of->pattern, name);
}

static const char *line_names(const struct reading *r)
{
    size_t piece = 0, at = 0;
    const char *list = NULL;
    for (const struct pattern_line *l; (l = next_line(r->of, &piece, &at));)
        list = add_name(r->a, list, worded(r, l->name));
    return list ? list : base_tr_in("nothing in a list", "none");
}

/* By how much the alterations that the figure has already make that longer or fuller. */
static double before_mm(const struct reading *r, enum draft_alteration_kind kind, const char *what)
{
    double mm = 0;
    for (size_t i = 0; i < r->of->figure->alteration_count; i++) {
        const struct draft_alteration *a = &r->of->figure->alterations[i];
        if (a->kind == kind && (!what || strcmp(a->what, what) == 0))
            mm += a->amount_mm;
    }
    return mm;
}

/* A length that the body is to have along a line, or "body": what she has. */
static bool read_measure(const struct reading *r, const char *text, int measure, double *mm)
{
    const char *rest = behind(text, "body");
    if (!rest || *rest)
        return read_length(r, text, mm);
    *mm = r->of->own_mm ? r->of->own_mm[measure] : 0;
    return *mm > 0 || refuse_name(r, &no_own, worded(r, r->of->pattern->figures[measure]), NULL);
}

/* "LINE by LENGTH", longer when `sign` is 1, and "LINE to LENGTH", which the body is to have there. */
static bool read_lengthen(const struct reading *r, const char *rest, double sign, struct draft_alteration *out)
{
    const char *name, *amount;
    bool by = part(r->a, rest, " by ", &name, &amount);
    if (!by && !part(r->a, rest, " to ", &name, &amount))
        return refuse_name(r, &not_read, NULL, NULL);
    const struct pattern_line *line = find_line(r->of, name);
    double mm, drawn = 0;
    if (!line)
        return refuse_name(r, &no_line, name, line_names(r));
    if (!by && line->measure != PATTERN_NONE)
        drawn = draft_figure_mm(r->of->pattern, r->of->figure, line->measure, r->of->figure->position);
    if (!by && !(drawn > 0))
        return refuse_name(r, &no_measure, worded(r, name), NULL);
    if (by ? !read_amount(r, amount, &mm) : !read_measure(r, amount, line->measure, &mm))
        return false;
    drawn += before_mm(r, DRAFT_LENGTHEN, name);
    *out = (struct draft_alteration){ DRAFT_LENGTHEN, name, PATTERN_NONE, by ? sign * mm : mm - drawn };
    return is_within(r, out->amount_mm);
}

static bool read_longer(const struct reading *r, const char *rest, struct draft_alteration *out)
{
    return read_lengthen(r, rest, 1, out);
}

static bool read_shorter(const struct reading *r, const char *rest, struct draft_alteration *out)
{
    return read_lengthen(r, rest, -1, out);
}

/* Whether an edge of a piece that is cut lies on the seam; with a level, whether it has a point there. */
static bool reaches(const struct job_altered *of, const struct pattern_seam *seam, int row)
{
    for (int side = 0; side < 2; side++)
        for (size_t i = 0; i < seam->sides[side].count; i++) {
            struct pattern_edge_ref ref = seam->sides[side].edges[i];
            if (of->is_cut[ref.piece] &&
                (row == PATTERN_NONE || draft_edge_has_level(&of->pattern->pieces[ref.piece], ref.edge, row)))
                return true;
        }
    return false;
}

static bool has_seam(const struct job_altered *of, const char *name, int row)
{
    for (size_t i = 0; i < of->pattern->seam_count; i++)
        if (draft_is_seam(&of->pattern->seams[i], name) && reaches(of, &of->pattern->seams[i], row))
            return true;
    return false;
}

static const char *seam_names(const struct reading *r)
{
    const char *list = NULL;
    for (size_t i = 0; i < r->of->pattern->seam_count; i++)
        if (reaches(r->of, &r->of->pattern->seams[i], PATTERN_NONE))
            list = add_name(r->a, list, r->of->pattern->seams[i].label);
    return list ? list : base_tr_in("nothing in a list", "none");
}

static const char *level_names(const struct reading *r, const char *seam)
{
    const char *list = NULL;
    for (size_t row = 0; row < r->of->pattern->row_count; row++)
        if (has_seam(r->of, seam, (int)row))
            list = add_name(r->a, list, worded(r, r->of->pattern->chart[row].name));
    return list ? list : base_tr_in("nothing in a list", "none");
}

/* "side seam" is the seam "side", unless it is called so. */
static const char *seam_meant(const struct reading *r, const char *name)
{
    return has_seam(r->of, name, PATTERN_NONE) ? name : without_end(r->a, name, " seam");
}

static bool read_seam(const struct reading *r, const char *where, const char *amount, double sign,
                      struct draft_alteration *out)
{
    const char *seam, *level;
    double mm;
    if (!part(r->a, where, " at ", &seam, &level))
        return refuse_name(r, &not_read, NULL, NULL);
    seam = seam_meant(r, seam);
    if (!has_seam(r->of, seam, PATTERN_NONE))
        return refuse_name(r, &no_seam, seam, seam_names(r));
    int row = pattern_find_row(r->of->pattern, level);
    if (row == PATTERN_NONE || !has_seam(r->of, seam, row))
        return refuse_name(r, &no_level, level, level_names(r, seam));
    if (!read_amount(r, amount, &mm))
        return false;
    *out = (struct draft_alteration){ DRAFT_TAKE_IN, seam, row, sign * mm };
    return true;
}

/* "SEAM at LEVEL by LENGTH". */
static bool read_seam_by(const struct reading *r, const char *rest, double sign, struct draft_alteration *out)
{
    const char *where, *amount;
    if (!part(r->a, rest, " by ", &where, &amount))
        return refuse_name(r, &not_read, NULL, NULL);
    return read_seam(r, where, amount, sign, out);
}

static bool read_take_in(const struct reading *r, const char *rest, struct draft_alteration *out)
{
    return read_seam_by(r, rest, 1, out);
}

static bool read_let_out(const struct reading *r, const char *rest, struct draft_alteration *out)
{
    return read_seam_by(r, rest, -1, out);
}

static bool has_spread(const struct job_altered *of)
{
    for (size_t i = 0; i < of->pattern->piece_count; i++)
        if (of->is_cut[i] && of->pattern->pieces[i].bust_spread)
            return true;
    return false;
}

/* By as much as her full bust exceeds the one that is drawn for. */
static bool fuller_by_body(const struct reading *r, double *mm)
{
    const struct pattern *p = r->of->pattern;
    int index = pattern_find_figure(p, PATTERN_BUST);
    double own = index != PATTERN_NONE && r->of->own_mm ? r->of->own_mm[index] : 0;
    if (!(own > 0))
        return refuse_name(r, &no_bust, NULL, NULL);
    struct draft_figure drawn = draft_figure_at(r->of->figure->position, r->of->figure->cup_group);
    double drawn_mm = draft_figure_mm(p, &drawn, index, drawn.position) + before_mm(r, DRAFT_BUST, NULL);
    *mm = own - drawn_mm;
    return *mm > 0 || refuse(r, &full_enough, ERR_MM(drawn_mm), ERR_MM(own));
}

/* "by LENGTH", or nothing. */
static bool read_bust(const struct reading *r, const char *rest, struct draft_alteration *out)
{
    const char *amount = behind(rest, " by ");
    double mm = 0;
    if (!has_spread(r->of))
        return refuse_name(r, &no_spread, NULL, NULL);
    if (*rest && !amount)
        return refuse_name(r, &not_read, NULL, NULL);
    if (amount ? !read_amount(r, amount, &mm) : !fuller_by_body(r, &mm))
        return false;
    *out = (struct draft_alteration){ DRAFT_BUST, NULL, PATTERN_NONE, mm };
    return is_within(r, mm);
}

static bool has_edge(const struct reading *r, const char *name)
{
    const char *piece, *edge;
    if (!part(r->a, name, ".", &piece, &edge))
        return false;
    int found = pattern_find_piece(r->of->pattern, piece);
    return found != PATTERN_NONE && r->of->is_cut[found] &&
           pattern_find_edge(&r->of->pattern->pieces[found], edge) != PATTERN_NONE;
}

static const char *an_edge(const struct reading *r)
{
    size_t i = 0;
    while (i + 1 < r->of->pattern->piece_count && !r->of->is_cut[i])
        i++;
    const struct pattern_piece *piece = &r->of->pattern->pieces[i];
    return base_arena_print(r->a, "%s.%s", worded(r, piece->name), worded(r, piece->edges[0].name));
}

/* "LENGTH at PIECE.EDGE". */
static bool read_allowance(const struct reading *r, const char *rest, struct draft_alteration *out)
{
    const char *amount, *edge;
    double mm;
    if (!part(r->a, rest, " at ", &amount, &edge))
        return refuse_name(r, &not_read, NULL, NULL);
    if (!has_edge(r, edge))
        return refuse_name(r, &no_edge, edge, an_edge(r));
    if (!read_length(r, amount, &mm))
        return false;
    *out = (struct draft_alteration){ DRAFT_ALLOWANCE, edge, PATTERN_NONE, mm };
    return (mm >= 0 || refuse(r, &too_little, ERR_MM(mm), ERR_NONE)) && is_within(r, mm);
}

/* What stands behind a piece's name or label and a space; NULL when the text does not begin so. */
static const char *behind_name(const struct reading *r, const char *text, const char *name)
{
    const char *rest = behind(text, job_single_spaced(r->a, name));
    return rest && *rest == ' ' ? rest + 1 : NULL;
}

/* The rectangle that is cut whose name or label the text begins with, the longest; NULL when there is none. */
static const struct pattern_piece *named_rectangle(const struct reading *r, const char *text, const char **rest)
{
    const struct pattern_piece *found = NULL;
    for (size_t i = 0; i < 2 * r->of->pattern->piece_count; i++) {
        const struct pattern_piece *piece = &r->of->pattern->pieces[i / 2];
        const char *after = behind_name(r, text, i % 2 ? piece->label : piece->name);
        if (!after || !piece->is_rectangle || !r->of->is_cut[i / 2] || (found && after <= *rest))
            continue;
        found = piece;
        *rest = after;
    }
    return found;
}

static const char *rectangle_names(const struct reading *r)
{
    const char *list = NULL;
    for (size_t i = 0; i < r->of->pattern->piece_count; i++)
        if (r->of->is_cut[i] && r->of->pattern->pieces[i].is_rectangle)
            list = add_name(r->a, list, worded(r, r->of->pattern->pieces[i].name));
    return list ? list : base_tr_in("nothing in a list", "none");
}

/* "PIECE LENGTH", before "wide". */
static bool read_width(const struct reading *r, const char *text, struct draft_alteration *out)
{
    const char *amount = NULL;
    double mm;
    const struct pattern_piece *piece = named_rectangle(r, text, &amount);
    if (!piece)
        return refuse(r, &no_rectangle, ERR_TEXT(rectangle_names(r)), ERR_NONE);
    if (!read_length(r, amount, &mm))
        return false;
    *out = (struct draft_alteration){ DRAFT_WIDTH, piece->name, PATTERN_NONE, mm };
    return (mm > 0 && mm <= MOST_WIDTH_MM) || refuse(r, &no_width, ERR_MM(MOST_WIDTH_MM), ERR_NONE);
}

/* By the words it begins with. */
static const struct {
    const char *words;
    bool (*read)(const struct reading *, const char *rest, struct draft_alteration *);
} rows[] = {
    { "lengthen ", read_longer }, { "shorten ", read_shorter }, { "take in ", read_take_in },
    { "let out ", read_let_out }, { "fuller bust", read_bust }, { "allow ", read_allowance },
};

/* "SEAM at LEVEL, take in LENGTH": the way a person says what she has pinned. */
static bool read_pinned(const struct reading *r, const char *text, struct draft_alteration *out, bool *is_so)
{
    const char *where, *amount;
    bool in = part(r->a, text, ", take in ", &where, &amount);
    *is_so = in || part(r->a, text, ", let out ", &where, &amount);
    return *is_so && read_seam(r, where, amount, in ? 1 : -1, out);
}

/* "PIECE LENGTH wide", with "cut" before it or not. */
static bool read_wide(const struct reading *r, const char *text, struct draft_alteration *out, bool *is_so)
{
    const char *cut = behind(text, "cut "), *words = without_end(r->a, cut ? cut : text, " wide");
    *is_so = words != (cut ? cut : text);
    return *is_so && read_width(r, words, out);
}

bool job_alteration_read(struct arena *a, const struct job_altered *of, const char *text, struct err_place place,
                         struct draft_alteration *out, struct err_list *errs)
{
    const char *words = job_phrase_english(a, of, text);
    struct reading r = { a, of, job_single_spaced(a, text), place, errs };
    assert(words);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *rest = behind(words, rows[i].words);
        if (rest)
            return rows[i].read(&r, rest, out);
    }
    bool pinned, wide = false;
    bool ok = read_pinned(&r, words, out, &pinned);
    if (!pinned)
        ok = read_wide(&r, words, out, &wide);
    return pinned || wide ? ok : refuse_name(&r, &not_read, NULL, NULL);
}

/* Whether the words come to that alteration. */
static bool says(struct arena *a, const struct job_altered *of, const char *text, const struct draft_alteration *meant)
{
    static const struct err_place nowhere = { NULL, NULL, 0 };
    struct err_list *untold = base_err_list_create();
    struct draft_alteration read;
    bool ok = job_alteration_read(a, of, text, nowhere, &read, untold);
    base_err_list_destroy(untold);
    return ok && read.kind == meant->kind && read.row == meant->row &&
           fabs(read.amount_mm - meant->amount_mm) < SAME_MM;
}

/* The bare number is the word that a unit goes behind. */
const char *job_alteration_words(struct arena *a, const struct job_altered *of, const char *text,
                                 const struct draft_alteration *meant, enum units_length kept)
{
    struct job_altered as_kept = *of;
    as_kept.unit = kept;
    if (says(a, &as_kept, text, meant))
        return text;
    for (size_t i = 1; i <= strlen(text); i++) {
        bool ends_word = text[i - 1] != ' ' && (text[i] == ' ' || text[i] == '\0');
        const char *words =
            ends_word ? base_arena_print(a, "%.*s %s%s", (int)i, text, units_name(of->unit), text + i) : NULL;
        if (words && says(a, &as_kept, words, meant))
            return words;
    }
    return text;
}
