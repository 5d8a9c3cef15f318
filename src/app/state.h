/* The app's state and what its actions are. Not for other folders. */
#ifndef APP_STATE_H
#define APP_STATE_H

#include "app/app.h"
#include "app/key_map.h"
#include "app/lockout.h"

struct app_place;

/* Bounds of what keys and files can ask for. */
#define APP_LEAST_WEIGHT_MM 0.5
#define APP_MOST_WEIGHT_MM 10.0
#define APP_MOST_PAN_MM 10000.0

/* Colours of light that she chose on a cloth, rows of scene_chalks; SCENE_CHALKS: left to the cloth. */
struct app_chosen {
    int main, second;
};

/* Whether words stand on a lit band. */
enum app_band { APP_BAND_BY_CLOTH /* where stripes or checks would run through them */, APP_BAND_ON, APP_BAND_OFF };

/* How it is seen on the cloth. */
struct app_seeing {
    double room_lux, light_lux;
    struct app_chosen chosen[JOB_MATERIALS];
    enum app_band band[JOB_MATERIALS];
    bool chooses_second; /* on the trial strip the next number is for the second chalk */
    double now_s;        /* as told last … */
    double pulse_s;      /* … and when lines began to pulse */
    bool pulses;
};

struct app {
    struct arena *a;
    const struct job *job;
    struct calibration_table table;
    struct geometry_map flat;             /* the table's, mended by where the marks lie on the stickers now … */
    struct calibration_stickers stickers; /* … which is there */
    struct geometry_map map;              /* the same, of what is cut on */
    struct calibration_stickers moving;   /* where they are shown while they are moved */
    enum scene_doubt_of doubt_of;
    double bump_doubt_mm; /* by how much a place may be off more since it was mended */
    int in_hand;          /* the mark that is being moved, from 0 */
    struct text_font *font;
    enum units_length unit;
    struct draft draft;
    const struct draft_piece *whole; /* the draft's pieces with those on the fold opened out */

    enum scene_mode mode;
    bool cautions; /* the page of cautions is up */
    struct app_trust trust;
    const char *told;                   /* an answer, to be read until the next key; or NULL */
    struct calibration_surface surface; /* what is cut on, of what is shown now */
    const char *height;                 /* the warning of a surface whose height nothing makes up for, or NULL */
    const char *trouble;                /* why the last choices are not kept, or NULL */
    bool rulings, all, opened, outer_edge;
    size_t cut;                     /* line of the cutting list */
    struct geometry_motion *places; /* one for each line, and the last for all pieces together */
    struct app_place *place;        /* layouts on their cloths; NULL: the job has none */
    struct input_event pressed;     /* the key that is being answered */
    struct app_lockout lockout;     /* of what says "done" */
    struct app_key_map keys;        /* that she gave to actions */
    bool presenter;                 /* one is at work: its start key sends F5 and Esc by turns */
    bool locked;                    /* no key does anything but the one that unlocks */
    double steered_deg;             /* by a stick, less than a step */
    double weight_mm;
    struct app_seeing seeing;
    enum scene_side side;
    enum scene_side strip; /* the edge of the strip, as she sees it */
    bool left_handed;
    bool chalks_all; /* all is chalked first and cut then */
};

/* Which of the places what is shown now has, and its motion. */
size_t app_place_index(const struct app *app);
struct geometry_motion *app_motion(struct app *app);

/* What is shown when a key is to do something. */
enum { APP_ON_PIECES = 1, APP_ON_STICKERS = 2, APP_ON_REST = 4, APP_ON_LAYOUT = 8, APP_ON_TRIAL = 16, APP_ON_ALL = 31 };

struct app_action {
    const char *help; /* what the key does, for people */
    unsigned on;      /* elsewhere it does nothing: what cannot be seen is not changed */
    struct app_effects (*run)(struct app *app, double amount);
};

struct app_key_row {
    int key, mods;
    const struct app_action *action;
    double amount;
};

/* --- seeing (seeing.c) --- */

/* What is usual, the chalks left to the cloth. */
struct app_seeing app_seeing_usual(void);

/* The material whose cloth is on the table now. */
enum pattern_cloth app_material(const struct app *app);

/* The chalks on that cloth. */
struct scene_chalks app_chalks(const struct app *app);

/* Whether words stand on a band there. */
bool app_has_band(const struct app *app);

/* The time, in seconds from some fixed moment; whether what is shown changes with it. */
bool app_seeing_pass_time(struct app_seeing *seeing, double now_s);

/* What to do on the trial strip's page. */
const char *app_trial_text(const struct app *app, struct arena *a);

/* That nothing is seen on it, with what to do; NULL where something is, or where she chose the chalks herself. */
const char *app_seeing_warning(const struct app *app);

/* What she chose, as members of a line of the app's memory; from before there was anything to choose by the cloth, too.
 * False when it is none; what is recalled into is then of no use. */
void app_seeing_remember(const struct app_seeing *seeing, struct json_out *top);
bool app_seeing_recall(struct app *app, const struct json_node *top);

/* Moves the mark in hand by mm on the table. */
struct app_effects app_move_mark(struct app *app, vec2 by);

/* The next mark in hand, or the one before. */
struct app_effects app_next_mark(struct app *app, int by);

/* What is cut on, and the map of it: raised where the lens is known, else as the table is; once the check stickers have
 * moved, and whenever another layout is shown. */
void app_attend_surface(struct app *app);

/* The marks lie there now: mends the map. False, with the reason, when they agree with no bump. */
bool app_follow(struct app *app, const struct calibration_stickers *are, struct calibration_followed *out,
                struct err_list *errs);

/* Which of them is shown. */
unsigned app_shown_now(const struct app *app);

/* The action of a key, or of the one it does the work of; or NULL. */
const struct app_key_row *app_find_key(int key, int mods);

/* As help shows them: those that mean something where one of these is shown; the texts live in `a`. */
size_t app_key_help(struct arena *a, const struct app_key_map *map, unsigned on, const struct scene_help_line **out);

/* What is left to be done, as lines of a page; in `a`. */
size_t app_left_lines(const struct app *app, struct arena *a, const struct scene_help_line **out);

/* All rows, for help and for the test that no key stands twice. */
const struct app_key_row *app_key_rows(size_t *count);

extern const struct app_action app_act_lock, app_act_across, app_act_away, app_act_turn, app_act_over, app_act_weight,
    app_act_step, app_act_all, app_act_middle, app_act_square, app_act_rulings, app_act_blank, app_act_chalks,
    app_act_side, app_act_help, app_act_open_out, app_act_cut_edge, app_act_back, app_act_quit, app_act_match,
    app_act_moved, app_act_doubt, app_act_done, app_act_layout, app_act_trial, app_act_chalk, app_act_pulse,
    app_act_band, app_act_work_light, app_act_strip, app_act_left;

#endif
