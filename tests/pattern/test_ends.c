/* How a pattern says where its allowances end. */
#include "pattern/read.h"
#include "support/room.h"

static const struct pattern *parse_piece(struct room *room, const char *piece)
{
    const char *text = base_arena_print(room->a,
                                        "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'mm',"
                                        "  'sizes': ['S'], 'chart': { 'hip': [900] }, 'main_measurement': 'hip',"
                                        "  'pieces': [ { 'name': 'p', %s } ],"
                                        "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }",
                                        piece);
    const char *json = room_json(room, text);
    return pattern_parse(room->a, "pattern.json", json, strlen(json), room->errs);
}

#define TRIANGLE(hem, side)                                                                                            \
    "'points': { 'a': [0, 0], 'b': [90, 0], 'c': [0, 90] }, 'outline': ["                                              \
    "{ 'name': 'hem', 'path': ['a', 'b']" hem " }, { 'name': 'side', 'path': ['b', 'c']" side " },"                    \
    "{ 'name': 'centre', 'path': ['c', 'a'] } ]"

static void one_word_holds_for_both_ends_and_two_for_each(void **state)
{
    struct room *room = *state;
    const struct pattern *p =
        parse_piece(room, TRIANGLE(", 'ends': ['mitre', 'folded back']", ", 'ends': ['mitre', 'square']"));
    room_nothing_told(room);
    assert_int_equal(p->pieces[0].edges[0].ends[0], PATTERN_END_MITRE);
    assert_int_equal(p->pieces[0].edges[0].ends[1], PATTERN_END_FOLDED_BACK);
    assert_int_equal(p->pieces[0].edges[1].ends[1], PATTERN_END_SQUARE);
    assert_int_equal(p->pieces[0].edges[2].ends[0], PATTERN_END_MITRE);
    p = parse_piece(room, "'rectangle': { 'width': 9, 'height': 9 }, 'ends': { 'left': 'clipped', 'top': 'clipped' }");
    room_nothing_told(room);
    assert_int_equal(p->pieces[0].edges[3].ends[1], PATTERN_END_CLIPPED);
    assert_int_equal(p->pieces[0].edges[2].ends[0], PATTERN_END_CLIPPED);
}

static void what_cannot_be_is_told(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *code, *path, *piece;
    } rows[] = {
        { "pattern.end_word", "pieces[0].outline[0].ends", TRIANGLE(", 'ends': 'round'", "") },
        { "pattern.end_word", "pieces[0].outline[0].ends[1]", TRIANGLE(", 'ends': ['mitre', 'round']", "") },
        { "pattern.ends_form", "pieces[0].outline[0].ends", TRIANGLE(", 'ends': ['mitre']", "") },
        { "pattern.ends_form", "pieces[0].outline[0].ends", TRIANGLE(", 'ends': true", "") },
        { "json.wrong_type", "pieces[0].outline[0].ends[0]", TRIANGLE(", 'ends': [1, 'mitre']", "") },
        { "pattern.ends_conflict", "pieces[0].outline[1]", TRIANGLE(", 'ends': 'folded back'", ", 'ends': 'square'") },
        { "pattern.ends_conflict", "pieces[0].outline[1]", TRIANGLE(", 'ends': 'clipped'", ", 'ends': 'square'") },
        { "pattern.fold_ends", "pieces[0].outline[0]", TRIANGLE(", 'ends': 'square'", "") ", 'fold': 'hem'" },
        { "pattern.no_edge", "pieces[0].ends.hem",
          "'rectangle': { 'width': 9, 'height': 9 }, 'ends': { 'hem': 'square' }" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_null(parse_piece(room, rows[i].piece));
        room_only_told_at(room, rows[i].code, rows[i].path);
        room_forget(room);
    }
}

/* Two that clip one corner agree, and the fold takes no side. */
static void neighbours_may_agree(void **state)
{
    struct room *room = *state;
    assert_non_null(parse_piece(room, TRIANGLE(", 'ends': 'clipped'", ", 'ends': 'clipped'")));
    assert_non_null(
        parse_piece(room, TRIANGLE(", 'ends': 'folded back'", ", 'ends': ['mitre', 'square']") ", 'fold': 'centre'"));
    room_nothing_told(room);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(one_word_holds_for_both_ends_and_two_for_each),
        room_test(what_cannot_be_is_told),
        room_test(neighbours_may_agree),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
