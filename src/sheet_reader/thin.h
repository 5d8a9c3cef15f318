/* Ink thinned to lines one dot wide. */
#ifndef SHEET_READER_THIN_H
#define SHEET_READER_THIN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* What a dot is; several at once. */
enum {
    THIN_INK = 1,
    THIN_LINE = 2,  /* lies on the middle of ink that is a line */
    THIN_PATCH = 4, /* belongs to ink that is no line, but a patch with an outline */
    THIN_MARK = 8   /* free for whoever walks over it */
};

/* Rows from the top, with an empty border of one dot all around, so that each dot of the picture has neighbours. */
struct thin_map {
    size_t width, height; /* with the border */
    uint8_t *dots;
    uint32_t *ink; /* where there is ink, and then where the lines are, in order; freed by thin_finish */
    size_t count;
};

/* The ink of width × height grey below the threshold. False without memory, and then nothing is left to free. */
bool thin_start(struct thin_map *m, const uint8_t *grey, size_t width, size_t height, unsigned threshold);
void thin_finish(struct thin_map *m);

/* Thins it, by T. Y. Zhang and C. Y. Suen, A Fast Parallel Algorithm for Thinning Digital Patterns, Communications of
 * the ACM 27 (1984), 236-239, then to one dot at steps too. Ink that is thicker than 2 × rounds, and ink whose middle
 * is shorter than `shortest` dots, is a patch. False without memory. */
bool thin_lines(struct thin_map *m, unsigned rounds, size_t shortest);

/* The eight neighbours of a dot from above, clockwise, as steps in `dots`. */
void thin_neighbours(const struct thin_map *m, ptrdiff_t steps[8]);

/* How many of a dot's neighbours have `what`, and how often that begins on the way around: 1 at an end, 2 on a line,
 * more where lines meet. */
int thin_degree(const struct thin_map *m, size_t at, uint8_t what, int *begins);

#endif
