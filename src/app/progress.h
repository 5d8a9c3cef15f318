/* How far a job is cut, by what its app remembers; for whoever shows no table. */
#ifndef APP_PROGRESS_H
#define APP_PROGRESS_H

#include "app/app.h"
#include "app/piece_marks.h"

/* Of one line of the cutting list, in pieces. */
struct app_cut_progress {
    int laid, cut; /* what lies in the job's layouts, and what of it is ticked off */
};

enum { APP_NO_LINE = -1 };

/* Of one material's cloth. */
struct app_cloth_progress {
    enum pattern_cloth material;
    const bool *begun, *done; /* of each item of its layout: cut or chalked, at least in part; all of it cut */
    size_t item_count;
    int cut;                /* of the layout and of what its strips left: so many items are begun */
    bool is_placed, is_cut; /* it lies on the table; nothing of it is left to be cut */
    const char *trouble;    /* why it cannot be cut in this light, a sentence; NULL: it can */
    int turn;               /* its length runs from her left to her right, turned by so many quarters to the left */
};

struct app_progress {
    const struct app_cut_progress *lines; /* one for each line of the cutting list */
    size_t line_count;
    const struct app_cloth_progress *cloths; /* those that the table knows */
    size_t cloth_count;
    bool is_placed;            /* a cloth lies on the table */
    int in_hand;               /* the line that the table shows now; APP_NO_LINE: none of them alone */
    enum app_part part;        /* that is done with it now, those before it are; APP_PARTS: nothing is known of that */
    bool chalks;               /* it is chalked, not cut yet */
    struct table_path outline; /* of the piece that is in hand where a layout is cut; else of no points */
};

/* In `a`. */
struct app_progress app_progress_of(const struct app *app, struct arena *a);

/* Of a material; NULL where nothing of it is cut. */
const struct app_cloth_progress *app_progress_find(const struct app_progress *progress, enum pattern_cloth material);

/* A copy of it all, in `a`. */
struct app_progress app_progress_copy(struct arena *a, const struct app_progress *progress);

/* Whether such a change may be made; false, told, where pieces would be others, or a cloth that is begun. */
bool app_progress_allows(const struct app_progress *progress, const struct job *was, const struct job *job,
                         struct err_list *errs);

#endif
