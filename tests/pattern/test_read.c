#include "base/buffer.h"
#include "pattern/read.h"
#include "support/room.h"

/* A whole small pattern, line by line, so that a fault can be put into any of them. */
static const char *const good_lines[] = {
    /*  1 */ "{ 'chalklight': 'pattern', 'version': 1,",
    /*  2 */ "  'name': 'Small bag', 'unit': 'cm',",
    /*  3 */ "  'sizes': ['S', 'M', 'L'],",
    /*  4 */ "  'chart': { 'bust': [80, 88, 96],",
    /*  5 */ "    'hip': [90, 90, 98] },",
    /*  6 */ "  'main_measurement': 'bust',",
    /*  7 */ "  'cup_groups': [ { 'name': 'A-B', 'bust': [80, 88, 96] },",
    /*  8 */ "    { 'name': 'C-D', 'bust': [85, 93, 101] } ], 'finished': { 'hip': [95, 96, 104] },",
    /*  9 */ "  'pieces': [ { 'name': 'front', 'label': 'Bag front',",
    /* 10 */ "    'points': { 'a': [0, '-1/2 in'], 'b': [[20, 22, 24], 0], 'c': [20, 30],",
    /* 11 */ "      'd': [0, 30], 'c1': [5, 25], 'c2': [15, 25] },",
    /* 12 */ "    'outline': [ { 'name': 'hem', 'path': ['a', 'b'], 'allowance': [4, 4, 5] },",
    /* 13 */ "      { 'name': 'side', 'path': ['b', 'c'] },",
    /* 14 */ "      { 'name': 'top', 'path': ['c', ['c2', 'c1', 'd']], 'allowance': '5/8 in' },",
    /* 15 */ "      { 'name': 'centre', 'path': ['d', 'a'] } ],",
    /* 16 */ "    'allowance': 1.5,",
    /* 17 */ "    'fold': 'centre',",
    /* 18 */ "    'grain': ['a', 'd'],",
    /* 19 */ "    'label_at': 'c1' },",
    /* 20 */ "    { 'name': 'strap', 'cup_group': 'C-D', 'rectangle': { 'width': 10, 'height': [30, 31, 32] },",
    /* 21 */ "      'allowance': 1,",
    /* 22 */ "      'allowances': { 'left': '5/8 in', 'top': 0 } },",
    /* 23 */ "    { 'name': 'pocket', 'cup_group': 'A-B', 'rectangle': { 'width': 10, 'height': 10 } } ],",
    /* 24 */ "  'seams': [ { 'name': 'side seam', 'join': [ ['front.side'], ['strap.left', 'strap.left'] ],",
    /* 25 */ "      'difference': '-3 mm' },",
    /* 26 */ "    { 'name': 'gathers', 'join': [ ['front.hem'], ['front.top'] ],",
    /* 27 */ "      'ratio': 1.5 } ],",
    /* 28 */ "  'views': [ { 'name': 'A', 'label': 'With strap',",
    /* 29 */ "    'cut': [ { 'piece': 'front', 'count': 1 },",
    /* 30 */ "      { 'piece': 'strap', 'count': 999, 'cloth': 'interfacing' } ] },",
    /* 31 */ "    { 'name': 'B', 'cut': [ { 'piece': 'front', 'count': 2, 'cloth': 'lining' } ] } ] }",
};

enum { GOOD_LINES = sizeof good_lines / sizeof good_lines[0], MOST_CHANGES = 4 };

struct change {
    int line; /* 0: none */
    const char *text;
};

static const struct pattern *parse(struct room *room, const char *text)
{
    const char *json = room_json(room, text);
    return pattern_parse(room->a, "bag.json", json, strlen(json), room->errs);
}

static const struct pattern *parse_changed(struct room *room, const struct change *changes, size_t count)
{
    const char *text = "";
    for (int line = 1; line <= GOOD_LINES; line++) {
        const char *now = good_lines[line - 1];
        for (size_t c = 0; c < count; c++)
            if (changes[c].line == line)
                now = changes[c].text;
        text = base_arena_print(room->a, "%s%s\n", text, now);
    }
    return parse(room, text);
}

static const struct pattern *parse_good(struct room *room)
{
    const struct pattern *p = parse_changed(room, NULL, 0);
    room_nothing_told(room);
    assert_non_null(p);
    return p;
}

static void the_chart_and_the_cup_groups_are_read(void **state)
{
    const struct pattern *p = parse_good(*state);
    assert_string_equal(p->name, "Small bag");
    assert_int_equal(p->unit, UNITS_CM);
    assert_int_equal(p->size_count, 3);
    assert_int_equal(pattern_find_size(p, "L"), 2);
    assert_int_equal(pattern_find_size(p, "XL"), PATTERN_NONE);
    assert_int_equal(p->row_count, 2);
    assert_int_equal(p->main_row, pattern_find_row(p, "bust"));
    assert_near(pattern_value_at(p->chart[pattern_find_row(p, "hip")].value, 2), 980, 0);
    assert_int_equal(p->cup_group_count, 2);
    assert_near(pattern_value_at(p->cup_groups[pattern_find_cup_group(p, "C-D")].bust, 0.5), 890, 0);
    assert_int_equal(pattern_find_cup_group(p, "E"), PATTERN_NONE);
}

static void a_pattern_may_have_its_chart_on_paper(void **state)
{
    static const struct change changes[] = {
        { 4, "" }, { 5, "" }, { 6, "" }, { 7, "'cup_groups': [ { 'name': 'A-B' }," }, { 8, "{ 'name': 'C-D' } ]," }
    };
    struct room *room = *state;
    const struct pattern *p = parse_changed(room, changes, sizeof changes / sizeof changes[0]);
    room_nothing_told(room);
    assert_non_null(p);
    assert_false(pattern_has_chart(p));
    assert_false(pattern_has_group_busts(p));
    assert_int_equal(p->main_row, PATTERN_NONE);
    assert_int_equal(p->figure_count, 0);
    double position;
    assert_true(pattern_find_position(p, "M to L", &position));
    assert_near(position, 1.5, 0);
    assert_int_equal(pattern_drawn_for(p, "bust", 0).count, 0);
}

static void a_main_measurement_is_a_row_of_the_chart_that_is_there(void **state)
{
    static const struct change no_chart[] = { { 4, "" }, { 5, "" } }, no_main[] = { { 6, "" } };
    struct room *room = *state;
    assert_null(parse_changed(room, no_chart, 2));
    assert_true(base_err_list_has(room->errs, "pattern.row_of_none"));
    room_forget(room);
    assert_null(parse_changed(room, no_main, 1));
    assert_string_equal(room->errs->items[0].kind->code, "json.missing");
}

static void a_drawn_piece_is_read(void **state)
{
    const struct pattern *p = parse_good(*state);
    assert_int_equal(p->piece_count, 3);
    const struct pattern_piece *front = &p->pieces[pattern_find_piece(p, "front")];
    assert_string_equal(front->label, "Bag front");
    assert_int_equal(front->cup_group, PATTERN_NONE);
    assert_int_equal(front->point_count, 6);
    int a = pattern_find_point(front, "a"), b = pattern_find_point(front, "b");
    assert_near(pattern_value_at(front->points[a].v[1], 1), -12.7, 1e-12); /* half an inch */
    assert_near(pattern_value_at(front->points[b].v[0], 0.5), 210, 0);
    assert_int_equal(front->edge_count, 4);
    const struct pattern_edge *top = &front->edges[pattern_find_edge(front, "top")];
    assert_int_equal(top->start, pattern_find_point(front, "c"));
    assert_int_equal(top->step_count, 1);
    assert_int_equal(top->steps[0].control[0], pattern_find_point(front, "c2"));
    assert_int_equal(top->steps[0].control[1], pattern_find_point(front, "c1"));
    assert_int_equal(top->steps[0].end, pattern_find_point(front, "d"));
    assert_int_equal(front->edges[0].steps[0].kind, PATTERN_STEP_LINE);
    assert_int_equal(front->fold, pattern_find_edge(front, "centre"));
    assert_int_equal(front->grain[0], a);
    assert_int_equal(front->grain[1], pattern_find_point(front, "d"));
    assert_int_equal(front->label_at, pattern_find_point(front, "c1"));
    assert_int_equal(front->place.line, 9);
    assert_string_equal(front->place.file, "bag.json");
    assert_string_equal(front->place.path, "pieces[0]");
}

