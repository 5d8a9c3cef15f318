/* Alterations in words, as a person types them and a job keeps them: "lengthen body by 2 cm". */
#ifndef JOB_ALTERATIONS_H
#define JOB_ALTERATIONS_H

#include "draft/figure.h"
#include "units/length.h"

#include "base/err_list.h"

/* Reads one alteration of a pattern; bare numbers are in `unit`. What it points at lives in `a`. `figure` is
 * whom the pattern is drafted for, and `own_mm` (may be NULL) her own measurement for each of the pattern's figures, 0
 * where she has none: for "lengthen ... to ..." and "fuller bust". False,
 * told at `place`, when it is none or names what the pattern has not.
 *
 *   lengthen LINE by LENGTH      shorten LINE by LENGTH      lengthen LINE to LENGTH
 *   take in SEAM at LEVEL by LENGTH                          let out SEAM at LEVEL by LENGTH
 *   fuller bust by LENGTH        fuller bust                 allow LENGTH at PIECE.EDGE */
bool job_alteration_read(struct arena *a, const struct pattern *pattern, const struct draft_figure *figure,
                         const double *own_mm, const char *text, enum units_length unit, struct err_place place,
                         struct draft_alteration *out, struct err_list *errs);

#endif
