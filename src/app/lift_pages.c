/* The pages of a sheet put together: how many across, in which order, and single pages by hand. */
#include "app/lift_state.h"

#include <string.h>

static struct app_lift_effects found_anew(struct app_lift *lift)
{
    app_import_changed(lift->im, APP_IMPORT_PAGES);
    app_import_make(lift->im, APP_IMPORT_PAGES);
    return app_lift_keep;
}

struct app_lift_effects app_lift_as_found(struct app_lift *lift)
{
    lift->im->choices.pages = (struct drawing_pages_choice){ 0 };
    return found_anew(lift);
}

/* The cell of every page as it is now, to be changed; of a page that is left out DRAWING_NONE. One without a line stays
 * where it was said to be. */
static int *cells_now(struct app_lift *lift)
{
    const struct app_import *im = lift->im;
    int *cells = base_arena_alloc(im->said, im->flat.page_count, sizeof *cells);
    for (size_t i = 0; i < im->flat.page_count; i++)
        cells[i] = DRAWING_NONE;
    for (size_t i = 0; i < im->pages.empty_count && im->choices.pages.cells; i++)
        cells[im->pages.empty[i]] = im->choices.pages.cells[im->pages.empty[i]];
    for (size_t i = 0; i < im->pages.place_count; i++) {
        const struct drawing_place *place = &im->pages.places[i];
        cells[place->page] = place->row * im->pages.columns + place->column;
    }
    return cells;
}

/* Page after page of those that belong to the sheet, so many across or, by columns, down. */
static struct app_lift_effects lay_in_order(struct app_lift *lift, int columns)
{
    struct drawing_pages_choice *c = &lift->im->choices.pages;
    int *cells = cells_now(lift), count = 0, at = 0;
    for (size_t i = 0; i < lift->im->flat.page_count; i++)
        count += cells[i] != DRAWING_NONE;
    c->columns = columns > count ? count : columns;
    c->columns = c->columns < 1 ? 1 : c->columns; /* all may be left out */
    int rows = (count + c->columns - 1) / c->columns;
    for (size_t i = 0; i < lift->im->flat.page_count; i++) {
        if (cells[i] == DRAWING_NONE)
            continue;
        cells[i] = c->by_columns ? at % rows * c->columns + at / rows : at;
        at++;
    }
    c->cells = cells;
    c->moved = NULL;
    return found_anew(lift);
}

struct app_lift_effects app_lift_columns(struct app_lift *lift, int by)
{
    return lay_in_order(lift, lift->im->pages.columns + by);
}

struct app_lift_effects app_lift_by_columns(struct app_lift *lift)
{
    lift->im->choices.pages.by_columns = !lift->im->choices.pages.by_columns;
    return lay_in_order(lift, lift->im->pages.columns);
}

static int page_at(const int *cells, size_t count, int cell)
{
    for (size_t i = 0; i < count; i++)
        if (cells[i] == cell)
            return (int)i;
    return DRAWING_NONE;
}

static struct app_lift_effects lie_so(struct app_lift *lift, const int *cells)
{
    struct drawing_pages_choice *c = &lift->im->choices.pages;
    c->columns = lift->im->pages.columns;
    c->cells = cells;
    return found_anew(lift);
}

/* Into the sheet at the first cell that is free, or out of it. */
struct app_lift_effects app_lift_leave_out(struct app_lift *lift)
{
    int *cells = cells_now(lift), free = 0;
    if (cells[lift->page_in_hand] != DRAWING_NONE) {
        cells[lift->page_in_hand] = DRAWING_NONE;
        return lie_so(lift, cells);
    }
    while (page_at(cells, lift->im->flat.page_count, free) != DRAWING_NONE)
        free++;
    cells[lift->page_in_hand] = free;
    return lie_so(lift, cells);
}

/* One cell further; the page that lies there comes here. */
struct app_lift_effects app_lift_move_cell(struct app_lift *lift, int right, int away)
{
    const struct drawing_pages *pages = &lift->im->pages;
    int *cells = cells_now(lift), here = cells[lift->page_in_hand];
    if (here == DRAWING_NONE || pages->columns < 1)
        return app_lift_redraw;
    int column = here % pages->columns + right, row = here / pages->columns - away;
    if (column < 0 || column >= pages->columns || row < 0)
        return app_lift_redraw;
    int there = row * pages->columns + column;
    int other = page_at(cells, lift->im->flat.page_count, there);
    if (other != DRAWING_NONE)
        cells[other] = here;
    cells[lift->page_in_hand] = there;
    return lie_so(lift, cells);
}

struct app_lift_effects app_lift_move_page(struct app_lift *lift, double right, double away)
{
    struct drawing_pages_choice *c = &lift->im->choices.pages;
    size_t count = lift->im->flat.page_count;
    vec2 *moved = base_arena_alloc(lift->im->said, count, sizeof *moved);
    if (c->moved)
        memcpy(moved, c->moved, count * sizeof *moved);
    moved[lift->page_in_hand] = vec2_add(moved[lift->page_in_hand], (vec2){ right, away });
    c->moved = moved;
    return found_anew(lift);
}