static double allowance(const struct pattern_piece *piece, const char *edge, double position)
{
    return pattern_value_at(piece->edges[pattern_find_edge(piece, edge)].allowance, position);
}

/* 5/8 in = 15.875 mm. */
static void allowances_come_from_the_edge_or_else_from_the_piece_and_a_fold_has_none(void **state)
{
    const struct pattern *p = parse_good(*state);
    const struct pattern_piece *front = &p->pieces[0], *strap = &p->pieces[1], *pocket = &p->pieces[2];
    assert_near(allowance(front, "hem", 1), 40, 0);
    assert_near(allowance(front, "hem", 1.5), 45, 0);
    assert_near(allowance(front, "side", 1), 15, 0);
    assert_near(allowance(front, "top", 1), 15.875, 1e-12);
    assert_near(allowance(front, "centre", 1), 0, 0);
    assert_near(allowance(strap, "left", 0), 15.875, 1e-12);
    assert_near(allowance(strap, "right", 0), 10, 0);
    assert_near(allowance(strap, "top", 0), 0, 0);
    assert_near(allowance(pocket, "bottom", 0), 0, 0);
}

static void a_rectangle_has_four_corners_and_four_edges_counter_clockwise(void **state)
{
    const struct pattern *p = parse_good(*state);
    const struct pattern_piece *strap = &p->pieces[pattern_find_piece(p, "strap")];
    static const struct {
        const char *edge;
        double x, y; /* where it starts, in the last size */
    } rows[] = { { "bottom", 0, 0 }, { "right", 100, 0 }, { "top", 100, 320 }, { "left", 0, 320 } };
    assert_int_equal(strap->edge_count, 4);
    assert_int_equal(strap->cup_group, pattern_find_cup_group(p, "C-D"));
    assert_string_equal(strap->label, "strap");
    for (int i = 0; i < 4; i++) {
        assert_int_equal(pattern_find_edge(strap, rows[i].edge), i);
        const struct pattern_edge *edge = &strap->edges[i], *next = &strap->edges[(i + 1) % 4];
        assert_near(pattern_value_at(strap->points[edge->start].v[0], 2), rows[i].x, 0);
        assert_near(pattern_value_at(strap->points[edge->start].v[1], 2), rows[i].y, 0);
        assert_int_equal(edge->steps[0].end, next->start);
    }
}

static void seams_and_views_are_read(void **state)
{
    const struct pattern *p = parse_good(*state);
    assert_int_equal(p->seam_count, 2);
    const struct pattern_seam *side = &p->seams[0], *gathers = &p->seams[1];
    assert_false(pattern_value_is_given(side->ratio));
    assert_near(pattern_value_at(side->difference, 0), -3, 0);
    assert_int_equal(side->sides[0].count, 1);
    assert_int_equal(side->sides[1].count, 2);
    assert_int_equal(side->sides[1].edges[1].piece, 1);
    assert_int_equal(side->sides[1].edges[1].edge, pattern_find_edge(&p->pieces[1], "left"));
    assert_int_equal(side->cup_group, pattern_find_cup_group(p, "C-D")); /* by the strap */
    assert_near(pattern_value_at(gathers->ratio, 0), 1.5, 0);
    assert_int_equal(gathers->cup_group, PATTERN_NONE);

    assert_int_equal(p->view_count, 2);
    const struct pattern_view *a = &p->views[pattern_find_view(p, "A")], *b = &p->views[pattern_find_view(p, "B")];
    assert_string_equal(a->label, "With strap");
    assert_string_equal(b->label, "B");
    assert_int_equal(a->cut_count, 2);
    assert_int_equal(a->cuts[0].cloth, PATTERN_FABRIC);
    assert_int_equal(a->cuts[1].piece, 1);
    assert_int_equal(a->cuts[1].count.number, 999);
    assert_int_equal(a->cuts[1].cloth, PATTERN_INTERFACING);
    assert_int_equal(b->cuts[0].cloth, PATTERN_LINING);
}

static void finished_measurements_are_the_same_for_all_cup_groups_or_given_for_each(void **state)
{
    struct room *room = *state;
    const struct change each = { 8, "{ 'name': 'C-D', 'bust': 93 } ], 'finished': { 'hip': 99,"
                                    " 'bust': { 'C-D': [95, 103, 111], 'A-B': 90 } }," };
    const struct pattern *p = parse_changed(room, &each, 1);
    room_nothing_told(room);
    assert_non_null(p);
    assert_near(pattern_value_at(pattern_finished(p, "hip", 0), 1), 990, 0);
    assert_near(pattern_value_at(pattern_finished(p, "hip", 1), 1), 990, 0);
    assert_near(pattern_value_at(pattern_finished(p, "bust", 0), 2), 900, 0);
    assert_near(pattern_value_at(pattern_finished(p, "bust", 1), 2), 1110, 0);
    assert_int_equal(pattern_finished(p, "waist", 1).count, 0);
    assert_int_equal(pattern_finished(p, "bust", PATTERN_NONE).count, 0);
}

/* Worked out in every size by the rows of the chart: hips of 90, 90 and 98 cm, busts of 80, 88, 96 and of 85, 93, 101
 * cm. Hand-worked; between sizes the outcomes are interpolated. */
