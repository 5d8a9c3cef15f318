/* The bench: the whole job at a glance, as a work ticket and the page of the stage that is open. Knows no window and
 * keeps no file: events come in, a picture and effects go out. Files that she opens are read. */
#ifndef BENCH_BENCH_H
#define BENCH_BENCH_H

#include "app/progress.h"
#include "base/pool.h"
#include "form/picture.h"
#include "geometry/map.h"
#include "input/event.h"
#include "job/job.h"
#include "paint/draw_list.h"

struct bench;

/* Where she goes to the table for. The caller shows that there and calls bench_come_back when she leaves it. */
enum bench_way { BENCH_STAY, BENCH_TO_SET_UP, BENCH_TO_ARRANGE, BENCH_TO_CUT, BENCH_TO_LIFT };

/* What the caller has to do after an event. */
struct bench_effects {
    bool redraw;         /* the picture has changed */
    bool keep;           /* the job has: it is to be saved before its picture is shown */
    bool settings;       /* unit, language, night or size of letters have */
    bool own_keys;       /* the keys that she gave have */
    bool cautioned;      /* the usual cautions were read */
    bool asks_projector; /* she is to be asked which display is the projector */
    bool wants_sample;   /* a sample table is to be opened as a file is, to try the table without one */
    enum bench_way to;
    const enum pattern_cloth *cloth; /* BENCH_TO_CUT: that it begins with; NULL: the one that was in hand */
    const char *sheet;               /* BENCH_TO_LIFT: the file that pieces are taken from */
    const char *put_away;            /* a ticket's file, to be taken out of its folder; NULL: none is */
    bool leave;                      /* she leaves the table from here */
    bool not_mine;                   /* a key that does nothing on this page */
    bool quit;
    const char *opened; /* another job is open, from that file; "": one without a file yet; NULL: the same as before */
};

enum { BENCH_MOST_STEPS = 2 };

/* What it speaks: the caller sees to that (base/words.h) before the next picture. */
enum bench_language { BENCH_AS_DESKTOP, BENCH_ENGLISH, BENCH_GERMAN, BENCH_LANGUAGES };

/* How she likes the bench, and the table; kept from day to day by the caller. */
struct bench_manner {
    enum units_length unit;
    enum bench_language language;
    bool night;
    int steps;               /* so many quarters smaller than the window has room for, up to BENCH_MOST_STEPS */
    int room_lux, light_lux; /* how bright the room's light and the projector's white are on the table; 0: not told */
    bool left_handed;
    int side, strip;  /* where she stands at first, and where the large words are: near, right, far, left */
    enum job_way way; /* of new tickets */
};

struct bench_start {
    struct bench_manner manner;
    struct base_pool *pool;   /* for the search of layouts; outlives the bench. NULL: one thread */
    void (*wake)(void *user); /* see bench_is_working; NULL: no thread works meanwhile */
    void *wake_user;
    const char *recent;            /* the ticket that was open last, a file that is there; NULL: none */
    const char *tickets;           /* the folder of tickets, there or not; NULL: none is */
    const char *const *given_keys; /* texts "action = key" (app/key_map.h), copied */
    size_t given_key_count;
    const char *example_pattern, *example_body;                       /* files that the example is made of */
    const char *own_table;                                            /* the table set-up made last, there or not; NULL:
                                                                         none is */
    bool cautions;                                                    /* the usual cautions come first */
    bool (*claim)(void *of, const char *path, struct err_list *errs); /* asked before a ticket is opened: false, with
                                                                         the reason, where it is not to be had. NULL:
                                                                         any is */
    void *claims_of;
};

/* Stands at the page where a job is begun; a file is opened as if it were dropped there. */
struct bench *bench_create(const struct bench_start *start);

/* NULL is allowed. */
void bench_destroy(struct bench *b);

/* The window's size, and its letters at the scale that bench_scale gives for that; before the first event, and after
 * each change. Letters are kept by reference. */
double bench_scale(const struct bench *b, int width, int height);
void bench_fit(struct bench *b, int width, int height, const struct form_type *type);

struct bench_effects bench_handle(struct bench *b, struct input_event event);

/* Whether there is work that goes on by itself (a better layout is looked for): then bench_work is called between
 * events, as app_arrange_search is (app/arrange.h). */
bool bench_is_working(const struct bench *b);
struct bench_effects bench_work(struct bench *b, double now_s);

/* What the bench shows now; lives until the next event or picture. */
const struct form_picture *bench_picture(struct bench *b);

/* The job as it is, until the next event; NULL: none is open. */
const struct job *bench_job(const struct bench *b);

struct bench_manner bench_manner(const struct bench *b);

/* Another language is spoken from now on. */
void bench_spoken(struct bench *b);

/* The keys that she gave to what is done while cutting; they last until she gives others. */
size_t bench_given_keys(const struct bench *b, const char *const **out);

/* She is at the table for that: its page is shown, and while the job is cut or arranged there nothing is changed here
 * that would change its lines, nor another job opened. BENCH_STAY: she is back. */
void bench_set_at_table(struct bench *b, enum bench_way way);

/* What came of the work at the table, to be taken on: its layouts, as often as they change; a job with another table
 * set-up (NULL: the same), and what is to be told (NULL: nothing). All is copied. */
void bench_take_layouts(struct bench *b, const struct job *from);
void bench_come_back(struct bench *b, const struct job *job, const char *sentence);

/* What the table shows now, in a light of so many px; `map` as it is drawn through, NULL: nothing of it is in table mm.
 * Copied. Whether it looks other than before. What is in hand is known by bench_set_progress. */
bool bench_set_glance(struct bench *b, const struct paint_scene *scene, const struct geometry_map *map, int width_px,
                      int height_px);

/* What of the job as it is now is cut; NULL: nothing was begun. Copied. Whether it is other than before. */
bool bench_set_progress(struct bench *b, const struct app_progress *progress);

/* Where the ticket that is open is kept; NULL: nowhere yet. Copied. */
void bench_set_path(struct bench *b, const char *path);

/* Tells a sentence on the slip until the next event. Copied. */
void bench_tell(struct bench *b, const char *sentence);

/* Other tickets are in the folder than before, and what is to be told of that. */
void bench_look_again(struct bench *b, const char *sentence);

enum { BENCH_WARM_MIN = 15 };

/* What is known of the light, and of a table set-up that was left before its end. */
struct bench_lamp {
    const char *since; /* the time of day, "20:05", that the program showed something there first; NULL: not yet */
    int left_min;      /* of warming up */
    int read, of;      /* so many crosses are read, of so many; none: nothing was begun */
};

/* Copied. Whether it is other than before. */
bool bench_set_lamp(struct bench *b, const struct bench_lamp *lamp);

/* Why the last change is not kept, on the slip; NULL: it is. Copied. */
void bench_set_trouble(struct bench *b, const char *sentence);

#endif
