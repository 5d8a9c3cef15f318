/* The bench's state, and what a stage's page is. Not for other folders. */
#ifndef BENCH_INSIDE_H
#define BENCH_INSIDE_H

#include "app/arrange.h"
#include "app/lacks.h"
#include "bench/bench.h"
#include "bench/frame.h"
#include "bench/glance.h"
#include "bench/lengths.h"
#include "job/change.h"
#include "job/copy.h"
#include "job/history.h"

enum bench_stage_id {
    BENCH_MEASUREMENTS,
    BENCH_PATTERN,
    BENCH_CLOTH,
    BENCH_LAYOUT,
    BENCH_TABLE,
    BENCH_PLACING,
    BENCH_CUT,
    BENCH_FINISHED,
    BENCH_STAGES,
    BENCH_BEGIN = BENCH_STAGES, /* no job is open */
    BENCH_ALTER,                /* alterations, of the page of the pattern */
    BENCH_FILES,
    BENCH_TICKETS,
    BENCH_HELP,
    BENCH_SETTINGS,
    BENCH_OWN_KEYS, /* of the page of settings */
    BENCH_CAUTIONS, /* before any other, until a key is pressed */
    BENCH_PAGES
};

/* One page as it is made for a picture or an event. */
struct bench_page {
    struct arena *a;
    const struct bench *bench;
    struct form_picture *p;
    struct form form;
    const char *title, *sentence;
    const struct form_key *keys;
    size_t key_count;
    const char *next; /* the tag at the foot's right; NULL: none */
    int lack;         /* the page that BENCH_TO_LACK leads to */
    bool scrolls;     /* its form may be longer than the window */
};

/* Ids of a form's own items begin at 1; these are every page's. */
enum { BENCH_FIRST_OPEN = -1 };
enum { BENCH_NEXT = 100000, BENCH_TO_LACK, BENCH_TICKET_NAME };

struct bench {
    struct arena *a;       /* owns this */
    struct arena *told_in; /* what was told last */
    struct arena *frame;   /* the page that was made last */
    struct job_history *history;
    bool is_open;          /* a job is */
    unsigned long changes; /* that it has seen: what was made of it before another one is old */
    struct bench_manner manner;
    const char *recent, *recent_name; /* the ticket that was open last, and what it is called; NULL: none */
    const char *example_pattern, *example_body, *own_table;
    bool (*claim)(void *of, const char *path, struct err_list *errs);
    void *claims_of;
    int width, height;
    const struct form_type *type;
    int page, page_before_help, page_before_table;
    bool cautions; /* their page is shown, before the one that is open */
    struct bench_lamp lamp;
    struct form_hand hand;
    struct bench_page made;
    struct base_pool *pool;
    void (*wake)(void *user);
    void *wake_user;
    struct {
        struct app_arrange *arrange; /* NULL: not begun */
        struct arena *a;             /* owns its copy of the job */
        const char *why;             /* why there is none, a sentence; or NULL */
        unsigned long of;            /* the changes after which it has the job as it is */
    } laying;
    struct {
        struct arena *a;
        const struct job_lacking *items;
        size_t count;
        unsigned long of; /* the changes after which they are what the job lacks */
    } lacks;
    struct bench_nest *nest;      /* of the page of pattern and size */
    struct app_progress progress; /* what is cut; no lines: nothing is known */
    struct arena *progress_in;
    size_t piece;      /* the line of the cutting list on the page of cutting */
    size_t alteration; /* on the page of alterations */
    size_t alter_by;   /* what is to be altered there, of all that can be */
    size_t level;      /* of a blend, that its stepper is for */
    size_t material;   /* on the page of cloth, among those of the view */
    int to_place;      /* that material, on the page of placing; BENCH_FIRST_OPEN: the first that is still to be cut */
    struct bench_turns *turns;
    struct {
        const char *folder; /* whole path */
        size_t at;          /* the row that is chosen */
        int from;           /* the page that a file is chosen for */
    } files;
    enum bench_way at_table;    /* BENCH_STAY: she is here */
    struct bench_glance glance; /* what the table shows; no height: nothing yet */
    struct arena *glance_in;
    bool laid_at_table; /* the last step is a layout from there */
    struct {
        struct arena *a;
        const char *folder, *open_here; /* NULL: there is none */
        struct bench_ticket *items;     /* as they were when the page was opened */
        size_t count, at;
    } tickets;
    struct {
        struct arena *in;         /* owns the texts */
        const char *const *texts; /* "action = key" */
        size_t count, at;         /* the row that is chosen */
        bool waits;               /* the next key is to be given to it */
    } given;
    const char *told;             /* what the last change had to say, or NULL */
    const char *trouble;          /* why nothing is kept, or NULL; in `a` */
    struct bench_effects effects; /* of the event that is being taken */
};

