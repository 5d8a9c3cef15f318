/* A person's measurements as she wrote them down. */
#ifndef SIZING_BODY_H
#define SIZING_BODY_H

#include "base/err_list.h"
#include "units/length.h"

#include <stddef.h>

enum { SIZING_BODY_VERSION = 1 };

struct sizing_measurement {
    const char *name; /* as the charts call it: "bust", "waist" */
    double mm;
    struct err_place place;
};

struct sizing_body {
    const char *name; /* whose they are; "" of one that is begun and not told yet */
    enum units_length unit;
    const struct sizing_measurement *items;
    size_t count;
};

/* Reads a body file; everything lives in `a`. All faults are told at once; NULL when there was any. */
const struct sizing_body *sizing_body_read(struct arena *a, const char *path, struct err_list *errs);

/* The same from text in memory, `file` naming it. */
const struct sizing_body *sizing_body_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                                            struct err_list *errs);

/* The same of one that is still being taken: it may have no name ("") and no measurement yet. */
const struct sizing_body *sizing_body_parse_begun(struct arena *a, const char *file, const char *bytes, size_t count,
                                                  struct err_list *errs);

/* A body, begun or not, as its file's text, in `a`; lengths in its unit, so that they read back as they were. */
const char *sizing_body_print(struct arena *a, const struct sizing_body *body);

/* The measurement of that name, or NULL. */
const struct sizing_measurement *sizing_body_find(const struct sizing_body *body, const char *name);

#endif
