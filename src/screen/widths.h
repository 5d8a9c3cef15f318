/* How wide words are, so that each is measured once: shaping a line takes longer than drawing it. */
#ifndef SCREEN_WIDTHS_H
#define SCREEN_WIDTHS_H

#include "form/type.h"

struct screen_widths;

/* The caller owns it. NULL is allowed to be destroyed. */
struct screen_widths *screen_widths_create(void);
void screen_widths_destroy(struct screen_widths *w);

/* Nothing is known any more, as when letters get another size. */
void screen_widths_forget(struct screen_widths *w);

/* Where the width of that text stands, in px; negative until the caller has put it there. Until the next one is asked
 * for. */
int *screen_widths_of(struct screen_widths *w, enum form_style style, const char *text, size_t bytes);

#endif
