/* Print-at-home pages become one sheet: where each page lies among the others, found by its number, its frame and the
 * lines that go on from page to page; and the joined sheet. */
#ifndef DRAWING_PAGES_H
#define DRAWING_PAGES_H

#include "drawing/drawing.h"
#include "drawing/squares.h"

/* Where a page lies. */
struct drawing_place {
    int page;
    int column, row;  /* from 0 at the left; from 0 at the top, as pages are numbered */
    vec2 shift;       /* its lower left corner on the joined sheet, mm at true scale */
    vec2 window[2];   /* lower left and upper right of what is taken of it, on its page, as drawn; all of it where it is
                         alone */
    double misfit_mm; /* root mean square over the lines that go on to its neighbours; 0: none does */
    size_t tied_by;   /* how many lines that is */
};

/* A join at which lines break off: it may be none. */
struct drawing_break {
    int pages[2];       /* the second is DRAWING_NONE where no page is beside the first */
    size_t ends, go_on; /* lines' ends there on both; those that find another */
};

enum drawing_joined {
    DRAWING_ALONE,    /* one page, or pages that have nothing to do with each other */
    DRAWING_BY_LABEL, /* numbers like B3, or row and column in words */
    DRAWING_BY_ORDER, /* running numbers or just the order of the pages, row by row or column by column */
    DRAWING_BY_TRIAL, /* by the lines alone */
    DRAWING_REPEATED, /* every page has the whole sheet and shows a part */
    DRAWING_BY_HAND
};

struct drawing_pages {
    enum drawing_joined how;
    int columns, rows;
    const struct drawing_place *places; /* of pages that belong to the sheet */
    size_t place_count;
    const int *left_out; /* pages that do not: instructions, covers */
    size_t left_out_count;
    const int *empty; /* pages of the grid without a line of the sheet */
    size_t empty_count;
    const int *missing; /* cells (row × columns + column) that no page fills, though lines run into them */
    size_t missing_count;
    const struct drawing_break *broken;
    size_t broken_count;
    double misfit_mm; /* root mean square over all joins */
    bool doubtful;    /* it may be otherwise: the person should look */
    /* For each line and each text of the flat drawing: it belongs to the pages (frames, marks, page numbers), not to
     * the sheet. NULL where pages are alone. */
    const bool *furniture, *furniture_texts;
};

/* What the person says of it; zero: nothing. */
struct drawing_pages_choice {
    int columns;       /* how many pages across; 0: found */
    bool by_columns;   /* pages follow each other down, not across */
    const int *cells;  /* for each page of the file its cell, or DRAWING_NONE to leave it out; NULL: found */
    const vec2 *moved; /* for each page, how far it was moved by hand, mm at true scale; NULL: none was */
};

/* Finds how the pages lie. `scale` is what corrects lengths as drawn. Lives in `a`. Always finds something; where that
 * is nothing better than each page alone, in rows, `how` is DRAWING_ALONE. */
void drawing_find_pages(struct arena *a, const struct drawing *flat, struct drawing_scale scale,
                        const struct drawing_pages_choice *choice, struct drawing_pages *out);

/* The joined sheet at true scale: one page, its lines cut at the pages' windows and joined across them. Lives in `a`
 * and in what `flat` lives in. */
struct drawing drawing_join(struct arena *a, const struct drawing *flat, struct drawing_scale scale,
                            const struct drawing_pages *pages);

/* The next page from place `from` on that no line holds where it lies, nor its label; NULL: none. */
const struct drawing_place *drawing_untied(const struct drawing_pages *pages, size_t from);

/* "row 2, column 3"; in `a`. */
const char *drawing_cell_text(struct arena *a, const struct drawing_pages *pages, int cell);

#endif
