#include "sheet_reader/svg_walk.h"

#include "base/buffer.h"
#include "sheet_reader/svg_number.h"

#include <libxml/tree.h>
#include <string.h>

/* A run that is being put together: letters from one place to where the next place is given. How wide letters are is
 * not known here, so that what follows without a place of its own belongs to the same run. */
struct letters {
    struct svg_walk *w;
    struct base_buffer text;
    struct svg_place at; /* of the run's first letter */
    double x, y;
    bool any;
};

static void flush(struct letters *l)
{
    struct svg_walk *w = l->w;
    struct collect_style style = svg_style_at(w, &l->at);
    if (l->text.count && l->text.data[l->text.count - 1] == ' ')
        l->text.data[--l->text.count] = 0;
    bool shown = style.flags & (SHEET_STROKED | SHEET_FILLED);
    if (l->text.count && shown && l->at.look.visible && l->at.look.opacity > 0) {
        vec2 start = svg_matrix_apply(&l->at.to_page, l->x, l->y);
        vec2 ahead = svg_matrix_apply(&l->at.to_page, l->x + 1, l->y);
        struct sheet_run run = { start.x, start.y, ahead.x - start.x, ahead.y - start.y,
                                 l->at.look.font_size * svg_matrix_scale(&l->at.to_page) };
        svg_begin(w, &l->at);
        collect_begin_run(w->c, l->at.layer, &style, l->text.data, l->text.count, &run);
        collect_end(w->c);
    } else if (l->text.count) {
        w->hidden++;
    }
    l->text = (struct base_buffer){ .a = w->a };
    l->any = false;
}

static void add_letters(struct letters *l, const char *text, const struct svg_place *at)
{
    for (; *text; text++) {
        bool space = strchr(" \t\r\n", *text);
        if (space && (!l->text.count || l->text.data[l->text.count - 1] == ' '))
            continue;
        if (!l->any)
            l->at = *at;
        l->any = true;
        base_buffer_print(&l->text, "%c", space ? ' ' : *text);
    }
}

/* The first of a list of lengths: where the first letter stands. */
static bool first_of(struct svg_walk *w, const xmlNode *node, const char *name, const struct svg_place *at,
                     double whole, double *out)
{
    const char *text = svg_attribute(w->a, node, name);
    struct svg_scan s = { text };
    if (!text)
        return false;
    svg_skip_space(&s);
    return svg_scan_length(&s, (struct svg_measure){ at->look.font_size, whole }, out);
}

/* A place of its own begins a run; so does a shift up or down, as lines of text have. */
static void enter_place(struct letters *l, const xmlNode *node, const struct svg_place *at)
{
    double x = l->x, y = l->y, dx = 0, dy = 0;
    bool moved = first_of(l->w, node, "x", at, at->width, &x);
    moved |= first_of(l->w, node, "y", at, at->height, &y);
    first_of(l->w, node, "dx", at, at->width, &dx);
    moved |= first_of(l->w, node, "dy", at, at->height, &dy) && dy != 0;
    if (!moved)
        return;
    flush(l);
    l->x = x + dx;
    l->y = y + dy;
}

static void add_node(struct letters *l, const xmlNode *node, const struct svg_place *parent)
{
    static const char *const within[] = { "tspan", "a", "textPath", "tref" };
    struct svg_place at = *parent;
    if (node->type == XML_TEXT_NODE || node->type == XML_CDATA_SECTION_NODE) {
        add_letters(l, (const char *)node->content, parent);
        return;
    }
    bool known = false;
    for (size_t i = 0; i < sizeof within / sizeof within[0]; i++)
        known = known || svg_node_is(node, within[i]);
    if (!known)
        return;
    at.look = svg_look_of(l->w->a, &l->w->rules, node, &parent->look, at.width);
    if (!at.look.displayed)
        return;
    svg_clip_enter(l->w, &at);
    enter_place(l, node, &at);
    for (const xmlNode *child = node->children; child; child = child->next)
        add_node(l, child, &at);
}

void svg_draw_text(struct svg_walk *w, const xmlNode *node, const struct svg_place *at)
{
    struct letters l = { .w = w, .text = { .a = w->a }, .at = *at };
    enter_place(&l, node, at);
    for (const xmlNode *child = node->children; child; child = child->next)
        add_node(&l, child, at);
    flush(&l);
}
