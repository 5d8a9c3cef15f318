/* Alterations in words, as a person types them and a job keeps them: "lengthen body by 2 cm". */
#ifndef JOB_ALTERATIONS_H
#define JOB_ALTERATIONS_H

#include "draft/figure.h"
#include "units/length.h"

#include "base/err_list.h"

/* Whose pattern is altered. */
struct job_altered {
    const struct pattern *pattern;
    const struct draft_figure *figure; /* whom it is drafted for */
    const bool *is_cut;                /* of each of the pattern's pieces */
    const double *own_mm;   /* her own measurement for each of the pattern's figures, 0 where she has none; or NULL */
    enum units_length unit; /* of bare numbers */
};

/* Reads one alteration; what it points at lives in `a`. Spaces and capitals of its own words do not matter. False, told
 * at `place`, when it is none, or names what is not there or not cut.
 *
 *   lengthen LINE by LENGTH      shorten LINE by LENGTH      lengthen LINE to LENGTH (or: to body)
 *   take in SEAM at LEVEL by LENGTH each side                let out SEAM at LEVEL by LENGTH each side
 *   SEAM seam at LEVEL, take in LENGTH each side             SEAM seam at LEVEL, let out LENGTH each side
 *   fuller bust by LENGTH        fuller bust                 allow LENGTH at PIECE.EDGE
 *   cut RECTANGLE LENGTH wide
 *
 * "each side", "seam" and "cut" may be left out. The width is as it is cut, opened out where it lies on the fold. */
bool job_alteration_read(struct arena *a, const struct job_altered *of, const char *text, struct err_place place,
                         struct draft_alteration *out, struct err_list *errs);

/* The words of an alteration that was read, with bare numbers in the unit of `of`, so that they say the same where bare
 * numbers are in `kept`: "cut skirt 20 wide" becomes "cut skirt 20 in wide". In `a`. */
const char *job_alteration_words(struct arena *a, const struct job_altered *of, const char *text,
                                 const struct draft_alteration *meant, enum units_length kept);

enum { JOB_EXAMPLES = 4 };

struct job;

/* How a job's pattern may be altered, as she would type it, by its own lines and seams: at most so many; returns how
 * many. In `a`. */
size_t job_alteration_examples(struct arena *a, const struct job *job, enum units_length unit,
                               const char *out[JOB_EXAMPLES]);

/* An alteration without its length. */
struct job_alteration_choice {
    const char *words; /* "lengthen skirt": " by " and a length behind it make one */
    const char *shown; /* "lengthen skirt by __", in her language */
};

/* All such of a job's pattern: its lines, its seams at their levels, a fuller bust; in `a`. Returns how many. */
size_t job_alteration_choices(struct arena *a, const struct job *job, const struct job_alteration_choice **out);

#endif
