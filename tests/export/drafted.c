#include "export/drafted.h"

#include "support/at_size.h"

#include "pattern/read.h"

static struct drafted drafted_from(struct room *room, const char *name, const char *pieces, const char *cuts)
{
    static const char *const copies[] = { "Cut 2", "Cut 1 on the fold", "1 pair", "Cut 2", "Cut 1 on the fold" };
    const char *text = base_arena_print(room->a,
                                        "{ 'chalklight': 'pattern', 'version': 1, 'name': '%s', 'unit': 'mm',"
                                        "  'sizes': ['M', 'L'], 'chart': { 'hip': [940, 980] },"
                                        "  'main_measurement': 'hip', 'pieces': [ %s ],"
                                        "  'views': [ { 'name': 'A', 'cut': [ %s ] } ] }",
                                        name, pieces, cuts);
    const char *json = room_json(room, text);
    const struct pattern *p = pattern_parse(room->a, "pattern.json", json, strlen(json), room->errs);
    struct drafted d = { .names = { "", "Size M", copies } };
    bool ok = p && make_at_size(room->a, p, 0, PATTERN_NONE, 0, &d.draft, room->errs);
    room_nothing_told(room);
    assert_true(ok);
    d.names.pattern = p->name;
    return d;
}

struct drafted draft_small(struct room *room)
{
    return drafted_from(room, "P",
                        "{ 'name': 'strap', 'rectangle': { 'width': 200, 'height': 300 }, 'allowance': 10 },"
                        "{ 'name': 'front', 'rectangle': { 'width': 200, 'height': 300 }, 'allowance': 10,"
                        "  'fold': 'left' },"
                        "{ 'name': 'pocket', 'rectangle': { 'width': 200, 'height': 300 }, 'allowance': 10,"
                        "  'points': { 'hole': [50, 60], 'leg-in': [80, 0], 'leg-out': [120, 0], 'apex': [100, 90],"
                        "              'low': [0, 200], 'lower': [200, 200], 'high': [0, 250], 'higher': [200, 250],"
                        "              'first': [0, 150], 'last': [200, 150], 'left': [30, 280], 'right': [170, 280] },"
                        "  'notches': [ { 'edge': 'right', 'at': 100 }, { 'edge': 'right', 'at': 200, 'shape': 'v' } ],"
                        "  'buttons': [ { 'kind': 'button', 'from': 'left', 'to': 'right', 'count': 1, 'first': 70 },"
                        "    { 'kind': 'buttonhole', 'from': 'left', 'to': 'right', 'count': 2, 'length': 20 } ],"
                        "  'drill_marks': ['hole'],"
                        "  'darts': [ { 'edge': 'bottom', 'legs': ['leg-in', 'leg-out'], 'apex': 'apex' } ],"
                        "  'lines': [ { 'kind': 'fold', 'from': 'low', 'to': 'lower' },"
                        "             { 'kind': 'lengthen', 'from': 'high', 'to': 'higher' },"
                        "             { 'kind': 'match', 'from': 'first', 'to': 'last' } ] }",
                        "{ 'piece': 'strap', 'count': 2, 'cloth': 'lining' },"
                        "{ 'piece': 'front', 'count': 1 }, { 'piece': 'pocket', 'pairs': 1 },"
                        "{ 'piece': 'strap', 'count': 2, 'cloth': 'interfacing' },"
                        "{ 'piece': 'front', 'count': 1, 'cloth': 'interfacing', 'fuse': 'right side' }");
}

struct drafted draft_named(struct room *room, const char *name)
{
    return drafted_from(
        room, name, base_arena_print(room->a, "{ 'name': '%s', 'rectangle': { 'width': 100, 'height': 100 } }", name),
        base_arena_print(room->a, "{ 'piece': '%s', 'count': 1 }", name));
}
