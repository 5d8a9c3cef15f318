/* What the command line says of a size, as text for people and as JSON for scripts. All texts live in `a`. */
#ifndef APP_SIZE_REPORT_H
#define APP_SIZE_REPORT_H

#include "draft/figure.h"
#include "pattern/pattern.h"
#include "sizing/choose.h"
#include "json/write.h"

/* The pattern's girths as its pieces have them, mm: of the chosen size, its rival and the place between the two. NULL:
 * there is no such size, or the pattern has no girths; a single one that cannot be measured is 0. */
struct app_measured {
    const double *chosen_mm, *other_mm, *between_mm;
    bool
        fitted; /* the figure is drafted to the body, blended or altered: finished measurements of a size are not its */
    bool blended; /* its sizes are those of its levels, and no other size is compared with it */
    bool to_body; /* drafted to the body: the size stands in for what she has not measured, and no other is advised */
};

/* The girths of whoever is drafted for; of the same person in the rival sizes of the choice, unless she is drafted to
 * the body. */
struct app_measured app_measure(struct arena *a, const struct pattern *pattern, const struct sizing_choice *choice,
                                const struct draft_figure *figure);

/* The size, the cup group and why, with all lengths in `unit`. Ease is that of the finished measurements, or of the
 * pieces where none is given; of who is fitted it is that of the pieces alone. */
const char *app_size_report(struct arena *a, const struct pattern *pattern, const struct sizing_choice *choice,
                            const struct app_measured *measured, enum units_length unit);
void app_size_json(struct arena *a, struct json_out *to, const struct pattern *pattern,
                   const struct sizing_choice *choice, const struct app_measured *measured);

/* What somebody may measure, as finely as she would: to a sixteenth of an inch, or to the millimetre. */
double app_estimate_mm(double mm, enum units_length unit);

#endif
