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

void bench_draw_row(struct form_picture *p, const struct form_item *item, struct bench_box box, size_t choice,
                    bool bold)
{
    enum form_style style = bold ? FORM_STRONG : FORM_LABEL;
    double room = box.width - 28;
    form_text(p, (struct bench_pt){ box.x + 16, box.y + box.height / 2 + form_drop(style) }, FORM_LEFT, style, FORM_INK,
              room, form_cut_text(p, style, room, item->choices[choice]));
    form_line(p, (struct bench_pt){ box.x, box.y + box.height },
              (struct bench_pt){ box.x + box.width, box.y + box.height }, 1, FORM_HAIR);
}
