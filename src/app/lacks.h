/* What a job still lacks, with torn strips planned: of that floor 7 knows no more than which pieces are rectangles. */
#ifndef APP_LACKS_H
#define APP_LACKS_H

#include "job/needs.h"

/* As job_lacks; pieces that are cut of what strips leave need no place in a layout. */
size_t app_lacks(struct arena *a, const struct job *job, const struct job_lacking **out);

#endif
