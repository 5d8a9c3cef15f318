/* sheet_truth FILE [PASSWORD]: what the test squares of a PDF or SVG say, as JSON, read in this process without the
 * jail: for the checks in truth_check.py. Exits 0 when the file was read or refused in order, 1 when it was not. */
#include "drawing/drawn_file.h"
#include "drawing/squares.h"

#include <stdio.h>

static void print_squares(const struct drawing_square *squares, size_t count)
{
    printf("\"squares\":[");
    for (size_t i = 0; i < count; i++) {
        const struct drawing_square *s = &squares[i];
        printf("%s{\"page\":%d,\"corner\":[%.9g,%.9g],\"width\":%.9g,\"height\":%.9g,\"written\":%.9g,"
               "\"likely\":[%.9g,%.9g]}",
               i ? ",\n" : "", s->page, s->corner.x, s->corner.y, s->width_mm, s->height_mm, s->written_mm,
               s->likely_mm[0], s->likely_mm[1]);
    }
    printf("],\n");
}

static void print_truth(struct arena *a, const struct drawing *d)
{
    static const char *const kinds[] = { [DRAWING_NO_SQUARE] = "no square",
                                         [DRAWING_ASK_SIZE] = "ask size",
                                         [DRAWING_TRUE] = "true",
                                         [DRAWING_OFF] = "off",
                                         [DRAWING_DISAGREE] = "disagree" };
    const struct drawing_square *squares;
    size_t count = drawing_find_squares(a, d, &squares);
    struct drawing_truth truth = drawing_judge(squares, count);
    print_squares(squares, count);
    printf("\"kind\":\"%s\",\"side\":%.9g,\"saved\":[%.12g,%.12g],", kinds[truth.kind], truth.side_mm,
           truth.saved.across, truth.saved.up);
}

int main(int argc, char **argv)
{
    struct arena *a = base_arena_create();
    struct drawing d;
    int exit = SHEET_EXIT_DONE;
    bool read = argc > 1 && drawn_file(a, argv[1], argc > 2 ? argv[2] : NULL, &d, &exit);
    printf("{");
    if (read)
        print_truth(a, &d);
    printf("\"exit\":%d}\n", exit);
    base_arena_destroy(a);
    return read || exit != SHEET_EXIT_DONE ? 0 : 1;
}
