#include "bench/inside.h"

/* Rows are 44 u high, 40 where the window has no more than the least page; a box is 34. */
static const double box_height = 34, roomy = 44, tight = 40, least_height = 620;

struct bench_rows bench_rows(const struct form_picture *p, double label_x, double box_x, double width, double note_room)
{
    double step = form_page_height(p) < least_height ? tight : roomy;
    return (struct bench_rows){ label_x, box_x, width, bench_content(p).y, step, note_room };
}

struct bench_box bench_row(struct bench_rows *rows)
{
    struct bench_box box = { rows->box_x, rows->y + (rows->step - box_height) / 2, rows->width, box_height };
    rows->y += rows->step;
    return box;
}
