/* Pictures that stand in the drawing itself, as data: addresses (RFC 2397). Those elsewhere are not looked for. */
#include "sheet_reader/svg_walk.h"

#include "sheet_reader/picture.h"
#include "sheet_reader/picture_size.h"
#include "sheet_reader/scan.h"

#include <libxml/tree.h>
#include <string.h>

/* The value of a character of base64 (RFC 4648, table 1); below 0: none. */
static int six_bits(char c)
{
    static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    const char *at = c ? strchr(letters, c) : NULL;
    return at ? (int)(at - letters) : -1;
}

/* White space within is passed over, and it ends at what is no base64. */
static size_t decode(const char *text, char *out)
{
    uint32_t bits = 0;
    size_t have = 0, count = 0;
    for (; *text; text++) {
        int six = six_bits(*text);
        if (six < 0 && strchr(" \t\r\n", *text))
            continue;
        if (six < 0)
            break;
        bits = (bits << 6 | (uint32_t)six) & 0xffffff;
        have += 6;
        if (have >= 8)
            out[count++] = (char)(bits >> (have -= 8) & 0xff);
    }
    return count;
}

/* The bytes of data:image/png;base64, and of JPEG alike; false for any other address. */
static bool embedded(struct svg_walk *w, const xmlNode *node, struct svg_picture *out)
{
    const char *address = svg_attribute(w->a, node, "href");
    const char *data = address && strncmp(address, "data:image/", 11) == 0 ? strchr(address, ',') : NULL;
    if (!data || data - address < 18 || strncmp(data - 7, ";base64", 7) != 0)
        return false;
    char *bytes = base_arena_alloc(w->a, strlen(data) / 4 * 3 + 3, 1);
    out->count = decode(data + 1, bytes);
    out->bytes = bytes;
    return picture_dots(out->bytes, out->count, &out->width, &out->height);
}

/* Its unit square fitted into the port as preserveAspectRatio says. */
static void place(struct svg_walk *w, const xmlNode *node, struct svg_box port, const struct svg_place *at,
                  struct svg_picture *p)
{
    struct svg_box dots = { 0, 0, p->width, p->height };
    struct svg_matrix whole = { p->width, 0, 0, p->height, 0, 0 };
    struct svg_matrix into = svg_box_fit(dots, port, svg_attribute(w->a, node, "preserveAspectRatio"));
    p->to_page = svg_matrix_then(svg_matrix_then(whole, into), at->to_page);
    p->layer = at->layer;
    p->clipped = at->clipped;
    p->clip = at->clip;
}

static void put_place(struct svg_walk *w, const struct svg_picture *p)
{
    const struct svg_matrix *m = &p->to_page;
    scan_put_place(w->c, p->layer, (const double[6]){ m->a, m->b, m->c, m->d, m->e, m->f });
}

/* A picture has the size it says, a dot a unit, where the drawing does not say one. */
void svg_draw_image(struct svg_walk *w, const xmlNode *node, const struct svg_place *at)
{
    struct svg_picture p = { 0 };
    struct svg_place inner = *at;
    if (!embedded(w, node, &p)) {
        w->left_out[SVG_LEFT_IMAGES]++;
        return;
    }
    if (!at->look.visible || at->look.opacity <= 0) {
        w->hidden++;
        return;
    }
    struct svg_box port = { svg_length_of(w, node, "x", at, at->width, 0),
                            svg_length_of(w, node, "y", at, at->height, 0),
                            svg_length_of(w, node, "width", at, at->width, p.width),
                            svg_length_of(w, node, "height", at, at->height, p.height) };
    if (!(port.width > 0) || !(port.height > 0))
        return;
    svg_clip_enter_port(w, &port, &inner);
    place(w, node, port, &inner, &p);
    if (w->drawn_other || w->held_count == SVG_HELD_MOST) {
        svg_begin(w, &inner);
        put_place(w, &p);
    } else {
        w->held[w->held_count++] = p;
    }
}

void svg_begin(struct svg_walk *w, const struct svg_place *at)
{
    for (size_t i = 0; i < w->held_count; i++) {
        collect_clip(w->c, w->held[i].clipped ? &w->held[i].clip : NULL);
        put_place(w, &w->held[i]);
    }
    w->held_count = 0;
    w->drawn_other = true;
    collect_clip(w->c, at->clipped ? &at->clip : NULL);
}

void svg_images_end(struct svg_walk *w)
{
    uint32_t finest = 0;
    for (size_t i = 0; i < w->held_count; i++) {
        const struct svg_picture *p = &w->held[i];
        const struct svg_matrix *m = &p->to_page;
        uint32_t dpi = 0;
        collect_clip(w->c, p->clipped ? &p->clip : NULL);
        if (picture_put(w->c, p->layer, p->bytes, p->count, (const double[6]){ m->a, m->b, m->c, m->d, m->e, m->f },
                        &dpi) != SHEET_EXIT_DONE)
            collect_note(w->c, SHEET_NOTE_LEFT_OUT, "an image that is too large or damaged", 1, 0);
        finest = dpi > finest ? dpi : finest;
    }
    if (finest)
        collect_note(w->c, SHEET_NOTE_SCAN, NULL, 1, finest);
}
