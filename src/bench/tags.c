/* Tags at the foot of a page: what else can be done there. */
#include "bench/inside.h"

double bench_add_tag(struct bench_page *page, double x, int id, const char *label)
{
    struct bench_box content = bench_content(page->p);
    double y = content.y + content.height - BENCH_TAG_HEIGHT, width = bench_tag_width(page->p, label);
    form_add(&page->form, (struct form_item){
                              .id = id, .kind = FORM_TAG, .box = { x, y, width, BENCH_TAG_HEIGHT }, .label = label });
    return x + width + BENCH_TAG_GAP;
}
