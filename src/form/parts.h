/* Small drawings that pages are made of. */
#ifndef FORM_PARTS_H
#define FORM_PARTS_H

#include "form/picture.h"

/* A tick in a square of that side, its middle at `at`. */
void form_tick_mark(struct form_picture *p, struct bench_pt at, double side, double width, enum form_colour colour);

/* Signs of a stage or a piece, of one size: where she is, done, still to do, not begun. */
void form_here(struct form_picture *p, struct bench_pt at);
void form_done(struct form_picture *p, struct bench_pt at);
void form_to_do(struct form_picture *p, struct bench_pt at);
void form_not_begun(struct form_picture *p, struct bench_pt at);

/* A pin stuck into something from the left, its tip at `at`. */
void form_pin(struct form_picture *p, struct bench_pt at);

/* A red thread knotted at `at`, its ends to the left. */
void form_knot(struct form_picture *p, struct bench_pt at);

/* Arrows down, as of a closed list, and up, the middle at `at`. */
void form_chevron(struct form_picture *p, struct bench_pt at, enum form_colour colour);
void form_chevron_up(struct form_picture *p, struct bench_pt at, enum form_colour colour);

/* A paper tag: its left corners are cut, a hole in it. Filled in ink, or only its outline. */
void form_tag_shape(struct form_picture *p, struct bench_box box, bool filled, enum form_colour hole);

/* Both marked, the key in the context "key" (BASE_TR_IN), and translated where they are drawn. */
struct form_key {
    const char *key, *word;
};

/* How many of the keys have room in one line, from the first on. */
size_t form_keys_fit(const struct form_picture *p, double room, const struct form_key *keys, size_t count);

/* How much of a line they take, with the gap after each. */
double form_keys_width(const struct form_picture *p, const struct form_key *keys, size_t count);

/* Keys and what they do in one line, on that baseline; returns where it ends. Those that do not fit the room are left
 * out. */
double form_keys(struct form_picture *p, struct bench_pt at, double room, const struct form_key *keys, size_t count);

/* A slip of manila that warns: `strong` (or NULL) and a sentence; and how high it has to be for them. */
void form_slip(struct form_picture *p, struct bench_box box, const char *strong, const char *text);
double form_slip_height(const struct form_picture *p, double width, const char *strong, const char *text);

#endif
