/* The state of arranging pieces on cloth, for the files that make it. Not for other folders. */
#ifndef APP_ARRANGE_STATE_H
#define APP_ARRANGE_STATE_H

#include "app/arrange.h"
#include "app/key_lines.h"
#include "app/lay_widths.h"
#include "base/background.h"
#include "lay/lay.h"
#include "tearing/tearing.h"

/* How often something can be undone. */
enum { APP_ARRANGE_STEPS = 64 };

/* What lies where, as it was after each step. Steps are values: none is changed once another is there. */
struct app_arrange_steps {
    struct lay_place *values[APP_ARRANGE_STEPS]; /* one place for each item, all made at the start */
    size_t count, now;                           /* those after `now` were undone */
};

/* What the last step did: more of the same, to the same piece or by the same search, is one step. */
enum app_arrange_deed { APP_ARRANGE_ELSE, APP_ARRANGE_MOVED, APP_ARRANGE_TURNED, APP_ARRANGE_FOUND };

/* What a search has found, as it is handed over. */
struct app_arrange_found {
    bool can_gain;             /* more rounds may find better */
    struct lay_place places[]; /* one for each item */
};

/* What is known so far of other widths. */
struct app_widths_answer {
    const void *of; /* the question */
    size_t count;
    struct app_lay_width rows[APP_LAY_WIDTHS];
};

struct app_widths_question; /* arrange_widths.c */

/* One of the job's cloths. */
struct app_arranged {
    const struct job_cloth *from;
    struct arena *room; /* task, what is cut and steps live there */
    struct lay_task task;
    const struct tearing_plan *torn; /* before anything is laid; NULL: nothing is */
    const char *refused;             /* why nothing can be laid on it; NULL when it can */
    struct app_arrange_steps steps;
    enum app_arrange_deed deed;
    size_t in_hand;          /* the item; item_count: none */
    const bool *begun, *cut; /* of each item: at the table, so that it stays where it lies; all of it cut */

    struct lay_search *search; /* NULL once a hand has changed something: then another one begins */
    bool searching, can_gain;  /* can_gain: as it was when something was found last */
    uint64_t seed;             /* another one for each search, so that arranging again is another try */
    double gained_s;           /* when it last found something; below 0: not asked yet */

    bool settled;                         /* for a while nothing better was found: there is time for other widths */
    struct app_widths_question *question; /* NULL: not asked yet */
    struct app_widths_answer other;

    struct arena *made; /* of the step that is now: */
    bool is_made;
    struct lay lay;
    const struct lay_finding *findings;
    size_t finding_count;
};

struct app_arrange {
    struct app_arrange_start start;
    struct arena *a;
    struct draft draft;
    struct app_arranged *cloths;
    size_t cloth_count, cloth;          /* the one that is shown */
    struct base_background *background; /* makes the rounds of searching; NULL: app_arrange_search does */
    struct base_background *widths;     /* reckons other widths; NULL: nobody does */
    struct app_arrange_found *found;    /* of a cloth with so many items: */
    size_t found_items;
    bool rests;

    bool cautions, help;
    bool locked; /* no key does anything but the one that unlocks */
    struct arena *told_in;
    const char *told;          /* an answer, to be read until the next key; or NULL */
    const char *trouble;       /* why the last changes are not kept, or NULL */
    struct scene_names *names; /* where they stand in the picture */
    bool unshown;              /* the search has found something since the last picture … */
    double shown_s;            /* … of this moment */
    enum scene_side side;
    int chalks;
};

extern const struct app_arrange_effects app_arrange_redraw;  /* the table is to be drawn again */
extern const struct app_arrange_effects app_arrange_changed; /* and what lies where is to be kept */

/* The cloth that is shown. */
struct app_arranged *app_arrange_now(struct app_arrange *arrange);

