/* The walk's state, for the files that make it. Not for other folders. */
#ifndef APP_WALK_STATE_H
#define APP_WALK_STATE_H

#include "app/lockout.h"
#include "app/walk.h"
#include "calibration/matscale.h"

/* What the light shows; keys mean what they mean on it. */
enum app_walk_page {
    APP_WALK_CAUTIONS,
    APP_WALK_SURFACE, /* what lies on the table is chosen */
    APP_WALK_START,   /* projector, focus and mat are made ready */
    APP_WALK_TYPE,    /* a cross, and where it falls is typed */
    APP_WALK_PLACE,   /* a cross is moved onto a crossing of rulings that is named */
    APP_WALK_TAPE,    /* two crosses, and how far apart they are is typed */
    APP_WALK_QUESTION,
    APP_WALK_LAY, /* the mat is to be laid elsewhere */
    APP_WALK_RESULT,
    APP_WALK_DOUBT,    /* how true the table is, all over */
    APP_WALK_CHECK,    /* a line of light is measured with a tape */
    APP_WALK_CHECKED,  /* what the tape said of all of them */
    APP_WALK_STICKERS, /* the table is accepted; marks are laid on check stickers */
    APP_WALK_LEAVE,
    APP_WALK_ANEW, /* whether all is to be read afresh */
    APP_WALK_HELP
};

enum { APP_WALK_TYPED = 24 };

struct app_walk_item {
    int number;
    struct px_pt home, px; /* where it stood at first; where it is shown */
    struct px_pt read_px;  /* where it stood when it was read */
    bool read, beside;
    enum calibration_kind kind;
    int place; /* where the mat lay, from 0 */
    struct table_pt at;
};

#define APP_WALK_NEAR_STEP_PX 4.0 /* the first step of what lies near its place already */

/* How far the next press moves a cross along one axis: a turn back makes it finer, going on and on coarser again. */
struct app_walk_pace {
    double step_px;
    int last, run; /* direction of the last press, and how many went that way at this step */
};

enum { APP_WALK_LINES = 4, APP_WALK_TAPES = 18, APP_WALK_AROUND = 5 };

#define APP_WALK_TAPE_STEP_MM 16.0
#define APP_WALK_LEAST_TAPE_MM 20.0
#define APP_WALK_MOST_TAPE_MM 12000.0

/* A line of light that is measured with a tape. */
struct app_walk_line {
    vec2 from, to;        /* on the table, mm */
    struct px_pt ends[2]; /* in the frame */
    double drawn_mm, read_mm, may_be_off_mm;
    bool measured;
};

struct app_walk {
    struct app_walk_start start;
    struct app_walk_item *items; /* the walk's own crosses, then others that a file of readings brought along */
    size_t count, now, most;
    enum app_walk_page page, beneath; /* beneath: help or leaving goes back there */
    bool placing, presenter;          /* how the crosses are judged: by placing; with a presenter's few keys */
    int quarter;
    bool locked;                /* no key does anything but the one that unlocks */
    struct app_lockout lockout; /* of what says that something lies or is there */

    char typed[2][APP_WALK_TYPED]; /* along, away */
    int field;
    double along_mm;     /* taken already, while away is being typed */
    const char *refusal; /* why what was typed is not taken, or NULL */

    size_t surface;                      /* the choice that is marked */
    bool by_tape;                        /* there are no rulings */
    size_t tape;                         /* the pair of crosses that is shown */
    double tape_mm[APP_WALK_TAPES];      /* 0: not measured */
    struct calibration_reading *carried; /* distances of a file between other crosses */
    size_t carried_count;

    int place;                   /* where the mat lies now */
    bool offered[4];             /* the corners that it was asked to be laid at … */
    int around[APP_WALK_AROUND]; /* … and the crosses that are to fall on it at the last of them */

