/* A pattern of few pieces on a cloth, for tests of lays. */
#ifndef TESTS_LAY_LAYING_H
#define TESTS_LAY_LAYING_H

#include "lay/lay.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

/* A front on the fold, half of it 200 wide and 600 long; a sleeve that is no mirror image of itself, 300 by 400; a
 * rectangle of 100 by 150; a triangle whose grain runs across the drawing. All cut as drawn, no allowances. */
#define LAYING_PIECES                                                                                                  \
    "{ 'name': 'front', 'label': 'Front', 'points': { 'a': [0, 0], 'b': [200, 0], 'c': [150, 600], 'd': [0, 600] },"   \
    "  'outline': [ { 'name': 'hem', 'path': ['a', 'b'] }, { 'name': 'side', 'path': ['b', 'c'] },"                    \
    "    { 'name': 'top', 'path': ['c', 'd'] }, { 'name': 'middle', 'path': ['d', 'a'] } ], 'fold': 'middle' },"       \
    "{ 'name': 'sleeve', 'label': 'Sleeve', 'points': { 'a': [0, 0], 'b': [300, 0], 'c': [200, 400], 'd': [0, 350] }," \
    "  'outline': [ { 'name': 'hem', 'path': ['a', 'b'] }, { 'name': 'side', 'path': ['b', 'c'] },"                    \
    "    { 'name': 'top', 'path': ['c', 'd'] }, { 'name': 'other', 'path': ['d', 'a'] } ] },"                          \
    "{ 'name': 'tie', 'label': 'Tie', 'rectangle': { 'width': 100, 'height': 150 } },"                                 \
    "{ 'name': 'gusset', 'label': 'Gusset', 'points': { 'a': [0, 0], 'b': [120, 0], 'c': [0, 80] },"                   \
    "  'outline': [ { 'name': 'e', 'path': ['a', 'b', 'c', 'a'] } ], 'grain': ['a', 'b'] }"

struct laying {
    const struct pattern *pattern;
    struct draft draft;
    struct cloth cloth;
    struct lay_task task;
};

/* The pieces above, or others, with that cutting list, drafted; the cloth is not looked at yet. */
static inline struct laying *laying_of(struct room *room, const char *pieces, const char *seams, const char *cuts)
{
    struct laying *l = base_arena_alloc(room->a, 1, sizeof *l);
    const char *json = room_json(
        room, base_arena_print(room->a,
                               "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'mm', 'sizes': ['S'],"
                               "  'chart': { 'hip': [900] }, 'main_measurement': 'hip', 'pieces': [ %s ],"
                               "  'seams': [ %s ], 'views': [ { 'name': 'A', 'cut': [ %s ] } ] }",
                               pieces, seams, cuts));
    l->pattern = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_non_null(l->pattern);
    bool drafted = make_at_size(room->a, l->pattern, 0, PATTERN_NONE, 0, &l->draft, room->errs);
    room_nothing_told(room);
    assert_true(drafted);
    return l;
}

static inline bool laying_make(struct room *room, struct laying *l, struct cloth cloth, enum pattern_cloth material)
{
    l->cloth = cloth;
    return lay_task_make(room->a, &l->draft, NULL, &l->cloth, material, &l->task, room->errs);
}

/* Of fabric, with nothing to be told. */
static inline struct laying *laying_soundly(struct room *room, const char *cuts, struct cloth cloth)
{
    struct laying *l = laying_of(room, LAYING_PIECES, "", cuts);
    bool made = laying_make(room, l, cloth, PATTERN_FABRIC);
    room_nothing_told(room);
    assert_true(made);
    return l;
}

static inline struct cloth laying_cloth(double width_mm, enum cloth_spread_kind spread)
{
    return (struct cloth){ .width_mm = width_mm, .spread = spread };
}

/* The best of so many rounds, with nothing to be told. */
static inline struct lay laying_best_after(struct room *room, const struct lay_task *task,
                                           const struct lay_place *pinned, size_t rounds)
{
    struct lay_search *s = lay_search_begin(task, pinned, 1, NULL, NULL, room->errs);
    room_nothing_told(room);
    assert_non_null(s);
    for (size_t i = 0; i < rounds && lay_search_can_gain(s); i++)
        lay_search_round(s, NULL);
    struct lay lay = lay_search_best(room->a, s);
    lay_search_end(s);
    return lay;
}

static inline void laying_nothing_is_wrong(struct room *room, const struct lay *lay)
{
    const struct lay_finding *found;
    size_t count = lay_judge(room->a, lay, &found);
    for (size_t i = 0; i < count; i++)
        print_error("%s: fault %d by %g (with %d)\n", lay_item_name(room->a, lay->task, (size_t)found[i].item),
                    (int)found[i].fault, found[i].amount, found[i].other);
    assert_int_equal(count, 0);
}

#endif