static void what_is_said_of_the_garment_may_be_a_formula_over_the_chart(void **state)
{
    struct room *room = *state;
    const struct change each = { 8,
                                 "{ 'name': 'C-D', 'bust': [85, 93, 101] } ], 'values': { 'room': 'twice / 2 + 1/4 in',"
                                 " 'twice': ['8', 'hip / 10 + 1', 12] }, 'finished': { 'hip': ['hip + 5', 97, '1 m'],"
                                 " 'bust': 'bust + room' },"
                                 " 'ease': { 'bust': { 'A-B': 'room', 'C-D': 'bust * bust / 1000' } }," };
    const struct pattern *p = parse_changed(room, &each, 1);
    room_nothing_told(room);
    static const struct {
        double position, hip, bust[2], ease[2];
    } rows[] = {
        { 0, 950, { 846.35, 896.35 }, { 46.35, 72.25 } },
        { 1, 970, { 936.35, 986.35 }, { 56.35, 86.49 } },
        { 2, 1000, { 1026.35, 1076.35 }, { 66.35, 102.01 } },
        { 0.5, 960, { 891.35, 941.35 }, { 51.35, 79.37 } }, /* (72.25 + 86.49) / 2, not of a bust of 89 */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        for (int g = 0; g < 2; g++) {
            assert_near(pattern_value_at(pattern_finished(p, "hip", g), rows[i].position), rows[i].hip, 1e-9);
            assert_near(pattern_value_at(pattern_finished(p, "bust", g), rows[i].position), rows[i].bust[g], 1e-9);
            assert_near(pattern_value_at(pattern_intended_ease(p, "bust", g), rows[i].position), rows[i].ease[g], 1e-9);
        }
}

/* Each told once, for all sizes and cup groups. */
static void what_the_chart_cannot_say_of_the_garment_is_told(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *values, *finished, *code;
    } rows[] = {
        { "", "hip + length(front.hem)", "pattern.chart_piece" },
        { "'q': 'x(front.a)'", "hip + q", "pattern.chart_piece" },
        { "", "hip + wrist", "pattern.chart_no_row" },
        { "'q': 'r', 'r': '1 + q'", "hip + q", "pattern.chart_circle" },
        { "", "hip / (bust - 80)", "pattern.divides_by_zero" },
        { "", "hip - 95", "pattern.formula_not_positive" },
        { "", "sqrt(0 - hip)", "pattern.no_root" },
        { "", "hip * hip * hip", "pattern.too_large" },
        { "", "hips + 4", "pattern.formula_name" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct change change = {
            8, base_arena_print(room->a,
                                "{ 'name': 'C-D', 'bust': 93 } ], 'measurements': ['wrist'], 'values': { %s },"
                                " 'finished': { 'hip': '%s' },",
                                rows[i].values, rows[i].finished)
        };
        assert_null(parse_changed(room, &change, 1));
        assert_int_equal(room_only_told(room, rows[i].code)->place.line, 8);
        room_forget(room);
    }
}

/* A knit's is below zero. */
static void intended_ease_is_given_like_the_finished_measurements_it_belongs_to(void **state)
{
    struct room *room = *state;
    const struct change each = { 8, "{ 'name': 'C-D', 'bust': 93 } ], 'finished': { 'hip': 99, 'bust': 95 },"
                                    " 'ease': { 'hip': [5, '-1 in', -4.5],"
                                    " 'bust': { 'C-D': 0, 'A-B': '3/4 in' } }," };
    const struct pattern *p = parse_changed(room, &each, 1);
    room_nothing_told(room);
    assert_near(pattern_value_at(pattern_intended_ease(p, "hip", 0), 1), -25.4, 1e-12);
    assert_near(pattern_value_at(pattern_intended_ease(p, "hip", 1), 1.5), (-25.4 - 45) / 2, 1e-12);
    assert_near(pattern_value_at(pattern_intended_ease(p, "bust", 0), 2), 19.05, 1e-12);
    assert_int_equal(pattern_intended_ease(p, "bust", 1).count, 1);
    assert_int_equal(pattern_intended_ease(p, "bust", PATTERN_NONE).count, 0);
    assert_int_equal(pattern_intended_ease(p, "waist", 1).count, 0);
}

#define GIRTHS(parts) "{ 'name': 'C-D', 'bust': 93 } ], 'girths': { 'hip': " parts " },"

static void girths_are_read_with_their_levels_and_edges(void **state)
{
    struct room *room = *state;
    const struct change girths = {
        8, "{ 'name': 'C-D', 'bust': 93 } ], 'measurements': ['wrist'], 'ease': { 'hip': 3 }, 'girths': { 'hip': ["
           "  { 'piece': 'front', 'level': 'd', 'times': 2 }, { 'edge': 'strap.top', 'times': 999 } ],"
           "  'wrist': [ { 'times': 1, 'edge': 'front.hem' } ] },"
    };
    const struct pattern *p = parse_changed(room, &girths, 1);
    room_nothing_told(room);
    assert_int_equal(p->girth_count, 2);
    const struct pattern_girth *hip = pattern_find_girth(p, "hip"), *wrist = pattern_find_girth(p, "wrist");
    assert_null(pattern_find_girth(p, "bust"));
    assert_int_equal(hip->part_count, 2);
    assert_int_equal(hip->parts[0].piece, 0);
    assert_int_equal(hip->parts[0].level, pattern_find_point(&p->pieces[0], "d"));
    assert_int_equal(hip->parts[0].edge, PATTERN_NONE);
    assert_int_equal(hip->parts[0].times, 2);
    assert_int_equal(hip->parts[1].piece, 1);
    assert_int_equal(hip->parts[1].level, PATTERN_NONE);
    assert_int_equal(hip->parts[1].edge, pattern_find_edge(&p->pieces[1], "top"));
    assert_int_equal(hip->parts[1].times, 999);
    assert_int_equal(wrist->parts[0].edge, pattern_find_edge(&p->pieces[0], "hem"));
    assert_int_equal(hip->place.line, 8);
}

static void girths_of_more_than_a_thousand_parts_are_refused(void **state)
{
    struct room *room = *state;
    struct base_buffer text = { .a = room->a };
    base_buffer_print(&text, "{ 'name': 'C-D', 'bust': 93 } ], 'girths': { 'hip': [");
    for (int i = 0; i < 1001; i++)
        base_buffer_print(&text, "%s{ 'edge': 'front.hem', 'times': 1 }", i ? "," : "");
    base_buffer_print(&text, "] },");
    const struct change girths = { 8, base_buffer_text(&text) };
    assert_null(parse_changed(room, &girths, 1));
    assert_int_equal(room->errs->count, 1);
    assert_string_equal(room->errs->items[0].kind->code, "pattern.girth_many");
    assert_int_equal(room->errs->items[0].place.line, 8);
}

static void the_bust_is_drawn_for_a_cup_group_and_the_rest_by_the_chart(void **state)
{
    const struct pattern *p = parse_good(*state);
    assert_near(pattern_value_at(pattern_drawn_for(p, "bust", 1), 1), 930, 0);
    assert_near(pattern_value_at(pattern_drawn_for(p, "bust", PATTERN_NONE), 1), 880, 0);
    assert_near(pattern_value_at(pattern_drawn_for(p, "hip", 1), 2), 980, 0);
    assert_int_equal(pattern_drawn_for(p, "neck", 1).count, 0);
}

static void finished_by_cup_group_needs_cup_groups(void **state)
{
    struct room *room = *state;
    const struct change changes[] = { { 7, "" },
                                      { 8, "'finished': { 'hip': { 'A-B': 99 } }," },
                                      { 20, "{ 'name': 'strap', 'rectangle': { 'width': 10, 'height': 30 }," },
                                      { 23, "{ 'name': 'pocket', 'rectangle': { 'width': 10, 'height': 10 } } ]," } };
    assert_null(parse_changed(room, changes, 4));
    room_only_told(room, "pattern.finished_groups");
    room_forget(room);
    struct change plain[4];
    memcpy(plain, changes, sizeof plain);
    plain[1].text = "'finished': { 'hip': 99 },";
    const struct pattern *p = parse_changed(room, plain, 4);
    room_nothing_told(room);
    assert_near(pattern_value_at(pattern_finished(p, "hip", PATTERN_NONE), 0), 990, 0);
}

static void marks_of_a_piece_are_read(void **state)
{
    struct room *room = *state;
    static const struct change marks[] = {
        { 16, "'notches': [ { 'edge': 'side', 'at': [3, 4, 5] },"
              "  { 'edge': 'top', 'from_end': '1 in', 'double': true },"
              "  { 'edge': 'hem', 'at': 6, 'double': true, 'apart': 2, 'shape': 'v' },"
              "  { 'edge': 'hem', 'at': 0, 'double': false, 'shape': 'slit' } ],"
              "  'drill_marks': ['c1', 'c2'], 'darts': [ { 'edge': 'hem', 'legs': ['a', 'b'], 'apex': 'c1' },"
              "  { 'edge': 'hem', 'legs': ['a', 'b'], 'apex': 'c1', 'fold': 'end' } ],"
              "  'lines': [ { 'kind': 'fold', 'from': 'a', 'to': 'c' }, { 'kind': 'lengthen', 'from': 'd', 'to': 'c' },"
              "    { 'kind': 'match', 'from': 'c', 'to': 'd' } ]," },
        { 23, "{ 'name': 'pocket', 'rectangle': { 'width': 10, 'height': 10 }, 'points': { 'p': [5, [7, 8, 9]] },"
              "  'drill_marks': ['p', 'far left'], 'label_at': 'p' } ]," },
    };
    const struct pattern *p = parse_changed(room, marks, 2);
    room_nothing_told(room);
    const struct pattern_piece *front = &p->pieces[0], *pocket = &p->pieces[2];
    static const struct {
        const char *edge;
        double at_mm, apart_mm; /* in the last size; 12 mm apart unless it says so */
        bool from_end, is_double;
    } rows[] = { { "side", 50, 12, false, false },
                 { "top", 25.4, 12, true, true },
                 { "hem", 60, 20, false, true },
                 { "hem", 0, 12, false, false } };
    assert_int_equal(front->notch_count, 4);
    for (int i = 0; i < 4; i++) {
        const struct pattern_notch *n = &front->notches[i];
        assert_int_equal(n->edge, pattern_find_edge(front, rows[i].edge));
        assert_near(pattern_value_at(n->at, 2), rows[i].at_mm, 1e-12);
        assert_near(n->apart_mm, rows[i].apart_mm, 0);
        assert_int_equal(n->from_end, rows[i].from_end);
        assert_int_equal(n->is_double, rows[i].is_double);
        assert_int_equal(n->shape, i == 2 ? PATTERN_V : PATTERN_SLIT);
    }
    assert_int_equal(front->drill_mark_count, 2);
    assert_int_equal(front->drill_marks[1].point, pattern_find_point(front, "c2"));
    assert_int_equal(front->dart_count, 2);
    assert_int_equal(front->darts[0].fold, PATTERN_NOT_FOLDED);
    assert_int_equal(front->darts[1].fold, PATTERN_FOLD_TO_END);
    assert_int_equal(front->darts[0].edge, pattern_find_edge(front, "hem"));
    assert_int_equal(front->darts[0].legs[1], pattern_find_point(front, "b"));
    assert_int_equal(front->darts[0].apex, pattern_find_point(front, "c1"));
    assert_int_equal(front->line_count, 3);
    assert_int_equal(front->lines[0].kind, PATTERN_LINE_FOLD);
    assert_int_equal(front->lines[1].kind, PATTERN_LINE_LENGTHEN);
    assert_int_equal(front->lines[2].kind, PATTERN_LINE_MATCH);
    assert_int_equal(front->lines[2].ends[1], pattern_find_point(front, "d"));
    assert_int_equal(pocket->point_count, 5);
    assert_near(pattern_value_at(pocket->points[pocket->drill_marks[0].point].v[1], 1), 80, 0);
    assert_int_equal(pocket->drill_marks[1].point, pattern_find_point(pocket, "far left"));
    assert_int_equal(pocket->label_at, 4);
}

static void hands_and_pairs_of_a_cutting_list_are_read(void **state)
{
    struct room *room = *state;
    static const struct change cuts[] = {
        { 30, "{ 'piece': 'strap', 'pairs': 2 }, { 'piece': 'strap', 'count': 1, 'hand': 'left' },"
              "  { 'piece': 'strap', 'count': 3, 'hand': 'right' } ] }," },
    };
    const struct pattern *p = parse_changed(room, cuts, 1);
    room_nothing_told(room);
    static const struct {
        int count;
        enum pattern_hand hand;
    } rows[] = { { 1, PATTERN_AS_DRAWN }, { 2, PATTERN_PAIRS }, { 1, PATTERN_LEFT }, { 3, PATTERN_RIGHT } };
    assert_int_equal(p->views[0].cut_count, 4);
    for (int i = 0; i < 4; i++) {
        assert_int_equal(p->views[0].cuts[i].count.number, rows[i].count);
        assert_int_equal(p->views[0].cuts[i].hand, rows[i].hand);
    }
}

/* Half an inch is 12.7 mm; the elastic is graded. */
static void notions_are_read_for_all_views_and_for_one(void **state)
{
    struct room *room = *state;
    static const struct change notions[] = {
        { 28, "'notions': [ { 'name': 'button', 'count': 5, 'size': '1/2 in' }, { 'name': 'thread' } ],"
              "  'views': [ { 'name': 'A', 'notions': [ { 'name': 'elastic', 'length': [60, 64, 68] } ]," },
    };
    const struct pattern *p = parse_changed(room, notions, 1);
    room_nothing_told(room);
    assert_int_equal(p->notions.count, 2);
    assert_string_equal(p->notions.items[0].name, "button");
    assert_int_equal(p->notions.items[0].count.number, 5);
    assert_near(pattern_value_at(p->notions.items[0].size, 2), 12.7, 1e-12);
    assert_int_equal(p->notions.items[0].length.count, 0);
    assert_int_equal(p->notions.items[1].count.number, 1);
    assert_int_equal(p->views[0].notions.count, 1);
    assert_near(pattern_value_at(p->views[0].notions.items[0].length, 1), 640, 0);
    assert_int_equal(p->views[1].notions.count, 0);
}

static void interfacing_is_fused_on_the_wrong_side_unless_told(void **state)
{
    struct room *room = *state;
    static const struct change cuts[] = {
        { 30, "{ 'piece': 'strap', 'count': 1, 'cloth': 'interfacing' },"
              "  { 'piece': 'strap', 'count': 1, 'cloth': 'interfacing', 'fuse': 'right side' },"
              "  { 'piece': 'strap', 'count': 1, 'cloth': 'interfacing', 'fuse': 'wrong side' } ] }," },
    };
    const struct pattern *p = parse_changed(room, cuts, 1);
    room_nothing_told(room);
    assert_int_equal(p->views[0].cuts[1].fuse, PATTERN_WRONG_SIDE);
    assert_int_equal(p->views[0].cuts[2].fuse, PATTERN_RIGHT_SIDE);
    assert_int_equal(p->views[0].cuts[3].fuse, PATTERN_WRONG_SIDE);
}

/* A side written from the other end: its edges in the other order, each the other way, the mark between the same two.
 */
static void a_reversed_side_is_walked_from_its_end(void **state)
{
    struct room *room = *state;
    static const struct change seam[] = {
        { 24, "'seams': [ { 'name': 's', 'join': [ ['front.side', '|', 'front.top', 'front.hem'],"
              "  ['front.hem', '|', 'front.top backwards', 'front.side'] ], 'reversed': true," },
        { 25, "'intervals': [1, -2] }," },
    };
    const struct pattern *p = parse_changed(room, seam, 2);
    room_nothing_told(room);
    const struct pattern_seam *s = &p->seams[0];
    static const struct {
        const char *edge;
        bool backwards, mark_after;
    } rows[2][3] = { { { "side", false, true }, { "top", false, false }, { "hem", false, false } },
                     { { "side", true, false }, { "top", false, true }, { "hem", true, false } } };
    for (int side = 0; side < 2; side++) {
        assert_int_equal(s->sides[side].count, 3);
        for (int i = 0; i < 3; i++) {
            struct pattern_edge_ref ref = s->sides[side].edges[i];
            assert_int_equal(ref.edge, pattern_find_edge(&p->pieces[0], rows[side][i].edge));
            assert_int_equal(ref.backwards, rows[side][i].backwards);
            assert_int_equal(ref.mark_after, rows[side][i].mark_after);
        }
    }
    assert_int_equal(s->interval_count, 2);
    assert_near(pattern_value_at(s->intervals[1], 0), -20, 0);
    assert_near(pattern_value_at(s->intervals[0], 0), 10, 0);
}

/* 1 in = 25.4 mm exactly (international yard and pound agreement, 1959). */
static void a_file_in_inches_reads_numbers_and_fractions_as_inches(void **state)
{
    struct room *room = *state;
    const struct pattern *p =
        parse(room, "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Mat', 'unit': 'in', 'sizes': ['one'],"
                    "  'chart': { 'hip': [40] }, 'main_measurement': 'hip',"
                    "  'pieces': [ { 'name': 'mat', 'allowance': '5/8',"
                    "    'rectangle': { 'width': '12 1/2', 'height': '30 cm' } } ],"
                    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'mat', 'count': 1 } ] } ] }");
    room_nothing_told(room);
    assert_non_null(p);
    assert_int_equal(p->unit, UNITS_IN);
    assert_near(pattern_value_at(p->chart[0].value, 0), 1016, 1e-9);
    assert_near(allowance(&p->pieces[0], "top", 0), 15.875, 1e-12);
    assert_near(pattern_value_at(p->pieces[0].points[2].v[0], 0), 317.5, 1e-9);
    assert_near(pattern_value_at(p->pieces[0].points[2].v[1], 0), 300, 1e-9);
}