    struct app_walk_line lines[APP_WALK_LINES];
    int line;                          /* the one that is shown */
    double adjusted_mm;                /* by a presenter, from the drawn length … */
    bool touched;                      /* … which was looked at */
    struct calibration_matscale scale; /* how far the rulings are off, by the tape */
    bool scale_is_off, follows;        /* follows: the table goes by the tape */

    struct calibration_stickers marks; /* where they are shown */
    bool laid[CALIBRATION_MOST_STICKERS];
    int mark; /* the one in hand */

    struct table_pt target; /* the crossing that is named */
    struct app_walk_pace pace[2];
    size_t way;
    bool moved; /* since the way was chosen */

    struct arena *said;       /* the last solve and its sentences, remade with every reading */
    const char *sentence;     /* why the readings were refused, or what is doubtful, or NULL */
    size_t accused;           /* the cross that the sentence speaks of */
    bool solved, contradicts; /* contradicts: not solved, as readings do not go together */
    struct calibration_solution solution;
    struct calibration_readings solved_readings;
    struct calibration_repair repair; /* what was probably meant by the cross that is spoken of */
    double worst_mm, next_mm; /* of a solved table: by how much a place may be off at most, and after one more … */
    struct px_pt worst_px, next_px; /* … and where that is, and where that one is to be read */
    enum scene_doubt_of doubt_of;   /* what the page of doubt draws */
    bool has_next;                  /* it is worth the while */
    const char *trouble;            /* why the readings made last are not saved, or NULL */
};

/* The first cross from there on, around, that is neither read nor beside the mat; `count` when there is none. */
size_t app_walk_next_unread(const struct app_walk *walk, size_t from);

/* Shows a cross, to be judged afresh. */
void app_walk_go_to(struct app_walk *walk, size_t index);

/* Names the crossing nearest to the cross that is shown, as far as the readings tell. */
void app_walk_name(struct app_walk *walk);

/* The same, and begins placing it afresh; from five readings on an unread cross is sent there. */
void app_walk_aim(struct app_walk *walk);

/* The place of the first cross of that number in the items, or their count. */
size_t app_walk_find(const struct app_walk *walk, int number);

/* A read cross as the solve takes it. */
struct calibration_reading app_walk_reading(const struct app_walk_item *item);

/* The cross that is shown was judged: from the fourth reading on it is questioned where it does not fit, else the next
 * one is shown. */
struct app_walk_effects app_walk_judge(struct app_walk *walk);

/* Where a corner was beside the mat, the page that asks for the mat to be laid there. False when there is none left. */
bool app_walk_offer_place(struct app_walk *walk);

/* The numbers of the crosses that are to fall on the mat there. How many. */
size_t app_walk_around(const struct app_walk *walk, const int **numbers);

/* The mat is not laid there: the crosses that were to tie it are forgotten. */
void app_walk_leave_place(struct app_walk *walk);

/* The same, but it is asked for again later. */
void app_walk_put_off_place(struct app_walk *walk);

/* The mat lies there: those crosses are asked for. */
struct app_walk_effects app_walk_mat_lies(struct app_walk *walk);

/* A number that no cross has. */
int app_walk_new_number(const struct app_walk *walk);

/* Takes what was probably meant for what was read. */
struct app_walk_effects app_walk_correct(struct app_walk *walk);

/* One more cross, where it makes the table truest. */
struct app_walk_effects app_walk_add_next(struct app_walk *walk);

struct app_walk_effects app_walk_show_result(struct app_walk *walk);
struct app_walk_effects app_walk_go_on(struct app_walk *walk);

/* The cross that is shown was read there; then it is judged. */
struct app_walk_effects app_walk_take(struct app_walk *walk, struct table_pt at);

/* The cross that is shown falls beside the mat. */
struct app_walk_effects app_walk_leave_out(struct app_walk *walk);

/* Moves the cross that is shown, or the mark in hand, by pixels of her own right and away; it stays in the frame. */
struct app_walk_effects app_walk_nudge(struct app_walk *walk, double right, double away);

