/* The marks of a piece: notches, drill marks, darts, and lines that are folded, lengthened or matched along. */
#include "pattern/reader.h"
#include "values/length.h"

#define APART_MM 12.0 /* the two places of a double notch; clear of each other at the size they are drawn */
#define MOST_APART_MM 100.0

static const struct err_kind notch_place = { "pattern.notch_place", ERR_FAULT,
                                             BASE_TR("a notch has \"at\", from the edge's start, or \"from_end\"") };
static const struct err_kind on_fold = { "pattern.mark_on_fold", ERR_FAULT,
                                         BASE_TR("edge “{0}” lies on the fold, where nothing is cut or sewn") };
static const struct err_kind not_double = { "pattern.notch_apart", ERR_FAULT,
                                            BASE_TR("a single notch has one place; only a double one has them apart") };
static const struct err_kind notch_shape = { "pattern.notch_shape", ERR_FAULT,
                                             BASE_TR("“{0}” is no shape of a notch; write \"slit\" or \"v\"") };
static const struct err_kind yes_or_no = { "pattern.yes_or_no", ERR_FAULT, BASE_TR("is true or false") };
static const struct err_kind dart_form = { "pattern.dart_form", ERR_FAULT,
                                           BASE_TR("a dart has two legs and an apex, three different points") };
static const struct err_kind dart_fold = {
    "pattern.dart_fold", ERR_FAULT,
    BASE_TR("“{0}” is no side a dart is folded to; write \"start\" or \"end\", towards that end of its edge")
};
static const struct err_kind line_form = { "pattern.line_form", ERR_FAULT,
                                           BASE_TR("a line leads from a point to another one") };
static const struct err_kind line_kind = {
    "pattern.line_kind", ERR_FAULT,
    BASE_TR("“{0}” is no kind of line; write \"fold\", \"lengthen\", \"match\" or \"placement\"")
};

static const struct err_kind not_lengthen = { "pattern.not_lengthen", ERR_FAULT,
                                              BASE_TR("only a lengthen line has a name and a measure") };
static const struct err_kind no_measure = { "pattern.no_measure", ERR_FAULT,
                                            BASE_TR("“{0}” is no row of the chart and no measurement of the pattern") };

/* The edge a mark stands on, which is not the fold. */
static int read_edge(const struct pattern_reader *r, const struct json_node *object, const struct pattern_piece *piece)
{
    const struct json_node *node = json_need(object, "edge", JSON_TEXT, r->errs);
    int edge = node ? pattern_read_edge_name(r, node) : PATTERN_NONE;
    if (edge != PATTERN_NONE && edge == piece->fold)
        json_fault(r->errs, node, &on_fold, ERR_TEXT(node->text));
    return edge;
}

bool pattern_read_yes(const struct pattern_reader *r, const struct json_node *object, const char *name)
{
    const struct json_node *node = json_find(object, name);
    if (node && node->type != JSON_TRUE && node->type != JSON_FALSE)
        json_fault(r->errs, node, &yes_or_no, ERR_NONE);
    return node && node->type == JSON_TRUE;
}

static enum pattern_notch_shape read_notch_shape(const struct pattern_reader *r, const struct json_node *n)
{
    static const char *const names[] = { [PATTERN_SLIT] = "slit", [PATTERN_V] = "v" };
    const struct json_node *node = json_maybe(n, "shape", JSON_TEXT, r->errs);
    return node ? pattern_read_word(r, node, names, PATTERN_SLIT, PATTERN_V, &notch_shape) : PATTERN_SLIT;
}

static void read_notch(const struct pattern_reader *r, const struct json_node *n, const struct pattern_piece *piece,
                       struct pattern_notch *notch)
{
    static const char *const fields[] = { "edge", "at", "from_end", "shape", "double", "apart", NULL };
    json_only(n, fields, r->errs);
    const struct json_node *at = json_find(n, "at"), *from_end = json_find(n, "from_end");
    notch->place = json_place(r->a, n);
    notch->edge = read_edge(r, n, piece);
    notch->shape = read_notch_shape(r, n);
    notch->is_double = pattern_read_yes(r, n, "double");
    notch->from_end = from_end != NULL;
    notch->apart_mm = APART_MM;
    if ((at != NULL) == (from_end != NULL))
        json_fault(r->errs, n, &notch_place, ERR_NONE);
    else
        pattern_read_value(r, at ? at : from_end, PATTERN_NOT_NEGATIVE, &notch->at);
    if (!json_find(n, "apart"))
        return;
    values_need_length(n, "apart", r->p->unit, 0, MOST_APART_MM, &notch->apart_mm, r->errs);
    if (!notch->is_double)
        json_fault(r->errs, json_find(n, "apart"), &not_double, ERR_NONE);
}

static void read_notches(const struct pattern_reader *r, const struct json_node *list, struct pattern_piece *piece)
{
    struct pattern_notch *notches = base_arena_alloc(r->a, list->count, sizeof *notches);
    for (const struct json_node *n = list->first; n; n = n->next)
        if (json_is(n, JSON_OBJECT, r->errs))
            read_notch(r, n, piece, &notches[piece->notch_count++]);
    piece->notches = notches;
}

