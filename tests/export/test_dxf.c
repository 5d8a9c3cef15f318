#include "export/drafted.h"
#include "export/dxf.h"

#include <stdlib.h>

enum { MOST_GROUPS = 4000 };

struct group {
    int code;
    const char *value;
};

struct groups {
    struct group items[MOST_GROUPS];
    size_t count;
};

/* The file's lines two by two: a code and its value. */
static struct groups *groups_of(struct room *room, const char *dxf)
{
    struct groups *g = base_arena_alloc(room->a, 1, sizeof *g);
    char *line = strtok(base_arena_copy_text(room->a, dxf), "\n");
    for (; line; line = strtok(NULL, "\n")) {
        char *end, *value = strtok(NULL, "\n");
        struct group group = { (int)strtol(line, &end, 10), value };
        assert_non_null(value);
        assert_true(end > line && !*end);
        assert_true(g->count < MOST_GROUPS);
        g->items[g->count++] = group;
    }
    return g;
}

static bool is(const struct group *group, int code, const char *value)
{
    return group->code == code && strcmp(group->value, value) == 0;
}

static size_t find(const struct groups *g, size_t from, int code, const char *value)
{
    for (size_t i = from; i < g->count; i++)
        if (is(&g->items[i], code, value))
            return i;
    fail_msg("no group %d with %s", code, value);
    return 0;
}

/* The value of that code in the entity that begins at group `i`. */
static double number(const struct groups *g, size_t i, int code)
{
    for (i++; i < g->count && g->items[i].code != 0; i++)
        if (g->items[i].code == code)
            return strtod(g->items[i].value, NULL);
    fail_msg("no code %d", code);
    return 0;
}

/* The first entity of that name and layer from there to the end of its block; g->count when there is none. */
static size_t entity(const struct groups *g, size_t from, const char *name, int layer)
{
    for (size_t i = from; i < g->count && !is(&g->items[i], 0, "ENDBLK"); i++)
        if (is(&g->items[i], 0, name) && (int)number(g, i, 8) == layer)
            return i;
    return g->count;
}

static double side_length(const struct groups *g, size_t line)
{
    assert_true(line < g->count);
    return hypot(number(g, line, 11) - number(g, line, 10), number(g, line, 21) - number(g, line, 20));
}

static double polyline_length(const struct groups *g, size_t line)
{
    assert_true(line < g->count);
    double first[2], last[2], length = 0;
    bool closed = number(g, line, 70) == 1;
    size_t i = find(g, line, 0, "VERTEX"), end = find(g, line, 0, "SEQEND");
    first[0] = last[0] = number(g, i, 10);
    first[1] = last[1] = number(g, i, 20);
    for (; i < end; i++) {
        if (!is(&g->items[i], 0, "VERTEX"))
            continue;
        double x = number(g, i, 10), y = number(g, i, 20);
        length += hypot(x - last[0], y - last[1]);
        last[0] = x;
        last[1] = y;
    }
    return length + (closed ? hypot(first[0] - last[0], first[1] - last[1]) : 0);
}

static struct groups *small(struct room *room)
{
    struct drafted d = draft_small(room);
    return groups_of(room, export_dxf(room->a, &d.draft, &d.names));
}

static void sections_follow_each_other_to_the_end(void **state)
{
    const struct groups *g = small(*state);
    size_t at = find(g, 0, 2, "HEADER");
    at = find(g, at, 1, "AC1009");
    at = find(g, at, 2, "TABLES");
    at = find(g, at, 2, "BLOCKS");
    at = find(g, at, 2, "ENTITIES");
    at = find(g, at, 1, "UNITS: METRIC");
    at = find(g, at, 0, "ENDSEC");
    assert_true(is(&g->items[at + 1], 0, "EOF"));
    assert_int_equal(at + 2, g->count);
}

/* Layer numbers after ASTM D6673-10, from memory; lengths by hand. */
static void lines_lie_on_their_layers(void **state)
{
    const struct groups *g = small(*state);
    size_t block = find(g, find(g, 0, 2, "BLOCKS"), 2, "P3_POCKET");
    assert_near(polyline_length(g, entity(g, block, "POLYLINE", 1)), 1080, 1e-3);
    assert_near(polyline_length(g, entity(g, block, "POLYLINE", 14)), 1000, 1e-3);
    assert_near(side_length(g, entity(g, block, "LINE", 7)), 210, 1e-3);
    assert_near(side_length(g, entity(g, block, "LINE", 4)), 3, 1e-3);
    size_t notch = entity(g, block, "POINT", 4), drill = entity(g, block, "POINT", 13);
    assert_near(number(g, notch, 10), 210, 1e-4);
    assert_near(number(g, notch, 20), 100, 1e-4);
    assert_near(number(g, drill, 10), 50, 1e-4);
    assert_near(number(g, drill, 20), 60, 1e-4);
    size_t v = entity(g, notch + 1, "POINT", 4), button = entity(g, drill + 1, "POINT", 13);
    assert_near(number(g, v, 10), 210, 1e-4); /* on the cut line, between the V's sides */
    assert_near(number(g, v, 20), 200, 1e-4);
    size_t side = entity(g, v, "LINE", 4);
    assert_near(side_length(g, side), 4.2426, 1e-3); /* √18 */
    assert_near(number(g, side, 21), 200, 1e-4);
    assert_near(side_length(g, entity(g, side + 1, "LINE", 4)), 4.2426, 1e-3);
    assert_near(number(g, button, 10), 100, 1e-4);
    assert_near(number(g, button, 20), 280, 1e-4);
    /* two legs, then the lines */
    static const double want[] = { 92.1954, 92.1954, 200, 200, 200 };
    size_t at = block;
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
        at = entity(g, at + 1, "LINE", 8);
        assert_near(side_length(g, at), want[i], 1e-3);
    }
    assert_int_equal(entity(g, at + 1, "LINE", 8), g->count);
    assert_int_equal(entity(g, block, "LINE", 6), g->count);
    size_t hole = entity(g, block, "LINE", 11), second = entity(g, hole + 1, "LINE", 11); /* cut, not drawn */
    assert_near(side_length(g, hole), 20, 1e-3);
    assert_near(side_length(g, second), 20, 1e-3);
    assert_int_equal(entity(g, second + 1, "LINE", 11), g->count);
}

