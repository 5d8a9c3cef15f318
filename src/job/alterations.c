#include "job/alterations.h"

#include "base/text.h"
#include "job/names.h"

#include <math.h>
#include <string.h>

#define MOST_MM 500.0 /* no garment is altered by more than half a metre at one place (our own bound) */

static const struct err_kind not_read = {
    "job.alteration", ERR_FAULT,
    "“{0}” is no alteration; write “lengthen LINE by 2 cm”, “shorten LINE by 2 cm”, “lengthen LINE to 42 cm”, “take in "
    "SEAM at LEVEL by 6 mm”, “let out SEAM at LEVEL by 6 mm”, “fuller bust by 4 cm” or “allow 4 cm at PIECE.EDGE”"
};
static const struct err_kind no_length = { "job.alteration_length", ERR_FAULT,
                                           "“{0}”: “{1}” is no length above nothing and up to 500 mm" };
static const struct err_kind no_line = { "job.no_line", ERR_FAULT,
                                         "“{0}”: no piece has a lengthen line named “{1}”; there are {2}" };
static const struct err_kind no_measure = {
    "job.no_measure", ERR_FAULT,
    "“{0}”: the line “{1}” does not say which length of the body it changes; write “lengthen {1} by” so much"
};
static const struct err_kind no_seam = { "job.no_seam", ERR_FAULT, "“{0}”: the pattern has no seam “{1}”; it has {2}" };
static const struct err_kind no_level = { "job.no_level", ERR_FAULT,
                                          "“{0}”: the chart has no level “{1}”; it has {2}" };
static const struct err_kind no_edge = { "job.no_edge", ERR_FAULT,
                                         "“{0}”: there is no edge “{1}”; write PIECE.EDGE, such as “{2}”" };
static const struct err_kind no_spread = { "job.no_spread", ERR_FAULT,
                                           "“{0}”: no piece that is cut for this size has slashes marked for a fuller bust" };
static const struct err_kind no_bust = {
    "job.no_bust", ERR_FAULT, "“{0}”: without a measured full bust say by how much, such as “fuller bust by 4 cm”"
};

/* An alteration under way. */
struct reading {
    struct arena *a;
    const struct pattern *pattern;
    const struct draft_figure *figure;
    const double *own_mm;
    const char *text;
    enum units_length unit;
    struct err_place place;
    struct err_list *errs;
};

static bool refuse(const struct reading *r, const struct err_kind *kind, const char *what, const char *known)
{
    base_err(r->errs, kind, r->place, ERR_TEXT(r->text), ERR_TEXT(what), ERR_TEXT(known));
    return false;
}

/* Parts a text at the last place where `word` stands in it, spaces around; false when it does not. */
static bool part(struct arena *a, const char *text, const char *word, const char **before, const char **after)
{
    const char *last = NULL;
    for (const char *at = strstr(text, word); at; at = strstr(at + 1, word))
        last = at;
    if (!last)
        return false;
    *before = base_arena_copy_bytes(a, text, (size_t)(last - text));
    *after = last + strlen(word);
    return true;
}

static bool read_amount(const struct reading *r, const char *text, double *mm)
{
    if (units_parse_length(text, r->unit, mm) && *mm > 0 && *mm <= MOST_MM)
        return true;
    return refuse(r, &no_length, text, NULL);
}

static const struct pattern_line *find_line(const struct pattern *p, const char *name)
{
    for (size_t i = 0; i < p->piece_count; i++)
        for (size_t k = 0; k < p->pieces[i].line_count; k++) {
            const struct pattern_line *line = &p->pieces[i].lines[k];
            if (line->name && strcmp(line->name, name) == 0)
                return line;
        }
    return NULL;
}

static const char *line_names(const struct reading *r)
{
    const char *list = NULL;
    for (size_t i = 0; i < r->pattern->piece_count; i++)
        for (size_t k = 0; k < r->pattern->pieces[i].line_count; k++) {
            const char *name = r->pattern->pieces[i].lines[k].name;
            bool known = !name || (list && strstr(list, base_arena_print(r->a, "“%s”", name)));
            if (!known)
                list = list ? base_arena_print(r->a, "%s, “%s”", list, name) : base_arena_print(r->a, "“%s”", name);
        }
    return list ? list : "none";
}

/* "LINE by LENGTH", longer when `sign` is 1, and "LINE to LENGTH". */
static bool read_lengthen(const struct reading *r, const char *rest, double sign, struct draft_alteration *out)
{
    const char *name, *amount;
    bool by = part(r->a, rest, " by ", &name, &amount);
    if (!by && !(sign > 0 && part(r->a, rest, " to ", &name, &amount)))
        return refuse(r, &not_read, NULL, NULL);
    const struct pattern_line *line = find_line(r->pattern, name);
    double mm, has;
    if (!line)
        return refuse(r, &no_line, name, line_names(r));
    if (by && !read_amount(r, amount, &mm))
        return false;
    if (!by && line->measure == PATTERN_NONE)
        return refuse(r, &no_measure, name, NULL);
    if (!by && (!units_parse_length(amount, r->unit, &mm) || !(mm > 0)))
        return refuse(r, &no_length, amount, NULL);
    has = by ? 0 : draft_figure_mm(r->pattern, r->figure, line->measure, r->figure->position);
    *out = (struct draft_alteration){ DRAFT_LENGTHEN, name, PATTERN_NONE, sign * mm - has };
    return fabs(out->amount_mm) <= MOST_MM || refuse(r, &no_length, amount, NULL);
}