/* Tells something until the next key. */
struct app_arrange_effects app_arrange_tell(struct app_arrange *arrange, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* --- what is laid on a cloth (arrange.c, arrange_follow.c) --- */

/* Gives a cloth its items as the job has them, everything off it. What cannot be laid at all is told in its place;
 * false, with the reasons. */
bool app_arrange_make_items(struct app_arrange *arrange, struct app_arranged *cloth, const struct job *job,
                            struct err_list *errs);

/* Where everything was kept in a job; whether anything was. */
bool app_arrange_take_kept(struct app_arranged *cloth, const struct job *job, struct err_list *errs);

/* The interfacing follows the fabric that is fused in a block (app/arrange.h). */
void app_arrange_follow(struct app_arrange *arrange);

/* --- steps (arrange_steps.c) --- */

/* One value, with everything off the cloth. */
void app_arrange_begin_steps(struct arena *a, struct app_arrange_steps *steps, size_t items);

/* What lies where now. */
const struct lay_place *app_arrange_places(const struct app_arranged *cloth);

/* Whether an item stays where it lies: it is cut, or held there. */
bool app_arrange_stays(const struct app_arranged *cloth, size_t item);

/* A copy of it, the new now, to be changed: what was undone is forgotten. More of one deed is no new step. */
struct lay_place *app_arrange_step(struct app_arranged *cloth, enum app_arrange_deed deed);

/* A step back (-1) or forth (+1); false when there is none. */
bool app_arrange_step_by(struct app_arranged *cloth, int by);

/* The lay as it is now, and what is wrong with it, worked out once. */
const struct lay *app_arrange_lay(struct app_arranged *cloth);
size_t app_arrange_findings(struct app_arranged *cloth, const struct lay_finding **out);

/* --- the search (arrange_search.c) --- */

/* Arranges all that is not held anew; what is there stays until something better is found. False, told, when what is
 * held stands in the way. */
bool app_arrange_begin_search(struct app_arrange *arrange, struct app_arranged *cloth);

/* Goes on with the search, or begins another one where there is none. */
void app_arrange_go_on(struct app_arrange *arrange, struct app_arranged *cloth);

/* Stops it; it can go on. */
void app_arrange_stop(struct app_arranged *cloth);

/* Stops it for good: a hand changes what it found. */
void app_arrange_end_search(struct app_arrange *arrange, struct app_arranged *cloth);

/* Where one item finds room among the others as they lie; false, told, when nowhere. */
bool app_arrange_find_room(struct app_arrange *arrange, struct app_arranged *cloth, size_t item, struct lay_place *out);

/* --- its rounds (arrange_rounds.c) --- */

/* Once all cloths are there; and when all is over. */
void app_arrange_begin_rounds(struct app_arrange *arrange);
void app_arrange_end_rounds(struct app_arrange *arrange);

/* Waits for a round under way, and makes none until app_arrange_begin_rounds; all searches stay. */
void app_arrange_halt_rounds(struct app_arrange *arrange);

/* Ends a cloth's search; nobody waits for a round under way. */
void app_arrange_drop_rounds(struct app_arrange *arrange, struct app_arranged *cloth);

/* The cloth that is shown has its rounds, if it is being searched; after whatever may have changed that. */
void app_arrange_attend(struct app_arrange *arrange);

/* What the search of the cloth that is shown has, in `found`. False: nothing new. */
bool app_arrange_take_found(struct app_arrange *arrange, struct app_arranged *cloth);

/* --- other widths (arrange_widths.c) --- */

/* Once all cloths are there; and when all is over. */
void app_arrange_begin_widths(struct app_arrange *arrange);
void app_arrange_end_widths(struct app_arrange *arrange);

/* Those of the cloth that is shown are asked for, where there is time; after whatever may have changed that. */
void app_arrange_attend_widths(struct app_arrange *arrange);

/* Whether there are some to come. */
bool app_arrange_reckons(const struct app_arrange *arrange);

/* Takes what has come; whether any has. */
bool app_arrange_take_widths(struct app_arrange *arrange, double now_s);

/* --- by hand (arrange_hand.c); each of the piece in hand --- */

struct app_arrange_effects app_arrange_move(struct app_arrange *arrange, vec2 by_mm);
struct app_arrange_effects app_arrange_slide(struct app_arrange *arrange, vec2 direction);
struct app_arrange_effects app_arrange_turn(struct app_arrange *arrange, double deg);
struct app_arrange_effects app_arrange_end_for_end(struct app_arrange *arrange);
struct app_arrange_effects app_arrange_turn_over(struct app_arrange *arrange);
struct app_arrange_effects app_arrange_butt(struct app_arrange *arrange);
struct app_arrange_effects app_arrange_hold(struct app_arrange *arrange);
struct app_arrange_effects app_arrange_take_off(struct app_arrange *arrange);

/* --- keys (arrange_keys.c) --- */

/* All rows, each of which begins with a struct app_key. */
const struct app_key_table *app_arrange_key_table(void);

/* --- what is told (arrange_words.c) --- */

/* How much the lay needs and what that means, in a line. */
const char *app_arrange_title(struct app_arrange *arrange, struct arena *a);

/* A piece's name on the picture, with how far it is off the grain where it is. */
const char *app_arrange_piece_name(struct app_arranged *cloth, struct arena *a, size_t item);

/* The piece in hand: off the grain, how far to its neighbour, layers, held; NULL when none is. */
const char *app_arrange_hand_words(struct app_arrange *arrange, struct arena *a);

/* What is wrong, the worst first, in a line; NULL when nothing is. */
const char *app_arrange_wrong_words(struct app_arrange *arrange, struct arena *a);

/* Pieces that are off the cloth, in a line; NULL when none is. */
const char *app_arrange_left_out_words(struct app_arrange *arrange, struct arena *a);

#endif
