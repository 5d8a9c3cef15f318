/* Points and edges by name: of the piece at hand, or "piece.name" of any. */
#include "pattern/reader.h"

#include "base/text.h"

#include <string.h>

static const struct err_kind no_edge = { "pattern.no_edge", ERR_FAULT, BASE_TR("piece “{0}” has no edge “{1}”; {2}") };
static const struct err_kind no_point = { "pattern.no_point", ERR_FAULT,
                                          BASE_TR("piece “{0}” has no point “{1}”; {2}") };
static const struct err_kind no_such_piece = {
    "pattern.no_piece_of", ERR_FAULT, BASE_TR("“{0}” names a piece “{1}”, which the pattern does not have{2}")
};

static const struct err_kind no_piece = { "pattern.no_piece", ERR_FAULT, BASE_TR("there is no piece “{0}”") };

enum { MOST_COMPARED = 1000, MOST_LISTED = 8 };

static bool find_in(const struct pattern_reader *r, int piece, const char *name, enum pattern_name_kind kind,
                    struct pattern_ref *out)
{
    if (piece == PATTERN_NONE)
        return false;
    int found = pattern_names_find(r->names, kind, piece, name);
    *out = (struct pattern_ref){ piece, found };
    return found != PATTERN_NONE;
}

/* The piece that a text names before its full stop, and the name in it; without one the piece at hand. */
static int piece_of(const struct pattern_reader *r, const char *text, const char **name)
{
    const char *dot = strchr(text, '.');
    *name = dot ? dot + 1 : text;
    if (!dot)
        return r->piece;
    const char *piece = base_arena_copy_bytes(r->a, text, (size_t)(dot - text));
    return pattern_names_find(r->names, PATTERN_NAME_PIECE, PATTERN_NONE, piece);
}

static bool find_ref(const struct pattern_reader *r, const char *text, enum pattern_name_kind kind,
                     struct pattern_ref *out)
{
    const char *name;
    if (find_in(r, r->piece, text, kind, out))
        return true;
    int piece = piece_of(r, text, &name);
    return name != text && find_in(r, piece, name, kind, out);
}

bool pattern_find_edge_ref(const struct pattern_reader *r, const char *text, struct pattern_ref *out)
{
    return find_ref(r, text, PATTERN_NAME_EDGE, out);
}

bool pattern_find_point_ref(const struct pattern_reader *r, const char *text, struct pattern_ref *out)
{
    return find_ref(r, text, PATTERN_NAME_POINT, out);
}

/* The names of a piece's points, or of its edges and curves, the first thousand. */
static size_t names_of(const struct pattern_piece *piece, bool is_edge, const char **names)
{
    size_t all = is_edge ? piece->edge_count + piece->curve_count : piece->point_count, count = 0;
    for (size_t i = 0; i < all && count < MOST_COMPARED; i++) {
        const char *name = is_edge ? piece->edges[i].name : piece->points[i].name;
        if (name)
            names[count++] = name;
    }
    return count;
}

static const char *nearest_in(const struct pattern_reader *r, int piece, const char *name, bool is_edge)
{
    const char *names[MOST_COMPARED];
    return piece == PATTERN_NONE ? NULL
                                 : base_text_nearest(name, names, names_of(&r->p->pieces[piece], is_edge, names));
}

static const char *nearest(const struct pattern_reader *r, const char *text, bool is_edge)
{
    const char *name;
    int piece = piece_of(r, text, &name);
    const char *found = nearest_in(r, piece, name, is_edge);
    return found && name != text ? base_arena_print(r->errs->arena, "%s.%s", r->p->pieces[piece].name, found) : found;
}

const char *pattern_nearest_edge(const struct pattern_reader *r, const char *text)
{
    return nearest(r, text, true);
}

const char *pattern_nearest_point(const struct pattern_reader *r, const char *text)
{
    return nearest(r, text, false);
}

/* "there are a, b, c" */
static const char *listed(struct arena *a, const struct pattern_piece *piece, bool is_edge)
{
    const char *names[MOST_COMPARED];
    size_t count = names_of(piece, is_edge, names);
    const char *text = count ? "there are" : "it has none";
    for (size_t i = 0; i < count && i < MOST_LISTED; i++)
        text = base_arena_print(a, "%s%s %s", text, i ? "," : "", json_shown(a, names[i]));
    return count > MOST_LISTED ? base_arena_print(a, "%s and more", text) : text;
}

