/* Points and edges by name: of the piece at hand, or "piece.name" of any. */
#include "pattern/reader.h"

#include <string.h>

static const struct err_kind no_edge = { "pattern.no_edge", ERR_FAULT, "piece “{0}” has no edge “{1}”" };
static const struct err_kind no_point = { "pattern.no_point", ERR_FAULT, "piece “{0}” has no point “{1}”" };

typedef int (*finder)(const struct pattern_piece *piece, const char *name);

static bool find_in(const struct pattern_reader *r, int piece, const char *name, finder find, struct pattern_ref *out)
{
    if (piece == PATTERN_NONE)
        return false;
    int found = find(&r->p->pieces[piece], name);
    *out = (struct pattern_ref){ piece, found };
    return found != PATTERN_NONE;
}

static bool find_ref(const struct pattern_reader *r, const char *text, finder find, struct pattern_ref *out)
{
    if (find_in(r, r->piece, text, find, out))
        return true;
    const char *dot = strchr(text, '.');
    if (!dot)
        return false;
    const char *piece = base_arena_copy_bytes(r->a, text, (size_t)(dot - text));
    return find_in(r, pattern_find_piece(r->p, piece), dot + 1, find, out);
}

bool pattern_find_edge_ref(const struct pattern_reader *r, const char *text, struct pattern_ref *out)
{
    return find_ref(r, text, pattern_find_edge_or_curve, out);
}

bool pattern_find_point_ref(const struct pattern_reader *r, const char *text, struct pattern_ref *out)
{
    return find_ref(r, text, pattern_find_point, out);
}

static bool read_ref(const struct pattern_reader *r, const struct json_node *node, finder find,
                     const struct err_kind *none, struct pattern_ref *out)
{
    *out = (struct pattern_ref){ r->piece, PATTERN_NONE };
    if (!json_is(node, JSON_TEXT, r->errs))
        return false;
    if (find_ref(r, node->text, find, out))
        return true;
    const char *piece = r->piece == PATTERN_NONE ? "" : r->p->pieces[r->piece].name;
    json_fault(r->errs, node, none, ERR_TEXT(piece), ERR_TEXT(node->text));
    return false;
}

bool pattern_read_edge_ref(const struct pattern_reader *r, const struct json_node *node, struct pattern_ref *out)
{
    return read_ref(r, node, pattern_find_edge_or_curve, &no_edge, out);
}

bool pattern_read_point_ref(const struct pattern_reader *r, const struct json_node *node, struct pattern_ref *out)
{
    return read_ref(r, node, pattern_find_point, &no_point, out);
}

int pattern_read_point_name(const struct pattern_reader *r, const struct json_node *node)
{
    if (!json_is(node, JSON_TEXT, r->errs))
        return PATTERN_NONE;
    const struct pattern_piece *piece = &r->p->pieces[r->piece];
    int found = pattern_find_point(piece, node->text);
    if (found == PATTERN_NONE)
        json_fault(r->errs, node, &no_point, ERR_TEXT(piece->name), ERR_TEXT(node->text));
    return found;
}

int pattern_read_edge_name(const struct pattern_reader *r, const struct json_node *node)
{
    if (!json_is(node, JSON_TEXT, r->errs))
        return PATTERN_NONE;
    const struct pattern_piece *piece = &r->p->pieces[r->piece];
    int found = pattern_find_edge(piece, node->text);
    if (found == PATTERN_NONE)
        json_fault(r->errs, node, &no_edge, ERR_TEXT(piece->name), ERR_TEXT(node->text));
    return found;
}