/* A stage, or another page of the bench. */
struct bench_stage {
    void (*says)(const struct bench *b, struct arena *a,
                 struct bench_line *line); /* on the ticket; NULL: nothing yet */
    void (*open)(struct bench *b); /* the page is opened, or the job changed under it; NULL: nothing is to be done */
    void (*fill)(struct bench_page *page);                             /* title, sentence and form */
    void (*draw)(struct bench_page *page);                             /* what is seen beside the form, or NULL */
    void (*answer)(struct bench *b, const struct form_answer *answer); /* what she did on the page */
    bool (*press)(struct bench *b, struct input_event e);              /* a key that is the page's own; NULL: none is */
    bool (*next)(struct bench *b); /* the tag was pressed: whether the next page opens; NULL: it does */
};

extern const struct bench_stage bench_measurements, bench_pattern, bench_cloth, bench_layout, bench_set_up,
    bench_placing, bench_cutting, bench_finished, bench_alter, bench_begin, bench_files, bench_tickets, bench_help,
    bench_settings, bench_own_keys, bench_cautions;

/* The job that is open; not NULL on a stage's page. */
static inline const struct job *bench_now(const struct bench *b)
{
    return bench_job(b);
}

/* What it lacks yet, as the ticket is written: all of it is drafted for that, once after each change. */
static inline size_t bench_lacks(const struct bench *b, const struct job_lacking **lacks)
{
    *lacks = b->lacks.items;
    return b->lacks.count;
}

/* Takes on a changed job, which `done` names for undoing ("Waist 78 cm"), and tells what was said of it: `errs` is
 * destroyed. The same job changes nothing. */
void bench_take(struct bench *b, const struct job *job, const char *done, struct err_list *errs);

/* A step back or forward, where that may be now; false, told, where it may not. `back` takes it back. */
bool bench_step(struct bench *b, bool (*step)(struct job_history *h), bool (*back)(struct job_history *h));

/* The same where it is more of what was done last: no step of its own. */
void bench_replace(struct bench *b, const struct job *job);

/* After each change of which job is open, or of what it is. */
void bench_changed(struct bench *b);

/* A copy of the job with all that it points at, in `a`. */
const struct job *bench_copy(struct arena *a, const struct job *job);

/* Where new jobs are to be made (job/change.h): lives as long as the history does. */
struct arena *bench_room(struct bench *b);

/* Says a sentence on the slip until the next event. Copied. */
void bench_say(struct bench *b, const char *sentence);

/* Opens a page; the focus is on its first item. */
void bench_go(struct bench *b, int page);

/* Whether it is help or settings, from which she goes back to where she was. */
bool bench_is_aside(int page);

/* A blank job, worked as she likes to. */
const struct job *bench_blank(struct bench *b);

/* Opens a job in place of the one before; false, told, while that one is worked on at the table. */
bool bench_open(struct bench *b, const struct job *job);

/* Whether the table works on the job, so that its lines stay as they are. */
bool bench_is_held(const struct bench *b);

/* Opens a file by what it is: a pattern or a body for the job, or a job. */
void bench_open_file(struct bench *b, const char *path);

/* Reads the folder of tickets again; and whether it holds any file, which is known sooner. */
void bench_read_tickets(struct bench *b);
bool bench_has_tickets(const struct bench *b);

/* The keys that she gave, copied. */
void bench_set_given_keys(struct bench *b, const char *const *texts, size_t count);

/* The folder that the page of files shows. */
void bench_look_into(struct bench *b, const char *folder);

/* What the job is called: as she named it, else by its pattern. In `a`. */
const char *bench_job_name(struct arena *a, const struct job *job);

/* "Main fabric", "Interfacing", "Lining". */
const char *bench_material(enum pattern_cloth material);

/* What a job is cut from, the main fabric always; and the page of cloth shows that one, where the job is cut from it.
 */
size_t bench_materials(const struct job *job, enum pattern_cloth out[JOB_MATERIALS]);
void bench_show_material(struct bench *b, enum pattern_cloth material);

/* The cloth of a file for the material that the cloth's page shows; while another page is shown, a fusible for the
 * interfacing and any other for the main fabric. */
const struct job *bench_with_cloth_of(struct bench *b, const char *path, struct err_list *errs);

/* The usual cautions in a box, without their heading, and how high they are; y is the first baseline. Then, in two
 * columns, those that hold where nothing is cut, too. */
void bench_draw_cautions(struct form_picture *p, struct bench_box box, enum form_style style);
double bench_cautions_height(const struct form_picture *p, double width, enum form_style style);
void bench_draw_cautions_ever(struct form_picture *p, struct bench_box box);

/* Rows of a form one below the other. */
struct bench_rows {
    double label_x, box_x, width, y, step, note_room;
};

struct bench_rows bench_rows(const struct form_picture *p, double label_x, double box_x, double width,
                             double note_room);

/* A choice of tiles one below the other: its words, a rule below. */
void bench_draw_row(struct form_picture *p, const struct form_item *item, struct bench_box box, size_t choice,
                    bool bold);

/* The next row's box: a field's, a list's or a stepper's. */
struct bench_box bench_row(struct bench_rows *rows);

/* A tag at the foot of the page's content, from x on; returns where the next one begins. */
double bench_add_tag(struct bench_page *page, double x, int id, const char *label);

#endif
