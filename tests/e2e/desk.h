/* A small table under a projector as high as on a shelf: for whatever is looked at in the window and need not be
 * measured over a large one. */
#ifndef TESTS_E2E_DESK_H
#define TESTS_E2E_DESK_H

#include "table/rig.h"

extern const struct vt_setup desk;

#endif
