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

/* Words in a field of a form that could not be read yet. */
struct job_unread {
    const char *field; /* the form's own name for it */
    const char *text;  /* as it was typed */
};

/* What she wrote of a piece. */
struct job_note {
    const char *piece; /* its name in the pattern */
    const char *text;
};

struct job_ticket {
    const char *name;               /* of the job; NULL: made of the person's and the pattern's */
    bool size_confirmed;            /* she has agreed to the size */
    bool size_by_hand, cup_by_hand; /* she chose it; false: it follows her measurements */
    bool blend_by_body;             /* the levels of a blend follow her measurements */
    enum job_way way;
    bool ready[JOB_MATERIALS][CLOTH_STEPS]; /* what of making a cloth ready is done */
    const struct job_unread *unread;        /* one a field */
    size_t unread_count;
    const struct job_note *notes; /* one a piece */
    size_t note_count;
};

/* What she wrote of a piece; NULL: nothing. And what stands unread in a field; NULL: nothing. */
const char *job_ticket_note(const struct job_ticket *ticket, const char *piece);
const char *job_ticket_unread(const struct job_ticket *ticket, const char *field);

/* From and into a job file: the member “ticket”; NULL: an empty one. Not for other folders. */
void job_ticket_from(struct arena *a, const struct json_node *object, struct job_ticket *out, struct err_list *errs);
void job_ticket_write(struct json_out *top, const struct job_ticket *ticket);

#endif
