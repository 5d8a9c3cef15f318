/* Clips and masks: the box of what is seen. Lines are not cut. */
#include "sheet_reader/svg_walk.h"

#include <libxml/tree.h>
#include <string.h>

static void narrow(struct svg_place *at, struct sheet_clip by)
{
    at->clip = at->clipped ? clip_both(&at->clip, &by) : by;
    at->clipped = true;
}

/* The element that url(#id), with or without quotes, means; NULL for anything else. */
static const xmlNode *target_of(struct svg_walk *w, const char *value)
{
    static const char before[] = " \t\r\n'\"", after[] = " \t\r\n'\")";
    if (strncmp(value, "url(", 4) != 0)
        return NULL;
    value += 4 + strspn(value + 4, before);
    if (*value != '#')
        return NULL;
    char *id = base_arena_copy_text(w->a, value + 1);
    id[strcspn(id, after)] = 0;
    return svg_ids_find(&w->ids, id);
}

/* The outlines within a clipPath, by its own transform; what has no outline here hides nobody knows how much. */
static struct sheet_clip box_within(struct svg_walk *w, const xmlNode *node, const struct svg_place *at)
{
    struct clip_shape shape = clip_shape_begin();
    for (const xmlNode *child = node->children; child; child = child->next)
        if (!svg_outline(w, child, at, &shape))
            return clip_unknown();
    return clip_shape_box(&shape);
}

static bool is_by_box(struct svg_walk *w, const xmlNode *node)
{
    const char *units = svg_attribute(w->a, node, "clipPathUnits");
    return units && strcmp(units, "objectBoundingBox") == 0;
}

/* A clip may be clipped itself. */
static struct sheet_clip clip_of(struct svg_walk *w, const struct svg_place *at, const char *value)
{
    const xmlNode *node = target_of(w, value);
    struct svg_place inner = *at;
    if (!node || !svg_node_is(node, "clipPath") || is_by_box(w, node) || !svg_may_draw(w, at)) {
        w->left_out[SVG_LEFT_CLIPS]++;
        return clip_unknown();
    }
    inner.depth++;
    inner.look = svg_look_of(w->a, &w->rules, node, &at->look, at->width);
    svg_enter_transform(w, node, &inner);
    struct sheet_clip box = box_within(w, node, &inner);
    if (!inner.look.clip)
        return box;
    struct sheet_clip own = clip_of(w, &inner, inner.look.clip);
    return clip_both(&box, &own);
}

void svg_clip_enter(struct svg_walk *w, struct svg_place *at)
{
    if (at->look.mask) {
        w->left_out[SVG_LEFT_MASKS]++;
        narrow(at, clip_unknown());
    }
    if (at->look.clip)
        narrow(at, clip_of(w, at, at->look.clip));
}

void svg_clip_enter_port(struct svg_walk *w, const struct svg_box *port, struct svg_place *at)
{
    struct clip_shape shape = clip_shape_begin();
    struct svg_pen pen = { .c = w->c, .clip = &shape, .to_page = at->to_page };
    if (at->look.overflows)
        return;
    svg_rect_draw(&pen, *port, 0, 0);
    narrow(at, clip_shape_box(&shape));
}
