/* From the cutting list to what is laid: by hand from what a dressmaker does (lay/task.c says it), no source. */
#include "lay/laying.h"

/* "name copies/layers flags" of each item. */
static const char *items_text(struct room *room, const struct lay_task *task)
{
    const char *text = "";
    for (size_t i = 0; i < task->item_count; i++) {
        const struct lay_item *it = &task->items[i];
        text = base_arena_print(room->a, "%s%s%s %d/%d%s%s%s", text, i ? "; " : "", lay_item_name(room->a, task, i),
                                it->copies, it->layers, it->on_fold ? " fold" : "", it->mirrored ? " mirrored" : "",
                                it->either_hand ? " either" : "");
    }
    return text;
}

static const char cuts[] = "{ 'piece': 'front', 'count': 1 }, { 'piece': 'sleeve', 'pairs': 1 },"
                           "{ 'piece': 'tie', 'count': 4 }, { 'piece': 'gusset', 'count': 1, 'hand': 'left' }";

static void a_single_layer_takes_every_piece_by_itself(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_soundly(room, cuts, laying_cloth(1400, CLOTH_SINGLE));
    assert_string_equal(items_text(room, &l->task),
                        "Front 1/1 either; Sleeve (right) 1/1; Sleeve (left) 1/1 mirrored; Tie 1 1/1 either; "
                        "Tie 2 1/1 either; Tie 3 1/1 either; Tie 4 1/1 either; Gusset (left) 1/1 mirrored");
    /* opened out, the front is twice as wide */
    assert_near(geometry_path_area(l->task.items[0].piece->cut.path), 2 * 600 * (200 + 150) / 2.0, 1e-6);
}

/* Of a pair, four ties and the gusset the left sleeve, three ties and the gusset are cut of something else: the right
 * sleeve and a tie are left, and one of each pair of layers is left over. */
static void what_is_cut_elsewhere_is_not_laid(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_of(room, LAYING_PIECES, "", cuts);
    const struct lay_hands elsewhere[] = { { 0, 0 }, { 0, 1 }, { 3, 0 }, { 0, 1 } };
    l->cloth = laying_cloth(1400, CLOTH_SINGLE);
    assert_true(lay_task_make(room->a, &l->draft, elsewhere, &l->cloth, PATTERN_FABRIC, &l->task, room->errs));
    room_nothing_told(room);
    assert_string_equal(items_text(room, &l->task), "Front 1/1 either; Sleeve (right) 1/1; Tie 1/1 either");
    l->cloth.spread = CLOTH_FOLDED_TO; /* a part of which is single: what is elsewhere takes no room in either */
    l->cloth.fold_depth_mm = 400;
    assert_true(lay_task_make(room->a, &l->draft, elsewhere, &l->cloth, PATTERN_FABRIC, &l->task, room->errs));
    room_nothing_told(room);
    assert_string_equal(items_text(room, &l->task), "Front 1/2 fold either; Sleeve (right) 1/1; Tie 1/1 either");
}

static void cloth_wrong_side_up_takes_the_other_hand(void **state)
{
    struct room *room = *state;
    struct cloth cloth = laying_cloth(1400, CLOTH_SINGLE);
    cloth.wrong_side_up = true;
    struct laying *l = laying_soundly(room, "{ 'piece': 'sleeve', 'pairs': 1 }", cloth);
    assert_string_equal(items_text(room, &l->task), "Sleeve (right) 1/1 mirrored; Sleeve (left) 1/1");
    cloth.sides_alike = true;
    l = laying_soundly(room, "{ 'piece': 'sleeve', 'pairs': 1 }", cloth);
    assert_string_equal(items_text(room, &l->task), "Sleeve 1 1/1 either; Sleeve 2 1/1 either");
    /* of several lines of the list, numbered through */
    l = laying_soundly(room, "{ 'piece': 'sleeve', 'pairs': 1 }, { 'piece': 'sleeve', 'count': 2 }", cloth);
    assert_string_equal(items_text(room, &l->task),
                        "Sleeve 1 1/1 either; Sleeve 2 1/1 either; Sleeve 3 1/1 either; Sleeve 4 1/1 either");
}

