/* What a job keeps beside the choices that pieces are drafted and laid by: how the person has come to them, and what
 * she has written on the ticket. Nothing here moves a line. */
#ifndef JOB_TICKET_H
#define JOB_TICKET_H

#include "base/err_list.h"
#include "cloth/cloth.h"
#include "pattern/pattern.h"
#include "json/tree.h"
#include "json/write.h"

#include <stdbool.h>

enum { JOB_MATERIALS = PATTERN_LINING + 1 };

/* How the pieces are cut. */
enum job_way {
    JOB_CUT_ON_LIGHT, /* along the light */
    JOB_CHALK_ALL     /* all is chalked first and cut with the light off */
};

/* Which line of the ticket was open last. */
enum job_page {
    JOB_NO_PAGE,
    JOB_PAGE_MEASUREMENTS,
    JOB_PAGE_PATTERN,
    JOB_PAGE_CLOTH,
    JOB_PAGE_LAYOUT,
    JOB_PAGE_TABLE,
    JOB_PAGE_PLACING,
    JOB_PAGE_CUT,
    JOB_PAGE_DONE,
    JOB_PAGES
};

/* Words of hers, each of another thing. */
struct job_word {
    const char *of; /* which thing: a field of a form, a piece's name in the pattern */
    const char *text;
};

struct job_words {
    const struct job_word *items;
    size_t count;
};

struct job_ticket {
    const char *name;               /* of the job; NULL: made of the person's and the pattern's */
    bool size_confirmed;            /* she has agreed to the size */
    bool size_by_hand, cup_by_hand; /* she chose it; false: it follows her measurements */
    bool blend_by_body;             /* the levels of a blend follow her measurements */
    enum job_way way;
    enum job_page page;
    bool ready[JOB_MATERIALS][CLOTH_STEPS]; /* what of making a cloth ready is done */
    struct job_words unread; /* words in a field of a form that could not be read yet, as they were typed */
    struct job_words notes;  /* what she wrote of a piece */
};

/* The words of one thing, or NULL. */
const char *job_words_of(struct job_words words, const char *of);

/* The words with those in place of what there was of that thing; NULL: without. Copies, in `a`. */
struct job_words job_words_with(struct arena *a, struct job_words words, const char *of, const char *text);

/* From and into a job file: the member “ticket”; NULL: an empty one. Not for other folders. */
void job_ticket_from(struct arena *a, const struct json_node *object, struct job_ticket *out, struct err_list *errs);
void job_ticket_write(struct json_out *top, const struct job_ticket *ticket);

#endif
