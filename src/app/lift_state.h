/* The state of taking a sheet to pieces, for the files that make it. Not for other folders. */
#ifndef APP_LIFT_STATE_H
#define APP_LIFT_STATE_H

#include "app/lift.h"
#include "scene/board.h"
#include "scene/sheet.h"

/* What the light shows; keys mean what they mean on it. */
enum app_lift_page {
    APP_LIFT_CAUTIONS,
    APP_LIFT_READING,
    APP_LIFT_PASSWORD,
    APP_LIFT_DPI, /* how many dots a picture has to the inch is typed */
    APP_LIFT_REFUSED,
    APP_LIFT_SCALE,  /* what the lengths on the sheet are corrected by */
    APP_LIFT_POINTS, /* two points of a page are marked, to type how far they are apart */
    APP_LIFT_CHECK,  /* the square, or the two points, as they are then, for a rule */
    APP_LIFT_PAGES,
    APP_LIFT_SIZES,
    APP_LIFT_WHOLE,
    APP_LIFT_LAYERS, /* which layers the whole sheet shows */
    APP_LIFT_PIECES,
    APP_LIFT_JOIN, /* the other one of two pieces is chosen */
    APP_LIFT_MARK, /* two points of a piece are marked */
    APP_LIFT_ALLOWANCE,
    APP_LIFT_SAVE,
    APP_LIFT_SAVED,
    APP_LIFT_TYPE, /* something is typed; `typing` says what */
    APP_LIFT_SQUARE,
    APP_LIFT_HELP,
    APP_LIFT_LEAVE,
    APP_LIFT_PAGE_COUNT
};

enum { APP_LIFT_TYPED = 256 };

/* What is typed on the page for typing. */
enum app_lift_typing {
    APP_LIFT_TYPE_APART, /* how far two points are apart */
    APP_LIFT_TYPE_SIZE,  /* the name of a size */
    APP_LIFT_TYPE_NAME,  /* of a piece */
    APP_LIFT_TYPE_COUNT,
    APP_LIFT_TYPE_OUT /* where the pattern goes */
};

/* Behind the last row of any page: none is marked, as nothing is taken for granted. */
#define APP_LIFT_NO_ROW SIZE_MAX

struct app_lift {
    struct app_lift_start start;
    struct arena *a;
    struct arena *told_in;            /* what is told now */
    enum app_lift_page page, beneath; /* beneath: help, the square, typing or leaving goes back there */
    struct app_import *im;            /* NULL: the file is not read yet */
    unsigned percent;

    char typed[APP_LIFT_TYPED];
    enum app_lift_typing typing;
    bool password_typed;
    double dpi;          /* of a picture; 0: what it says itself */
    const char *told;    /* an answer, to be read until the next key, or NULL */
    const char *trouble; /* why the last choices are not kept, or NULL */

    struct app_trust trust;
    enum scene_side side;
    int chalks;
    double weight_mm;

    size_t row; /* the marked one of a page of rows */

    int page_in_hand;            /* of the file: on the page of pages, and where points are marked */
    struct geometry_motion flat; /* how that page lies where points are marked on it */
    struct scene_marks marks;    /* what was marked, there and on a piece */

    struct geometry_motion whole; /* how the whole sheet lies */
    bool everything;              /* lines that are no part of a piece, and of other sizes, too */
    bool *hidden;                 /* for each layer: it is not shown */

    size_t piece, other;         /* other: the one that it is to be joined with */
    struct geometry_motion lies; /* how the piece lies … */
    struct geometry_motion lay;  /* … and lay before places were marked on it */
    enum lifting_mend_kind mend; /* what the marked points are for */
    double turned_deg;           /* of the grain, before it is taken */

    bool replace; /* what stands where the pattern goes may be replaced */
    const char *out;
    const char *kept; /* what stood there before is there now, or NULL */
};

extern const struct app_lift_effects app_lift_redraw; /* the table is to be drawn again */
extern const struct app_lift_effects app_lift_keep;   /* and what she says is to be kept */

