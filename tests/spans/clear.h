/* Places tried against outlines on cloth by other means than the program's own. */
#ifndef TESTS_SPANS_CLEAR_H
#define TESTS_SPANS_CLEAR_H

#include "spans/spans.h"

/* A mark lies outside of all outlines and what is blocked, and clear, by so much, of the outlines, of the cloth's
 * borders and of the light's: from … to along the cloth. */
void clear_check(const struct spans_cloth *cloth, struct spans_reach light, struct cloth_pt at, double from, double to,
                 double clear_mm);

/* How often an outline winds round a place, summed up angle by angle (atan2). */
int clear_winding(struct cloth_path outline, struct cloth_pt at);

/* How far a place is from an outline, at most so much: from places every 0.1 mm along it. */
double clear_distance(struct cloth_path outline, struct cloth_pt at, double most);

#endif
