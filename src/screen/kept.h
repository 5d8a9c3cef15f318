/* What the letters and shapes of the last picture look like, so that the next one draws anew only what has changed. */
#ifndef SCREEN_KEPT_H
#define SCREEN_KEPT_H

#include "screen/inside.h"

#include <stdint.h>

/* A pixel that a shape covers: where it is in the picture, and by how much. */
struct screen_dab {
    uint32_t at;
    uint32_t share;
};

/* One thing as it was drawn; its key says all that it depends on. */
struct screen_drawn {
    const void *key;
    size_t bytes;
    uint64_t digest; /* of the key */
    SDL_Surface *text;
    const struct screen_dab *dabs;
    size_t dab_count;
};

struct screen_kept;

struct screen_kept *screen_kept_create(void);

/* NULL is allowed. */
void screen_kept_destroy(struct screen_kept *kept);

/* Begins a picture: what is not asked for until the next one is forgotten then. */
void screen_kept_begin(struct screen_kept *kept);

/* What was drawn by that key, in this picture or in the last one; NULL: nothing. Until the next thing is added. */
const struct screen_drawn *screen_kept_find(struct screen_kept *kept, const void *key, size_t bytes);

/* Keeps a thing: key and dabs are copied, the surface is taken over. */
const struct screen_drawn *screen_kept_add(struct screen_kept *kept, const struct screen_drawn *drawn);

#endif
