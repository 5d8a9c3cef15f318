#include "sheet_reader/svg.h"

#include "sheet_reader/svg_number.h"
#include "sheet_reader/svg_walk.h"

#include <libxml/parser.h>
#include <libxml/xmlerror.h>
#include <limits.h>
#include <string.h>

/* What per cent are of in a drawing without any size (CSS 2.1, 10.3.2: 300 by 150). */
enum { WIDTH_WITHOUT = 300, HEIGHT_WITHOUT = 150 };

/* Around all that is drawn, where that alone says how large the page is: nothing lies on the page's edge. */
#define MARGIN_MM 10.0

static const double mm_per_unit = 25.4 / SVG_UNITS_PER_INCH;

/* A length that says how large the drawing is: per cent do not. */
static bool given(struct svg_walk *w, const xmlNode *root, const char *name, double *out)
{
    const char *text = svg_attribute(w->a, root, name);
    return text && !svg_is_percent(text) && svg_length(text, (struct svg_measure){ 16, 0 }, out) && *out > 0;
}

/* Width and height in units; what is missing follows from the viewBox. *known: something said it. */
static struct svg_box size_of(struct svg_walk *w, const xmlNode *root, bool *known)
{
    const char *text = svg_attribute(w->a, root, "viewBox");
    struct svg_box view = { 0, 0, WIDTH_WITHOUT, HEIGHT_WITHOUT }, size = { 0 };
    bool has_view = text && svg_box_read(text, &view);
    bool wide = given(w, root, "width", &size.width), high = given(w, root, "height", &size.height);
    *known = has_view || wide || high;
    if (!wide && !high)
        collect_note(w->c, SHEET_NOTE_NO_SIZE, NULL, 0, 0);
    if (!wide)
        size.width = high && has_view ? size.height * view.width / view.height : view.width;
    if (!high)
        size.height = wide && has_view ? size.width * view.height / view.width : view.height;
    return size;
}

static bool is_stretched(const struct svg_matrix *m)
{
    double x = sqrt(m->a * m->a + m->b * m->b), y = sqrt(m->c * m->c + m->d * m->d);
    return fabs(x - y) > 1e-6 * (x + y);
}

static void tell(struct svg_walk *w)
{
    static const char *const names[SVG_LEFT_KINDS] = {
        [SVG_LEFT_IMAGES] = "image", [SVG_LEFT_FOREIGN] = "foreignObject", [SVG_LEFT_CLIPS] = "clip-path",
        [SVG_LEFT_MASKS] = "mask",   [SVG_LEFT_LOST_USES] = "use",         [SVG_LEFT_DEPTH] = "g",
    };
    if (w->hidden)
        collect_note(w->c, SHEET_NOTE_HIDDEN, NULL, w->hidden, 0);
    if (w->faults)
        collect_note(w->c, SHEET_NOTE_MENDED, "d, transform, viewBox", w->faults, 0);
    for (size_t i = 0; i < SVG_LEFT_KINDS; i++)
        if (w->left_out[i])
            collect_note(w->c, SHEET_NOTE_LEFT_OUT, names[i], w->left_out[i], 0);
}

/* Begins the page, which shows `sheet` of the drawing, in units. */
static struct svg_place begin_page(struct svg_walk *w, const xmlNode *root, struct svg_box port, struct svg_box sheet)
{
    struct svg_place at = { .layer = SHEET_NONE };
    struct svg_look first = svg_look_first();
    collect_page(w->c, sheet.width * mm_per_unit, sheet.height * mm_per_unit, NULL);
    at.to_page = (struct svg_matrix){
        mm_per_unit, 0, 0, -mm_per_unit, -sheet.x * mm_per_unit, (sheet.y + sheet.height) * mm_per_unit
    };
    at.look = svg_look_of(w->a, &w->rules, root, &first, 0);
    svg_enter_port(w, root, port, &at);
    svg_clip_enter(w, &at);
    return at;
}

/* Where things are drawn, in units: they are drawn once to find out. That of nothing is the port. */
static struct svg_box extent_of(const struct svg_walk *w, const xmlNode *root, struct svg_box port)
{
    struct svg_walk trial = *w;
    struct sheet_clip all;
    struct svg_box sheet = port;
    trial.c = collect_create(-1);
    if (!trial.c)
        return port;
    trial.a = base_arena_create();
    struct svg_place at = begin_page(&trial, root, port, port);
    svg_draw_children(&trial, root, &at);
    svg_begin(&trial, &at); /* puts down pictures that were held back */
    if (collect_extent(trial.c, &all)) {
        sheet.x = (all.x0 - MARGIN_MM) / mm_per_unit;
        sheet.y = port.height - (all.y1 + MARGIN_MM) / mm_per_unit;
        sheet.width = (all.x1 - all.x0 + 2 * MARGIN_MM) / mm_per_unit;
        sheet.height = (all.y1 - all.y0 + 2 * MARGIN_MM) / mm_per_unit;
    }
    base_arena_destroy(trial.a);
    collect_destroy(trial.c);
    return sheet;
}

static void draw_root(struct svg_walk *w, const xmlNode *root)
{
    bool known;
    struct svg_box port = size_of(w, root, &known);
    struct svg_place at = begin_page(w, root, port, known ? port : extent_of(w, root, port));
    if (is_stretched(&at.to_page))
        collect_note(w->c, SHEET_NOTE_STRETCHED, NULL, 0, 0);
    svg_draw_children(w, root, &at);
    svg_images_end(w);
    tell(w);
}

/* Nothing outside the file is looked at: no network, no document type from elsewhere, no entities put in. What comes
 * after a fault is read as far as it can be. */
static xmlDoc *parse(xmlParserCtxt *parser, const char *bytes, size_t count)
{
    const int options =
        XML_PARSE_NONET | XML_PARSE_RECOVER | XML_PARSE_NOERROR | XML_PARSE_NOWARNING | XML_PARSE_COMPACT;
    return xmlCtxtReadMemory(parser, bytes, (int)count, NULL, NULL, options);
}

static enum sheet_exit draw_document(struct collect *c, const xmlDoc *doc, bool whole)
{
    const xmlNode *root = xmlDocGetRootElement(doc);
    if (!root || strcmp((const char *)root->name, "svg") != 0)
        return root ? SHEET_EXIT_NOT_A_SHEET : SHEET_EXIT_DAMAGED;
    struct svg_walk w = { .c = c, .a = base_arena_create() };
    w.ids = svg_ids_of(w.a, root);
    w.rules = svg_rules_of(w.a, root);
    if (!whole)
        collect_note(c, SHEET_NOTE_MENDED, "XML", 0, 0);
    draw_root(&w, root);
    base_arena_destroy(w.a);
    return collect_exit(c);
}

enum sheet_exit svg_read(struct collect *c, const char *bytes, size_t count)
{
    if (count > INT_MAX)
        return SHEET_EXIT_TOO_LARGE;
    xmlParserCtxt *parser = xmlNewParserCtxt();
    if (!parser)
        return SHEET_EXIT_TOO_LARGE;
    xmlDoc *doc = parse(parser, bytes, count);
    const xmlError *last = xmlCtxtGetLastError(parser);
    enum sheet_exit exit = SHEET_EXIT_DAMAGED;
    if (last && last->code == XML_ERR_NO_MEMORY)
        exit = SHEET_EXIT_TOO_LARGE;
    else if (doc)
        exit = draw_document(c, doc, parser->wellFormed);
    xmlFreeDoc(doc);
    xmlFreeParserCtxt(parser);
    return exit;
}
