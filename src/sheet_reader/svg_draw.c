#include "sheet_reader/svg_walk.h"

#include "sheet_reader/svg_number.h"

#include <libxml/tree.h>
#include <string.h>

/* Elements at most, those drawn again by use included: a few lines of uses within uses can ask for any number. */
enum { DRAWN_MOST = 1000000, DEPTH_MOST = 400 };

double svg_length_of(struct svg_walk *w, const xmlNode *node, const char *name, const struct svg_place *at,
                     double whole, double fallback)
{
    const char *text = svg_attribute(w->a, node, name);
    double length;
    if (!text || !svg_length(text, (struct svg_measure){ at->look.font_size, whole }, &length))
        return fallback;
    return length;
}

/* What per cent are of that run neither across nor along (SVG 1.1, 7.10). */
static double diagonal(const struct svg_place *at)
{
    return sqrt((at->width * at->width + at->height * at->height) / 2);
}

static bool shows(const struct svg_paint *paint, double opacity)
{
    return paint->painted && opacity > 0;
}

static uint32_t rgb_of(const struct svg_paint *paint, const struct svg_look *look)
{
    return paint->current ? look->colour : paint->rgb;
}

struct collect_style svg_style_at(struct svg_walk *w, const struct svg_place *at)
{
    const struct svg_look *look = &at->look;
    bool stroked = shows(&look->stroke, look->stroke_opacity), filled = shows(&look->fill, look->fill_opacity);
    double mm = look->fixed_width ? 25.4 / SVG_UNITS_PER_INCH : svg_matrix_scale(&at->to_page);
    struct collect_style style = { 0 };
    style.flags = (stroked ? SHEET_STROKED : 0u) | (filled ? SHEET_FILLED : 0u);
    if ((stroked && look->stroke.pattern) || (filled && look->fill.pattern))
        style.flags |= SHEET_CLIP_PATTERN;
    if (filled && look->even_odd)
        style.flags |= SHEET_EVEN_ODD;
    style.rgb = stroked ? rgb_of(&look->stroke, look) : rgb_of(&look->fill, look);
    if (!stroked)
        return style;
    style.width_mm = look->stroke_width * mm;
    double *dashes = base_arena_alloc(w->a, look->dash_count, sizeof *dashes);
    for (size_t i = 0; i < look->dash_count; i++)
        dashes[i] = look->dashes[i] * mm;
    style.dash_mm = dashes;
    style.dash_count = look->dash_count;
    return style;
}

/* ------------------------------------------------------------------------------------------------------------- shapes
 */

/* What a shape draws with; `length` of its attributes. */
struct shape {
    struct svg_walk *w;
    const xmlNode *node;
    const struct svg_place *at;
    struct svg_pen pen;
};

static double across(const struct shape *s, const char *name, double fallback)
{
    return svg_length_of(s->w, s->node, name, s->at, s->at->width, fallback);
}

static double along(const struct shape *s, const char *name, double fallback)
{
    return svg_length_of(s->w, s->node, name, s->at, s->at->height, fallback);
}

static void draw_path(struct shape *s)
{
    const char *data = svg_attribute(s->w->a, s->node, "d");
    if (data && strcmp(data, "none") != 0 && !svg_path_draw(&s->pen, data))
        s->w->faults++;
}

static double at_most(double value, double most)
{
    return value < most ? value : most;
}

/* A radius that is not given is like the other (SVG 1.1, 9.2). */
static void draw_rect(struct shape *s)
{
    struct svg_box r = { across(s, "x", 0), along(s, "y", 0), across(s, "width", 0), along(s, "height", 0) };
    double rx = across(s, "rx", -1), ry = along(s, "ry", -1);
    if (!(r.width > 0) || !(r.height > 0))
        return;
    if (rx < 0)
        rx = ry;
    if (ry < 0)
        ry = rx;
    svg_rect_draw(&s->pen, r, at_most(rx, r.width / 2), at_most(ry, r.height / 2));
}

static void draw_circle(struct shape *s)
{
    double r = svg_length_of(s->w, s->node, "r", s->at, diagonal(s->at), 0);
    if (r > 0)
        svg_ellipse_draw(&s->pen, across(s, "cx", 0), along(s, "cy", 0), r, r);
}

static void draw_ellipse(struct shape *s)
{
    double rx = across(s, "rx", -1), ry = along(s, "ry", -1);
    if (rx < 0)
        rx = ry;
    if (ry < 0)
        ry = rx;
    if (rx > 0 && ry > 0)
        svg_ellipse_draw(&s->pen, across(s, "cx", 0), along(s, "cy", 0), rx, ry);
}

static void draw_line(struct shape *s)
{
    svg_pen_move(&s->pen, across(s, "x1", 0), along(s, "y1", 0));
    svg_pen_line(&s->pen, across(s, "x2", 0), along(s, "y2", 0));
}

static void draw_polyline(struct shape *s)
{
    const char *points = svg_attribute(s->w->a, s->node, "points");
    if (points)
        svg_points_draw(&s->pen, points, false);
}