static void tell_none(const struct pattern_reader *r, const struct json_node *node, int piece, const char *name,
                      bool is_edge)
{
    struct arena *a = r->errs->arena;
    const char *near = nearest_in(r, piece, name, is_edge);
    const char *advice =
        near ? base_arena_print(a, "did you mean “%s”?", near) : listed(a, &r->p->pieces[piece], is_edge);
    json_fault(r->errs, node, is_edge ? &no_edge : &no_point, ERR_TEXT(r->p->pieces[piece].name),
               ERR_TEXT(json_shown(a, name)), ERR_TEXT(advice));
}

void pattern_tell_no_edge(const struct pattern_reader *r, const struct json_node *node, const char *name)
{
    tell_none(r, node, r->piece, name, true);
}

static void tell_no_piece(const struct pattern_reader *r, const struct json_node *node)
{
    struct arena *a = r->errs->arena;
    const char *names[MOST_COMPARED];
    const char *piece = base_arena_copy_bytes(a, node->text, strcspn(node->text, "."));
    size_t count = r->p->piece_count < MOST_COMPARED ? r->p->piece_count : MOST_COMPARED;
    for (size_t i = 0; i < count; i++)
        names[i] = r->p->pieces[i].name;
    const char *near = base_text_nearest(piece, names, count);
    json_fault(r->errs, node, &no_such_piece, ERR_TEXT(json_shown(a, node->text)), ERR_TEXT(json_shown(a, piece)),
               ERR_TEXT(near ? base_arena_print(a, "; did you mean “%s”?", near) : ""));
}

static bool read_ref(const struct pattern_reader *r, const struct json_node *node, bool is_edge,
                     struct pattern_ref *out)
{
    const char *name;
    *out = (struct pattern_ref){ r->piece, PATTERN_NONE };
    if (!json_is(node, JSON_TEXT, r->errs))
        return false;
    if (find_ref(r, node->text, is_edge ? PATTERN_NAME_EDGE : PATTERN_NAME_POINT, out))
        return true;
    int piece = piece_of(r, node->text, &name);
    if (piece == PATTERN_NONE)
        tell_no_piece(r, node);
    else
        tell_none(r, node, piece, name, is_edge);
    return false;
}

bool pattern_read_edge_ref(const struct pattern_reader *r, const struct json_node *node, struct pattern_ref *out)
{
    return read_ref(r, node, true, out);
}

bool pattern_read_point_ref(const struct pattern_reader *r, const struct json_node *node, struct pattern_ref *out)
{
    return read_ref(r, node, false, out);
}

int pattern_read_point_name(const struct pattern_reader *r, const struct json_node *node)
{
    if (!json_is(node, JSON_TEXT, r->errs))
        return PATTERN_NONE;
    int found = pattern_names_find(r->names, PATTERN_NAME_POINT, r->piece, node->text);
    if (found == PATTERN_NONE)
        tell_none(r, node, r->piece, node->text, false);
    return found;
}

int pattern_need_point(const struct pattern_reader *r, const struct json_node *object, const char *name)
{
    const struct json_node *node = json_need(object, name, JSON_TEXT, r->errs);
    return node ? pattern_read_point_name(r, node) : PATTERN_NONE;
}

/* Curves come after the edges. */
int pattern_read_edge_name(const struct pattern_reader *r, const struct json_node *node)
{
    if (!json_is(node, JSON_TEXT, r->errs))
        return PATTERN_NONE;
    int found = pattern_names_find(r->names, PATTERN_NAME_EDGE, r->piece, node->text);
    if (found != PATTERN_NONE && found < (int)r->p->pieces[r->piece].edge_count)
        return found;
    tell_none(r, node, r->piece, node->text, true);
    return PATTERN_NONE;
}

int pattern_read_piece_name(const struct pattern_reader *r, const struct json_node *object)
{
    const char *name = json_need_text(object, "piece", r->errs);
    int piece = name ? pattern_names_find(r->names, PATTERN_NAME_PIECE, PATTERN_NONE, name) : PATTERN_NONE;
    if (name && piece == PATTERN_NONE)
        json_fault(r->errs, json_find(object, "piece"), &no_piece, ERR_TEXT(name));
    return piece;
}
