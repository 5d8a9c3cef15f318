/* Taking a drawn sheet to pieces at the table: its scale, its pages, which line is which size, the whole sheet as it
 * is, its pieces, their seam allowance, and a pattern file at the end. Page after page, back and forth, by keys alone.
 * Knows no window and reads and writes no file: events come in, a draw list and effects go out. */
#ifndef APP_LIFT_H
#define APP_LIFT_H

#include "app/import.h"
#include "app/trust.h"
#include "calibration/table.h"
#include "input/event.h"
#include "lifting/write.h"
#include "paint/draw_list.h"
#include "scene/scene.h"

struct app_lift;

struct app_lift_effects {
    bool redraw;
    bool show;   /* what was painted before is to be shown again */
    bool read;   /* the file is to be read, with app_lift_password: then app_lift_take or app_lift_refuse */
    bool cancel; /* reading is to be given up */
    bool keep;   /* what she says was changed: it is to be kept */
    bool save;   /* the pattern is to be written: then app_lift_saved or app_lift_not_saved */
    bool cut;    /* the pattern is written, and its pieces are to be cut in the size that is drawn */
    bool quit;
};

struct app_lift_start {
    struct calibration_table table; /* what the frame is drawn through */
    const char *table_path;         /* its file; NULL: a sample */
    struct text_font *font;         /* NULL: no letters */
    enum units_length unit;         /* of what is typed */
    const char *file, *out;         /* the sheet, and where its pattern goes; kept by reference */
    bool out_is_there;              /* something stands at `out` already */
    bool may_cut;                   /* what follows saving can go on to cutting */
};

/* Stands at the usual cautions; the file is not read yet. Lives until app_lift_destroy; the font and the texts in
 * `start` outlive it. */
struct app_lift *app_lift_create(const struct app_lift_start *start);

/* The sheet it took goes with it. NULL is allowed. */
void app_lift_destroy(struct app_lift *lift);

struct app_lift_effects app_lift_handle(struct app_lift *lift, struct input_event event);

/* What the table shows now; lives in `frame`. */
struct paint_scene app_lift_scene(struct app_lift *lift, struct arena *frame);

/* What is shown instead where the light is not the table's, as app_away_scene. */
struct paint_scene app_lift_away_scene(const struct app_lift *lift, struct arena *frame, int width, int height,
                                       bool home);

/* The map it is drawn through. */
const struct geometry_map *app_lift_map(const struct app_lift *lift);

/* --- reading the file --- */

/* How far reading has come. */
struct app_lift_effects app_lift_progress(struct app_lift *lift, unsigned percent);

/* The password that she typed, or NULL; the dots per inch of a picture, or 0. */
const char *app_lift_password(const struct app_lift *lift);
double app_lift_dpi(const struct app_lift *lift);

/* The file is read: `im`, with what was said of it before, is the lift's own from now on. */
void app_lift_take(struct app_lift *lift, struct app_import *im);

/* What a file lacks to be read. */
enum app_lift_lack { APP_LIFT_LACKS_ALL, APP_LIFT_LACKS_PASSWORD, APP_LIFT_LACKS_DPI };

/* It cannot be read, and why (copied); or not without what it lacks, which she is asked for. */
void app_lift_refuse(struct app_lift *lift, const char *sentence, enum app_lift_lack lack);

/* --- keeping and saving --- */

/* The import with her choices, once it was taken; else NULL. */
struct app_import *app_lift_import(const struct app_lift *lift);

/* Where the pattern is to go. */
const char *app_lift_out(const struct app_lift *lift);

/* Whether what stands there may be replaced (the old file is kept under another name). */
bool app_lift_replaces(const struct app_lift *lift);

/* What the pattern is to say, in `a`. */
struct lifting_wish app_lift_wish(const struct app_lift *lift, struct arena *a);

/* The name of the size that is drawn; NULL when there are several or none. */
const char *app_lift_size(const struct app_lift *lift);

/* It is saved. `kept`: what stood there before is now at that path; or NULL. Copied. */
void app_lift_saved(struct app_lift *lift, const char *kept);

/* It is not, and why. Copied. */
void app_lift_not_saved(struct app_lift *lift, const char *sentence);

/* Another file stands where the pattern is to go; she is asked. */
void app_lift_is_there(struct app_lift *lift, bool is_there);

/* Why what she said last is not kept, across the frame; NULL when it is. Kept by reference. */
void app_lift_set_trouble(struct app_lift *lift, const char *sentence);

/* The table is not to be trusted until it is looked at; a sample never is. */
void app_lift_doubt_scale(struct app_lift *lift, enum app_doubt doubt);
struct app_lift_effects app_lift_pass_time(struct app_lift *lift, double with_sleep_s, double awake_s);

/* --- keys --- */

enum { APP_LIFT_KEY_LISTS = 7 };

/* Its keys, as help shows them, in lists by page, each with a title and a short name. The texts live in `a`. */
size_t app_lift_help_lines(struct arena *a, int list, const char **title, const char **name,
                           const struct scene_help_line **out);

#endif