/* Tells something until the next key. */
void app_lift_tell(struct app_lift *lift, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Goes to a page, making what it shows. */
struct app_lift_effects app_lift_go(struct app_lift *lift, enum app_lift_page page);

/* The main page after or before; the pages of a file with one are passed over. */
enum app_lift_page app_lift_next(const struct app_lift *lift, int by);

/* "Step 2 of 7 · F1: keys", in `a`. */
const char *app_lift_step_text(const struct app_lift *lift, struct arena *a);

/* Turns to a page that goes back to this one. */
struct app_lift_effects app_lift_over(struct app_lift *lift, enum app_lift_page page);

/* Begins typing. */
struct app_lift_effects app_lift_type(struct app_lift *lift, enum app_lift_typing what);

/* What is typed is taken; and the sentence that asks for it. */
struct app_lift_effects app_lift_typed(struct app_lift *lift);
const char *app_lift_type_sentence(const struct app_lift *lift);

/* Moves what the page shows, by mm of her own right and away. */
struct geometry_motion *app_lift_motion(struct app_lift *lift);
struct app_lift_effects app_lift_pan(struct app_lift *lift, double right, double away);

/* A place under the cross, from the middle of what is shown; marks it. */
vec2 app_lift_under_cross(struct app_lift *lift);
struct app_lift_effects app_lift_mark_place(struct app_lift *lift);

/* --- scale --- */

/* One way to correct lengths. */
struct app_lift_way {
    enum app_import_scale scale;
    size_t square;
    double side_mm;
};

/* All ways, in `a`; *now is the one that holds, or that is offered. How many. */
size_t app_lift_ways(const struct app_lift *lift, struct arena *a, const struct app_lift_way **out, size_t *now);
const char *app_lift_way_text(const struct app_lift *lift, struct arena *a, const struct app_lift_way *way);
struct app_lift_effects app_lift_take_way(struct app_lift *lift);
struct app_lift_effects app_lift_take_apart(struct app_lift *lift, double true_mm);

/* --- pages --- */

struct app_lift_effects app_lift_columns(struct app_lift *lift, int by);
struct app_lift_effects app_lift_by_columns(struct app_lift *lift);
struct app_lift_effects app_lift_leave_out(struct app_lift *lift);
struct app_lift_effects app_lift_move_cell(struct app_lift *lift, int right, int away);
struct app_lift_effects app_lift_move_page(struct app_lift *lift, double right, double away);
struct app_lift_effects app_lift_as_found(struct app_lift *lift);

/* --- sizes --- */

struct app_lift_effects app_lift_role(struct app_lift *lift, int by);
struct app_lift_effects app_lift_draw_size(struct app_lift *lift);
struct app_lift_effects app_lift_new_size(struct app_lift *lift, const char *name);
const char *app_lift_strand_name(const struct app_lift *lift, struct arena *a, const struct lifting_strand *s);

/* --- the whole sheet --- */

/* The lines it shows, in `a`. */
struct scene_sheet app_lift_whole(const struct app_lift *lift, struct arena *a);

/* For each layer whether it has lines of sizes and none of them is drawn; in `a`. */
const bool *app_lift_undrawn_layers(const struct app_lift *lift, struct arena *a);

/* A page as drawn; and what is about the square, or the two points, corrected. */
struct scene_sheet app_lift_flat(const struct app_lift *lift, struct arena *a);
struct scene_sheet app_lift_corrected(const struct app_lift *lift, struct arena *a);

/* --- pieces --- */

/* The size that pieces are shown in, or LIFTING_NONE. */
int app_lift_shown_size(const struct app_lift *lift);

/* A piece in a size as cut pieces are drawn, in `a`; and the other lines on it. False where it is not there. */
bool app_lift_draft(struct arena *a, const struct lifting_piece *piece, int size, struct draft_piece *out);
size_t app_lift_inner_lines(struct arena *a, const struct lifting_piece *piece, int size,
                            const struct geometry_path **out);

struct app_lift_effects app_lift_step_piece(struct app_lift *lift, int by);
struct app_lift_effects app_lift_begin_mend(struct app_lift *lift, enum lifting_mend_kind kind);
struct app_lift_effects app_lift_mend(struct app_lift *lift, struct lifting_mend mend);
struct app_lift_effects app_lift_mend_marked(struct app_lift *lift);
struct app_lift_effects app_lift_take_turned(struct app_lift *lift);
struct app_lift_effects app_lift_take_back(struct app_lift *lift);

/* Why there is no piece, and what to do. */
const char *app_lift_no_piece(const struct app_lift *lift);

/* --- the end --- */

struct app_lift_effects app_lift_take_allowance(struct app_lift *lift);
struct app_lift_effects app_lift_ask_save(struct app_lift *lift);

/* The keys of a page, as help shows them. */
size_t app_lift_page_keys(struct arena *a, enum app_lift_page page, const struct scene_help_line **out);

#endif
