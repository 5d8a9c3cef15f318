/* Where the parsers put what they find: arrays that grow, written out at the end in the form of sheet/form.h. Lengths
 * are mm on the page, origin at its lower left, y up. It keeps its own bounds: once there is too much, a number that is
 * not finite or too far away, or no more memory, everything after is dropped and collect_exit says so, so that a
 * parser need not look at each call. */
#ifndef SHEET_READER_COLLECT_H
#define SHEET_READER_COLLECT_H

#include "sheet/form.h"

#include <stdbool.h>
#include <stddef.h>

struct collect;

/* An empty one, NULL without memory; the caller owns it. Progress (0 to 100) goes to `progress_fd`, -1: nowhere. */
struct collect *collect_create(int progress_fd);
void collect_destroy(struct collect *c);

/* Whether it has failed: the parser should stop. */
bool collect_failed(const struct collect *c);

/* SHEET_EXIT_DONE, or why it failed. */
enum sheet_exit collect_exit(const struct collect *c);

/* Fails it, for a parser with a bound of its own. */
void collect_too_large(struct collect *c);

/* How far the parser is. */
void collect_progress(struct collect *c, unsigned percent);

/* A text, UTF-8; bytes that are not, and zero bytes, become "?". NULL: SHEET_NONE. Returns its index. */
uint32_t collect_text(struct collect *c, const char *utf8, size_t bytes);

/* A layer below `parent` (or SHEET_NONE), which stands before it. Returns its index. */
uint32_t collect_layer(struct collect *c, uint32_t parent, const char *name, unsigned flags);

/* A page; what is put down from now on lies on it, up to the next page. `label` may be NULL. Returns its index. */
uint32_t collect_page(struct collect *c, double width_mm, double height_mm, const char *label);

/* What is seen of all that is put down from now on, up to the next page; its lines come whole. NULL: the page. One that
 * holds the whole page is none; what is out of bounds is brought to them. */
void collect_clip(struct collect *c, const struct sheet_clip *clip);

struct collect_style {
    double width_mm;
    uint32_t rgb;
    unsigned flags; /* SHEET_STROKED … */
    const double *dash_mm;
    size_t dash_count;
};

/* A path item: begin, then move, line, cubic and close as in any drawing, then end. A subpath of one point is dropped
 * unless it was closed (a dot) and so is an item without parts. After close, a line or cubic starts where the subpath
 * that was closed started. */
void collect_begin(struct collect *c, uint32_t layer, const struct collect_style *style);
void collect_move(struct collect *c, double x, double y);
void collect_line(struct collect *c, double x, double y);
void collect_cubic(struct collect *c, double x1, double y1, double x2, double y2, double x, double y);
void collect_close(struct collect *c);
void collect_end(struct collect *c);

/* Text, whose outlines may follow by move, line, cubic and close; then collect_end. Kept without outlines too. The
 * direction need not have length 1; without any length it is (1, 0). */
void collect_begin_run(struct collect *c, uint32_t layer, const struct collect_style *style, const char *utf8,
                       size_t bytes, const struct sheet_run *run);

/* An image of 8 bits of grey; `image->first_byte` is filled in. The pixels are copied: width × height of them. */
void collect_image(struct collect *c, uint32_t layer, const struct sheet_image *image, const uint8_t *grey);

/* The box of all that was put down, as far as its clip shows it; of text where it starts. False, and *box as it was,
 * when there is nothing. */
bool collect_extent(const struct collect *c, struct sheet_clip *box);

/* Something to tell the person; `text` may be NULL. */
void collect_note(struct collect *c, enum sheet_note_code code, const char *text, uint32_t a, uint32_t b);

/* Writes the whole result to an empty file at its start. False when that failed or it had failed before. */
bool collect_write(struct collect *c, int fd);

#endif
