/* What came with the program, wherever that was put. Not: a person's own files (xdg.h). */
#ifndef BASE_PROGRAM_H
#define BASE_PROGRAM_H

#include "base/arena.h"

/* What `from_there` ("../share/chalklight") means from the folder of the running program, links to it followed. Lives
 * in `a`; NULL where the system does not tell which program runs. */
const char *base_program_path(struct arena *a, const char *from_there);

#endif
