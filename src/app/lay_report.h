/* What the command line says of a layout, as text for people and as JSON for scripts. All texts live in `a`. */
#ifndef APP_LAY_REPORT_H
#define APP_LAY_REPORT_H

#include "app/lay_widths.h"
#include "lay/lay.h"
#include "tearing/tearing.h"
#include "units/length.h"
#include "json/write.h"

/* What became of the layout that a job had. */
enum app_lay_before {
    APP_LAY_NONE_BEFORE, /* it had none */
    APP_LAY_STAYS,       /* what was found now is no better */
    APP_LAY_WAS_LONGER,
    APP_LAY_LACKED,     /* more pieces had no place */
    APP_LAY_WAS_WRONG,  /* pieces lay over each other, or where they may not */
    APP_LAY_OTHER_LIST, /* it was for other pieces */
    APP_LAY_OTHER_CLOTH /* or another spread */
};

/* A layout with what was worked out about it. */
struct app_layout {
    const struct lay *lay;
    struct lay_figures figures;
    const struct tearing_plan *torn; /* before it; NULL: nothing is */
    bool is_usual;                   /* nobody told of a cloth: a usual one is supposed */
    enum app_lay_before before;
    bool is_tried;     /* the job keeps what it has, whatever was found */
    bool fits_on_more; /* what is left out has a place on more of that cloth, which takes: */
    struct lay_figures on_more;
    size_t rounds; /* of searching */
    const struct app_lay_width *widths;
    size_t width_count;
};

/* "1.63 m, cloth used 77 %". */
const char *app_lay_short(struct arena *a, const struct lay *lay, enum units_length unit);

/* The cloth, what is needed and to be bought, what does not fit, a table of where each piece lies, of other widths, and
 * how the cloth is made ready. */
const char *app_lay_report(struct arena *a, const struct app_layout *layout, enum units_length unit);

/* The same with exact lengths in mm, and the outlines of cloth and pieces as they lie, so that others can check. */
void app_lay_json(struct arena *a, struct json_out *to, const struct app_layout *layout, enum units_length unit);

/* Where all that is cut is torn, or cut of what strips leave, and nothing is laid. */
void app_lay_torn_json(struct arena *a, struct json_out *to, const struct tearing_plan *torn, bool is_usual);

/* A list of points, [along, across] each. */
void app_json_path(struct json_out *to, const char *key, struct geometry_path path);

/* "Fabric, 150 cm wide, folded lengthwise: needs 1.63 m, cloth used 77 %". */
const char *app_lay_title(struct arena *a, const struct app_layout *layout, enum units_length unit);

#endif
