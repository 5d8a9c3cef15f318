/* Reads shapes from standard input, one a line (kind, then x y x y … in mm), and prints the rows that are read:
 * doubtful or not, start, direction, height of capitals, words. */
#include "lettering/lettering.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { LINE_MOST = 1 << 20 };

static void read_shape(struct arena *a, char *line, struct lettering_shape *out)
{
    char *at = line, *end;
    size_t cap = 0;
    *out = (struct lettering_shape){ .path = { NULL, 0, true }, .kind = strtoul(at, &at, 10) };
    for (;;) {
        double x = strtod(at, &end);
        if (end == at)
            break;
        double y = strtod(end, &at);
        out->path.points = base_arena_grow(a, out->path.points, &cap, out->path.count + 1, sizeof(vec2));
        out->path.points[out->path.count++] = (vec2){ x, y };
    }
}

int main(void)
{
    struct arena *a = base_arena_create();
    struct lettering_shape *shapes = NULL;
    const struct lettering_row *rows;
    size_t count = 0, cap = 0;
    char *line = base_arena_alloc(a, LINE_MOST, 1);
    while (fgets(line, LINE_MOST, stdin)) {
        shapes = base_arena_grow(a, shapes, &cap, count + 1, sizeof *shapes);
        read_shape(a, line, &shapes[count++]);
    }
    clock_t start = clock();
    size_t row_count = lettering_read(a, shapes, count, NULL, &rows);
    fprintf(stderr, "%.0f ms\n", 1000.0 * (double)(clock() - start) / CLOCKS_PER_SEC);
    for (size_t i = 0; i < row_count; i++)
        printf("%d %.3f %.3f %.5f %.5f %.3f %s\n", rows[i].doubtful, rows[i].at.x, rows[i].at.y, rows[i].along.x,
               rows[i].along.y, rows[i].cap_mm, rows[i].words);
    base_arena_destroy(a);
    return 0;
}