static void draw_polygon(struct shape *s)
{
    const char *points = svg_attribute(s->w->a, s->node, "points");
    if (points)
        svg_points_draw(&s->pen, points, true);
}

static void draw_shape(struct svg_walk *w, const xmlNode *node, const struct svg_place *at,
                       void (*draw)(struct shape *))
{
    struct shape s = { w, node, at, { .c = w->c, .to_page = at->to_page } };
    struct collect_style style = svg_style_at(w, at);
    if (!(style.flags & (SHEET_STROKED | SHEET_FILLED)))
        return;
    if (!at->look.visible || at->look.opacity <= 0) {
        w->hidden++;
        return;
    }
    svg_begin(w, at);
    collect_begin(w->c, at->layer, &style);
    draw(&s);
    collect_end(w->c);
}

/* ------------------------------------------------------------------------------------------------------------- groups
 */

/* What a group is called: its title, else the label that editors give it, else its id; NULL when it has none. */
static const char *name_of(struct svg_walk *w, const xmlNode *node)
{
    for (const xmlNode *at = node->children; at; at = at->next)
        if (svg_node_is(at, "title")) {
            const char *title = svg_node_text(w->a, at);
            if (*title)
                return title;
        }
    const char *label = svg_attribute(w->a, node, "label");
    return label && *label ? label : svg_attribute(w->a, node, "id");
}

/* A named group is a layer, off by default if it is not displayed. What is drawn again by use is no layer of its own.
 */
static bool enter_layer(struct svg_walk *w, const xmlNode *node, struct svg_place *at)
{
    const char *name = at->in_use || !svg_node_is(node, "g") ? NULL : name_of(w, node);
    if (!name || !*name || w->layers >= SHEET_LAYERS_MOST)
        return false;
    at->layer = collect_layer(w->c, at->layer, name, at->look.displayed ? SHEET_LAYER_ON : 0);
    w->layers++;
    return true;
}

static void draw_group(struct svg_walk *w, const xmlNode *node, const struct svg_place *at)
{
    svg_draw_children(w, node, at);
}

/* The first child that asks for nothing special. */
static void draw_switch(struct svg_walk *w, const xmlNode *node, const struct svg_place *at)
{
    for (const xmlNode *child = node->children; child; child = child->next)
        if (svg_node_counts(child) && !svg_attribute(w->a, child, "requiredExtensions") &&
            !svg_node_is(child, "foreignObject")) {
            svg_draw_node(w, child, at);
            return;
        }
}

void svg_enter_port(struct svg_walk *w, const xmlNode *node, struct svg_box port, struct svg_place *at)
{
    const char *text = svg_attribute(w->a, node, "viewBox");
    struct svg_box view = { 0, 0, port.width, port.height };
    struct svg_matrix into = { 1, 0, 0, 1, port.x, port.y };
    if (text && svg_box_read(text, &view))
        into = svg_box_fit(view, port, svg_attribute(w->a, node, "preserveAspectRatio"));
    else if (text)
        w->faults++;
    at->to_page = svg_matrix_then(into, at->to_page);
    at->width = view.width;
    at->height = view.height;
}

/* A drawing within the drawing, as large as `from` (itself, or the use that draws it) says. */
static void draw_port(struct svg_walk *w, const xmlNode *node, const xmlNode *from, bool placed,
                      const struct svg_place *at)
{
    struct svg_place inner = *at;
    double width = svg_length_of(w, node, "width", at, at->width, at->width);
    double height = svg_length_of(w, node, "height", at, at->height, at->height);
    struct svg_box port = { placed ? svg_length_of(w, node, "x", at, at->width, 0) : 0,
                            placed ? svg_length_of(w, node, "y", at, at->height, 0) : 0,
                            svg_length_of(w, from, "width", at, at->width, width),
                            svg_length_of(w, from, "height", at, at->height, height) };
    if (!(port.width > 0) || !(port.height > 0))
        return;
    svg_clip_enter_port(w, &port, &inner);
    svg_enter_port(w, node, port, &inner);
    svg_draw_children(w, node, &inner);
}

static void draw_svg(struct svg_walk *w, const xmlNode *node, const struct svg_place *at)
{
    draw_port(w, node, node, true, at);
}

/* What a use draws again and where, NULL when it is not there. */
static const xmlNode *used_by(struct svg_walk *w, const xmlNode *node, const struct svg_place *at,
                              struct svg_place *inner)
{
    const char *address = svg_attribute(w->a, node, "href");
    struct svg_matrix shift = {
        1, 0, 0, 1, svg_length_of(w, node, "x", at, at->width, 0), svg_length_of(w, node, "y", at, at->height, 0)
    };
    *inner = *at;
    inner->to_page = svg_matrix_then(shift, at->to_page);
    inner->in_use = true;
    inner->depth++;
    return address && *address == '#' ? svg_ids_find(&w->ids, address + 1) : NULL;
}