static void two_layers_take_pairs_and_the_fold(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_soundly(room,
                                      "{ 'piece': 'front', 'count': 2 }, { 'piece': 'sleeve', 'pairs': 2 },"
                                      "{ 'piece': 'tie', 'count': 4 }",
                                      laying_cloth(1400, CLOTH_FOLDED));
    assert_string_equal(items_text(room, &l->task), "Front 1 1/2 fold either; Front 2 1/2 fold either; "
                                                    "Sleeve 1 2/2 either; Sleeve 2 2/2 either; "
                                                    "Tie 1 2/2 either; Tie 2 2/2 either");
    assert_true(l->task.items[4].own_image);
    assert_false(l->task.items[2].own_image);
}

/* Two as drawn of a piece that is no mirror image of itself cannot be cut at once; an odd one neither. */
static void what_two_layers_waste_is_told(void **state)
{
    struct room *room = *state;
    struct laying *l =
        laying_of(room, LAYING_PIECES, "", "{ 'piece': 'sleeve', 'count': 2 }, { 'piece': 'tie', 'count': 3 }");
    assert_true(laying_make(room, l, laying_cloth(1400, CLOTH_FOLDED), PATTERN_FABRIC));
    assert_string_equal(items_text(room, &l->task),
                        "Sleeve 1 1/2 either; Sleeve 2 1/2 either; Tie 1 2/2 either; Tie 2 1/2 either");
    assert_int_equal(room->errs->count, 2);
    assert_int_equal(room->errs->faults, 0);
    assert_string_equal(room->errs->items[0].kind->code, "lay.second_unused");
    assert_near(room->errs->items[0].args[1].number, 2, 0);
    assert_near(room->errs->items[1].args[1].number, 1, 0);
    /* called as it is in the layout: of one hand alone, by that */
    room_forget(room);
    l = laying_of(room, LAYING_PIECES, "", "{ 'piece': 'sleeve', 'count': 1, 'hand': 'left' }");
    assert_true(laying_make(room, l, laying_cloth(1400, CLOTH_FOLDED), PATTERN_FABRIC));
    assert_string_equal(room_only_told(room, "lay.second_unused")->args[0].text, "Sleeve (left)");
    assert_string_equal(lay_item_name(room->a, &l->task, 0), "Sleeve (left)");
    room_forget(room);
}

/* 700 wide, folded 200 deep: double up to 200, single from there to 500. The front just reaches from the fold; the
 * sleeves, 300 wide, do not lie in the double part, but fill the single one. */
/* Right sides together the lower layer lies right side up, as a single one does: unturned it gives the piece as it is
 * drawn, the upper layer its mirror image (hand-worked). */
static void the_layer_whose_copy_is_wanted_is_told(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_of(room, LAYING_PIECES, "",
                                 "{ 'piece': 'front', 'count': 1 }, { 'piece': 'sleeve', 'count': 1, 'hand': 'right' },"
                                 "{ 'piece': 'tie', 'count': 3 }, { 'piece': 'gusset', 'count': 1, 'hand': 'left' }");
    assert_true(laying_make(room, l, laying_cloth(1400, CLOTH_FOLDED), PATTERN_FABRIC));
    static const enum lay_kept kept[2][5] = {
        { LAY_KEEPS_ALL, LAY_KEEPS_LOWER, LAY_KEEPS_ALL, LAY_KEEPS_EITHER, LAY_KEEPS_UPPER },
        { LAY_KEEPS_ALL, LAY_KEEPS_UPPER, LAY_KEEPS_ALL, LAY_KEEPS_EITHER, LAY_KEEPS_LOWER },
    };
    assert_int_equal(l->task.item_count, 5);
    struct lay_place places[5] = { { 0 } };
    for (int mirror = 0; mirror < 2; mirror++)
        for (size_t i = 0; i < 5; i++) {
            places[i].is_laid = true;
            places[i].motion.mirror = mirror;
            assert_int_equal(lay_kept_of(&(struct lay){ .task = &l->task, .places = places }, i), kept[mirror][i]);
        }
    l->cloth.sides_alike = true;
    assert_int_equal(lay_kept_of(&(struct lay){ .task = &l->task, .places = places }, 1), LAY_KEEPS_EITHER);
}