static void rows_of_buttons_are_read(void **state)
{
    struct room *room = *state;
    static const struct change buttons[] = {
        { 16,
          "'buttons': [ { 'kind': 'buttonhole', 'from': 'a', 'to': 'd', 'count': 4, 'first': [1, 2, 3], 'last':"
          "  '1 in', 'length': '7/8 in', 'across': true }, { 'kind': 'button', 'from': 'd', 'to': 'a', 'count': 1 } ],"
          "'lines': [ { 'kind': 'fold', 'from': 'a', 'to': 'c', 'label': 'Hem' },"
          "  { 'kind': 'fold', 'from': 'a', 'to': 'c' } ]," },
        { 23, "{ 'name': 'pocket', 'rectangle': { 'width': 10, 'height': 10 }, 'buttons': [] } ]," },
    };
    const struct pattern *p = parse_changed(room, buttons, 2);
    room_nothing_told(room);
    const struct pattern_piece *front = &p->pieces[0];
    assert_int_equal(front->button_row_count, 2);
    const struct pattern_buttons *holes = &front->button_rows[0], *single = &front->button_rows[1];
    assert_int_equal(holes->kind, PATTERN_BUTTONHOLE);
    assert_int_equal(holes->ends[1], pattern_find_point(front, "d"));
    assert_int_equal(holes->count.number, 4);
    assert_near(pattern_value_at(holes->first, 2), 30, 0);
    assert_near(pattern_value_at(holes->last, 2), 25.4, 1e-12);
    assert_near(pattern_value_at(holes->length, 0), 22.225, 1e-12);
    assert_true(holes->across && !single->across);
    assert_int_equal(single->kind, PATTERN_BUTTON);
    assert_int_equal(single->place.line, 16);
    assert_string_equal(front->lines[0].label, "Hem");
    assert_null(front->lines[1].label);
}

