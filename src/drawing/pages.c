#include "drawing/pages.h"
#include "drawing/breaks.h"
#include "drawing/fit.h"
#include "drawing/through.h"
#include "geometry/rows.h"

#define ALONE_GAP_MM 50.0 /* between sheets that are shown beside each other */
#define ROW_OF_ALONE 4.0  /* of the widest sheets in a row, at least */
#define OUTER_MM 1.0      /* beyond where the sheet is seen, on the outer sides */
enum { WORDY_LEAST = 5, CUT_ENDS_LEAST = 2 };

static vec2 scaled(struct drawing_scale scale, vec2 p)
{
    return (vec2){ p.x * scale.across, p.y * scale.up };
}

/* -------------------------------------------------------------------------------------------------------- pages alone
 */

static bool is_wordy(const struct drawing *d, size_t page)
{
    size_t lines = 0;
    for (size_t i = 0; i < d->pages[page].line_count; i++)
        lines += !d->styles[d->lines[d->pages[page].first_line + i].style].lettering;
    return lines == 0 || (d->pages[page].text_count >= WORDY_LEAST && d->pages[page].text_count > lines);
}

/* Pages with more lines than words; all where none are. */
static size_t choose_alone(struct arena *a, const struct drawing *d, struct drawing_place *places, int **left_out)
{
    size_t count = 0, left = 0;
    *left_out = base_arena_alloc(a, d->page_count, sizeof **left_out);
    for (size_t i = 0; i < d->page_count; i++) {
        if (is_wordy(d, i) && d->page_count > 1)
            (*left_out)[left++] = (int)i;
        else
            places[count++] = (struct drawing_place){ .page = (int)i };
    }
    for (size_t i = 0; count == 0 && i < d->page_count; i++)
        places[i] = (struct drawing_place){ .page = (int)i };
    return count ? count : d->page_count;
}

static void number_rows(struct drawing_pages *out, struct drawing_place *places)
{
    int column = 0, row = 0;
    for (size_t i = 0; i < out->place_count; i++) {
        bool new_row = i && places[i].shift.x <= places[i - 1].shift.x;
        column = new_row || i == 0 ? 0 : column + 1;
        row += new_row;
        places[i].column = column;
        places[i].row = row;
        out->columns = column + 1 > out->columns ? column + 1 : out->columns;
    }
    out->rows = out->place_count ? row + 1 : 0;
}

static void lay_alone(struct arena *a, const struct drawing *d, struct drawing_scale scale, struct drawing_pages *out)
{
    struct drawing_place *places = base_arena_alloc(a, d->page_count, sizeof *places);
    struct geometry_box *boxes = base_arena_alloc(a, d->page_count, sizeof *boxes);
    vec2 *shifts = base_arena_alloc(a, d->page_count, sizeof *shifts);
    int *left_out;
    double widest = 0;
    *out = (struct drawing_pages){ .how = DRAWING_ALONE };
    out->place_count = choose_alone(a, d, places, &left_out);
    out->left_out = left_out;
    out->left_out_count = d->page_count - out->place_count;
    for (size_t i = 0; i < out->place_count; i++) {
        const struct drawing_page *page = &d->pages[places[i].page];
        places[i].window[1] = (vec2){ page->width_mm, page->height_mm };
        boxes[i] = (struct geometry_box){ { 0, 0 }, scaled(scale, places[i].window[1]) };
        widest = fmax(widest, boxes[i].max.x);
    }
    double width = widest * fmax(ROW_OF_ALONE, sqrt((double)out->place_count)) + (ROW_OF_ALONE * ALONE_GAP_MM);
    struct geometry_box all = geometry_rows(boxes, out->place_count, width, ALONE_GAP_MM, shifts);
    for (size_t i = 0; i < out->place_count; i++)
        places[i].shift = vec2_sub(shifts[i], all.min);
    number_rows(out, places);
    out->places = places;
}

/* ------------------------------------------------------------------------------------------------------- pages joined
 */

struct laying {
    struct arena *a;
    struct drawing_tiling *t;
    struct drawing_grid *g;
    struct drawing_fit fit;
    double *cuts[DRAWING_AXES]; /* cut k: between column or row k and the next, rows from the top; NAN: none */
};

static double part(vec2 v, int axis)
{
    return axis ? v.y : v.x;
}

static int lane_of(const struct laying *l, size_t tile, int axis)
{
    return axis ? l->g->cells[tile].row : l->g->cells[tile].column;
}

