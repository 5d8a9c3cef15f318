/* Angles as people write them: degrees. */
#ifndef UNITS_ANGLE_H
#define UNITS_ANGLE_H

#include <stdbool.h>

/* Reads 90, -12.5, 12,5°, 45 deg; false when it is no angle or beyond 36000 either way, and *out_deg is then
 * untouched. */
bool units_parse_degrees(const char *text, double *out_deg);

#endif
