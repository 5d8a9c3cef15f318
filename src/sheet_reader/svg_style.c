#include "sheet_reader/svg_style.h"

#include "sheet_reader/svg_colour.h"
#include "sheet_reader/svg_number.h"

#include <libxml/tree.h>
#include <stdlib.h>
#include <string.h>

enum { VALUE_MOST = 1024, PARTS_MOST = 8, CLASSES_MOST = 4, DASHES_MOST = 1000 };

struct svg_look svg_look_first(void)
{
    return (struct svg_look){ .fill = { .painted = true },
                              .stroke_width = 1,
                              .fill_opacity = 1,
                              .stroke_opacity = 1,
                              .font_size = 16,
                              .visible = true,
                              .displayed = true,
                              .opacity = 1 };
}

/* --------------------------------------------------------------------------------------------------------- properties
 */

/* Where a property is set. */
struct setting {
    struct arena *a;
    struct svg_look *look;
    const struct svg_look *parent;
    double diagonal;
};

static struct svg_measure measure_of(const struct setting *s)
{
    return (struct svg_measure){ s->look->font_size, s->diagonal };
}

/* A colour, or an address with what to paint where nothing is there. */
static void set_paint(struct svg_paint *paint, const char *value)
{
    uint32_t rgb = 0;
    if (strncmp(value, "url(", 4) == 0) {
        const char *end = strchr(value, ')'), *instead = end ? end + 1 : "";
        instead += strspn(instead, " ");
        *paint = (struct svg_paint){ .painted = true, .pattern = true };
        if (svg_colour_read(instead, &rgb))
            paint->rgb = rgb;
    } else if (strcmp(value, "none") == 0 || strcmp(value, "transparent") == 0) {
        *paint = (struct svg_paint){ 0 };
    } else if (strcmp(value, "currentColor") == 0 || strcmp(value, "currentcolor") == 0) {
        *paint = (struct svg_paint){ .painted = true, .current = true };
    } else if (svg_colour_read(value, &rgb)) {
        *paint = (struct svg_paint){ .painted = true, .rgb = rgb };
    }
}

static void set_fill(struct setting *s, const char *value)
{
    set_paint(&s->look->fill, value);
}

static void set_stroke(struct setting *s, const char *value)
{
    set_paint(&s->look->stroke, value);
}

static void set_colour(struct setting *s, const char *value)
{
    svg_colour_read(value, &s->look->colour);
}

static void set_stroke_width(struct setting *s, const char *value)
{
    double width;
    if (svg_length(value, measure_of(s), &width) && width >= 0)
        s->look->stroke_width = width;
}

/* An odd list is gone through twice; one with a length below zero, or without any, is no list (SVG 1.1, 11.4). */
static void set_dashes(struct setting *s, const char *value)
{
    struct svg_scan scan = { value };
    double *dashes = NULL, sum = 0, length;
    size_t count = 0, cap = 0;
    svg_skip_space(&scan);
    while (count < DASHES_MOST && svg_scan_length(&scan, measure_of(s), &length)) {
        dashes = base_arena_grow(s->a, dashes, &cap, 2 * (count + 1), sizeof *dashes);
        dashes[count++] = length;
        sum = length >= 0 && sum >= 0 ? sum + length : -1;
        svg_skip_comma(&scan);
    }
    if (*scan.at || sum <= 0) {
        s->look->dash_count = 0;
        return;
    }
    for (size_t i = 0; i < count && count % 2; i++)
        dashes[count + i] = dashes[i];
    s->look->dashes = dashes;
    s->look->dash_count = count % 2 ? 2 * count : count;
}

static void set_fill_rule(struct setting *s, const char *value)
{
    s->look->even_odd = strcmp(value, "evenodd") == 0;
}

static void set_display(struct setting *s, const char *value)
{
    s->look->displayed = strcmp(value, "none") != 0;
}

static void set_visibility(struct setting *s, const char *value)
{
    s->look->visible = strcmp(value, "visible") == 0;
}

static void set_share(double *share, const char *value)
{
    double number;
    if (svg_length(value, (struct svg_measure){ 1, 1 }, &number))
        *share = number;
}

