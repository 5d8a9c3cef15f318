#include "app/sheet_report.h"

static const char *const joined_names[] = {
    [DRAWING_ALONE] = "alone",    [DRAWING_BY_LABEL] = "label",    [DRAWING_BY_ORDER] = "order",
    [DRAWING_BY_TRIAL] = "trial", [DRAWING_REPEATED] = "repeated", [DRAWING_BY_HAND] = "hand",
};
static const char *const truth_names[] = { [DRAWING_NO_SQUARE] = "no square",
                                           [DRAWING_ASK_SIZE] = "side not known",
                                           [DRAWING_TRUE] = "true",
                                           [DRAWING_OFF] = "off",
                                           [DRAWING_DISAGREE] = "squares disagree" };
static const char *const role_names[] = {
    [LIFTING_UNUSED] = "unused", [LIFTING_COMMON] = "common", [LIFTING_SIZE] = "size"
};
static const char *const mark_names[] = {
    [LIFTING_GRAIN] = "grain",       [LIFTING_FOLD] = "fold", [LIFTING_NOTCH] = "notch",   [LIFTING_DRILL] = "drill",
    [LIFTING_LENGTHEN] = "lengthen", [LIFTING_DART] = "dart", [LIFTING_STITCH] = "stitch", [LIFTING_INNER] = "inner",
};

static void pair_json(struct json_out *to, const char *name, double x, double y)
{
    struct json_out *pair = json_out_list(to, name);
    json_out_number(pair, NULL, x);
    json_out_number(pair, NULL, y);
}

/* Its name; of none null. */
static void layer_json(struct json_out *to, const struct drawing *d, int layer)
{
    json_out_text(to, "layer", layer == DRAWING_NONE ? NULL : d->layers[layer].name);
}

static void layers_json(struct json_out *to, const struct drawing *d)
{
    struct json_out *list = json_out_list(to, "layers");
    for (size_t i = 0; i < d->layer_count; i++) {
        struct json_out *row = json_out_object(list, NULL);
        json_out_text(row, "name", d->layers[i].name);
        if (d->layers[i].parent != DRAWING_NONE)
            json_out_number(row, "within", d->layers[i].parent);
        json_out_bool(row, "on", d->layers[i].on);
    }
}

static void squares_json(struct json_out *to, const struct app_import *im)
{
    struct json_out *list = json_out_list(to, "squares");
    for (size_t i = 0; i < im->square_count; i++) {
        const struct drawing_square *s = &im->squares[i];
        struct json_out *row = json_out_object(list, NULL);
        json_out_number(row, "page", s->page + 1);
        layer_json(row, &im->flat, s->layer);
        pair_json(row, "corner_mm", s->corner.x, s->corner.y);
        json_out_number(row, "width_mm", s->width_mm);
        json_out_number(row, "height_mm", s->height_mm);
        json_out_number(row, "written_mm", s->written_mm);
    }
}

static void numbers_json(struct json_out *to, const char *name, const int *numbers, size_t count, int from)
{
    struct json_out *list = json_out_list(to, name);
    for (size_t i = 0; i < count; i++)
        json_out_number(list, NULL, numbers[i] + from);
}

static void place_json(struct json_out *list, const struct drawing *d, const struct drawing_place *p)
{
    struct json_out *row = json_out_object(list, NULL);
    json_out_number(row, "page", p->page + 1);
    json_out_text(row, "label", d->pages[p->page].label);
    json_out_number(row, "column", p->column + 1);
    json_out_number(row, "row", p->row + 1);
    pair_json(row, "shift_mm", p->shift.x, p->shift.y);
    json_out_number(row, "misfit_mm", p->misfit_mm);
}

