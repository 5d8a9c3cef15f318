/* Alterations in the phrases of her language: what is kept of them is English and calls everything by its name in the
 * file, so that a job says the same in every language. Not what a phrase comes to: job/alterations.h. */
#ifndef JOB_PHRASES_H
#define JOB_PHRASES_H

#include "job/alterations.h"

/* The text without spaces around and with single ones between its words. In `a`. */
const char *job_single_spaced(struct arena *a, const char *text);

/* A phrase in her language or in English as an English one with the file's names; anything else as it is. Spaces and
 * capitals do not matter, and names may be as they are shown or as the file has them. In `a`, never NULL. */
const char *job_phrase_english(struct arena *a, const struct job_altered *of, const char *text);

/* What is kept of words that were typed: the same, but English as it was typed. */
const char *job_phrase_kept(struct arena *a, const struct job_altered *of, const char *text);

/* Kept words as she reads them, names as they are shown; of what is no phrase as it is. In `a`. */
const char *job_phrase_shown(struct arena *a, const struct pattern *pattern, const char *kept);

#endif
