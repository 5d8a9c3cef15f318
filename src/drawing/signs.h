/* The labels of pages: of all that is written on them, what stands at one place and counts from page to page. */
#ifndef DRAWING_SIGNS_H
#define DRAWING_SIGNS_H

#include "drawing/label.h"
#include "drawing/tiling.h"

/* The sizes of fonts, mm. */
struct drawing_letters {
    double least, most;
};

/* Labels of one kind. */
struct drawing_signs {
    enum drawing_label_kind kind;
    struct drawing_label *of;              /* for each tile; kind DRAWING_LABEL_NONE where it has none */
    const struct geometry_box *boxes;      /* where it stands on its page, mm as drawn; NULL: not on the pages */
    const struct drawing_letters *letters; /* how high they are there; NULL like the boxes */
    size_t count;                          /* tiles that have one */
};

/* What the pages say of themselves, the clearest kind first; then what the file says of them. How many kinds; they live
 * in the tiling's arena. */
size_t drawing_find_signs(struct drawing_tiling *t, struct drawing_signs **out);

/* Marks their words as furniture. */
void drawing_mark_signs(struct drawing_tiling *t, const struct drawing_signs *signs);

#endif
