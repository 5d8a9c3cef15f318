/* Rows of buttons and buttonholes. */
#include "pattern/reader.h"

static const struct err_kind button_kind = { "pattern.button_kind", ERR_FAULT,
                                             BASE_TR("“{0}” is neither; write \"button\" or \"buttonhole\"") };
static const struct err_kind button_form = { "pattern.button_form", ERR_FAULT,
                                             BASE_TR("a row of buttons leads from a point to another one") };
static const struct err_kind button_length = {
    "pattern.button_length", ERR_FAULT,
    BASE_TR("a button is marked by a cross; only buttonholes have \"length\" and \"across\"")
};
static const struct err_kind single_button = { "pattern.single_button", ERR_FAULT,
                                               BASE_TR("a single one stands at \"first\"; leave \"last\" out") };

static enum pattern_button_kind read_kind(const struct pattern_reader *r, const struct json_node *n)
{
    const struct json_node *node = json_need(n, "kind", JSON_TEXT, r->errs);
    return node ? pattern_read_word(r, node, pattern_button_words, PATTERN_BUTTON, PATTERN_BUTTONHOLE, &button_kind)
                : PATTERN_BUTTON;
}

static void read_line(const struct pattern_reader *r, const struct json_node *n, struct pattern_buttons *row)
{
    row->ends[0] = pattern_need_point(r, n, "from");
    row->ends[1] = pattern_need_point(r, n, "to");
    if (row->ends[0] == row->ends[1] && row->ends[0] != PATTERN_NONE)
        json_fault(r->errs, n, &button_form, ERR_NONE);
}

static void read_hole(const struct pattern_reader *r, const struct json_node *n, struct pattern_buttons *row)
{
    const struct json_node *length = json_find(n, "length"), *across = json_find(n, "across");
    if (row->kind == PATTERN_BUTTONHOLE) {
        length = length ? length : json_need(n, "length", JSON_NUMBER, r->errs);
        row->across = pattern_read_yes(r, n, "across");
        if (length)
            pattern_read_value(r, length, PATTERN_POSITIVE, &row->length);
    } else if (length || across) {
        json_fault(r->errs, length ? length : across, &button_length, ERR_NONE);
    }
}

static void read_row(const struct pattern_reader *r, const struct json_node *n, struct pattern_buttons *row)
{
    static const char *const fields[] = { "kind", "from", "to", "count", "first", "last", "length", "across", NULL };
    const struct json_node *first = json_find(n, "first"), *last = json_find(n, "last");
    json_only(n, fields, r->errs);
    row->place = json_place(r->a, n);
    row->kind = read_kind(r, n);
    read_line(r, n, row);
    read_hole(r, n, row);
    pattern_need_count(r, n, "count", PATTERN_MOST_BUTTONS, &row->count);
    if (first)
        pattern_read_value(r, first, PATTERN_NOT_NEGATIVE, &row->first);
    if (last && row->count.number == 1)
        json_fault(r->errs, last, &single_button, ERR_NONE);
    else if (last)
        pattern_read_value(r, last, PATTERN_NOT_NEGATIVE, &row->last);
}

void pattern_read_buttons(const struct pattern_reader *r, const struct json_node *list, struct pattern_piece *piece)
{
    struct pattern_buttons *rows = base_arena_alloc(r->a, list->count, sizeof *rows);
    for (const struct json_node *n = list->first; n; n = n->next)
        if (json_is(n, JSON_OBJECT, r->errs))
            read_row(r, n, &rows[piece->button_row_count++]);
    piece->button_rows = rows;
}
