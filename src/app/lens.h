/* What follows from the place of the lens, in plain sentences and as JSON. All texts live in `a`. */
#ifndef APP_LENS_H
#define APP_LENS_H

#include "calibration/table.h"
#include "json/write.h"

/* What the lens of a table means for cloth, rulers, shadows and where to stand; lengths on the table in `unit`. The
 * table's lens is known. */
const char *app_lens_report(struct arena *a, const struct calibration_table *table, enum units_length unit);
void app_lens_json(struct json_out *to, const struct calibration_table *table);

/* "6 mm above the table"; "where the table was set up" for no height. */
const char *app_surface_text(struct arena *a, const struct calibration_surface *surface);

/* The warning of a surface whose height nothing makes up for, as the table has no lens: by how much light may be off
 * at the edges. NULL when the lens is known, or when that is at most APP_LEAST_HEIGHT_ERROR_MM. */
#define APP_LEAST_HEIGHT_ERROR_MM 0.3
const char *app_surface_warning(struct arena *a, const struct calibration_table *table,
                                const struct calibration_surface *surface);

/* That warning with what helps, or that light is drawn true on what lies higher; NULL where neither is to be told.
 * `table` may be NULL. */
const char *app_surface_told(struct arena *a, const struct calibration_table *table,
                             const struct calibration_surface *surface);

#endif
