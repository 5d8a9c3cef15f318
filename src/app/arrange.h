/* The layout of a job's cloths at the table: the whole of it drawn small, better ones found while she watches, and
 * every piece moved by hand. Knows no window and reads and writes no file: events and time come in, a draw list and
 * effects go out. */
#ifndef APP_ARRANGE_H
#define APP_ARRANGE_H

#include "app/key_map.h"
#include "app/progress.h"
#include "base/pool.h"
#include "calibration/table.h"
#include "input/event.h"
#include "job/job.h"
#include "paint/draw_list.h"
#include "scene/scene.h"

struct app_arrange;

struct app_arrange_effects {
    bool redraw;
    bool show; /* what was painted before is to be shown again */
    bool keep; /* what lies where was changed: it is to be kept */
    bool quit;
};

struct app_arrange_start {
    const struct job *job;          /* with its cloths, at least one */
    struct calibration_table table; /* what the frame is drawn through */
    struct text_font *font;         /* NULL: no letters */
    enum units_length unit;         /* the person's */
    struct base_pool *pool;         /* for the search; NULL: one thread */
    enum scene_side side;           /* where she stands at first */
    bool locks;                     /* a key locks all others against children and cats */
    bool left_handed;               /* a controller's buttons lie the other way round */
    const struct app_key_map *keys; /* that she gave to what is done at the table; NULL: none. By reference */
    const struct app_progress *cut; /* what is cut lies where it lies; NULL: nothing is. Copied */
    void (*wake)(void *user);       /* see app_arrange_is_searching; NULL: the search has no thread of its own */
    void *wake_user;
    bool widths;      /* other widths are reckoned, too, once a layout has settled; by a thread, so only with `wake` */
    bool cautions;    /* show the usual cautions first … */
    const char *note; /* … and this after them, until something is moved; or NULL. Kept by reference */
};

/* Stands at the first cloth; one without a layout is arranged at once. Where fabric is fused in a block, its
 * interfacing follows whatever lies there now, by hand or found: another block, or other pieces in it, and the
 * interfacing has those at once. What of it is still cut stays where it lay; where something is wrong then, or has no
 * place yet, it is arranged anew around what is held, and its steps to undo begin anew. Interfacing that is cut in part
 * stays. Lives until app_arrange_destroy; job, font and pool outlive it. NULL, with the reasons, when a piece cannot be
 * drafted or no cloth has anything to lay. */
struct app_arrange *app_arrange_create(const struct app_arrange_start *start, struct err_list *errs);

/* NULL is allowed. */
void app_arrange_destroy(struct app_arrange *arrange);

struct app_arrange_effects app_arrange_handle(struct app_arrange *arrange, struct input_event event);

/* Whether a better layout is being looked for: then app_arrange_search is called between events, with seconds since
 * some fixed moment. Without `wake` a call makes a round of searching. With it, rounds are made by a thread of low
 * priority, and a call takes what that has found: once `wake` was called (by that thread), and every APP_LOOK_MS. What
 * is found is to be shown at most that often. */
enum { APP_LOOK_MS = 500 };
bool app_arrange_is_searching(const struct app_arrange *arrange);
struct app_arrange_effects app_arrange_search(struct app_arrange *arrange, double now_s);

/* Nothing is searched for while it rests: nobody sees it. Only where `wake` is told. */
void app_arrange_rest(struct app_arrange *arrange, bool rests);

/* What the table shows now; lives in `frame`. */
struct paint_scene app_arrange_scene(struct app_arrange *arrange, struct arena *frame);

/* What is shown instead where the light is not the table's, as app_away_scene. */
struct paint_scene app_arrange_away_scene(const struct app_arrange *arrange, struct arena *frame, int width, int height,
                                          bool home);

/* The map it is drawn through. */
const struct geometry_map *app_arrange_map(const struct app_arrange *arrange);

/* The job with everything where it lies now; in `a` and in what the job lives in. */
struct job app_arrange_job(const struct app_arrange *arrange, struct arena *a);

/* Why what she did last is not kept, across the frame; NULL when it is. Kept by reference. */
void app_arrange_set_trouble(struct app_arrange *arrange, const char *sentence);

/* Its keys as she gave them (NULL: the usual ones), as help shows them; the texts live in `a`. */
size_t app_arrange_help_lines(struct arena *a, const struct app_key_map *map, const struct scene_help_line **out);

#endif