static void set_fill_opacity(struct setting *s, const char *value)
{
    set_share(&s->look->fill_opacity, value);
}

static void set_stroke_opacity(struct setting *s, const char *value)
{
    set_share(&s->look->stroke_opacity, value);
}

static void set_opacity(struct setting *s, const char *value)
{
    double share = 1;
    set_share(&share, value);
    s->look->opacity = share * s->parent->opacity;
}

static void set_font_size(struct setting *s, const char *value)
{
    double size, parent = s->parent->font_size;
    if (svg_length(value, (struct svg_measure){ parent, parent }, &size) && size >= 0)
        s->look->font_size = size;
}

static void set_vector_effect(struct setting *s, const char *value)
{
    s->look->fixed_width = strcmp(value, "non-scaling-stroke") == 0;
}

static const char *unless_none(const struct setting *s, const char *value)
{
    return strcmp(value, "none") == 0 ? NULL : base_arena_copy_text(s->a, value);
}

static void set_clip(struct setting *s, const char *value)
{
    s->look->clip = unless_none(s, value);
}

static void set_mask(struct setting *s, const char *value)
{
    s->look->mask = unless_none(s, value);
}

static void set_overflow(struct setting *s, const char *value)
{
    s->look->overflows = strcmp(value, "visible") == 0 || strcmp(value, "auto") == 0;
}

#define MEMBER(name) offsetof(struct svg_look, name), sizeof(((struct svg_look *)0)->name)

/* What "inherit" takes from the parent is one member; for dashes it is two, of which the list may as well stay. */
static const struct property {
    const char *name;
    void (*set)(struct setting *s, const char *value);
    size_t offset, size;
} properties[] = {
    { "font-size", set_font_size, MEMBER(font_size) }, /* first: others may be written in it */
    { "color", set_colour, MEMBER(colour) },
    { "fill", set_fill, MEMBER(fill) },
    { "stroke", set_stroke, MEMBER(stroke) },
    { "stroke-width", set_stroke_width, MEMBER(stroke_width) },
    { "stroke-dasharray", set_dashes, MEMBER(dash_count) },
    { "fill-rule", set_fill_rule, MEMBER(even_odd) },
    { "display", set_display, MEMBER(displayed) },
    { "visibility", set_visibility, MEMBER(visible) },
    { "opacity", set_opacity, MEMBER(opacity) },
    { "fill-opacity", set_fill_opacity, MEMBER(fill_opacity) },
    { "stroke-opacity", set_stroke_opacity, MEMBER(stroke_opacity) },
    { "vector-effect", set_vector_effect, MEMBER(fixed_width) },
    { "clip-path", set_clip, MEMBER(clip) },
    { "mask", set_mask, MEMBER(mask) },
    { "overflow", set_overflow, MEMBER(overflows) },
};

static void set_property(struct setting *s, const struct property *p, const char *value)
{
    if (strcmp(value, "inherit") != 0) {
        p->set(s, value);
        return;
    }
    memcpy((char *)s->look + p->offset, (const char *)s->parent + p->offset, p->size);
    if (p->set == set_dashes)
        s->look->dashes = s->parent->dashes;
}

/* ------------------------------------------------------------------------------------------------------- declarations
 */

struct words {
    const char *at;
    size_t count;
};

static struct words trimmed(const char *at, const char *end)
{
    while (at < end && strchr(" \t\r\n\f", *at))
        at++;
    while (end > at && strchr(" \t\r\n\f", end[-1]))
        end--;
    return (struct words){ at, (size_t)(end - at) };
}

static bool words_are(struct words w, const char *text)
{
    return strlen(text) == w.count && memcmp(w.at, text, w.count) == 0;
}

/* Takes "!important" off the end of a value. */
static bool take_important(struct words *value)
{
    static const char mark[] = "!important";
    size_t length = sizeof mark - 1;
    if (value->count < length || memcmp(value->at + value->count - length, mark, length) != 0)
        return false;
    *value = trimmed(value->at, value->at + value->count - length);
    return true;
}

