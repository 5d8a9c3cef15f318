/* Reading a drawn sheet: the reader (chalklight-sheet) is started as a process of its own, watched, and what it gives
 * is validated. This is the only place that starts it; nothing here looks into the file. */
#ifndef SHEET_START_H
#define SHEET_START_H

#include "base/arena.h"
#include "base/err_list.h"
#include "sheet/sheet.h"

enum { SHEET_DEADLINE_MS = 60000 };

struct sheet_how {
    const char *password; /* UTF-8; NULL: none */
    double dpi;           /* dots per inch of a picture (PNG, JPEG), whatever it says itself; 0: what it says */
    int deadline_ms;      /* of the clock on the wall; 0: SHEET_DEADLINE_MS */
    /* Called some twenty times a second while it is read; false: give up. NULL: never. */
    bool (*go_on)(void *with, unsigned percent);
    void *with;
    const char *reader; /* whole path of the program; NULL: CHALKLIGHT_SHEET's if it is set, else the one that came with the program */
};

/* Reads a PDF, an SVG, or a picture as PNG or JPEG. NULL when it cannot, with the reason in `errs`, or when `go_on` said so, without one. It lives in
 * `a`, but what it points into is given back by sheet_close. `how` may be NULL. */
const struct sheet *sheet_read(struct arena *a, const char *path, const struct sheet_how *how, struct err_list *errs);

/* Gives back what a sheet that was read points into. NULL is allowed. */
void sheet_close(const struct sheet *s);

#endif
