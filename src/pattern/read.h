/* A pattern file into a struct pattern. Fields and rules: DEVELOPERS.md, "File formats". */
#ifndef PATTERN_READ_H
#define PATTERN_READ_H

#include "pattern/pattern.h"

/* Reads a pattern file; everything lives in `a`. All faults of the file are told at once; NULL when there was any. */
const struct pattern *pattern_read(struct arena *a, const char *path, struct err_list *errs);

/* The same from text in memory, `file` naming it in complaints. */
const struct pattern *pattern_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                                    struct err_list *errs);

#endif
