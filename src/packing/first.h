/* The first lay: one item after the other, large ones first, each as near to the strip's start as it goes. */
#ifndef PACKING_FIRST_H
#define PACKING_FIRST_H

#include "packing/seek.h"

/* Lays all items that are free; t->length becomes what that takes. What does not fit into the most length is left out.
 */
void first_lay(struct arena *scratch, struct trial *t, struct seeker *s);

#endif
