/* The usual cautions, before anything else: the page at the first start, which any key goes on from, and the same on
 * other pages. */
#include "app/app.h"
#include "base/words.h"
#include "bench/inside.h"

static const struct form_key keys[] = { { BASE_TR_IN("key", "Ctrl Q"), BASE_TR("leave") } };

static const double apart = 4;

double bench_cautions_height(const struct form_picture *p, double width, enum form_style style)
{
    const char *const *cautions;
    size_t count = app_cautions(&cautions), lines = 0;
    for (size_t i = 1; i < count; i++)
        lines += form_paragraph_lines(p, style, width, base_tr(cautions[i]));
    return (double)lines * form_line_step(style) + (double)(count - 2) * apart;
}

static double draw_one(struct form_picture *p, struct bench_pt at, enum form_style style, double width,
                       const char *caution)
{
    return at.y + apart +
           form_line_step(style) * (double)form_paragraph(p, at, style, FORM_INK, width, base_tr(caution));
}

void bench_draw_cautions(struct form_picture *p, struct bench_box box, enum form_style style)
{
    const char *const *cautions;
    size_t count = app_cautions(&cautions);
    double y = box.y;
    for (size_t i = 1; i < count; i++)
        y = draw_one(p, (struct bench_pt){ box.x, y }, style, box.width, cautions[i]);
}

/* The first half of them left. */
void bench_draw_cautions_ever(struct form_picture *p, struct bench_box box)
{
    static const double between = 24;
    const char *const *cautions;
    double width = (box.width - between) / 2, y = box.y;
    app_cautions(&cautions);
    for (size_t i = 1, left = APP_CAUTIONS_EVER / 2; i < APP_CAUTIONS_EVER; i++) {
        double x = i > left ? box.x + width + between : box.x;
        y = draw_one(p, (struct bench_pt){ x, i == left + 1 ? box.y : y }, FORM_SMALL, width, cautions[i]);
    }
}

static void fill(struct bench_page *page)
{
    const char *const *cautions;
    app_cautions(&cautions);
    page->title = base_tr(cautions[0]);
    page->sentence = base_tr("What the makers of projector, mount, blade and iron say comes first.");
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    page->next = base_tr("Any key: go on");
}

static void draw(struct bench_page *page)
{
    static const double top = 16, right = 40;
    struct bench_box content = bench_content(page->p);
    bench_draw_cautions(page->p,
                        (struct bench_box){ content.x, content.y + top, content.width - right, content.height - top },
                        FORM_NOTE);
}

const struct bench_stage bench_cautions = { .fill = fill, .draw = draw };
