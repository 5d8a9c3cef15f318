/* How a piece is fitted to a person: the level each point follows in a blend, the slashes for a fuller bust, and
 * whether a trial garment has it. */
#include "pattern/reader.h"

static const struct err_kind no_level = { "pattern.no_level", ERR_FAULT,
                                          BASE_TR("the size chart has no row “{0}” for a level of the body") };
static const struct err_kind both_levels = { "pattern.both_levels", ERR_FAULT,
                                             BASE_TR("a piece has one level, or levels for its points, not both") };
static const struct err_kind level_twice = { "pattern.level_twice", ERR_FAULT,
                                             BASE_TR("point “{0}” has a level already") };
static const struct err_kind pair_form = { "pattern.spread_form", ERR_FAULT,
                                           BASE_TR("is a list of two points' names, the two ends of the slash") };

static int find_level(const struct pattern_reader *r, const struct json_node *node, const char *name)
{
    int row = pattern_find_row(r->p, name);
    if (row == PATTERN_NONE)
        json_fault(r->errs, node, &no_level, ERR_TEXT(name));
    return row;
}

static int *new_levels(const struct pattern_reader *r, int row)
{
    struct pattern_piece *piece = &r->pieces[r->piece];
    int *levels = base_arena_alloc(r->a, piece->point_count, sizeof *levels);
    for (size_t i = 0; i < piece->point_count; i++)
        levels[i] = row;
    piece->levels = levels;
    return levels;
}

static void read_points_of_level(const struct pattern_reader *r, const struct json_node *list, int *levels)
{
    int row = find_level(r, list, list->key);
    if (!json_is(list, JSON_LIST, r->errs))
        return;
    for (const struct json_node *n = list->first; n; n = n->next) {
        int point = pattern_read_point_name(r, n);
        if (point == PATTERN_NONE)
            continue;
        if (levels[point] != PATTERN_NONE)
            json_fault(r->errs, n, &level_twice, ERR_TEXT(n->text));
        levels[point] = row;
    }
}

static void read_levels(const struct pattern_reader *r, const struct json_node *n)
{
    const struct json_node *one = json_maybe(n, "level", JSON_TEXT, r->errs);
    const struct json_node *each = json_maybe(n, "levels", JSON_OBJECT, r->errs);
    if (one && each)
        json_fault(r->errs, n, &both_levels, ERR_NONE);
    else if (one)
        new_levels(r, find_level(r, one, one->text));
    else if (each) {
        int *levels = new_levels(r, PATTERN_NONE);
        for (const struct json_node *list = each->first; list; list = list->next)
            read_points_of_level(r, list, levels);
    }
}

static void need_pair(const struct pattern_reader *r, const struct json_node *object, const char *name, int pair[2])
{
    const struct json_node *list = json_need(object, name, JSON_LIST, r->errs);
    if (!list)
        return;
    if (list->count != 2) {
        json_fault(r->errs, list, &pair_form, ERR_NONE);
        return;
    }
    pair[0] = pattern_read_point_name(r, list->first);
    pair[1] = pattern_read_point_name(r, list->first->next);
}

static void read_bust_spread(const struct pattern_reader *r, const struct json_node *object)
{
    static const char *const fields[] = { "apex", "hinge", "side", "waist", NULL };
    struct pattern_bust_spread *spread = base_arena_alloc(r->a, 1, sizeof *spread);
    json_only(object, fields, r->errs);
    spread->apex = pattern_need_point(r, object, "apex");
    spread->hinge = pattern_need_point(r, object, "hinge");
    need_pair(r, object, "side", spread->side);
    need_pair(r, object, "waist", spread->waist);
    r->pieces[r->piece].bust_spread = spread;
}

void pattern_read_fitting(const struct pattern_reader *r, const struct json_node *object)
{
    const struct json_node *spread = json_maybe(object, "bust_spread", JSON_OBJECT, r->errs);
    const struct json_node *trial = json_find(object, "trial");
    read_levels(r, object);
    if (spread)
        read_bust_spread(r, spread);
    r->pieces[r->piece].left_out_of_trial = trial && !pattern_read_yes(r, object, "trial");
}