static void cloth_folded_to_a_depth_takes_both(void **state)
{
    struct room *room = *state;
    struct cloth cloth = laying_cloth(700, CLOTH_FOLDED_TO);
    cloth.fold_depth_mm = 200;
    struct laying *l = laying_soundly(room, cuts, cloth);
    assert_string_equal(items_text(room, &l->task),
                        "Front 1/2 fold either; Sleeve (right) 1/1; Sleeve (left) 1/1 mirrored; "
                        "Tie 1 2/2 either; Tie 2 2/2 either; Gusset (left) 1/1 mirrored");
    cloth.fold_depth_mm = 150; /* the front is opened out: single from 150 to 550, it is just 400 wide */
    l = laying_soundly(room, "{ 'piece': 'front', 'count': 1 }", cloth);
    assert_string_equal(items_text(room, &l->task), "Front 1/1 either");
}

/* 600 wide, folded 150 deep: double 150, single 300 wide. Eight ties of 100 by 150, in four pairs: on the double part a
 * pair takes 15000 / 150 = 100, in the single one 2 x 15000 / 300 = 100. So they go to either part in turn, two each.
 */
static void pairs_go_where_there_is_room(void **state)
{
    struct room *room = *state;
    struct cloth cloth = laying_cloth(600, CLOTH_FOLDED_TO);
    cloth.fold_depth_mm = 150;
    struct laying *l = laying_soundly(room, "{ 'piece': 'tie', 'count': 8 }", cloth);
    assert_string_equal(items_text(room, &l->task), "Tie 1 2/2 either; Tie 2 2/2 either; Tie 3 1/1 either; "
                                                    "Tie 4 1/1 either; Tie 5 1/1 either; Tie 6 1/1 either");
}

static void cloth_folded_crosswise_has_no_fold_for_pieces(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_soundly(room, "{ 'piece': 'front', 'count': 2 }", laying_cloth(900, CLOTH_FOLDED_ACROSS));
    assert_string_equal(items_text(room, &l->task), "Front 2/2 either");
    l = laying_of(room, LAYING_PIECES, "", "{ 'piece': 'front', 'count': 1 }");
    assert_true(laying_make(room, l, laying_cloth(900, CLOTH_FOLDED_ACROSS), PATTERN_FABRIC));
    assert_string_equal(items_text(room, &l->task), "Front 1/2 either");
    room_only_told(room, "lay.second_unused");
}

/* The resin is on the wrong side; fused on the wrong side, the right hand one is seen mirrored from there. */
static void interfacing_is_turned_to_the_side_it_is_fused_on(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *fuse;
        bool resin_up;
        const char *items;
    } rows[] = {
        { "wrong side", false, "Sleeve (right) 1/1 mirrored; Sleeve (left) 1/1" },
        { "wrong side", true, "Sleeve (right) 1/1; Sleeve (left) 1/1 mirrored" },
        { "right side", false, "Sleeve (right) 1/1; Sleeve (left) 1/1 mirrored" },
        { "right side", true, "Sleeve (right) 1/1 mirrored; Sleeve (left) 1/1" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct laying *l = laying_of(room, LAYING_PIECES, "",
                                     base_arena_print(room->a,
                                                      "{ 'piece': 'sleeve', 'pairs': 1, 'cloth': 'interfacing', "
                                                      "'fuse': '%s' }",
                                                      rows[i].fuse));
        struct cloth cloth = laying_cloth(900, CLOTH_SINGLE);
        cloth.wrong_side_up = rows[i].resin_up;
        assert_true(laying_make(room, l, cloth, PATTERN_INTERFACING));
        assert_string_equal(items_text(room, &l->task), rows[i].items);
    }
}

/* 5 mm all round: the tie 90 by 140; the front's half 5 narrower at its side and 10 shorter, whole at its fold. */
static void interfacing_is_trimmed_but_at_the_fold(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_of(room, LAYING_PIECES, "",
                                 "{ 'piece': 'tie', 'count': 1, 'cloth': 'interfacing' },"
                                 "{ 'piece': 'front', 'count': 1, 'cloth': 'interfacing' }");
    struct cloth cloth = laying_cloth(900, CLOTH_SINGLE);
    cloth.trim_mm = 5;
    assert_true(laying_make(room, l, cloth, PATTERN_INTERFACING));
    room_nothing_told(room);
    assert_near(geometry_path_area(l->task.items[0].piece->cut.path), 90 * 140, 1e-6);
    /* the side leans by 50 in 600: at height y it stands at 200 - y / 12 - 5 * sqrt(1 + 1 / 144) */
    double side = 5 * sqrt(1 + 1 / 144.0), near = 200 - 5 / 12.0 - side, far = 200 - 595 / 12.0 - side;
    assert_near(geometry_path_area(l->task.items[1].piece->cut.path), 2 * 590 * (near + far) / 2, 1e-6);
    cloth.spread = CLOTH_FOLDED;
    assert_true(laying_make(room, l, cloth, PATTERN_INTERFACING));
    assert_near(geometry_path_area(l->task.items[1].piece->cut.path), 590 * (near + far) / 2, 1e-6);
    cloth.spread = CLOTH_SINGLE;
    cloth.trim_mm = 50; /* the tie is 100 wide */
    assert_true(laying_make(room, l, cloth, PATTERN_INTERFACING));
    assert_true(base_err_list_has(room->errs, "lay.no_trim"));
}