static void draw_use(struct svg_walk *w, const xmlNode *node, const struct svg_place *at)
{
    struct svg_place inner;
    const xmlNode *target = used_by(w, node, at, &inner);
    if (!target) {
        w->left_out[SVG_LEFT_LOST_USES]++;
        return;
    }
    if (!svg_node_is(target, "symbol") && !svg_node_is(target, "svg")) {
        svg_draw_node(w, target, &inner);
        return;
    }
    inner.look = svg_look_of(w->a, &w->rules, target, &inner.look, diagonal(at));
    svg_clip_enter(w, &inner);
    if (inner.depth < DEPTH_MOST && inner.look.displayed)
        draw_port(w, target, node, !svg_node_is(target, "symbol"), &inner);
}

static void skip(struct svg_walk *w, const xmlNode *node, const struct svg_place *at)
{
    (void)node, (void)at;
    w->left_out[SVG_LEFT_FOREIGN]++;
}

/* ----------------------------------------------------------------------------------------------------------- elements
 */

/* One of the two is set. What is not here (definitions, titles, what is unknown) draws nothing where it stands. */
static const struct element {
    const char *name;
    void (*draw)(struct svg_walk *w, const xmlNode *node, const struct svg_place *at);
    void (*shape)(struct shape *s);
} elements[] = {
    { "path", NULL, draw_path },         { "g", draw_group, NULL },         { "line", NULL, draw_line },
    { "polyline", NULL, draw_polyline }, { "polygon", NULL, draw_polygon }, { "rect", NULL, draw_rect },
    { "circle", NULL, draw_circle },     { "ellipse", NULL, draw_ellipse }, { "text", svg_draw_text, NULL },
    { "use", draw_use, NULL },           { "svg", draw_svg, NULL },         { "a", draw_group, NULL },
    { "switch", draw_switch, NULL },     { "image", svg_draw_image, NULL }, { "foreignObject", skip, NULL },
};

static const struct element *find_element(const xmlNode *node)
{
    for (size_t i = 0; i < sizeof elements / sizeof elements[0]; i++)
        if (strcmp((const char *)node->name, elements[i].name) == 0)
            return &elements[i];
    return NULL;
}

void svg_enter_transform(struct svg_walk *w, const xmlNode *node, struct svg_place *at)
{
    const char *text = svg_attribute(w->a, node, "transform");
    struct svg_matrix own;
    if (!text)
        return;
    if (svg_matrix_read(text, &own))
        at->to_page = svg_matrix_then(own, at->to_page);
    else
        w->faults++;
}

bool svg_may_draw(struct svg_walk *w, const struct svg_place *at)
{
    if (at->depth >= DEPTH_MOST) {
        w->left_out[SVG_LEFT_DEPTH]++;
        return false;
    }
    if (++w->drawn > DRAWN_MOST)
        collect_too_large(w->c);
    if (w->ids.elements && w->drawn % 256 == 0)
        collect_progress(w->c, (unsigned)(w->drawn < w->ids.elements ? 100 * w->drawn / w->ids.elements : 99));
    return !collect_failed(w->c);
}

bool svg_outline(struct svg_walk *w, const xmlNode *node, const struct svg_place *parent, struct clip_shape *clip)
{
    struct svg_place at = *parent, used;
    if (!svg_node_counts(node))
        return true;
    if (!svg_may_draw(w, parent))
        return false;
    const struct element *e = find_element(node);
    if (!e)
        return true;
    at.depth++;
    at.look = svg_look_of(w->a, &w->rules, node, &parent->look, diagonal(parent));
    if (!at.look.displayed || !at.look.visible)
        return true;
    if (at.look.clip || at.look.mask)
        clip->box.flags = SHEET_CLIP_SHAPED;
    svg_enter_transform(w, node, &at);
    if (e->shape) {
        struct shape s = { w, node, &at, { .c = w->c, .clip = clip, .to_page = at.to_page } };
        e->shape(&s);
        return true;
    }
    const xmlNode *target = e->draw == draw_use ? used_by(w, node, &at, &used) : NULL;
    return target && svg_outline(w, target, &used, clip);
}

void svg_draw_node(struct svg_walk *w, const xmlNode *node, const struct svg_place *parent)
{
    struct svg_place at = *parent;
    if (!svg_node_counts(node) || !svg_may_draw(w, parent))
        return;
    const struct element *e = find_element(node);
    if (!e)
        return;
    at.depth++;
    at.look = svg_look_of(w->a, &w->rules, node, &parent->look, diagonal(parent));
    if (!enter_layer(w, node, &at) && !at.look.displayed) {
        w->hidden++;
        return;
    }
    svg_enter_transform(w, node, &at);
    svg_clip_enter(w, &at);
    if (e->draw)
        e->draw(w, node, &at);
    else
        draw_shape(w, node, &at, e->shape);
}

void svg_draw_children(struct svg_walk *w, const xmlNode *node, const struct svg_place *at)
{
    for (const xmlNode *child = node->children; child && !collect_failed(w->c); child = child->next)
        svg_draw_node(w, child, at);
}
