/* Rows of buttons and buttonholes of one piece at one size. */
#include "draft/work.h"

#include <math.h>

#define SAME_BUTTON_MM 1.0 /* nearer to each other two buttons are one (our own, no source) */

static const struct err_kind no_room = {
    "draft.buttons_room", ERR_FAULT,
    BASE_TR("a row of {3}s of piece “{0}” has no room in size {1}: \"first\" and \"last\" "
            "leave nothing of the line from “{2}” on")
};
static const struct err_kind outside = { "draft.button_outside", ERR_FAULT,
                                         BASE_TR("a {3} of piece “{0}” reaches over the stitching line in size {1}, in "
                                                 "the row from “{2}” on; move it into the piece") };
static const struct err_kind meet = {
    "draft.buttons_meet", ERR_WARNING,
    BASE_TR("the {3}s of piece “{0}” in the row from “{2}” on run into each other in size {1}; give fewer of them")
};

/* A row as it lies. */
struct row {
    const struct pattern_buttons *written;
    int count;
    vec2 first, step; /* where the first is, and the way from each to the next */
    vec2 half;        /* from a buttonhole's middle to its end */
};

size_t draft_buttonhole_count(const struct draft_work *w)
{
    size_t count = 0;
    for (size_t i = 0; i < w->piece->button_row_count; i++)
        if (w->piece->button_rows[i].kind == PATTERN_BUTTONHOLE)
            count += (size_t)w->at->button_rows[i].count;
    return count;
}

static bool refuse(const struct draft_work *w, const struct err_kind *kind, const struct pattern_buttons *written)
{
    return draft_refuse_mark(w, kind, written->place, w->piece->points[written->ends[0]].name,
                             ERR_TEXT(base_tr_in("line on a piece", pattern_button_name(written->kind))));
}

/* Where a row stands; told when the line is too short for it. */
static bool lay_row(const struct draft_work *w, size_t index, struct row *row)
{
    const struct pattern_buttons *written = &w->piece->button_rows[index];
    const struct draft_sized_buttons *at = &w->at->button_rows[index];
    vec2 from = w->at->points[written->ends[0]], run = vec2_sub(w->at->points[written->ends[1]], from);
    vec2 along = vec2_unit(run);
    double room = vec2_length(run) - at->first_mm - at->last_mm;
    double step = at->count > 1 ? room / (at->count - 1) : 0;
    double apart = fmax(SAME_BUTTON_MM, written->across ? 0 : at->length_mm);
    *row = (struct row){ written, at->count, vec2_add(from, vec2_scale(along, at->first_mm)), vec2_scale(along, step),
                         vec2_scale(written->across ? vec2_right(along) : along, at->length_mm / 2) };
    if (!(vec2_length(run) > 0) || room < 0)
        return refuse(w, &no_room, written);
    if (at->count > 1 && step < apart)
        refuse(w, &meet, written);
    return true;
}

static struct draft_line buttonhole_at(const struct row *row, vec2 middle)
{
    return (struct draft_line){ .kind = PATTERN_LINE_BUTTONHOLE,
                                .ends = { draft_as_pt(vec2_sub(middle, row->half)),
                                          draft_as_pt(vec2_add(middle, row->half)) } };
}

/* Told once of a row. */
static bool place_row(const struct draft_work *w, struct draft_piece *d, const struct row *row,
                      struct draft_line *lines, struct piece_pt *buttons)
{
    bool is_outside = false;
    for (int i = 0; i < row->count; i++) {
        vec2 middle = vec2_add(row->first, vec2_scale(row->step, i));
        struct draft_line hole = buttonhole_at(row, middle); /* of a button, whose length is 0, the place twice */
        is_outside = is_outside || draft_lies_outside(d->seam.path, hole.ends[0]) ||
                     draft_lies_outside(d->seam.path, hole.ends[1]);
        if (row->written->kind == PATTERN_BUTTONHOLE)
            lines[d->line_count++] = hole;
        else
            buttons[d->button_count++] = draft_as_pt(middle);
    }
    return !is_outside || refuse(w, &outside, row->written);
}

bool draft_place_buttons(const struct draft_work *w, struct draft_piece *d, struct draft_line *lines)
{
    size_t rows = w->piece->button_row_count, most = 0;
    bool ok = true;
    for (size_t i = 0; i < rows; i++)
        most += (size_t)w->at->button_rows[i].count;
    struct piece_pt *buttons = base_arena_alloc(w->a, most, sizeof *buttons);
    for (size_t i = 0; i < rows; i++) {
        struct row row;
        ok = lay_row(w, i, &row) && place_row(w, d, &row, lines, buttons) && ok;
    }
    d->buttons = buttons;
    return ok;
}