static void what_does_not_fit_is_told_with_what_helps(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *cut;
        double width;
        enum cloth_spread_kind spread;
        const char *code;
    } rows[] = {
        { "{ 'piece': 'front', 'count': 1 }", 399, CLOTH_SINGLE, "lay.too_wide" },
        { "{ 'piece': 'front', 'count': 1 }", 500, CLOTH_TO_MIDDLE, "lay.too_far_from_fold" }, /* 125 deep, needs 200 */
        { "{ 'piece': 'front', 'count': 1 }", 399, CLOTH_FOLDED, "lay.too_wide" },
        { "{ 'piece': 'sleeve', 'pairs': 1 }", 599, CLOTH_FOLDED, "lay.too_wide_doubled" },
        { "{ 'piece': 'sleeve', 'pairs': 1 }", 299, CLOTH_SINGLE, "lay.too_wide" },
        { "{ 'piece': 'sleeve', 'pairs': 1 }", 299, CLOTH_FOLDED, "lay.too_wide_folded" },
        { "{ 'piece': 'sleeve', 'pairs': 1 }", 299, CLOTH_FOLDED_ACROSS, "lay.too_wide" }, /* as wide as it is */
        { "{ 'piece': 'gusset', 'count': 1 }", 79, CLOTH_SINGLE, "lay.too_wide" },         /* 120 along its grain */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct laying *l = laying_of(room, LAYING_PIECES, "", rows[i].cut);
        assert_false(laying_make(room, l, laying_cloth(rows[i].width, rows[i].spread), PATTERN_FABRIC));
        room_only_told(room, rows[i].code);
        room_forget(room);
    }
    struct laying *l = laying_of(room, LAYING_PIECES, "", "{ 'piece': 'tie', 'count': 1 }");
    assert_false(laying_make(room, l, laying_cloth(900, CLOTH_SINGLE), PATTERN_LINING));
    room_only_told(room, "lay.nothing");
}

/* A sleeve of 300 needs 300 and two selvedges of 12.5, and before 5 % are lost 325 / 0.95 = 342.1: 343 are told, and on
 * them it lies. Folded, the cloth has its whole width, not the half that lies double. */
static void the_width_that_is_told_is_wide_enough(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_of(room, LAYING_PIECES, "", "{ 'piece': 'sleeve', 'pairs': 1 }");
    struct cloth cloth = laying_cloth(310, CLOTH_FOLDED);
    cloth.selvedge_mm = 12.5;
    cloth.shrink_weft = 0.05;
    assert_false(laying_make(room, l, cloth, PATTERN_FABRIC));
    const struct err *told = room_only_told(room, "lay.too_wide_folded");
    assert_near(told->args[2].number, 310 * 0.95 - 25, 1e-9);
    assert_near(told->args[3].number, 343, 1e-9);
    room_forget(room);
    cloth.width_mm = 343;
    cloth.spread = CLOTH_SINGLE;
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    room_nothing_told(room);
}

