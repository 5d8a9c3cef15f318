/* What the command line says of a result, as text for people and as JSON for scripts. All texts live in `a`. */
#ifndef APP_REPORT_H
#define APP_REPORT_H

#include "calibration/solve.h"
#include "pattern/pattern.h"
#include "sizing/choose.h"
#include "json/write.h"

/* The size, the cup group and why, with all lengths in `unit`. */
const char *app_size_report(struct arena *a, const struct pattern *pattern, const struct sizing_choice *choice,
                            enum units_length unit);
void app_size_json(struct arena *a, struct json_out *to, const struct pattern *pattern,
                   const struct sizing_choice *choice);

/* How far each reading lies from the solved table. */
const char *app_calibration_report(struct arena *a, const struct calibration_readings *readings,
                                   const struct calibration_solution *solution);
void app_calibration_json(struct json_out *to, const struct calibration_readings *readings,
                          const struct calibration_solution *solution);

#endif
