/* A job: the person's choices (which pattern, whose body, which view and size, which table) with copies of the files
 * they were made on. Everything else is derived from it again.
 *
 * A job may be begun and unfinished: without pattern, view, size, cup group or body. What is made from a finished one
 * (drafting, laying, cutting) never gets another: job_read and job_parse refuse it. */
#ifndef JOB_JOB_H
#define JOB_JOB_H

#include "base/file.h"
#include "calibration/table.h"
#include "cloth/cloth.h"
#include "draft/figure.h"
#include "geometry/turn.h"
#include "job/ticket.h"
#include "pattern/pattern.h"
#include "sizing/choose.h"

#include <stdbool.h>

/* Copies of three sources, in which quotes and line ends take two bytes each, fit into a file that can be read again.
 */
enum { JOB_VERSION = 3, JOB_MOST_SOURCE_BYTES = 2 * 1024 * 1024 };

/* A file the job was made from: where it lay, and its text as it was then. */
struct job_source {
    const char *path; /* NULL: not given, or, of a body with a text, typed in here */
    struct base_bytes text;
};

/* Where one of the items of a cloth's layout (lay/lay.h) lies: piece space to cloth space. */
struct job_laid {
    const char *piece; /* its name in the pattern */
    int number;        /* which of that piece's items on that cloth, from 0 */
    bool is_pinned;    /* held in place by the person */
    struct geometry_motion motion;
};

/* Rectangles are torn off a cloth before anything is laid on it: what the tearing plan (tearing/tearing.h) is made by,
 * which is worked out anew from that. */
struct job_torn {
    bool is_kept;         /* false: nothing is torn, and rectangles are laid like other pieces */
    bool along;           /* strips run along the cloth */
    double off_square_mm; /* up to JOB_MOST_OFF_SQUARE_MM */
    double margin_mm;     /* up to JOB_MOST_MARGIN_MM */
    bool rests;           /* what is left of the strips is used for other pieces (tearing/rests.h) */
};

#define JOB_MOST_OFF_SQUARE_MM 1000.0
#define JOB_MOST_MARGIN_MM 100.0

/* What a material is cut from, and what lies on it so far (job/cloth.h). */
struct job_cloth {
    enum pattern_cloth material;
    struct cloth cloth;
    struct job_torn torn;
    const struct job_laid *laid;
    size_t laid_count;
};

struct job {
    struct job_source pattern_source, body_source, table_source;
    const struct pattern *pattern;      /* NULL: not chosen yet; then neither are view, size and cup group */
    const struct sizing_body *body;     /* NULL: none was given; begun, it may have no name or measurement yet */
    struct calibration_surface surface; /* what is cut on, above the table */
    bool has_table;
    struct calibration_table table;
    int view;        /* PATTERN_NONE: not chosen yet, or, where pieces alone are wanted, of no view */
    double position; /* of the size chart; PATTERN_NONE: not known yet */
    int cup_group;   /* PATTERN_NONE: the pattern has none, or it is not known yet */

    /* How it is fitted to her. */
    bool to_body;                 /* drafted to her own figures */
    const double *own_mm;         /* for each of the pattern's figures, 0 where she has none; NULL without a body */
    const double *level_position; /* a blend: one for each row of the chart; NULL: none */
    const struct draft_alteration *alterations;
    const char *const *alteration_texts; /* the same in words */
    size_t alteration_count;
    bool trial; /* a trial garment */

    const struct job_cloth *cloths; /* at most one a material; none: its cloth was not told */
    size_t cloth_count;

    struct job_ticket ticket;
};

/* What the person chooses for a new job; NULL where it is left to the program. */
struct job_choices {
    const char *pattern, *body, *table; /* paths; body and table may be NULL */
    struct calibration_surface surface; /* valid; all zero: the table's own */
    const char *view;                   /* may be NULL when the pattern has one */
    bool all_pieces;                    /* where none is named, those of no view in particular */
    const char *size, *cup_group;       /* NULL: the body decides */
    const char *made_to;                /* "size" or "body"; NULL: as the pattern has it */
    const char *blend;                  /* "body", or levels with their sizes, "waist 4, hip 5 to 6"; NULL: none */
    const char *alter;                  /* alterations in words (job/alterations.h), semicolons between; NULL: none */
    const enum units_length *unit;      /* of bare numbers in alterations; NULL: the job's own */
    bool trial;
};

/* Makes a job; everything lives in `a`. Without a body (NULL) size and cup group have to be named. *choice (may be
 * NULL) says how the size came about, where there is a body. False with the reasons.
 */
bool job_make(struct arena *a, const struct job_choices *choices, struct job *out, struct sizing_choice *choice,
              struct err_list *errs);

/* The view that is chosen of job->pattern; false with a sentence when there is none of that name, or several and none
 * is named. */
bool job_choose_view(const struct job_choices *choices, struct job *job, struct err_list *errs);

/* Size and cup group of job->pattern for job->body, by name or by measurements, then told in *choice. Without a body
 * (NULL) both have to be named, and *choice is left as it is. False with the reasons. */
bool job_choose_size(struct arena *a, const struct job_choices *choices, struct job *job, struct sizing_choice *choice,
                     struct err_list *errs);

/* The job as its file's text, begun or finished; in `a`. */
const char *job_print(struct arena *a, const struct job *job);

/* The same of what pieces are drafted and laid by alone, without the ticket. It is the text that
 * version 2 had, by whose number journals were begun then. In `a`. */
const char *job_print_choices(struct arena *a, const struct job *job);

/* The same without the cloths, the table and what lies on it: what its pieces alone are made by. In `a`. */
const char *job_print_pieces(struct arena *a, const struct job *job);

/* The same with the table, by whose number journals were begun for a while. In `a`. */
const char *job_print_pieces_on_table(struct arena *a, const struct job *job);

/* Reads a job file and the copies in it; an unfinished job is refused with what it lacks. A source that has changed
 * since is a warning: the job goes on with its copy. */
bool job_read(struct arena *a, const char *path, struct job *out, struct err_list *errs);

/* The same of a job that may be unfinished. */
bool job_read_begun(struct arena *a, const char *path, struct job *out, struct err_list *errs);

/* The same from text in memory, without looking at the sources' files. */
bool job_parse(struct arena *a, const char *file, const char *bytes, size_t count, struct job *out,
               struct err_list *errs);
bool job_parse_begun(struct arena *a, const char *file, const char *bytes, size_t count, struct job *out,
                     struct err_list *errs);

/* Whether pieces can be drafted from it: pattern, view, size and, where there are any, cup group are chosen, and what
 * is drafted to a body has measurements. */
bool job_is_finished(const struct job *job);

/* Whether any measurement of hers is there. */
bool job_has_measurements(const struct job *job);

/* Adds alterations in words to a job's, semicolons between; what it points at lives in `a`. False, told at `place`,
 * when one of them is none or names what the pattern has not; the others are added all the same. Bare numbers are in
 * the unit; NULL: in the job's own. A rectangle has one width and an edge one allowance: a second one takes the place
 * of the first. Of all else what alters one place adds up. */
bool job_alter(struct arena *a, struct job *job, const char *texts, const enum units_length *unit,
               struct err_place place, struct err_list *errs);

/* What its lengths are told in, and bare numbers of its alterations: her unit, or the pattern's. */
enum units_length job_unit(const struct job *job);

/* Who wears a finished job, or without a name the size: "for Mara", "size 12"; in `a`. */
const char *job_whom_text(struct arena *a, const struct job *job);

/* Whom a finished job's pieces are drafted for. */
struct draft_figure job_figure(const struct job *job);

#endif
