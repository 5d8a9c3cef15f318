/* How a point is found: two values, or a construction told by the names of its fields. */
#include "pattern/reader.h"

static const struct err_kind point_form = {
    "pattern.point_form", ERR_FAULT,
    BASE_TR("a point is a list of two values, across and up, or a construction such as "
            "{ \"from\", \"by\" }; DEVELOPERS.md lists "
            "them")
};
static const struct err_kind line_form = { "pattern.line_points", ERR_FAULT,
                                           BASE_TR("a line is told by a list of two different points on it") };
static const struct err_kind pair_form = { "pattern.pair_form", ERR_FAULT,
                                           BASE_TR("is a list of two values, across and up") };

/* What a field of a construction holds; `slot` is where it goes in the point's `of` or `v`. */
enum part { PART_POINT, PART_LINE, PART_EDGE, PART_LENGTH, PART_REACH, PART_NUMBER, PART_PAIR };

struct field {
    const char *name;
    enum part part;
    int slot;
    bool optional;
};

enum { MOST_FIELDS = 4 };

static const struct form {
    enum pattern_point_kind kind;
    struct field fields[MOST_FIELDS]; /* ended by a NULL name */
} form_rows[] = {
    { PATTERN_POINT_BY, { { "from", PART_POINT, 0, false }, { "by", PART_PAIR, 0, false } } },
    { PATTERN_POINT_POLAR,
      { { "from", PART_POINT, 0, false }, { "angle", PART_NUMBER, 0, false }, { "at", PART_LENGTH, 1, false } } },
    { PATTERN_POINT_TOWARDS,
      { { "from", PART_POINT, 0, false }, { "towards", PART_POINT, 1, false }, { "at", PART_LENGTH, 0, false } } },
    { PATTERN_POINT_SHARE,
      { { "from", PART_POINT, 0, false }, { "towards", PART_POINT, 1, false }, { "share", PART_NUMBER, 0, false } } },
    { PATTERN_POINT_ON,
      { { "on", PART_EDGE, 0, false }, { "at", PART_LENGTH, 0, false }, { "beside", PART_LENGTH, 1, true } } },
    { PATTERN_POINT_ON_END,
      { { "on", PART_EDGE, 0, false }, { "from_end", PART_LENGTH, 0, false }, { "beside", PART_LENGTH, 1, true } } },
    { PATTERN_POINT_MEET, { { "line", PART_LINE, 0, false }, { "meets", PART_LINE, 2, false } } },
    { PATTERN_POINT_CROSS, { { "edge", PART_EDGE, 0, false }, { "meets", PART_LINE, 1, false } } },
    { PATTERN_POINT_FOOT, { { "foot_of", PART_POINT, 0, false }, { "line", PART_LINE, 1, false } } },
    { PATTERN_POINT_TURN,
      { { "turn", PART_POINT, 0, false }, { "about", PART_POINT, 1, false }, { "angle", PART_NUMBER, 0, false } } },
    { PATTERN_POINT_MIRROR, { { "mirror", PART_POINT, 0, false }, { "line", PART_LINE, 1, false } } },
    { PATTERN_POINT_REACH,
      { { "from", PART_POINT, 0, false }, { "reach", PART_REACH, 0, false }, { "line", PART_LINE, 1, false } } },
    { PATTERN_POINT_SAME, { { "same", PART_POINT, 0, false } } },
};

/* All fields that the form needs are there, and no others. */
static bool has_form(const struct json_node *object, const struct form *form)
{
    size_t known = 0;
    for (int i = 0; i < MOST_FIELDS && form->fields[i].name; i++) {
        bool there = json_find(object, form->fields[i].name) != NULL;
        known += there;
        if (!there && !form->fields[i].optional)
            return false;
    }
    return known == object->count;
}

static void read_line(const struct pattern_reader *r, const struct json_node *node, struct pattern_ref ends[2])
{
    ends[0] = ends[1] = (struct pattern_ref){ r->piece, PATTERN_NONE };
    if (node->type != JSON_LIST || node->count != 2) {
        json_fault(r->errs, node, &line_form, ERR_NONE);
        return;
    }
    bool first = pattern_read_point_ref(r, node->first, &ends[0]);
    bool second = pattern_read_point_ref(r, node->first->next, &ends[1]);
    if (first && second && ends[0].piece == ends[1].piece && ends[0].index == ends[1].index)
        json_fault(r->errs, node, &line_form, ERR_NONE);
}

static void read_pair(const struct pattern_reader *r, const struct json_node *node, const struct err_kind *wrong,
                      struct pattern_value v[2])
{
    if (node->type != JSON_LIST || node->count != 2) {
        json_fault(r->errs, node, wrong, ERR_NONE);
        return;
    }
    pattern_read_value(r, node->first, PATTERN_ANY, &v[0]);
    pattern_read_value(r, node->first->next, PATTERN_ANY, &v[1]);
}

static void read_part(const struct pattern_reader *r, const struct json_node *node, const struct field *field,
                      struct pattern_point *point)
{
    switch (field->part) {
    case PART_POINT:
        pattern_read_point_ref(r, node, &point->of[field->slot]);
        return;
    case PART_LINE:
        read_line(r, node, &point->of[field->slot]);
        return;
    case PART_EDGE:
        pattern_read_edge_ref(r, node, &point->of[field->slot]);
        return;
    case PART_LENGTH:
        pattern_read_value(r, node, PATTERN_ANY, &point->v[field->slot]);
        return;
    case PART_REACH:
        pattern_read_value(r, node, PATTERN_NOT_NEGATIVE, &point->v[field->slot]);
        return;
    case PART_NUMBER:
        pattern_read_number(r, node, &point->v[field->slot]);
        return;
    case PART_PAIR:
        read_pair(r, node, &pair_form, &point->v[field->slot]);
        return;
    }
}

static void read_construction(const struct pattern_reader *r, const struct json_node *node, const struct form *form,
                              struct pattern_point *point)
{
    point->kind = form->kind;
    for (int i = 0; i < MOST_FIELDS && form->fields[i].name; i++) {
        const struct json_node *part = json_find(node, form->fields[i].name);
        if (part)
            read_part(r, part, &form->fields[i], point);
    }
}

void pattern_read_point(const struct pattern_reader *r, const struct json_node *node, struct pattern_point *point)
{
    point->place = json_place(r->a, node);
    if (node->type != JSON_OBJECT) {
        read_pair(r, node, &point_form, point->v);
        return;
    }
    for (size_t i = 0; i < sizeof form_rows / sizeof form_rows[0]; i++)
        if (has_form(node, &form_rows[i])) {
            read_construction(r, node, &form_rows[i], point);
            return;
        }
    json_fault(r->errs, node, &point_form, ERR_NONE);
}