#define BUTTONS(row)                                                                                                   \
    {                                                                                                                  \
        {                                                                                                              \
            16, "'buttons': [ { " row " } ],"                                                                          \
        }                                                                                                              \
    }

/* One fault each: the good pattern with some lines changed is refused for that one reason, told at that line. */
static const struct bad_row {
    const char *code;
    int line;
    struct change changes[MOST_CHANGES];
} bad_rows[] = {
    { "pattern.no_sizes", 3, { { 3, "'sizes': []," } } },
    { "pattern.size_twice", 3, { { 3, "'sizes': ['S', 'M', 'S']," } } },
    { "pattern.size_name", 3, { { 3, "'sizes': ['S', '', 'L']," } } },
    { "json.wrong_type", 3, { { 3, "'sizes': ['S', 12, 'L']," } } },
    { "pattern.wrong_count", 4, { { 4, "'chart': { 'bust': [80, 88]," } } },
    { "pattern.not_rising", 5, { { 5, "'hip': [90, 89, 98] }," } } },
    { "pattern.not_positive", 5, { { 5, "'hip': [0, 90, 98] }," } } },
    { "json.wrong_type", 5, { { 5, "'hip': 90 }," } } },
    { "values.unread_length", 5, { { 5, "'hip': [90, 'about 95', 98] }," } } },
    { "pattern.no_such_row", 6, { { 6, "'main_measurement': 'head'," } } },
    { "pattern.cup_group_twice", 8, { { 8, "{ 'name': 'A-B', 'bust': 85 }, { 'name': 'C-D', 'bust': 90 } ]," } } },
    { "json.missing", 8, { { 8, "{ 'name': 'C-D' } ]," } } },
    { "pattern.not_positive", 8, { { 8, "{ 'name': 'C-D', 'bust': [85, 93, -101] } ]," } } },

    { "pattern.ease_unfinished", 8, { { 8, "{ 'name': 'C-D', 'bust': 9 } ], 'ease': { 'hip': 4 }," } } },
    { "json.wrong_type", 8, { { 8, "{ 'name': 'C-D', 'bust': 9 } ], 'ease': [4]," } } },
    { "pattern.wrong_count",
      8,
      { { 8, "{ 'name': 'C-D', 'bust': 9 } ], 'finished': { 'hip': 9 }, 'ease': { 'hip': [1, 2] }," } } },
    { "json.missing",
      8,
      { { 8, "{ 'name': 'C-D', 'bust': 9 } ], 'finished': { 'hip': 9 }, 'ease': { 'hip': { 'A-B': 1 } }," } } },
    { "pattern.girth_row",
      8,
      { { 8, "{ 'name': 'C-D', 'bust': 9 } ], 'girths': { 'wrist': [ { 'edge': 'front.hem', 'times': 1 } ] }," } } },
    { "json.wrong_type", 8, { { 8, "{ 'name': 'C-D', 'bust': 9 } ], 'girths': []," } } },
    { "json.wrong_type", 8, { { 8, GIRTHS("{}") } } },
    { "json.wrong_type", 8, { { 8, GIRTHS("['front.hem']") } } },
    { "pattern.girth_parts", 8, { { 8, GIRTHS("[]") } } },
    { "pattern.girth_form", 8, { { 8, GIRTHS("[ { 'times': 1 } ]") } } },
    { "pattern.girth_form", 8, { { 8, GIRTHS("[ { 'piece': 'front', 'edge': 'front.hem', 'times': 1 } ]") } } },
    { "json.missing", 8, { { 8, GIRTHS("[ { 'piece': 'front', 'times': 1 } ]") } } },
    { "json.missing", 8, { { 8, GIRTHS("[ { 'level': 'a', 'times': 1 } ]") } } },
    { "json.missing", 8, { { 8, GIRTHS("[ { 'piece': 'front', 'level': 'a' } ]") } } },
    { "json.not_whole", 8, { { 8, GIRTHS("[ { 'piece': 'front', 'level': 'a', 'times': 0 } ]") } } },
    { "json.not_whole", 8, { { 8, GIRTHS("[ { 'piece': 'front', 'level': 'a', 'times': 1.5 } ]") } } },
    { "json.unknown_name", 8, { { 8, GIRTHS("[ { 'piece': 'front', 'level': 'a', 'times': 2, 'at': 3 } ]") } } },
    { "pattern.no_piece", 8, { { 8, GIRTHS("[ { 'piece': 'sleeve', 'level': 'a', 'times': 2 } ]") } } },
    { "pattern.no_point", 8, { { 8, GIRTHS("[ { 'piece': 'strap', 'level': 'a', 'times': 2 } ]") } } },
    { "json.wrong_type", 8, { { 8, GIRTHS("[ { 'piece': 'strap', 'level': 3, 'times': 2 } ]") } } },
    { "pattern.no_edge", 8, { { 8, GIRTHS("[ { 'edge': 'front.waist', 'times': 2 } ]") } } },
    { "pattern.no_piece_of", 8, { { 8, GIRTHS("[ { 'edge': 'hem', 'times': 2 } ]") } } },
    { "pattern.finished_row", 8, { { 8, "{ 'name': 'C-D', 'bust': 9 } ], 'finished': { 'neck': 40 }," } } },
    { "pattern.not_positive", 8, { { 8, "{ 'name': 'C-D', 'bust': 9 } ], 'finished': { 'hip': -1 }," } } },
    { "pattern.wrong_count", 8, { { 8, "{ 'name': 'C-D', 'bust': 9 } ], 'finished': { 'hip': [1, 2] }," } } },
    { "json.missing", 8, { { 8, "{ 'name': 'C-D', 'bust': 9 } ], 'finished': { 'hip': { 'A-B': 99 } }," } } },
    { "json.unknown_name",
      8,
      { { 8, "{ 'name': 'C-D', 'bust': 9 } ], 'finished': { 'hip': { 'A-B': 99, 'C-D': 99, 'E': 99 } }," } } },
    { "json.wrong_type", 8, { { 8, "{ 'name': 'C-D', 'bust': 9 } ], 'finished': [99]," } } },

    { "pattern.dot_in_name", 23, { { 23, "{ 'name': 'pocket.left', 'rectangle': { 'width': 9, 'height': 9 } } ]," } } },
    { "pattern.piece_twice", 23, { { 23, "{ 'name': 'strap', 'rectangle': { 'width': 9, 'height': 9 } } ]," } } },
    { "pattern.no_cup_group",
      23,
      { { 23, "{ 'name': 'pocket', 'cup_group': 'E-F', 'rectangle': { 'width': 9, 'height': 9 } } ]," } } },
    { "pattern.no_point", 19, { { 19, "'label_at': 'middle' }," } } },
    { "pattern.no_point", 13, { { 13, "{ 'name': 'side', 'path': ['b', 'cc'] }," } } },
    { "pattern.no_edge", 17, { { 17, "'fold': 'center'," } } },
    { "pattern.no_edge", 22, { { 22, "'allowances': { 'far': 1 } }," } } },
    { "pattern.edge_twice",
      13,
      { { 13, "{ 'name': 'hem', 'path': ['b', 'e'] }, { 'name': 'side', 'path': ['e', 'c'] }," },
        { 11, "'d': [0, 30], 'e': [22, 9], 'c1': [5, 25], 'c2': [15, 25] }," } } },
    { "pattern.point_form", 11, { { 11, "'d': [0, 30], 'c1': [5, 25, 0], 'c2': [15, 25] }," } } },
    { "pattern.point_form", 11, { { 11, "'d': [0, 30], 'c1': 5, 'c2': [15, 25] }," } } },
    { "pattern.wrong_count", 11, { { 11, "'d': [0, 30], 'c1': [[5, 6], 25], 'c2': [15, 25] }," } } },
    { "pattern.step_form", 14, { { 14, "{ 'name': 'top', 'path': ['c', ['c2', 'd']] }," } } },
    { "pattern.step_form", 14, { { 14, "{ 'name': 'top', 'path': ['c', 7] }," } } },
    { "pattern.path_short", 13, { { 13, "{ 'name': 'side', 'path': ['b'] }," } } },
    { "pattern.gap", 14, { { 13, "{ 'name': 'side', 'path': ['b', 'c1'] }," } } },
    { "pattern.gap", 12, { { 15, "{ 'name': 'centre', 'path': ['d', 'c1'] } ]," }, { 17, "" } } },
    { "json.wrong_type", 13, { { 13, "'side', { 'name': 'side', 'path': ['b', 'c1'] }," } } },
    { "pattern.too_few_edges",
      23,
      { { 23,
          "{ 'name': 'pocket', 'points': { 'p': [0, 0], 'q': [5, 5] },"
          "  'outline': [ { 'name': 'there', 'path': ['p', 'q'] }, { 'name': 'back', 'path': ['q', 'p'] } ] } ]," } } },
    { "pattern.fold_curved",
      17,
      { { 14, "{ 'name': 'top', 'path': ['c', ['c2', 'c1', 'd']] }," }, { 17, "'fold': 'top'," } } },
    { "pattern.fold_curved", 17, { { 15, "{ 'name': 'centre', 'path': ['d', 'c1', 'a'] } ]," } } },
    { "pattern.fold_allowance", 17, { { 15, "{ 'name': 'centre', 'path': ['d', 'a'], 'allowance': 1.5 } ]," } } },
    { "pattern.grain_form", 18, { { 18, "'grain': ['a', 'a']," } } },
    { "pattern.grain_form", 18, { { 18, "'grain': ['a', 'b', 'd']," } } },
    { "pattern.both_forms",
      23,
      { { 23, "{ 'name': 'pocket', 'outline': [], 'rectangle': { 'width': 9, 'height': 9 } } ]," } } },
    { "pattern.negative", 16, { { 16, "'allowance': -1.5," } } },
    { "pattern.negative",
      12,
      { { 12, "'outline': [ { 'name': 'hem', 'path': ['a', 'b'], 'allowance': [4, -4, 5] }," } } },
    { "pattern.negative", 22, { { 22, "'allowances': { 'left': '-5/8 in' } }," } } },
    { "pattern.not_positive", 23, { { 23, "{ 'name': 'pocket', 'rectangle': { 'width': 0, 'height': 9 } } ]," } } },
    { "json.missing", 23, { { 23, "{ 'name': 'pocket', 'rectangle': { 'width': 9 } } ]," } } },
    { "json.missing", 23, { { 23, "{ 'name': 'pocket', 'outline': [] } ]," } } },

    { "pattern.join_form", 24, { { 24, "'seams': [ { 'name': 'side seam', 'join': [ ['front.side'] ]," } } },
    { "pattern.join_form", 24, { { 24, "'seams': [ { 'name': 'side seam', 'join': [ ['front.side'], [] ]," } } },
    { "pattern.join_form",
      24,
      { { 24, "'seams': [ { 'name': 'side seam', 'join': [ 'front.side', ['front.hem'] ]," } } },
    { "pattern.seam_edge", 24, { { 24, "'seams': [ { 'name': 'side seam', 'join': [ ['front'], ['front.hem'] ]," } } },
    { "pattern.seam_edge",
      24,
      { { 24, "'seams': [ { 'name': 'side seam', 'join': [ ['back.side'], ['front.hem'] ]," } } },
    { "pattern.seam_edge",
      24,
      { { 24, "'seams': [ { 'name': 'side seam', 'join': [ ['front.left'], ['front.hem'] ]," } } },
    { "pattern.seam_two_groups",
      24,
      { { 24, "'seams': [ { 'name': 'side seam', 'join': [ ['pocket.top'], ['strap.left'] ]," } } },
    { "pattern.seam_twice", 26, { { 26, "{ 'name': 'side seam', 'join': [ ['front.hem'], ['front.top'] ]," } } },
    { "pattern.seam_two_rules", 26, { { 27, "'ratio': 1.5, 'difference': 0 } ]," } } },
    { "pattern.seam_two_rules", 26, { { 27, "'ratio': 1.5, 'intervals': [0] } ]," } } },
    { "pattern.seam_two_rules", 24, { { 25, "'difference': 1, 'intervals': [0] }," } } },
    { "pattern.seam_intervals", 25, { { 25, "'intervals': [1, 2] }," } } },
    { "pattern.seam_reversed", 25, { { 25, "'reversed': 'yes' }," } } },
    { "pattern.seam_mark",
      24,
      { { 24, "'seams': [ { 'name': 's', 'join': [ ['front.side', '|'], ['front.hem'] ]," } } },
    { "pattern.seam_mark",
      24,
      { { 24, "'seams': [ { 'name': 's', 'join': [ ['|', 'front.side'], ['front.hem'] ]," } } },
    { "pattern.seam_edge",
      24,
      { { 24, "'seams': [ { 'name': 's', 'join': [ ['front.side forwards'], ['front.hem'] ]," } } },

    { "pattern.no_edge", 16, { { 16, "'notches': [ { 'edge': 'sleeve', 'at': 3 } ]," } } },
    { "json.missing", 16, { { 16, "'notches': [ { 'at': 3 } ]," } } },
    { "pattern.notch_place", 16, { { 16, "'notches': [ { 'edge': 'side' } ]," } } },
    { "pattern.notch_place", 16, { { 16, "'notches': [ { 'edge': 'side', 'at': 3, 'from_end': 4 } ]," } } },
    { "pattern.negative", 16, { { 16, "'notches': [ { 'edge': 'side', 'at': [3, 3, -1] } ]," } } },
    { "pattern.yes_or_no", 16, { { 16, "'notches': [ { 'edge': 'side', 'at': 3, 'double': 2 } ]," } } },
    { "pattern.notch_shape", 16, { { 16, "'notches': [ { 'edge': 'side', 'at': 3, 'shape': 'U' } ]," } } },
    { "json.wrong_type", 16, { { 16, "'notches': [ { 'edge': 'side', 'at': 3, 'shape': 2 } ]," } } },
    { "pattern.notch_apart", 16, { { 16, "'notches': [ { 'edge': 'side', 'at': 3, 'apart': 1 } ]," } } },
    { "pattern.mark_on_fold", 16, { { 16, "'notches': [ { 'edge': 'centre', 'at': 3 } ]," } } },
    { "json.wrong_type", 16, { { 16, "'notches': [ 'side' ]," } } },
    { "pattern.no_point", 16, { { 16, "'drill_marks': [ 'c1', 'pocket' ]," } } },
    { "json.wrong_type", 16, { { 16, "'drill_marks': [ 7 ]," } } },
    { "pattern.dart_form", 16, { { 16, "'darts': [ { 'edge': 'hem', 'legs': ['c1', 'c1'], 'apex': 'c2' } ]," } } },
    { "pattern.dart_form", 16, { { 16, "'darts': [ { 'edge': 'hem', 'legs': ['c1'], 'apex': 'c2' } ]," } } },
    { "pattern.dart_form", 16, { { 16, "'darts': [ { 'edge': 'hem', 'legs': ['c1', 'c2'], 'apex': 'c2' } ]," } } },
    { "json.missing", 16, { { 16, "'darts': [ { 'edge': 'hem', 'legs': ['c1', 'c2'] } ]," } } },
    { "pattern.dart_fold",
      16,
      { { 16, "'darts': [ { 'edge': 'hem', 'legs': ['a', 'b'], 'apex': 'c1', 'fold': 'down' } ]," } } },
    { "pattern.no_point", 16, { { 16, "'darts': [ { 'edge': 'hem', 'legs': ['c1', 'z'], 'apex': 'c2' } ]," } } },
    { "pattern.line_kind", 16, { { 16, "'lines': [ { 'kind': 'seam', 'from': 'a', 'to': 'c' } ]," } } },
    { "pattern.line_kind", 16, { { 16, "'lines': [ { 'kind': 'dart', 'from': 'a', 'to': 'c' } ]," } } },
    { "pattern.line_form", 16, { { 16, "'lines': [ { 'kind': 'match', 'from': 'a', 'to': 'a' } ]," } } },
    { "json.missing", 16, { { 16, "'lines': [ { 'kind': 'fold', 'from': 'a' } ]," } } },
    { "json.wrong_type", 16, { { 16, "'lines': [ { 'kind': 'fold', 'from': 'a', 'to': 'c', 'label': 3 } ]," } } },
    { "pattern.button_kind", 16, BUTTONS("'kind': 'zip', 'from': 'a', 'to': 'c', 'count': 3") },
    { "pattern.button_form", 16, BUTTONS("'kind': 'button', 'from': 'a', 'to': 'a', 'count': 3") },
    { "pattern.button_length", 16, BUTTONS("'kind': 'button', 'from': 'a', 'to': 'c', 'count': 3, 'length': 2") },
    { "pattern.button_length", 16, BUTTONS("'kind': 'button', 'from': 'a', 'to': 'c', 'count': 3, 'across': true") },
    { "pattern.single_button", 16, BUTTONS("'kind': 'button', 'from': 'a', 'to': 'c', 'count': 1, 'last': 2") },
    { "json.missing", 16, BUTTONS("'kind': 'buttonhole', 'from': 'a', 'to': 'c', 'count': 3") },
    { "json.missing", 16, BUTTONS("'kind': 'button', 'from': 'a', 'count': 3") },
    { "json.missing", 16, BUTTONS("'kind': 'button', 'from': 'a', 'to': 'c'") },
    { "pattern.not_positive", 16, BUTTONS("'kind': 'buttonhole', 'from': 'a', 'to': 'c', 'count': 3, 'length': 0") },
    { "pattern.negative", 16, BUTTONS("'kind': 'button', 'from': 'a', 'to': 'c', 'count': 3, 'first': -1") },
    { "pattern.point_twice",
      23,
      { { 23, "{ 'name': 'p', 'points': { 'far left': [1, 1] }, 'rectangle': { 'width': 9, 'height': 9 } } ]," } } },
    { "pattern.seam_ratio", 27, { { 27, "'ratio': 0 } ]," } } },
    { "pattern.seam_ratio", 27, { { 27, "'ratio': 101 } ]," } } },
    { "pattern.seam_ratio", 27, { { 27, "'ratio': [1, 2, 101] } ]," } } },
    { "pattern.formula_name", 27, { { 27, "'ratio': 'nowhere / 2' } ]," } } },
    { "pattern.formula_name", 27, { { 27, "'difference': [1, 'nowhere', 2] } ]," } } },
    { "pattern.wrong_count", 27, { { 27, "'intervals': [[1, 2]] } ]," } } },

    { "pattern.no_views", 28, { { 28, "'views': [ ] }" }, { 29, "" }, { 30, "" }, { 31, "" } } },
    { "pattern.view_twice", 31, { { 31, "{ 'name': 'A', 'cut': [ { 'piece': 'front', 'count': 2 } ] } ] }" } } },
    { "pattern.nothing_to_cut", 31, { { 31, "{ 'name': 'B', 'cut': [ ] } ] }" } } },
    { "pattern.no_piece", 29, { { 29, "'cut': [ { 'piece': 'back', 'count': 1 }," } } },
    { "pattern.no_cloth", 30, { { 30, "{ 'piece': 'strap', 'count': 4, 'cloth': 'velvet' } ] }," } } },
    { "json.not_whole", 29, { { 29, "'cut': [ { 'piece': 'front', 'count': 0 }," } } },
    { "json.not_whole", 29, { { 29, "'cut': [ { 'piece': 'front', 'count': 1000 }," } } },
    { "json.not_whole", 29, { { 29, "'cut': [ { 'piece': 'front', 'count': 1.5 }," } } },
    { "json.missing", 29, { { 29, "'cut': [ { 'piece': 'front' }," } } },
    { "pattern.count_or_pairs", 30, { { 30, "{ 'piece': 'strap', 'count': 4, 'pairs': 2 } ] }," } } },
    { "json.not_whole", 30, { { 30, "{ 'piece': 'strap', 'pairs': 0 } ] }," } } },
    { "pattern.no_hand", 30, { { 30, "{ 'piece': 'strap', 'count': 1, 'hand': 'upper' } ] }," } } },
    { "pattern.pairs_hand", 30, { { 30, "{ 'piece': 'strap', 'pairs': 1, 'hand': 'left' } ] }," } } },
    { "pattern.fold_hand", 30, { { 30, "{ 'piece': 'front', 'pairs': 1 } ] }," } } },
    { "pattern.fold_hand", 30, { { 30, "{ 'piece': 'front', 'count': 1, 'hand': 'right' } ] }," } } },
    { "pattern.no_side",
      30,
      { { 30, "{ 'piece': 'strap', 'count': 1, 'cloth': 'interfacing', 'fuse': 'top' } ] }," } } },
    { "pattern.fuse_cloth", 30, { { 30, "{ 'piece': 'strap', 'count': 1, 'fuse': 'wrong side' } ] }," } } },
    { "pattern.no_notion", 28, { { 28, "'views': [ { 'name': 'A', 'notions': []," } } },
    { "json.missing", 28, { { 28, "'notions': [ { 'count': 3 } ], 'views': [ { 'name': 'A'," } } },
    { "json.not_whole", 28, { { 28, "'notions': [ { 'name': 'button', 'count': 0 } ], 'views': [ { 'name': 'A'," } } },
    { "pattern.not_positive", 28, { { 28, "'views': [ { 'name': 'A', 'notions': [ { 'name': 'b', 'size': 0 } ]," } } },
    { "pattern.wrong_count",
      28,
      { { 28, "'views': [ { 'name': 'A', 'notions': [ { 'name': 'b', 'length': [1, 2] } ]," } } },

    { "values.no_unit", 2, { { 2, "'name': 'Small bag', 'unit': 'ell'," } } },
    { "json.newer", 1, { { 1, "{ 'chalklight': 'pattern', 'version': 3," } } },
    { "pattern.outline", 1, { { 1, "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'seam line'," } } },
    { "json.unknown_name", 1, { { 1, "{ 'chalklight': 'pattern', 'version': 1, 'outline': 'cutting line'," } } },
    { "json.other_kind", 1, { { 1, "{ 'chalklight': 'body', 'version': 1," } } },
};