static void pages_json(struct json_out *to, const struct app_import *im)
{
    const struct drawing_pages *p = &im->pages;
    struct json_out *pages = json_out_object(to, "pages");
    json_out_number(pages, "count", (double)im->flat.page_count);
    json_out_text(pages, "joined", joined_names[p->how]);
    json_out_bool(pages, "doubtful", p->doubtful);
    json_out_number(pages, "columns", p->columns);
    json_out_number(pages, "rows", p->rows);
    json_out_number(pages, "misfit_mm", p->misfit_mm);
    numbers_json(pages, "empty", p->empty, p->empty_count, 1);
    numbers_json(pages, "left_out", p->left_out, p->left_out_count, 1);
    numbers_json(pages, "missing_cells", p->missing, p->missing_count, 0);
    struct json_out *broken = json_out_list(pages, "broken");
    for (size_t i = 0; i < p->broken_count; i++)
        numbers_json(broken, NULL, p->broken[i].pages, p->broken[i].pages[1] == DRAWING_NONE ? 1 : 2, 1);
    struct json_out *places = json_out_list(pages, "places");
    for (size_t i = 0; i < p->place_count; i++)
        place_json(places, &im->flat, &p->places[i]);
}

static void strand_json(struct json_out *list, const struct app_import *im, const struct lifting_strand *s)
{
    const struct lifting_division *d = im->lifting.division;
    struct json_out *row = json_out_object(list, NULL);
    layer_json(row, &im->flat, s->layer);
    json_out_number(row, "rgb", s->rgb);
    struct json_out *dashes = json_out_list(row, "dash_mm");
    for (size_t i = 0; i < s->dash_count; i++)
        json_out_number(dashes, NULL, s->dash_mm[i]);
    json_out_number(row, "lines", (double)s->line_count);
    json_out_number(row, "length_mm", s->length_mm);
    json_out_text(row, "role", role_names[s->role]);
    json_out_text(row, "size", s->size == LIFTING_NONE ? NULL : d->sizes[s->size]);
    json_out_text(row, "cup_group", s->cup_group == LIFTING_NONE ? NULL : d->cup_groups[s->cup_group]);
    json_out_bool(row, "sure", s->sure);
}

static void sizes_json(struct json_out *row, const struct lifting_division *d, const struct lifting_piece *p)
{
    struct json_out *sizes = json_out_list(row, "sizes");
    for (size_t k = 0; k < d->size_count && !p->one_size; k++)
        if (p->outlines[k].there)
            json_out_text(sizes, NULL, d->sizes[k]);
}

static void marks_json(struct json_out *row, const struct lifting_piece *p)
{
    struct json_out *marks = json_out_object(row, "marks");
    for (size_t kind = 0; kind < sizeof mark_names / sizeof mark_names[0]; kind++) {
        int count = 0;
        for (size_t m = 0; m < p->mark_count; m++)
            count += p->marks[m].kind == (enum lifting_mark_kind)kind;
        json_out_number(marks, mark_names[kind], count);
    }
}

static void piece_json(struct json_out *list, struct arena *a, const struct lifting_division *d,
                       const struct lifting_piece *p)
{
    struct json_out *row = json_out_object(list, NULL);
    json_out_text(row, "name", p->words.name);
    json_out_text(row, "number", p->words.number);
    json_out_number(row, "count", p->words.count);
    json_out_bool(row, "pairs", p->words.pairs);
    json_out_bool(row, "on_fold", p->words.on_fold);
    json_out_text(row, "cut", app_lifting_count(a, &p->words));
    json_out_text(row, "cup_group", p->cup_group == LIFTING_NONE ? NULL : d->cup_groups[p->cup_group]);
    json_out_bool(row, "one_size", p->one_size);
    sizes_json(row, d, p);
    pair_json(row, "grain", p->grain.x, p->grain.y);
    marks_json(row, p);
    json_out_text(row, "look_at", app_lifting_doubts(a, p->doubts, false));
}

void app_sheet_json(struct json_out *to, struct arena *a, const struct app_import *im)
{
    json_out_text(to, "scale", truth_names[im->truth.kind]);
    pair_json(to, "saved_at", im->truth.saved.across, im->truth.saved.up);
    squares_json(to, im);
    pages_json(to, im);
    layers_json(to, &im->flat);
    struct json_out *strands = json_out_list(to, "lines");
    for (size_t i = 0; i < im->lifting.division->strand_count; i++)
        strand_json(strands, im, &im->lifting.division->strands[i]);
    struct json_out *pieces = json_out_list(to, "pieces");
    for (size_t i = 0; i < im->lifting.piece_count; i++)
        piece_json(pieces, a, im->lifting.division, &im->lifting.pieces[i]);
    json_out_number(to, "loose_lines", (double)im->lifting.loose_count);
}