/* Columns and rows are cut right through, in the middle of what both show on the average. */
static void find_cuts(struct laying *l, int axis)
{
    size_t lanes = (size_t)(axis ? l->g->rows : l->g->columns);
    double *sum = base_arena_alloc(l->a, lanes, sizeof *sum);
    size_t *count = base_arena_alloc(l->a, lanes, sizeof *count);
    l->cuts[axis] = base_arena_alloc(l->a, lanes, sizeof(double));
    for (size_t i = 0; i < l->t->count; i++) {
        if (l->g->cells[i].column == DRAWING_NONE)
            continue;
        sum[lane_of(l, i, axis)] += part(l->fit.origins[i], axis);
        count[lane_of(l, i, axis)]++;
    }
    double both = l->t->low[axis] + l->t->high[axis];
    for (size_t k = 0; k < lanes; k++) {
        bool known = k + 1 < lanes && count[k] && count[k + 1];
        l->cuts[axis][k] =
            known ? (sum[k] / (double)count[k] + sum[k + 1] / (double)count[k + 1] + both) / 2 : (double)NAN;
    }
}

static size_t tile_at(const struct drawing_grid *g, int column, int row)
{
    bool within = column >= 0 && column < g->columns && row >= 0 && row < g->rows;
    return within ? g->tiles[(size_t)row * (size_t)g->columns + (size_t)column] : SIZE_MAX;
}

/* On its outer sides all of a page is taken, but what lies beyond a window that all pages have. */
static double outer(const struct laying *l, const struct drawing_tile *tile, int axis, bool high)
{
    double page = high ? tile->size[axis] : 0;
    if (!l->t->windowed)
        return page;
    double seen = part(tile->origin, axis) + (high ? l->t->high[axis] + OUTER_MM : l->t->low[axis] - OUTER_MM);
    return high ? fmin(page, seen) : fmax(page, seen);
}

/* A side of a tile's window, mm at true scale on its page. Where the page beside it is missing all is taken. */
static double side(const struct laying *l, size_t i, int axis, bool high)
{
    const struct drawing_tile *tile = &l->t->tiles[i];
    int lane = lane_of(l, i, axis), before = (axis == 0) == high ? lane : lane - 1; /* rows count downwards */
    double cut = before >= 0 ? l->cuts[axis][before] : (double)NAN;
    if (isnan(cut) || drawing_tile_beside(l->g, i, axis, high) == SIZE_MAX)
        return outer(l, tile, axis, high);
    double at = cut - part(l->fit.origins[i], axis) + part(tile->origin, axis);
    return fmin(fmax(at, 0), tile->size[axis]);
}

static struct drawing_place place_of(const struct laying *l, size_t i)
{
    const struct drawing_tile *tile = &l->t->tiles[i];
    struct drawing_scale s = l->t->scale;
    struct drawing_place p = { .page = tile->page,
                               .column = l->g->cells[i].column,
                               .row = l->g->cells[i].row,
                               .shift = vec2_sub(l->fit.origins[i], tile->origin),
                               .misfit_mm = l->fit.misfit_mm[i],
                               .tied_by = l->fit.tied_by[i] };
    for (int high = 0; high < 2; high++)
        p.window[high] = (vec2){ side(l, i, 0, high) / s.across, side(l, i, 1, high) / s.up };
    return p;
}

/* The joined sheet begins where its windows do. */
static void move_to_corner(struct drawing_place *places, size_t count, struct drawing_scale scale)
{
    vec2 least = { INFINITY, INFINITY };
    for (size_t i = 0; i < count; i++) {
        vec2 corner = vec2_add(places[i].shift, scaled(scale, places[i].window[0]));
        least = (vec2){ fmin(least.x, corner.x), fmin(least.y, corner.y) };
    }
    for (size_t i = 0; i < count; i++)
        places[i].shift = vec2_sub(places[i].shift, least);
}

/* Row by row; pages without a line of the sheet are told apart. */
static void put_places(struct laying *l, struct drawing_pages *out)
{
    size_t cells = (size_t)l->g->columns * (size_t)l->g->rows;
    struct drawing_place *places = base_arena_alloc(l->a, l->t->count, sizeof *places);
    int *empty = base_arena_alloc(l->a, l->t->count, sizeof *empty);
    for (size_t k = 0; k < cells; k++) {
        size_t i = l->g->tiles[k];
        if (i == SIZE_MAX)
            continue;
        if (l->t->tiles[i].line_count)
            places[out->place_count++] = place_of(l, i);
        else
            empty[out->empty_count++] = l->t->tiles[i].page;
    }
    move_to_corner(places, out->place_count, l->t->scale);
    out->places = places;
    out->empty = empty;
}

static void tell_left_out(struct arena *a, size_t page_count, struct drawing_pages *out)
{
    bool *used = base_arena_alloc(a, page_count, sizeof *used);
    int *left_out = base_arena_alloc(a, page_count, sizeof *left_out);
    for (size_t i = 0; i < out->place_count; i++)
        used[out->places[i].page] = true;
    for (size_t i = 0; i < out->empty_count; i++)
        used[out->empty[i]] = true;
    for (size_t i = 0; i < page_count; i++)
        if (!used[i])
            left_out[out->left_out_count++] = (int)i;
    out->left_out = left_out;
}

