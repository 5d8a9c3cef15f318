/* How far a job is cut, by what its app remembers; for whoever shows no table. */
#ifndef APP_PROGRESS_H
#define APP_PROGRESS_H

#include "app/app.h"

/* Of one line of the cutting list, in pieces. */
struct app_cut_progress {
    int laid, cut; /* what lies in the job's layouts, and what of it is ticked off */
};

enum { APP_NO_LINE = -1 };

struct app_progress {
    const struct app_cut_progress *lines; /* one for each line of the cutting list */
    size_t line_count;
    bool is_placed; /* a cloth lies on the table */
    int in_hand;    /* the line that the table shows now; APP_NO_LINE: none of them alone */
    struct table_path outline; /* of the piece that is in hand where a layout is cut; else of no points */
};

/* In `a`. */
struct app_progress app_progress_of(const struct app *app, struct arena *a);

#endif