static bool read_longer(const struct reading *r, const char *rest, struct draft_alteration *out)
{
    return read_lengthen(r, rest, 1, out);
}

static bool read_shorter(const struct reading *r, const char *rest, struct draft_alteration *out)
{
    return read_lengthen(r, rest, -1, out);
}

static bool has_seam(const struct pattern *p, const char *name)
{
    for (size_t i = 0; i < p->seam_count; i++)
        if (draft_is_seam(&p->seams[i], name))
            return true;
    return false;
}

/* "SEAM at LEVEL by LENGTH". */
static bool read_seam(const struct reading *r, const char *rest, double sign, struct draft_alteration *out)
{
    const struct pattern *p = r->pattern;
    const char *where, *amount, *seam, *level;
    double mm;
    if (!part(r->a, rest, " by ", &where, &amount) || !part(r->a, where, " at ", &seam, &level))
        return refuse(r, &not_read, NULL, NULL);
    int row = pattern_find_row(p, level);
    if (!has_seam(p, seam))
        return refuse(r, &no_seam, seam, job_names_of(r->a, p->seams, p->seam_count, sizeof *p->seams));
    if (row == PATTERN_NONE)
        return refuse(r, &no_level, level, job_names_of(r->a, p->chart, p->row_count, sizeof *p->chart));
    if (!read_amount(r, amount, &mm))
        return false;
    *out = (struct draft_alteration){ DRAFT_TAKE_IN, seam, row, sign * mm };
    return true;
}

static bool read_take_in(const struct reading *r, const char *rest, struct draft_alteration *out)
{
    return read_seam(r, rest, 1, out);
}

static bool read_let_out(const struct reading *r, const char *rest, struct draft_alteration *out)
{
    return read_seam(r, rest, -1, out);
}

static bool has_spread(const struct pattern *p, int cup_group)
{
    for (size_t i = 0; i < p->piece_count; i++)
        if (p->pieces[i].bust_spread && pattern_in_cup_group(p->pieces[i].cup_group, cup_group))
            return true;
    return false;
}

/* "by LENGTH", or nothing: as much as her full bust exceeds the one that is drawn for. */
static bool read_bust(const struct reading *r, const char *rest, struct draft_alteration *out)
{
    int index = pattern_find_figure(r->pattern, PATTERN_BUST);
    const char *amount = base_text_behind(rest, " by ");
    double mm = 0;
    if (!has_spread(r->pattern, r->figure->cup_group))
        return refuse(r, &no_spread, NULL, NULL);
    if (*rest && !amount)
        return refuse(r, &not_read, NULL, NULL);
    if (amount && !read_amount(r, amount, &mm))
        return false;
    if (!amount) {
        double own = index != PATTERN_NONE && r->own_mm ? r->own_mm[index] : 0;
        if (!(own > 0))
            return refuse(r, &no_bust, NULL, NULL);
        struct draft_figure drawn = draft_figure_at(r->figure->position, r->figure->cup_group);
        mm = own - draft_figure_mm(r->pattern, &drawn, index, drawn.position);
    }
    *out = (struct draft_alteration){ DRAFT_BUST, NULL, PATTERN_NONE, mm };
    return fabs(mm) <= MOST_MM || refuse(r, &no_length, amount ? amount : rest, NULL);
}

static bool has_edge(const struct reading *r, const char *name)
{
    const char *piece, *edge;
    if (!part(r->a, name, ".", &piece, &edge))
        return false;
    int found = pattern_find_piece(r->pattern, piece);
    return found != PATTERN_NONE && pattern_find_edge(&r->pattern->pieces[found], edge) != PATTERN_NONE;
}

/* "LENGTH at PIECE.EDGE". */
static bool read_allowance(const struct reading *r, const char *rest, struct draft_alteration *out)
{
    const char *amount, *edge;
    double mm;
    if (!part(r->a, rest, " at ", &amount, &edge))
        return refuse(r, &not_read, NULL, NULL);
    const struct pattern_piece *first = &r->pattern->pieces[0];
    if (!has_edge(r, edge))
        return refuse(r, &no_edge, edge, base_arena_print(r->a, "%s.%s", first->name, first->edges[0].name));
    if (!units_parse_length(amount, r->unit, &mm) || mm < 0 || mm > PATTERN_MOST_ALLOWANCE_MM)
        return refuse(r, &no_length, amount, NULL);
    *out = (struct draft_alteration){ DRAFT_ALLOWANCE, edge, PATTERN_NONE, mm };
    return true;
}

/* By the words it begins with. */
static const struct {
    const char *words;
    bool (*read)(const struct reading *, const char *rest, struct draft_alteration *);
} rows[] = {
    { "lengthen ", read_longer }, { "shorten ", read_shorter }, { "take in ", read_take_in },
    { "let out ", read_let_out }, { "fuller bust", read_bust }, { "allow ", read_allowance },
};

bool job_alteration_read(struct arena *a, const struct pattern *pattern, const struct draft_figure *figure,
                         const double *own_mm, const char *text, enum units_length unit, struct err_place place,
                         struct draft_alteration *out, struct err_list *errs)
{
    struct reading r = { a, pattern, figure, own_mm, text, unit, place, errs };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *rest = base_text_behind(text, rows[i].words);
        if (rest)
            return rows[i].read(&r, rest, out);
    }
    return refuse(&r, &not_read, NULL, NULL);
}