/* Whether a line of the tile runs out at that end. */
static bool runs_out(const struct laying *l, size_t tile, int axis, int end)
{
    double step = l->g->step[axis];
    double at = end ? drawing_cut_of_first(l->t, axis, step) : drawing_cut_of_second(l->t, axis, step);
    return tile != SIZE_MAX && drawing_cross(l->a, l->t, tile, axis, end, at).count > 0;
}

static void tell_missing(struct laying *l, struct drawing_pages *out)
{
    int cells = l->g->columns * l->g->rows;
    int *missing = base_arena_alloc(l->a, (size_t)cells, sizeof *missing);
    for (int k = 0; k < cells; k++) {
        int column = k % l->g->columns, row = k / l->g->columns;
        if (l->g->tiles[k] != SIZE_MAX)
            continue;
        if (runs_out(l, tile_at(l->g, column - 1, row), 0, 1) || runs_out(l, tile_at(l->g, column + 1, row), 0, 0) ||
            runs_out(l, tile_at(l->g, column, row - 1), 1, 0) || runs_out(l, tile_at(l->g, column, row + 1), 1, 1))
            missing[out->missing_count++] = k;
    }
    out->missing = missing;
}

/* How far each tile was moved by hand; NULL: none was. */
static vec2 *moved_tiles(const struct drawing_tiling *t, const struct drawing_pages_choice *choice)
{
    bool any = false;
    if (!choice || !choice->moved)
        return NULL;
    vec2 *moved = base_arena_alloc(t->a, t->count, sizeof *moved);
    for (size_t i = 0; i < t->count; i++) {
        moved[i] = choice->moved[t->tiles[i].page];
        any |= moved[i].x != 0 || moved[i].y != 0;
    }
    return any ? moved : NULL;
}

const struct drawing_place *drawing_untied(const struct drawing_pages *pages, size_t from)
{
    bool by_lines = pages->how == DRAWING_BY_ORDER || pages->how == DRAWING_BY_TRIAL || pages->how == DRAWING_BY_HAND;
    for (size_t i = from; by_lines && pages->place_count > 1 && i < pages->place_count; i++)
        if (pages->places[i].tied_by == 0)
            return &pages->places[i];
    return NULL;
}

static void lay_joined(struct arena *a, struct drawing_tiling *t, const struct drawing_twins *twins,
                       struct drawing_grid *g, const struct drawing_pages_choice *choice, struct drawing_pages *out)
{
    const vec2 *moved = moved_tiles(t, choice);
    struct laying l = { .a = a, .t = t, .g = g, .fit = drawing_fit_grid(t, twins, g, moved) };
    g->how = moved ? DRAWING_BY_HAND : g->how;
    *out = (struct drawing_pages){ .how = t->repeated && g->how != DRAWING_BY_HAND ? DRAWING_REPEATED : g->how,
                                   .columns = g->columns,
                                   .rows = g->rows,
                                   .misfit_mm = l.fit.all_misfit_mm,
                                   .doubtful = g->doubtful,
                                   .furniture = t->furniture,
                                   .furniture_texts = t->furniture_texts };
    drawing_take_back_lines(t, g);
    for (int axis = 0; axis < DRAWING_AXES; axis++)
        find_cuts(&l, axis);
    put_places(&l, out);
    tell_left_out(a, t->d->page_count, out);
    tell_missing(&l, out);
    out->broken_count = drawing_find_breaks(t, g, l.fit.origins, &out->broken);
    out->doubtful |= out->broken_count > 0 || drawing_untied(out, 0) != NULL;
}

/* Whether pages of one size look like parts of one sheet: lines end at the sides of several. */
static bool look_cut(const struct drawing_tiling *t)
{
    size_t cut = 0;
    for (size_t i = 0; i < t->count; i++) {
        size_t ends = 0;
        for (int axis = 0; axis < DRAWING_AXES; axis++)
            ends += t->tiles[i].ends[axis][0] + t->tiles[i].ends[axis][1];
        cut += ends >= CUT_ENDS_LEAST;
    }
    return cut >= 2;
}

void drawing_find_pages(struct arena *a, const struct drawing *flat, struct drawing_scale scale,
                        const struct drawing_pages_choice *choice, struct drawing_pages *out)
{
    struct drawing_tiling t = drawing_look_at_pages(a, flat, scale);
    struct drawing_twins twins = drawing_find_twins(&t);
    struct drawing_grid g;
    if (t.count > 0 && drawing_find_grid(&t, &twins, choice, &g)) {
        lay_joined(a, &t, &twins, &g, choice, out);
        return;
    }
    lay_alone(a, flat, scale, out);
    out->doubtful = look_cut(&t);
}

const char *drawing_cell_text(struct arena *a, const struct drawing_pages *pages, int cell)
{
    int columns = pages->columns > 0 ? pages->columns : 1;
    return base_arena_print(a, "row %d, column %d", cell / columns + 1, cell % columns + 1);
}