static void declare(struct setting *s, struct words name, struct words value)
{
    char copy[VALUE_MOST];
    if (value.count >= sizeof copy)
        return;
    for (size_t i = 0; i < sizeof properties / sizeof properties[0]; i++)
        if (words_are(name, properties[i].name)) {
            memcpy(copy, value.at, value.count);
            copy[value.count] = 0;
            set_property(s, &properties[i], copy);
            return;
        }
}

/* The declarations of a block that are important, or those that are not. */
static void declare_all(struct setting *s, struct words block, bool important)
{
    const char *at = block.at, *end = block.at + block.count;
    while (at < end) {
        const char *stop = memchr(at, ';', (size_t)(end - at));
        if (!stop)
            stop = end;
        const char *colon = memchr(at, ':', (size_t)(stop - at));
        if (colon) {
            struct words value = trimmed(colon + 1, stop);
            if (take_important(&value) == important)
                declare(s, trimmed(at, colon), value);
        }
        at = stop + (stop < end);
    }
}

/* -------------------------------------------------------------------------------------------------------------- rules
 */

/* One element of a selector: what it must be, and how it stands to the one before: ' ' within, '>' just within. */
struct part {
    struct words type, id, classes[CLASSES_MOST];
    size_t class_count;
    char relation;
};

struct svg_rule {
    struct part parts[PARTS_MOST];
    size_t part_count;
    unsigned weight; /* ids, classes, types, in bytes */
    size_t order;
    struct words block;
};

static bool is_name_char(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' ||
           (unsigned char)c >= 0x80;
}

static struct words take_name(const char **at, const char *end)
{
    const char *from = *at;
    while (*at < end && is_name_char(**at))
        ++*at;
    return (struct words){ from, (size_t)(*at - from) };
}

/* A type or "*", then classes and ids; false for what is not understood. */
static bool read_part(const char **at, const char *end, struct part *part, unsigned *weight)
{
    const char *from = *at;
    if (*at < end && **at == '*')
        ++*at;
    else if ((part->type = take_name(at, end)).count)
        *weight += 1;
    while (*at < end && (**at == '.' || **at == '#')) {
        bool is_class = *(*at)++ == '.';
        struct words name = take_name(at, end);
        if (!name.count || (is_class && part->class_count == CLASSES_MOST))
            return false;
        if (is_class)
            part->classes[part->class_count++] = name;
        else
            part->id = name;
        *weight += is_class ? 0x100 : 0x10000;
    }
    return *at > from;
}

static bool read_selector(struct words text, struct svg_rule *rule)
{
    const char *at = text.at, *end = text.at + text.count;
    char relation = 0;
    while (at < end) {
        if (rule->part_count == PARTS_MOST)
            return false;
        struct part *part = &rule->parts[rule->part_count++];
        part->relation = relation;
        if (!read_part(&at, end, part, &rule->weight))
            return false;
        relation = ' ';
        while (at < end && strchr(" \t\r\n\f>", *at))
            if (*at++ == '>')
                relation = '>';
    }
    return rule->part_count > 0;
}

/* A class attribute holds the name among others. */
static bool has_class(const char *classes, struct words name)
{
    while (*classes) {
        classes += strspn(classes, " \t\r\n\f");
        size_t length = strcspn(classes, " \t\r\n\f");
        if (length == name.count && length && memcmp(classes, name.at, length) == 0)
            return true;
        classes += length;
    }
    return false;
}

static bool fits_part(struct arena *a, const xmlNode *node, const struct part *part)
{
    if (node->type != XML_ELEMENT_NODE || (part->type.count && !words_are(part->type, (const char *)node->name)))
        return false;
    const char *id = part->id.count ? svg_attribute(a, node, "id") : NULL;
    if (part->id.count && (!id || !words_are(part->id, id)))
        return false;
    const char *classes = part->class_count ? svg_attribute(a, node, "class") : NULL;
    for (size_t i = 0; i < part->class_count; i++)
        if (!classes || !has_class(classes, part->classes[i]))
            return false;
    return true;
}

/* From the last part outwards. The nearest ancestor that fits is taken for "within", which is right but where a ">"
 * stands further out. */
