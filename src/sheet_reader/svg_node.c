#include "sheet_reader/svg_node.h"

#include "base/buffer.h"

#include <libxml/tree.h>
#include <stdlib.h>
#include <string.h>

static const xmlNode *root_of(const xmlNode *node)
{
    return node->doc ? xmlDocGetRootElement(node->doc) : NULL;
}

/* By its root rather than by the standard's address: some programs write that as an entity, which is not looked up. */
bool svg_node_counts(const xmlNode *node)
{
    const xmlNode *root = root_of(node);
    if (node->type != XML_ELEMENT_NODE || !root)
        return false;
    if (!node->ns || !root->ns)
        return node->ns == root->ns;
    return node->ns == root->ns || xmlStrEqual(node->ns->href, root->ns->href);
}

bool svg_node_is(const xmlNode *node, const char *name)
{
    return svg_node_counts(node) && strcmp((const char *)node->name, name) == 0;
}

const char *svg_attribute_value(struct arena *a, const xmlAttr *attribute)
{
    const xmlNode *only = attribute->children;
    if (!only)
        return "";
    if (!only->next && only->type == XML_TEXT_NODE)
        return (const char *)only->content;
    xmlChar *whole = xmlNodeListGetString(attribute->doc, attribute->children, 1);
    const char *kept = whole ? base_arena_copy_text(a, (const char *)whole) : "";
    xmlFree(whole);
    return kept;
}

const char *svg_attribute(struct arena *a, const xmlNode *node, const char *name)
{
    for (const xmlAttr *at = node->properties; at; at = at->next)
        if (strcmp((const char *)at->name, name) == 0)
            return svg_attribute_value(a, at);
    return NULL;
}

const xmlNode *svg_node_next(const xmlNode *node, const xmlNode *root)
{
    if (node->children && node->type == XML_ELEMENT_NODE)
        return node->children;
    while (node != root && !node->next)
        node = node->parent;
    return node == root ? NULL : node->next;
}

static void add_words(struct base_buffer *out, const char *text)
{
    while (*text) {
        size_t space = strspn(text, " \t\r\n"), word = strcspn(text + space, " \t\r\n");
        if (word)
            base_buffer_print(out, "%s%.*s", space && out->count ? " " : "", (int)word, text + space);
        else if (space && out->count && out->data[out->count - 1] != ' ')
            base_buffer_print(out, " ");
        text += space + word;
    }
}

const char *svg_node_text(struct arena *a, const xmlNode *node)
{
    struct base_buffer out = { .a = a };
    for (const xmlNode *at = node; at; at = svg_node_next(at, node))
        if ((at->type == XML_TEXT_NODE || at->type == XML_CDATA_SECTION_NODE) && at->content)
            add_words(&out, (const char *)at->content);
    if (out.count && out.data[out.count - 1] == ' ')
        out.data[--out.count] = 0;
    return base_buffer_text(&out);
}

static int by_id(const void *left, const void *right)
{
    const struct svg_id *a = left, *b = right;
    int order = strcmp(a->id, b->id);
    return order ? order : (a->order > b->order) - (a->order < b->order);
}

struct svg_ids svg_ids_of(struct arena *a, const xmlNode *root)
{
    struct svg_id *rows = NULL;
    size_t count = 0, cap = 0, elements = 0;
    for (const xmlNode *at = root; at; at = svg_node_next(at, root)) {
        const char *id = at->type == XML_ELEMENT_NODE ? svg_attribute(a, at, "id") : NULL;
        elements += at->type == XML_ELEMENT_NODE;
        if (!id)
            continue;
        rows = base_arena_grow(a, rows, &cap, count + 1, sizeof *rows);
        rows[count] = (struct svg_id){ id, at, count };
        count++;
    }
    if (count)
        qsort(rows, count, sizeof *rows, by_id);
    return (struct svg_ids){ rows, count, elements };
}

const xmlNode *svg_ids_find(const struct svg_ids *ids, const char *id)
{
    size_t low = 0, high = ids->count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (strcmp(ids->rows[middle].id, id) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low < ids->count && strcmp(ids->rows[low].id, id) == 0 ? ids->rows[low].node : NULL;
}