/* A spike that runs out and back on itself is drafted, with a warning, but cannot be laid; nor can 401 pieces. */
static void what_cannot_be_arranged_is_told(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_of(room, LAYING_PIECES, "", "{ 'piece': 'tie', 'count': 401 }");
    assert_false(laying_make(room, l, laying_cloth(900, CLOTH_SINGLE), PATTERN_FABRIC));
    assert_near(room_only_told(room, "lay.too_many")->args[0].number, 401, 0);
    room_forget(room);
    l = laying_of(room, LAYING_PIECES, "", "{ 'piece': 'tie', 'count': 1 }");
    vec2 spike[] = { { 0, 0 }, { 100, 0 }, { 100, 50 }, { 180, 50 }, { 100, 50 }, { 100, 100 }, { 0, 100 } };
    struct draft_piece *piece = base_arena_alloc(room->a, 1, sizeof *piece);
    *piece = l->draft.pieces[0];
    piece->cut.path = (struct geometry_path){ spike, 7, true };
    l->draft.pieces = piece;
    assert_false(laying_make(room, l, laying_cloth(900, CLOTH_SINGLE), PATTERN_FABRIC));
    room_only_told(room, "lay.touches_itself");
}

/* The tie is 150 long: along cloth 120 wide it lies, across it does not; a sleeve 300 wide and 400 long would not turn.
 */
static void a_grain_that_may_be_turned_in_the_pattern_is_told(void **state)
{
    struct room *room = *state;
    struct laying *l =
        laying_of(room, "{ 'name': 'tie', 'label': 'Tie', 'rectangle': { 'width': 150, 'height': 100 } }", "",
                  "{ 'piece': 'tie', 'count': 1 }");
    assert_false(laying_make(room, l, laying_cloth(120, CLOTH_SINGLE), PATTERN_FABRIC));
    const struct err *told = room_only_told(room, "lay.too_wide_turned");
    assert_near(told->args[1].number, 150, 1e-9);
    assert_near(told->args[3].number, 100, 1e-9);
}

/* By hand: the outline as drawn, x across the cloth and y along it, and turned so that up lies along +x. */
/* Its upper and lower halves are mirror images: turned round it is its own left one. Of stripes that are uneven it is
 * not turned round, so that the left one is the mirror image. */
static void uneven_stripes_know_right_from_left(void **state)
{
    struct room *room = *state;
    const char *flag = "{ 'name': 'flag', 'points': { 'a': [0, 0], 'b': [100, 20], 'c': [100, 80], 'd': [0, 100] },"
                       "  'outline': [ { 'name': 'e', 'path': ['a', 'b', 'c', 'd', 'a'] } ] }";
    struct laying *l = laying_of(room, flag, "", "{ 'piece': 'flag', 'pairs': 1 }");
    struct cloth cloth = laying_cloth(900, CLOTH_SINGLE);
    cloth.repeat = (struct cloth_repeat){ .along_mm = 90 };
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    assert_int_equal(l->task.items[0].mirrored, l->task.items[1].mirrored);
    cloth.repeat.uneven = true;
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    assert_int_equal(l->task.item_count, 2);
    assert_int_not_equal(l->task.items[0].mirrored, l->task.items[1].mirrored);
    room_nothing_told(room);
}

/* Sleeves 300 wide without a line to match by, on stripes that run along the cloth: the middle of their grain lies on
 * one. On 320 of cloth they can be shifted by 20, and the line is 60 on, the one before 30 back: they lie anywhere, the
 * same way up. One stripe goes through both where the cloth lies double. */
static void pairs_that_stripes_make_unlike_are_told(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_of(room, LAYING_PIECES, "", "{ 'piece': 'sleeve', 'pairs': 1 }");
    struct cloth cloth = laying_cloth(900, CLOTH_SINGLE);
    cloth.repeat = (struct cloth_repeat){ .across_mm = 90, .line_across_mm = 10 };
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    room_nothing_told(room);
    double grain = l->task.items[0].piece->grain[0].x;
    cloth.repeat.uneven = true;
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    assert_string_equal(room_only_told(room, "lay.uneven_pair")->args[0].text, "Sleeve");
    room_forget(room);
    cloth.repeat.uneven = false;
    cloth.repeat.line_across_mm = grain + 60;
    cloth.width_mm = 320;
    cloth.one_way = true;
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    assert_string_equal(room_only_told(room, "lay.unlike_pair")->args[0].text, "Sleeve");
    assert_true(lay_can_lie(&l->task, 0) && lay_can_lie(&l->task, 1));
    room_forget(room);
    cloth.width_mm = 900;
    cloth.spread = CLOTH_FOLDED;
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    room_only_told(room, "cloth.fold_on_line");
    room_forget(room);
}

/* Of three pieces sewn to each other one has a match line, and hands it on to the one that is sewn to it; the third is
 * sewn to that alone, and matched by nothing. */
