/* What arranging a layout looks like where it is not the table's light that shows it. */
#ifndef APP_ARRANGE_LOOK_H
#define APP_ARRANGE_LOOK_H

#include "app/arrange.h"
#include "app/lay_widths.h"
#include "lay/lay.h"
#include "tearing/rests.h"

struct app_arrange_look {
    size_t cloth, cloth_count; /* which of the job's cloths */
    const char *refused;       /* why nothing can be laid on it; NULL: what follows is there */
    const struct lay *lay;
    const struct lay_finding *findings;
    size_t finding_count;
    size_t in_hand;  /* an item; item_count: none */
    const bool *cut; /* of each item: it is cut already */
    bool searching;
    const char *needs, *means;          /* "1.63 m", "buy 1.70 m" */
    double used;                        /* share of the cloth */
    const char *hand;                   /* of the piece in hand, or NULL */
    const char *wrong, *left_out;       /* in a line each, or NULL */
    const char *torn;                   /* what of that length is torn off first, or NULL: nothing is */
    const char *fused;                  /* what is fused in a block before it is cut, or NULL: nothing is */
    const struct app_lay_width *widths; /* other common widths, as far as they are reckoned */
    size_t width_count;
    const struct tearing_rest *rests; /* of torn strips, that pieces are cut of; also where nothing else is laid */
    size_t rest_count;
    const char *told; /* an answer to the last key, or NULL */
};

/* The cloth that is at hand, as it is now; texts live in `a`, the rest until the next event. */
struct app_arrange_look app_arrange_look(struct app_arrange *arrange, struct arena *a);

/* Shows one of the job's cloths. */
void app_arrange_show_cloth(struct app_arrange *arrange, size_t cloth);

#endif