/* What may lie on the table: mats, other rulings, a tape alone. Asked where a choice is given and none was made. */
bool app_walk_asks_surface(const struct app_walk *walk);
size_t app_walk_surfaces(const struct app_walk *walk);
const char *app_walk_surface_name(const struct app_walk *walk, size_t choice);
struct app_walk_effects app_walk_choose_surface(struct app_walk *walk, int by);
struct app_walk_effects app_walk_take_surface(struct app_walk *walk, size_t choice);

/* The two crosses whose distance is asked for; the next pair not measured, or the result; the next pair or the one
 * before; an ordinary projector's distance, for a presenter to begin with. */
void app_walk_tape_ends(const struct app_walk *walk, size_t items[2]);
struct app_walk_effects app_walk_next_tape(struct app_walk *walk);
struct app_walk_effects app_walk_step_tape(struct app_walk *walk, int by);
double app_walk_tape_guess_mm(const struct app_walk *walk);

/* What was typed, or set by presenter, is the distance of the pair shown; nothing: on to the next. */
struct app_walk_effects app_walk_taped(struct app_walk *walk);

/* The distance that a reading is of was meant so: of its own pair, or of another one; it is measured again. */
void app_walk_correct_tape(struct app_walk *walk, size_t index, const struct calibration_reading *is);
struct app_walk_effects app_walk_tape_again(struct app_walk *walk, size_t index);

/* The distances as readings, behind the others; room for all is there. */
void app_walk_add_tapes(const struct app_walk *walk, struct calibration_readings *to);

/* A distance of a file of readings; false when it is of no pair of these. */
bool app_walk_take_over_tape(struct app_walk *walk, const struct calibration_reading *reading);

/* Lays the solution of distances alone. */
void app_walk_lay_afloat(struct app_walk *walk);

/* The lines that the tape is held to, from the first one on. */
struct app_walk_effects app_walk_begin_check(struct app_walk *walk);

void app_walk_show_line(struct app_walk *walk, int line);
const char *app_walk_line_name(int line);

/* What was typed, or set by presenter, is the length of the line shown; nothing: it was not measured. Then the next. */
struct app_walk_effects app_walk_measured(struct app_walk *walk);

/* What the tape said of all lines: whether they are true, and whether the rulings are off. */
struct app_walk_effects app_walk_show_checked(struct app_walk *walk);

/* The rulings are off: the table goes by the tape. */
struct app_walk_effects app_walk_follow_tape(struct app_walk *walk);

/* Solves what was read so far. */
void app_walk_solve(struct app_walk *walk);

/* Sets the length by a presenter, half a millimetre at a time. */
struct app_walk_effects app_walk_adjust(struct app_walk *walk, double steps);

/* Whether a measured line is as long as drawn, within what light and tape may be off (95 %). */
bool app_walk_line_is_true(const struct app_walk_line *line);

/* The table is accepted: marks are laid on check stickers. */
struct app_walk_effects app_walk_lay_stickers(struct app_walk *walk);

/* The mark in hand lies on its sticker, or is left out; then the next. After the last all is done. */
struct app_walk_effects app_walk_lay(struct app_walk *walk, bool on_sticker);

/* The marks that lie on stickers; none when they are too few, or too close together, to tell a bump. */
struct calibration_stickers app_walk_laid(const struct app_walk *walk);

/* The next press moves a cross or mark by that much, whichever way. */
void app_walk_pace_afresh(struct app_walk *walk, double step_px);

/* Takes another mark in hand. */
struct app_walk_effects app_walk_take_mark(struct app_walk *walk, int by);

/* What Page Down and Page Up do to a cross that is placed; in `a`. */
const char *app_walk_way_words(const struct app_walk *walk, struct arena *a);

/* All rows, each of which begins with a struct app_key. */
const struct app_key_table *app_walk_key_table(void);

/* The keys of a page as she gave them (NULL: the usual ones), as help shows them. */
size_t app_walk_page_keys(struct arena *a, const struct app_key_map *map, enum app_walk_page page,
                          const struct scene_help_line **out);

#endif