static void what_is_sewn_and_not_matched_is_told(void **state)
{
    struct room *room = *state;
    static const char pieces[] = "{ 'name': 'front', 'label': 'Front', 'rectangle': { 'width': 200, 'height': 400 },"
                                 "  'points': { 'm': [0, 200], 'n': [200, 200] },"
                                 "  'lines': [ { 'kind': 'match', 'from': 'm', 'to': 'n' } ] },"
                                 "{ 'name': 'side', 'label': 'Side', 'rectangle': { 'width': 100, 'height': 400 } },"
                                 "{ 'name': 'back', 'label': 'Back', 'rectangle': { 'width': 150, 'height': 400 } },"
                                 "{ 'name': 'pocket', 'label': 'Pocket', 'rectangle': { 'width': 90, 'height': 90 } }";
    static const char seams[] = "{ 'name': 's', 'join': [ ['front.right'], ['side.left backwards'] ] },"
                                "{ 'name': 't', 'join': [ ['side.right'], ['back.left backwards'] ] }";
    struct laying *l =
        laying_of(room, pieces, seams,
                  "{ 'piece': 'front', 'count': 1 }, { 'piece': 'side', 'count': 1 }, { 'piece': 'back', 'count': 1 },"
                  "{ 'piece': 'pocket', 'count': 2 }");
    struct cloth cloth = laying_cloth(900, CLOTH_SINGLE);
    cloth.repeat = (struct cloth_repeat){ .across_mm = 60 };
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    room_nothing_told(room);
    cloth.repeat = (struct cloth_repeat){ .along_mm = 60 };
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    assert_string_equal(room_only_told(room, "lay.no_match_line")->args[0].text, "“Back”");
    room_forget(room);
}

static void an_item_lies_where_its_motion_takes_it(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_soundly(room, "{ 'piece': 'sleeve', 'count': 1 }", laying_cloth(900, CLOTH_SINGLE));
    struct lay_place place = { .is_laid = true, .motion = { .turn_deg = -90, .shift = { 100, 300 } } };
    struct geometry_path p = lay_outline(room->a, &l->task, 0, &place).path;
    /* (300, 0) to (0, -300) and on by (100, 300) */
    struct geometry_box box = geometry_path_box(p);
    assert_near(box.min.x, 100, 1e-9);
    assert_near(box.max.x, 500, 1e-9);
    assert_near(box.min.y, 0, 1e-9);
    assert_near(box.max.y, 300, 1e-9);
    assert_near(lay_off_grain(&place, &l->task.items[0]), 0, 1e-12);
    struct lay lay = lay_of(room->a, &l->task, &place);
    assert_near(lay.length_mm, 500, 1e-9);
    assert_near(lay.used, 95000 / (500.0 * 900), 1e-9); /* shoelace: (300 x 400 + 200 x 350) / 2 */
    place.motion.mirror = true;
    place.motion.turn_deg = 88;
    assert_near(lay_off_grain(&place, &l->task.items[0]), 2, 1e-9);
    assert_true(geometry_path_area(lay_outline(room->a, &l->task, 0, &place).path) > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_single_layer_takes_every_piece_by_itself),
        room_test(what_is_cut_elsewhere_is_not_laid),
        room_test(cloth_wrong_side_up_takes_the_other_hand),
        room_test(two_layers_take_pairs_and_the_fold),
        room_test(what_two_layers_waste_is_told),
        room_test(the_layer_whose_copy_is_wanted_is_told),
        room_test(cloth_folded_to_a_depth_takes_both),
        room_test(pairs_go_where_there_is_room),
        room_test(cloth_folded_crosswise_has_no_fold_for_pieces),
        room_test(interfacing_is_turned_to_the_side_it_is_fused_on),
        room_test(interfacing_is_trimmed_but_at_the_fold),
        room_test(what_does_not_fit_is_told_with_what_helps),
        room_test(what_cannot_be_arranged_is_told),
        room_test(the_width_that_is_told_is_wide_enough),
        room_test(a_grain_that_may_be_turned_in_the_pattern_is_told),
        room_test(uneven_stripes_know_right_from_left),
        room_test(pairs_that_stripes_make_unlike_are_told),
        room_test(what_is_sewn_and_not_matched_is_told),
        room_test(an_item_lies_where_its_motion_takes_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
