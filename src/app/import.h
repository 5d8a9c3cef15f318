/* From a drawn sheet's file to pieces, step by step: lines and squares, pages joined, lines divided into sizes, pieces
 * lifted. What the person says stands in one place (`choices`); when she changes it, app_import_changed tells from
 * which stage on everything is to be found anew, and app_import_make does so as far as it is asked for. */
#ifndef APP_IMPORT_H
#define APP_IMPORT_H

#include "drawing/pages.h"
#include "drawing/squares.h"
#include "lifting/lift.h"
#include "sheet/start.h"

/* The stages, each made from those before. */
enum app_import_stage {
    APP_IMPORT_TRUTH, /* squares, truth, scale */
    APP_IMPORT_PAGES, /* pages, joined */
    APP_IMPORT_SIZES, /* chosen, division */
    APP_IMPORT_PIECES /* lifting */
};

/* What corrects lengths as drawn. */
enum app_import_scale {
    APP_IMPORT_AS_FOUND,  /* by what the squares say; 1 where they say nothing */
    APP_IMPORT_AS_DRAWN,  /* by nothing */
    APP_IMPORT_BY_SQUARE, /* by what one square is meant as */
    APP_IMPORT_BY_POINTS  /* by how far two points of a page truly lie apart */
};

/* What she says of a strand; it is known again by its look when the sheet is divided anew. */
struct app_import_say {
    int layer; /* or DRAWING_NONE */
    uint32_t rgb;
    bool filled;
    size_t dash_count;
    size_t nth; /* of those that are alike in all of that, from 0 */
    enum lifting_role role;
    const char *size, *cup_group; /* or NULL */
};

/* Where the seam allowance is. Always asked. */
struct app_import_allowance {
    bool said, cutting_line; /* cutting_line: the outlines are where it is cut; else where it is sewn */
    double mm;               /* how wide */
};

/* What the person says; zero: nothing, everything is as it is found. */
struct app_import_choices {
    enum app_import_scale scale;
    size_t square;  /* BY_SQUARE: the one … */
    double side_mm; /* … and its true side */
    int page;       /* BY_POINTS: its two points as drawn, mm, and how far apart they truly are */
    vec2 points[2];
    double true_mm;
    struct drawing_pages_choice pages;
    const bool *layers; /* for each layer whether it is used at all; NULL: all are */
    const struct app_import_say *says;
    size_t say_count;
    const struct lifting_mend *mends;
    size_t mend_count;
    uint64_t mends_of;        /* app_import.unmended when the first of them was made; 0: of whatever is found */
    const char *const *sizes; /* the names of those that are to be drawn */
    size_t size_count;
    struct app_import_allowance allowance;
};

struct app_import {
    struct app_import_choices choices; /* what it points at lives as long as this, or in its `said` */
    struct arena *said;

    struct drawing flat;
    /* APP_IMPORT_TRUTH */
    const struct drawing_square *squares;
    size_t square_count;
    struct drawing_truth found; /* what the squares say */
    struct drawing_truth truth; /* the same with what she says */
    struct drawing_scale scale; /* what corrects lengths as drawn */
    /* APP_IMPORT_PAGES */
    struct drawing_pages pages;
    struct drawing joined;
    /* APP_IMPORT_SIZES */
    struct drawing chosen; /* the joined sheet without the layers that are not used */
    struct lifting_division division;
    const char *const *found_sizes; /* before she said anything */
    size_t found_size_count;
    /* APP_IMPORT_PIECES */
    struct lifting lifting;
    uint64_t unmended; /* tells the pieces apart from other ones, before they are mended; never 0 */
    bool mended;       /* the mends fit these pieces and are in them; else they wait */
    const struct err_list *told; /* what could not be done: sizes with too many lines, mends */

    /* The module's own. */
    const struct sheet *sheet; /* or NULL */
    struct arena *read_in;     /* of the sheet and the flattened drawing, or NULL */
    struct arena *made[APP_IMPORT_PIECES + 1];
    struct arena *unmended_in;
    struct lifting unmended_pieces;
    struct err_list *told_unmended, *told_mended;
    bool unmended_made;
    int stages; /* made so far */
};

/* Reads a file (sheet/start.h: `how` may be NULL). NULL when it cannot be read or worked on, with the reason in `errs`,
 * or, without one, when `how` said to give up. */
struct app_import *app_import_read(const char *path, const struct sheet_how *how, struct err_list *errs);

/* The same of a flattened drawing, which outlives it. */
struct app_import *app_import_create(const struct drawing *flat);

/* NULL is allowed. */
void app_import_destroy(struct app_import *im);

/* Something that this stage and those after it depend on was changed in the choices. */
void app_import_changed(struct app_import *im, enum app_import_stage stage);

/* Makes all stages up to this one that are not made. */
void app_import_make(struct app_import *im, enum app_import_stage stage);

/* --- saying ------------------------------------------------------------------------------------------------------ */

/* She says that of a strand of the division; what she said of it before is replaced. Texts are copied. */
void app_import_say(struct app_import *im, size_t strand, enum lifting_role role, const char *size,
                    const char *cup_group);

/* One more mend; points and text are copied. Mends of other pieces than these, which wait, are given up. The pieces are
 * made. */
void app_import_mend(struct app_import *im, const struct lifting_mend *mend);

/* Takes the last mend back; false when there is none. */
bool app_import_take_back(struct app_import *im);

/* Whether a size is to be drawn, and that it is or is not. */
bool app_import_draws(const struct app_import *im, const char *size);
void app_import_draw(struct app_import *im, const char *size, bool on);

/* The layers that are named are used, with what is within them, and lines of no layer; names are parted by commas.
 * Where all that are named are of sizes, the layers of all sizes stay in use, which is told.
 * False, told with its name and the layers that there are, when there is none of a name. */
bool app_import_use_layers(struct app_import *im, const char *names, struct err_list *errs);

#endif