static void every_complaint_is_told_at_its_line_and_alone(void **state)
{
    struct room *room = *state;
    int wrong = 0;
    for (size_t i = 0; i < sizeof bad_rows / sizeof bad_rows[0]; i++) {
        const struct bad_row *row = &bad_rows[i];
        const struct pattern *p = parse_changed(room, row->changes, MOST_CHANGES);
        const struct err *first = &room->errs->items[0];
        bool right = !p && room->errs->count == 1 && strcmp(first->kind->code, row->code) == 0 &&
                     first->place.line == row->line && first->place.path;
        if (!right) {
            print_error("row %zu: wanted only %s at line %d, pattern %s\n", i, row->code, row->line,
                        p ? "read" : "refused");
            room_print_told(room);
            wrong++;
        }
        room_forget(room);
    }
    assert_int_equal(wrong, 0);
}

/* The side seam is of the strap's cup group, the other of the pocket's. */
static void seams_of_two_cup_groups_may_have_one_name(void **state)
{
    struct room *room = *state;
    static const struct change other = { 26, "{ 'name': 'side seam', 'join': [ ['front.hem'], ['pocket.top'] ]," };
    const struct pattern *p = parse_changed(room, &other, 1);
    room_nothing_told(room);
    assert_int_equal(p->seam_count, 2);
}

