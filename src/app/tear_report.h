/* A tearing plan as text for people, and as JSON for scripts. */
#ifndef APP_TEAR_REPORT_H
#define APP_TEAR_REPORT_H

#include "export/list_words.h"
#include "tearing/rests.h"
#include "json/write.h"

struct app_tearing {
    const struct tearing_plan *plan;
    const struct tearing_choice *choices;
    size_t choice_count;
    const struct tearing_rests *rests; /* that pieces are cut of, or could be; NULL: of none */
    double spared_mm;                  /* by that, of the layout behind the plan: about */
    bool is_short;                     /* without that the length at hand does not do */
    const char *title;    /* the pattern and its view */
    const char *whom;     /* "Size 5, cup C-D", "To the body" */
    const char *job;      /* its file, for the commands that take a choice; NULL: there is none */
    bool off_square_told; /* else nobody has measured it */
    bool is_kept;         /* in the job: the rest is laid behind it */
};

/* The cloth and what is needed of it, what to do in order, a table of the strips and of where each is cut, and what can
 * be done with strips longer than needed. Lives in the words' arena. */
const char *app_tear_report(const struct export_words *w, const struct app_tearing *tearing);

/* Of its drawing: "Pinafore, view D: 59 in of fabric, 45 in wide". */
const char *app_tear_title(const struct export_words *w, const struct app_tearing *tearing);

/* The same with exact lengths in mm. */
void app_tear_json(struct arena *a, struct json_out *to, const struct app_tearing *tearing);

/* A rest and what is cut of it; outlines along the rest from its end, then across it from its near edge. */
void app_tear_rest_json(struct arena *a, struct json_out *list, const struct tearing_rest *rest);

#endif