static bool fits(struct arena *a, const xmlNode *node, const struct svg_rule *rule)
{
    size_t i = rule->part_count - 1;
    if (!fits_part(a, node, &rule->parts[i]))
        return false;
    for (; i > 0; i--) {
        bool any = rule->parts[i].relation == ' ';
        do
            node = node->parent;
        while (any && node && !fits_part(a, node, &rule->parts[i - 1]));
        if (!node || !fits_part(a, node, &rule->parts[i - 1]))
            return false;
    }
    return true;
}

/* Rules that grow as sheets are read. */
struct rules_out {
    struct arena *a;
    struct svg_rule *rows;
    size_t count, cap;
};

static void add_rules(struct rules_out *out, struct words selectors, struct words block)
{
    const char *at = selectors.at, *end = selectors.at + selectors.count;
    while (at < end) {
        const char *stop = memchr(at, ',', (size_t)(end - at));
        struct svg_rule rule = { .order = out->count, .block = block };
        if (!stop)
            stop = end;
        if (read_selector(trimmed(at, stop), &rule)) {
            out->rows = base_arena_grow(out->a, out->rows, &out->cap, out->count + 1, sizeof *out->rows);
            out->rows[out->count++] = rule;
        }
        at = stop + (stop < end);
    }
}

/* Past the bracket that closes the one just passed. */
static const char *past_block(const char *at)
{
    for (int depth = 1; *at && depth; at++)
        depth += (*at == '{') - (*at == '}');
    return at;
}

/* Comments and the marks that hide a sheet from old readers become spaces, in place. */
static void blank_comments(char *text)
{
    for (char *at = text; (at = strstr(at, "/*"));) {
        char *end = strstr(at + 2, "*/");
        size_t length = end ? (size_t)(end + 2 - at) : strlen(at);
        memset(at, ' ', length);
    }
}

static void read_sheet(struct rules_out *out, const char *text)
{
    char *plain = base_arena_copy_text(out->a, text);
    blank_comments(plain);
    const char *at = plain;
    while (*at) {
        size_t length = strcspn(at, "{;");
        struct words prelude = trimmed(at, at + length);
        bool is_rule = prelude.count && prelude.at[0] != '@';
        at += length;
        if (!*at)
            return;
        if (*at++ == ';')
            continue;
        const char *end = past_block(at);
        if (is_rule)
            add_rules(out, prelude, trimmed(at, end > at && end[-1] == '}' ? end - 1 : end));
        at = end;
    }
}

static int by_weight(const void *left, const void *right)
{
    const struct svg_rule *a = left, *b = right;
    if (a->weight != b->weight)
        return a->weight < b->weight ? -1 : 1;
    return (a->order > b->order) - (a->order < b->order);
}

struct svg_rules svg_rules_of(struct arena *a, const xmlNode *root)
{
    struct rules_out out = { .a = a };
    for (const xmlNode *at = root; at; at = svg_node_next(at, root))
        if (svg_node_is(at, "style"))
            read_sheet(&out, svg_node_text(a, at));
    if (out.count)
        qsort(out.rows, out.count, sizeof *out.rows, by_weight);
    return (struct svg_rules){ out.rows, out.count };
}

/* -------------------------------------------------------------------------------------------------------- the cascade
 */

static void declare_attributes(struct setting *s, const xmlNode *node)
{
    for (const xmlAttr *at = node->properties; at; at = at->next) {
        const char *value = svg_attribute_value(s->a, at), *name = (const char *)at->name;
        declare(s, (struct words){ name, strlen(name) }, trimmed(value, value + strlen(value)));
    }
}

struct svg_look svg_look_of(struct arena *a, const struct svg_rules *rules, const xmlNode *node,
                            const struct svg_look *parent, double diagonal)
{
    struct svg_look look = *parent;
    struct setting s = { a, &look, parent, diagonal };
    const char *style = svg_attribute(a, node, "style");
    struct words own = { style, style ? strlen(style) : 0 };
    look.displayed = true;
    look.fixed_width = look.overflows = false;
    look.clip = look.mask = NULL;
    declare_attributes(&s, node);
    for (int important = 0; important < 2; important++) {
        for (size_t i = 0; i < rules->count; i++)
            if (fits(a, node, &rules->rows[i]))
                declare_all(&s, rules->rows[i].block, important);
        if (style)
            declare_all(&s, own, important);
    }
    return look;
}
