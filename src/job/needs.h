/* What a job is made by and what it still lacks, for whoever fills it in. */
#ifndef JOB_NEEDS_H
#define JOB_NEEDS_H

#include "job/job.h"

/* What a measurement is for; the first that holds. */
enum job_use {
    JOB_PICKS_SIZE,
    JOB_PICKS_CUP_GROUP,
    JOB_DRAFTS,   /* a piece that is cut is drafted by it, to her body or because the chart has it not */
    JOB_COMPARED, /* with the chart, at the size; a blend goes by it */
    JOB_USUAL,    /* there is no pattern yet: patterns often ask for it */
    JOB_UNUSED    /* she has it, and the pattern does not ask for it */
};

struct job_measure {
    const char *name;
    enum job_use use;
    const char
        *piece;     /* of JOB_DRAFTS: the label of the first piece of the view that is drafted by it; NULL: none is */
    bool is_wanted; /* still to be taken */
    double mm;      /* 0: not taken */
    struct sizing_question question; /* of a number that it can hardly be; a range of NULL: none */
    bool at_odds;                    /* with another of her measurements */
};

/* All measurements of a job in order: those that the pattern asks for as it lists them (without a pattern the usual
 * ones), then what else she has. In `a`; returns how many. */
size_t job_needed_measurements(struct arena *a, const struct job *job, const struct job_measure **out);

/* The part of the work that lacks something. */
enum job_stage { JOB_STAGE_MEASUREMENTS, JOB_STAGE_PATTERN, JOB_STAGE_CLOTH, JOB_STAGE_LAYOUT, JOB_STAGE_TABLE };

enum job_lack {
    JOB_LACKS_MEASUREMENT,  /* `name`; NULL: any */
    JOB_DOUBTS_MEASUREMENT, /* `name`: hardly right, or at odds with another */
    JOB_LACKS_PATTERN,
    JOB_LACKS_VIEW,
    JOB_LACKS_SIZE,
    JOB_LACKS_CUP_GROUP,
    JOB_LACKS_CONFIRMATION, /* of the size */
    JOB_LACKS_CLOTH,        /* of `material` */
    JOB_LACKS_READY,        /* `count` steps of making that material's cloth ready */
    JOB_LACKS_LAYOUT,       /* on that material's cloth, which something is laid on */
    JOB_LACKS_PLACES,       /* `count` pieces have no place in it */
    JOB_LACKS_TABLE
};

struct job_lacking {
    enum job_stage stage;
    enum job_lack kind;
    const char *name;
    enum pattern_cloth material;
    size_t count;
};

/* All that is lacking, stage by stage; in `a`. Rectangles of a cloth that strips are torn off need no place. Returns
 * how many. */
size_t job_lacks(struct arena *a, const struct job *job, const struct job_lacking **out);

/* Whether anything of that material is cut in the job's view; false without a view. */
bool job_cuts_from(const struct job *job, enum pattern_cloth material);

#endif
