/* What the command line says of a solved table, as text for people and as JSON for scripts. All texts live in `a`. */
#ifndef APP_CALIBRATION_REPORT_H
#define APP_CALIBRATION_REPORT_H

#include "calibration/solve.h"
#include "json/write.h"

/* How far each reading lies from the solved table. */
const char *app_calibration_report(struct arena *a, const struct calibration_readings *readings,
                                   const struct calibration_solution *solution);
void app_calibration_json(struct json_out *to, const struct calibration_readings *readings,
                          const struct calibration_solution *solution);

#endif