/* Of the standard's layers each that is drawn on is in the table of layers once; those of kinds of notches that no
 * pattern has are named as such, and nothing is on them. */
static void layers_are_listed_once_and_said_what_they_are(void **state)
{
    const struct groups *g = small(*state);
    static const int written[] = { 0, 1, 4, 6, 7, 8, 11, 13, 14, 15 };
    size_t at = find(g, 0, 2, "LAYER"), count = 0;
    for (; !is(&g->items[at], 0, "ENDTAB"); at++)
        if (is(&g->items[at], 0, "LAYER")) {
            assert_true(count < sizeof written / sizeof written[0]);
            assert_near(number(g, at, 2), written[count++], 0);
        }
    assert_int_equal(count, sizeof written / sizeof written[0]);
    static const char *const said[] = { "layer 4: slit and V notches",        "layer 11: internal lines, cut",
                                        "layer 80: T notches; none here",     "layer 81: castle notches; none here",
                                        "layer 82: check notches; none here", "layer 83: U notches; none here" };
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++)
        find(g, 0, 999, said[i]);
    for (int layer = 80; layer <= 83; layer++)
        for (size_t i = 0; i < g->count; i++)
            assert_false(g->items[i].code == 8 && atoi(g->items[i].value) == layer);
}

/* The boundary is closed over the fold, the stitching line is not. */
static void a_fold_lies_on_the_mirror_layer(void **state)
{
    const struct groups *g = small(*state);
    size_t block = find(g, find(g, 0, 2, "BLOCKS"), 2, "P2_FRONT");
    assert_near(polyline_length(g, entity(g, block, "POLYLINE", 1)), 1060, 1e-3);
    assert_near(polyline_length(g, entity(g, block, "POLYLINE", 14)), 700, 1e-3);
    assert_near(side_length(g, entity(g, block, "LINE", 6)), 320, 1e-3);
}

static void each_block_is_inserted_once_where_its_piece_stands(void **state)
{
    static const struct {
        const char *name;
        double x;
    } want[] = { { "P1_STRAP", 140 }, { "P2_FRONT", 370 }, { "P3_POCKET", 610 } }; /* test_sheet.c, and 10 allowance */
    const struct groups *g = small(*state);
    size_t at = find(g, 0, 2, "ENTITIES");
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
        at = find(g, at, 0, "INSERT");
        assert_true(find(g, at, 2, want[i].name) < at + 4);
        assert_near(number(g, at, 10), want[i].x, 1e-4);
        assert_near(number(g, at, 20), 20, 1e-4);
        at++;
    }
}

static void a_piece_says_what_it_is(void **state)
{
    const struct groups *g = small(*state);
    size_t at = find(g, find(g, 0, 2, "BLOCKS"), 2, "P1_STRAP");
    static const char *const want[] = { "PIECE NAME: strap",
                                        "SIZE: Size M",
                                        "QUANTITY: 2",
                                        "MATERIAL: lining",
                                        "ANNOTATION: Cut 2",
                                        "MATERIAL: interfacing",
                                        "ANNOTATION: Cut 2, fused on the wrong side" };
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++)
        at = find(g, at, 1, want[i]);
    assert_true(at < find(g, 0, 0, "ENDBLK"));
    find(g, find(g, at, 2, "P2_FRONT"), 1, "ANNOTATION: Cut 1 on the fold, fused on the right side");
}

static void letters_past_ascii_are_escaped(void **state)
{
    struct room *room = *state;
    struct drafted d = draft_named(room, "Ärmel 5%^\\\\ \\ud83d\\ude00\\n!");
    const char *dxf = export_dxf(room->a, &d.draft, &d.names);
    assert_non_null(strstr(dxf, "\nPIECE NAME: \\U+00C4rmel 5\\U+0025\\U+005E\\U+005C ? !\n"));
    for (const char *c = dxf; *c; c++)
        assert_true(*c == '\n' || (*c >= ' ' && *c < 0x7f));
}

/* A value is at most 255 characters long in that release; escapes stay whole. */
static void long_names_end_in_time(void **state)
{
    struct room *room = *state;
    char name[2 * 100 + 1] = "";
    for (int i = 0; i < 100; i++)
        strcpy(name + 2 * i, "ü");
    struct drafted d = draft_named(room, name);
    const struct groups *g = groups_of(room, export_dxf(room->a, &d.draft, &d.names));
    for (size_t i = 0; i < g->count; i++)
        assert_true(strlen(g->items[i].value) <= 255);
    assert_non_null(strstr(g->items[find(g, 0, 0, "TEXT") + 6].value, "\\U+00FC"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(sections_follow_each_other_to_the_end),
        room_test(lines_lie_on_their_layers),
        room_test(layers_are_listed_once_and_said_what_they_are),
        room_test(a_fold_lies_on_the_mirror_layer),
        room_test(each_block_is_inserted_once_where_its_piece_stands),
        room_test(a_piece_says_what_it_is),
        room_test(letters_past_ascii_are_escaped),
        room_test(long_names_end_in_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
