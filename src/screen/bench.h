/* Draws a bench page (form/picture.h): its shapes as exact coverage, its words by SDL_ttf. Needs no display. */
#ifndef SCREEN_BENCH_H
#define SCREEN_BENCH_H

#include "base/err_list.h"
#include "form/picture.h"
#include "paint/image.h"

struct screen_letters;

/* Opens the fonts; the caller owns it. NULL, with the reason, when there are none. */
struct screen_letters *screen_letters_open(struct err_list *errs);

/* NULL is allowed. */
void screen_letters_close(struct screen_letters *letters);

/* The letters at so many px for one u, for as long as nobody asks for another scale. */
const struct form_type *screen_letters_at(struct screen_letters *letters, double scale);

/* Draws all of it over an image of its size; measured and drawn at the same scale. */
void screen_draw_bench(struct screen_letters *letters, const struct form_picture *p, struct paint_image *image);

#endif