static void read_drill_marks(const struct pattern_reader *r, const struct json_node *list, struct pattern_piece *piece)
{
    struct pattern_drill_mark *marks = base_arena_alloc(r->a, list->count, sizeof *marks);
    for (const struct json_node *n = list->first; n; n = n->next)
        marks[piece->drill_mark_count++] =
            (struct pattern_drill_mark){ pattern_read_point_name(r, n), json_place(r->a, n) };
    piece->drill_marks = marks;
}

static enum pattern_dart_fold read_dart_fold(const struct pattern_reader *r, const struct json_node *n)
{
    const struct json_node *node = json_maybe(n, "fold", JSON_TEXT, r->errs);
    if (!node)
        return PATTERN_NOT_FOLDED;
    return pattern_read_word(r, node, pattern_dart_fold_words, PATTERN_FOLD_TO_START, PATTERN_FOLD_TO_END, &dart_fold);
}

static void read_dart(const struct pattern_reader *r, const struct json_node *n, const struct pattern_piece *piece,
                      struct pattern_dart *dart)
{
    static const char *const fields[] = { "edge", "legs", "apex", "fold", NULL };
    json_only(n, fields, r->errs);
    dart->place = json_place(r->a, n);
    dart->edge = read_edge(r, n, piece);
    dart->apex = pattern_need_point(r, n, "apex");
    dart->fold = read_dart_fold(r, n);
    const struct json_node *legs = json_need(n, "legs", JSON_LIST, r->errs);
    if (legs && legs->count == 2) {
        dart->legs[0] = pattern_read_point_name(r, legs->first);
        dart->legs[1] = pattern_read_point_name(r, legs->first->next);
        if (dart->legs[0] == PATTERN_NONE || dart->legs[1] == PATTERN_NONE || dart->apex == PATTERN_NONE)
            return; /* told already */
        if (dart->legs[0] != dart->legs[1] && dart->legs[0] != dart->apex && dart->legs[1] != dart->apex)
            return;
    }
    if (legs)
        json_fault(r->errs, n, &dart_form, ERR_NONE);
}

static void read_darts(const struct pattern_reader *r, const struct json_node *list, struct pattern_piece *piece)
{
    struct pattern_dart *darts = base_arena_alloc(r->a, list->count, sizeof *darts);
    for (const struct json_node *n = list->first; n; n = n->next)
        if (json_is(n, JSON_OBJECT, r->errs))
            read_dart(r, n, piece, &darts[piece->dart_count++]);
    piece->darts = darts;
}

static void read_line(const struct pattern_reader *r, const struct json_node *n, struct pattern_line *line)
{
    static const char *const fields[] = { "kind", "from", "to", "label", "name", "measure", NULL };
    json_only(n, fields, r->errs);
    const struct json_node *kind = json_need(n, "kind", JSON_TEXT, r->errs);
    line->place = json_place(r->a, n);
    line->measure = PATTERN_NONE;
    if (kind)
        line->kind =
            pattern_read_word(r, kind, pattern_line_words, PATTERN_LINE_FOLD, PATTERN_LINE_PLACEMENT, &line_kind);
    line->ends[0] = pattern_need_point(r, n, "from");
    line->ends[1] = pattern_need_point(r, n, "to");
    if (json_find(n, "label"))
        line->label = pattern_shown(r, json_need_text(n, "label", r->errs));
    if (line->ends[0] == line->ends[1] && line->ends[0] != PATTERN_NONE)
        json_fault(r->errs, n, &line_form, ERR_NONE);
}

/* What a lengthen line is called by when it is used, and the measurement it changes. */
static void read_use(const struct pattern_reader *r, const struct json_node *n, struct pattern_line *line)
{
    const struct json_node *name = json_find(n, "name"), *measure = json_maybe(n, "measure", JSON_TEXT, r->errs);
    if (line->kind != PATTERN_LINE_LENGTHEN && (name || measure))
        json_fault(r->errs, name ? name : measure, &not_lengthen, ERR_NONE);
    if (name)
        line->name = json_need_text(n, "name", r->errs);
    pattern_calls(r, line->name);
    if (measure)
        line->measure = pattern_find_figure(r->p, measure->text);
    if (measure && line->measure == PATTERN_NONE)
        json_fault(r->errs, measure, &no_measure, ERR_TEXT(measure->text));
}

static void read_lines(const struct pattern_reader *r, const struct json_node *list, struct pattern_piece *piece)
{
    struct pattern_line *lines = base_arena_alloc(r->a, list->count, sizeof *lines);
    for (const struct json_node *n = list->first; n; n = n->next)
        if (json_is(n, JSON_OBJECT, r->errs)) {
            read_line(r, n, &lines[piece->line_count]);
            read_use(r, n, &lines[piece->line_count++]);
        }
    piece->lines = lines;
}

static const struct {
    const char *field;
    void (*read)(const struct pattern_reader *, const struct json_node *, struct pattern_piece *);
} mark_rows[] = {
    { "notches", read_notches }, { "drill_marks", read_drill_marks }, { "darts", read_darts },
    { "lines", read_lines },     { "buttons", pattern_read_buttons },
};

void pattern_read_marks(const struct pattern_reader *r, const struct json_node *object, struct pattern_piece *piece)
{
    for (size_t i = 0; i < sizeof mark_rows / sizeof mark_rows[0]; i++) {
        const struct json_node *list = json_maybe(object, mark_rows[i].field, JSON_LIST, r->errs);
        if (list)
            mark_rows[i].read(r, list, piece);
    }
}
