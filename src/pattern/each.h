/* Every value that a pattern gives, for questions that are asked of all of them. */
#ifndef PATTERN_EACH_H
#define PATTERN_EACH_H

#include "base/arena.h"
#include "pattern/pattern.h"

struct pattern_given {
    const struct pattern_value *value;
    int piece;               /* that it belongs to, or PATTERN_NONE */
    const char *of, *member; /* such as “point “hip” of piece “front””, “across”; member may be NULL */
    bool is_length;          /* no angle, no share of a way */
    bool is_of_garment;      /* as it is sewn: nothing is drafted by it */
    bool is_of_body;         /* what the sizes are drawn for: a row of the chart, the bust of a cup group */
    struct err_place place;
};

/* Visits every value that is given; `of` lives in `a`. */
void pattern_each_value(struct arena *a, const struct pattern *p,
                        void (*visit)(void *user, const struct pattern_given *value), void *user);

/* Visits every term of every formula, or of those alone that something is drafted by; `a` for what is needed on the
 * way. */
void pattern_each_term(struct arena *a, const struct pattern *p, bool drafted_only,
                       void (*visit)(void *user, const struct pattern_term *term), void *user);

/* Which of the pattern's figures a formula reads, one for each; in `a`. */
const bool *pattern_figures_read(struct arena *a, const struct pattern *p);

/* Whether a formula reads a bust that is another one in each cup group. */
bool pattern_reads_bust(const struct pattern *p);

#endif