static void from_version_2_on_a_pattern_says_which_line_its_outlines_are(void **state)
{
    struct room *room = *state;
    struct change first = { 1, "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'cutting line'," };
    assert_int_equal(parse_changed(room, &first, 1)->outline, PATTERN_CUTTING_LINE);
    first.text = "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line',";
    assert_int_equal(parse_changed(room, &first, 1)->outline, PATTERN_STITCHING_LINE);
    assert_int_equal(parse_good(room)->outline, PATTERN_STITCHING_LINE); /* version 1 */
    first.text = "{ 'chalklight': 'pattern', 'version': 2,";
    assert_null(parse_changed(room, &first, 1));
    room_only_told(room, "pattern.no_outline");
}

static void an_unknown_field_is_told_with_the_nearest_name(void **state)
{
    struct room *room = *state;
    static const struct {
        struct change change;
        const char *unknown, *nearest;
    } rows[] = {
        { { 16, "'alowance': 1.5," }, "alowance", "allowance" },
        { { 6, "'main_measurement': 'bust', 'seam': []," }, "seam", "seams" },
        { { 29, "'cut': [ { 'piece': 'front', 'count': 1, 'cloths': 'fabric' }," }, "cloths", "cloth" },
        { { 21, "'allowance': 1, 'foled': 'left'," }, "foled", "fold" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_null(parse_changed(room, &rows[i].change, 1));
        const struct err *e = room_only_told(room, "json.unknown_name");
        assert_int_equal(e->place.line, rows[i].change.line);
        assert_string_equal(e->args[0].text, rows[i].unknown);
        assert_string_equal(e->args[1].text, rows[i].nearest);
        room_forget(room);
    }
}

static void what_a_complaint_names_is_what_stands_in_the_file(void **state)
{
    struct room *room = *state;
    static const struct change gap = { 13, "{ 'name': 'side', 'path': ['b', 'c1'] }," };
    assert_null(parse_changed(room, &gap, 1));
    const struct err *e = room_only_told(room, "pattern.gap");
    assert_string_equal(e->args[0].text, "c");
    assert_string_equal(e->args[1].text, "side");
    assert_string_equal(e->args[2].text, "c1");
    room_forget(room);

    static const struct change falls = { 5, "'hip': [90, '35 in', 98] }," };
    assert_null(parse_changed(room, &falls, 1));
    e = room_only_told(room, "pattern.not_rising");
    assert_int_equal(e->args[0].type, ERR_ARG_MM);
    assert_near(e->args[0].number, 900, 0);
    assert_near(e->args[1].number, 889, 1e-9);
}

/* The faults in the order they are told, which is the order the file is read in. */
static void told_are(struct room *room, const char *const *codes, size_t count)
{
    bool right = room->errs->count == (int)count;
    for (size_t i = 0; right && i < count; i++)
        right = strcmp(room->errs->items[i].kind->code, codes[i]) == 0;
    if (!right) {
        room_print_told(room);
        fail_msg("wanted %zu faults, the first %s", count, codes[0]);
    }
    room_forget(room);
}

#define TOLD_ARE(room, ...)                                                                                            \
    told_are((room), (const char *const[]){ __VA_ARGS__ },                                                             \
             sizeof((const char *const[]){ __VA_ARGS__ }) / sizeof(const char *))

static void all_faults_of_a_file_are_told_at_once(void **state)
{
    struct room *room = *state;
    static const struct change scattered[] = {
        { 2, "'name': 'Small bag', 'unit': 'ell'," },
        { 5, "'hip': [90, 89, 98] }," },
        { 13, "{ 'name': 'side', 'path': ['b', 'cc'] }," },
        { 18, "'grain': ['a', 'a']," },
        { 27, "'ratio': -1 } ]," },
        { 30, "{ 'piece': 'back', 'count': 0, 'cloth': 'velvet' } ] }," },
    };
    assert_null(parse_changed(room, scattered, sizeof scattered / sizeof scattered[0]));
    TOLD_ARE(room, "values.no_unit", "pattern.not_rising", "pattern.no_point", "pattern.grain_form",
             "pattern.seam_ratio", "pattern.no_piece", "json.not_whole", "pattern.no_cloth");

    assert_null(parse(room, "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Nothing', 'unit': 'mm', 'sizes': ['S'],"
                            "'chart': {}, 'main_measurement': 'bust', 'pieces': [], 'views': [] }"));
    TOLD_ARE(room, "pattern.no_chart", "pattern.no_such_row", "pattern.no_pieces", "pattern.no_views");

    assert_null(parse(room, "{ 'chalklight': 'pattern', 'version': 1, 'sizes': [] }"));
    TOLD_ARE(room, "json.missing", "json.missing", "pattern.no_sizes");
}

static void more_than_a_hundred_sizes_are_refused(void **state)
{
    struct room *room = *state;
    for (int count = 100; count <= 101; count++) {
        const char *sizes = "'1'";
        for (int i = 2; i <= count; i++)
            sizes = base_arena_print(room->a, "%s, '%d'", sizes, i);
        struct change changes[] = { { 3, base_arena_print(room->a, "'sizes': [%s],", sizes) } };
        assert_null(parse_changed(room, changes, 1));
        assert_int_equal(base_err_list_has(room->errs, "pattern.no_sizes"), count == 101);
        assert_int_equal(base_err_list_has(room->errs, "pattern.wrong_count"), count == 100);
        room_forget(room);
    }
}

static void a_file_that_is_not_there_is_told(void **state)
{
    struct room *room = *state;
    assert_null(pattern_read(room->a, "/there/is/no/such.json", room->errs));
    assert_string_equal(room_only_told(room, "file.cannot_open")->place.file, "/there/is/no/such.json");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(the_chart_and_the_cup_groups_are_read),
        room_test(a_pattern_may_have_its_chart_on_paper),
        room_test(a_main_measurement_is_a_row_of_the_chart_that_is_there),
        room_test(finished_measurements_are_the_same_for_all_cup_groups_or_given_for_each),
        room_test(girths_are_read_with_their_levels_and_edges),
        room_test(girths_of_more_than_a_thousand_parts_are_refused),
        room_test(intended_ease_is_given_like_the_finished_measurements_it_belongs_to),
        room_test(the_bust_is_drawn_for_a_cup_group_and_the_rest_by_the_chart),
        room_test(what_is_said_of_the_garment_may_be_a_formula_over_the_chart),
        room_test(what_the_chart_cannot_say_of_the_garment_is_told),
        room_test(finished_by_cup_group_needs_cup_groups),
        room_test(a_drawn_piece_is_read),
        room_test(allowances_come_from_the_edge_or_else_from_the_piece_and_a_fold_has_none),
        room_test(a_rectangle_has_four_corners_and_four_edges_counter_clockwise),
        room_test(seams_and_views_are_read),
        room_test(marks_of_a_piece_are_read),
        room_test(hands_and_pairs_of_a_cutting_list_are_read),
        room_test(notions_are_read_for_all_views_and_for_one),
        room_test(interfacing_is_fused_on_the_wrong_side_unless_told),
        room_test(a_reversed_side_is_walked_from_its_end),
        room_test(a_file_in_inches_reads_numbers_and_fractions_as_inches),
        room_test(rows_of_buttons_are_read),
        room_test(every_complaint_is_told_at_its_line_and_alone),
        room_test(seams_of_two_cup_groups_may_have_one_name),
        room_test(from_version_2_on_a_pattern_says_which_line_its_outlines_are),
        room_test(an_unknown_field_is_told_with_the_nearest_name),
        room_test(what_a_complaint_names_is_what_stands_in_the_file),
        room_test(all_faults_of_a_file_are_told_at_once),
        room_test(more_than_a_hundred_sizes_are_refused),
        room_test(a_file_that_is_not_there_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
