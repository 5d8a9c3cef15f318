/* A drawing read in this process, without the jail, and what came of it as text in its own units. */
#ifndef TESTS_SHEET_READER_READ_SVG_H
#define TESTS_SHEET_READER_READ_SVG_H

#include "base/buffer.h"
#include "sheet/drawn.h"
#include "sheet/sheet.h"
#include "sheet_reader/svg.h"
#include "support/room.h"

/* 1 unit is 1 mm, the page 1000 mm high: y on the page is 1000 less y in the drawing. */
#define MM_SVG "<svg xmlns='http://www.w3.org/2000/svg' width='1000mm' height='1000mm' viewBox='0 0 1000 1000'>"

struct read_svg {
    struct sheet s;
    void *bytes; /* freed by read_svg_close */
    enum sheet_exit exit;
};

static inline struct read_svg read_svg(const char *text)
{
    struct read_svg r = { 0 };
    struct collect *c = collect_create(-1);
    size_t count = 0;
    const char *flaw = "it was not written";
    r.exit = svg_read(c, text, strlen(text));
    if (r.exit == SHEET_EXIT_DONE) {
        r.bytes = drawn_bytes(c, &count);
        if (!r.bytes || !sheet_validate(r.bytes, count, &r.s, &flaw))
            fail_msg("%s: %s", text, flaw);
    }
    collect_destroy(c);
    return r;
}

static inline void read_svg_close(struct read_svg *r)
{
    free(r->bytes);
}

/* What is drawn in an item: "M x y L x y C x y x y x y Z", y down, to 4 digits behind the point where they are needed.
 */
static inline const char *drawn_text(struct arena *a, const struct sheet *s, const struct sheet_item *item)
{
    struct base_buffer out = { .a = a };
    for (uint32_t i = 0; i < item->part_count; i++) {
        const struct sheet_part *part = &s->parts[item->first_part + i];
        const struct sheet_point *p = s->points + part->first_point;
        base_buffer_print(&out, "%sM", out.count ? " " : "");
        for (uint32_t k = 0; k <= part->segment_count; k++) {
            uint8_t kind = k ? s->kinds[part->first_kind + k - 1] : (uint8_t)SHEET_LINE;
            if (k)
                base_buffer_print(&out, kind == SHEET_CUBIC ? " C" : " L");
            for (int n = kind == SHEET_CUBIC ? 3 : 1; n > 0; n--, p++)
                base_buffer_print(&out, " %.6g %.6g", round(p->x * 1e4) / 1e4 + 0.0,
                                  round((1000 - p->y) * 1e4) / 1e4 + 0.0);
        }
        if (part->closed)
            base_buffer_print(&out, " Z");
    }
    return base_buffer_text(&out);
}

#endif
