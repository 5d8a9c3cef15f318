/* Fusing in a block: where it lies, what is told, what of the interfacing is left. Figures are hand-worked: a tie is
 * 100 across and 150 along, half a front 200 across and 600 along, a sleeve 300 by 400; a block reaches 5 past. */
#include "lay/laying.h"

/* Two of four ties are fused, and one of two sleeves: they lie in a block at most 410 less 10 wide at the cut end, and
 * nothing else within it; the interfacing is 10 larger each way. */
static void what_is_fused_lies_in_a_block(void **state)
{
    struct room *room = *state;
    struct cloth cloth = laying_cloth(900, CLOTH_SINGLE);
    cloth.block_mm = 410;
    struct laying *l = laying_soundly(room,
                                      "{ 'piece': 'tie', 'count': 4 }, { 'piece': 'sleeve', 'pairs': 1 },"
                                      "{ 'piece': 'tie', 'count': 2, 'cloth': 'interfacing' },"
                                      "{ 'piece': 'sleeve', 'count': 1, 'hand': 'left', 'cloth': 'interfacing' }",
                                      cloth);
    struct lay lay = laying_best_after(room, &l->task, NULL, 3);
    laying_nothing_is_wrong(room, &lay);
    assert_int_equal(lay.left_out, 0);
    struct geometry_box block = geometry_box_empty(), boxes[6];
    size_t covered = 0;
    for (size_t i = 0; i < 6; i++) {
        boxes[i] = geometry_path_box(lay_outline(room->a, &l->task, i, &lay.places[i]).path);
        covered += l->task.items[i].covered;
        if (l->task.items[i].covered)
            block = geometry_box_join(block, boxes[i]);
    }
    assert_int_equal(covered, 3);
    assert_true(l->task.items[5].covered && !l->task.items[4].covered); /* the left sleeve */
    /* a block reaches 5 past its pieces, all on the cloth, and is no wider than its interfacing */
    assert_true(block.min.x >= 5 - 1e-6 && block.min.y >= 5 - 1e-6);
    assert_true(block.max.y + 5 <= 410 + 1e-6 && block.max.x <= 5 + 400 + 150 + 1);
    for (size_t i = 0; i < 6; i++)
        if (!l->task.items[i].covered)
            assert_true(boxes[i].min.x >= block.max.x + 5 - 1e-6 || boxes[i].min.y >= block.max.y + 5 - 1e-6 ||
                        boxes[i].max.y <= block.min.y - 5 + 1e-6);
    struct lay_figures f = lay_figures_of(&lay, UNITS_CM);
    assert_near(f.block.length_mm, block.max.x - block.min.x + 10, 1e-9);
    assert_near(f.block.width_mm, block.max.y - block.min.y + 10, 1e-9);
    assert_int_equal(f.block.count, 1);
}

/* A block of 300 has room for 290: a sleeve of 300 is fused by itself, and so is a tie that is fused on its right side.
 * An interfacing's own file has no block. */
static void what_is_not_fused_in_the_block_is_told(void **state)
{
    struct room *room = *state;
    struct cloth cloth = laying_cloth(900, CLOTH_SINGLE);
    cloth.block_mm = 300;
    struct laying *l = laying_of(room, LAYING_PIECES, "",
                                 "{ 'piece': 'tie', 'count': 4 }, { 'piece': 'sleeve', 'pairs': 1 },"
                                 "{ 'piece': 'tie', 'count': 2, 'cloth': 'interfacing', 'fuse': 'right side' },"
                                 "{ 'piece': 'sleeve', 'pairs': 1, 'cloth': 'interfacing' }");
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    for (size_t i = 0; i < l->task.item_count; i++)
        assert_false(l->task.items[i].covered);
    assert_int_equal(room->errs->count, 2);
    assert_string_equal(room->errs->items[0].kind->code, "lay.right_side_block");
    assert_string_equal(room->errs->items[1].kind->code, "lay.wider_than_block");
    room_forget(room);
    assert_true(laying_make(room, l, cloth, PATTERN_INTERFACING));
    room_only_told(room, "lay.block_not_of_fabric");
}

static struct geometry_box covered_box(struct room *room, const struct lay *lay)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < lay->task->item_count; i++)
        if (lay->task->items[i].covered)
            box = geometry_box_join(box, geometry_path_box(lay_outline(room->a, lay->task, i, &lay->places[i]).path));
    return box;
}

/* Two pairs of ties and a pair of sleeves, all cut through both layers: each layer is fused on its outer side. */
static void both_layers_of_doubled_cloth_are_fused(void **state)
{
    struct room *room = *state;
    static const enum cloth_spread_kind spreads[] = { CLOTH_FOLDED, CLOTH_FOLDED_ACROSS };
    for (size_t s = 0; s < 2; s++) {
        struct cloth cloth = laying_cloth(900, spreads[s]);
        cloth.block_mm = 410;
        struct laying *l = laying_soundly(room,
                                          "{ 'piece': 'tie', 'count': 4 }, { 'piece': 'sleeve', 'pairs': 1 },"
                                          "{ 'piece': 'gusset', 'pairs': 1 },"
                                          "{ 'piece': 'tie', 'count': 4, 'cloth': 'interfacing' },"
                                          "{ 'piece': 'sleeve', 'pairs': 1, 'cloth': 'interfacing' }",
                                          cloth);
        struct lay lay = laying_best_after(room, &l->task, NULL, 3);
        laying_nothing_is_wrong(room, &lay);
        for (size_t i = 0; i < 4; i++)
            assert_int_equal(l->task.items[i].covered, i < 3);
        struct geometry_box box = covered_box(room, &lay);
        struct lay_block block = lay_figures_of(&lay, UNITS_CM).block;
        assert_int_equal(block.count, 2);
        assert_false(block.over_fold);
        assert_true(box.min.x >= 5 - 1e-6 && box.min.y >= 5 - 1e-6 && box.max.y <= 405 + 1e-6);
        assert_near(block.length_mm, box.max.x - box.min.x + 10, 1e-9);
        assert_near(block.width_mm, box.max.y - box.min.y + 10, 1e-9);
    }
}

/* Half a front reaches 200 from the fold: opened out, with 5 past at either side, the block is 410 wide, all of it on
 * interfacing as wide as that. Interfacing of 400 has room for 390, which the front's 400 are too wide for. */
static void a_piece_on_the_fold_is_fused_over_it(void **state)
{
    struct room *room = *state;
    struct cloth cloth = laying_cloth(900, CLOTH_FOLDED);
    cloth.block_mm = 410;
    struct laying *l = laying_soundly(room,
                                      "{ 'piece': 'front', 'count': 1 }, { 'piece': 'tie', 'count': 2 },"
                                      "{ 'piece': 'front', 'count': 1, 'cloth': 'interfacing' },"
                                      "{ 'piece': 'tie', 'count': 2, 'cloth': 'interfacing' }",
                                      cloth);
    struct lay lay = laying_best_after(room, &l->task, NULL, 3);
    laying_nothing_is_wrong(room, &lay);
    struct geometry_box box = covered_box(room, &lay);
    struct lay_block block = lay_figures_of(&lay, UNITS_CM).block;
    assert_int_equal(block.count, 1);
    assert_true(block.over_fold);
    assert_near(block.width_mm, 410, 1e-6);
    assert_near(block.length_mm, box.max.x - box.min.x + 10, 1e-9);
    cloth.block_mm = 400;
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    const struct err *e = room_only_told(room, "lay.wider_than_block");
    assert_near(e->args[1].number, 400, 1e-6);
    assert_near(e->args[2].number, 390, 1e-6);
    assert_false(l->task.items[0].covered);
    assert_true(l->task.items[1].covered);
}

/* Folded 300 deep the front lies on the fold and a third tie where the cloth is single: more is fused where it is
 * double. Of two ties cut at once one alone is not fused in a block. */
static void what_the_block_cannot_take_is_told(void **state)
{
    struct room *room = *state;
    struct cloth cloth = laying_cloth(900, CLOTH_FOLDED_TO);
    cloth.fold_depth_mm = 300;
    cloth.block_mm = 600;
    struct laying *l = laying_of(room, LAYING_PIECES, "",
                                 "{ 'piece': 'front', 'count': 1 }, { 'piece': 'tie', 'count': 1 },"
                                 "{ 'piece': 'front', 'count': 1, 'cloth': 'interfacing' },"
                                 "{ 'piece': 'tie', 'count': 1, 'cloth': 'interfacing' }");
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    const struct err *e = room_only_told(room, "lay.block_other_layers");
    assert_string_equal(e->args[0].text, "Tie");
    assert_string_equal(e->args[1].text, "single");
    assert_string_equal(e->args[2].text, "double");
    assert_true(l->task.items[0].covered && !l->task.items[1].covered);
    room_forget(room);
    l = laying_of(room, LAYING_PIECES, "",
                  "{ 'piece': 'tie', 'count': 2 }, { 'piece': 'tie', 'count': 1, 'cloth': 'interfacing' }");
    assert_true(laying_make(room, l, laying_cloth(900, CLOTH_FOLDED), PATTERN_FABRIC));
    room_nothing_told(room);
    cloth = laying_cloth(900, CLOTH_FOLDED);
    cloth.block_mm = 400;
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    room_only_told(room, "lay.block_one_of_two");
    assert_false(l->task.items[0].covered);
}

/* --- by hand ------------------------------------------------------------------------------------------------------ */

enum { A, B, STRANGER, TIES };

/* A tie over [x, x + 150] × [y, y + 100]. */
static struct lay_place tie_at(double x, double y)
{
    return (struct lay_place){ .is_laid = true, .motion = { .turn_deg = -90, .shift = { x, y + 100 } } };
}

/* Ties A and B are fused, a third one is not; the block may be 410 wide. */
static struct laying *three_ties(struct room *room)
{
    struct cloth cloth = laying_cloth(900, CLOTH_SINGLE);
    cloth.block_mm = 410;
    return laying_soundly(
        room, "{ 'piece': 'tie', 'count': 3 }, { 'piece': 'tie', 'count': 2, 'cloth': 'interfacing' }", cloth);
}

/* The block is [0, 160] × [0, 210], or what a row says. */
static void what_is_moved_into_or_out_of_the_block_is_found(void **state)
{
    struct room *room = *state;
    struct laying *l = three_ties(room);
    static const struct {
        vec2 b, stranger;
        int found, item; /* LAY_NONE: nothing */
        double amount, length, width;
    } rows[] = {
        { { 5, 105 }, { 300, 300 }, LAY_NONE, 0, 0, 160, 210 },
        { { 5, 105 }, { 150, 205 }, LAY_IN_BLOCK, STRANGER, 5, 160, 210 }, /* over a corner of 10 by 5 */
        { { 5, 105 }, { 160, 5 }, LAY_NONE, 0, 0, 160, 210 },              /* beside it */
        { { 400, 5 }, { 200, 5 }, LAY_OFF_BLOCK, B, 390, 160, 110 },       /* past the stranger: up to 550 */
        { { 400, 5 }, { 200, 300 }, LAY_NONE, 0, 0, 555, 110 },            /* nothing lies between */
        { { 5, 355 }, { 200, 5 }, LAY_OFF_BLOCK, B, 345, 160, 110 },       /* both would take 460 */
        { { 5, 300 }, { 200, 5 }, LAY_NONE, 0, 0, 160, 405 },
    };
    for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++) {
        const struct lay_place places[TIES] = { tie_at(5, 5), tie_at(rows[r].b.x, rows[r].b.y),
                                                tie_at(rows[r].stranger.x, rows[r].stranger.y) };
        const struct lay_finding *found;
        struct lay lay = lay_of(room->a, &l->task, places);
        size_t count = lay_judge(room->a, &lay, &found);
        assert_int_equal(count, rows[r].found != LAY_NONE);
        if (count) {
            assert_int_equal(found->fault, rows[r].found);
            assert_int_equal(found->item, rows[r].item);
            assert_near(found->amount, rows[r].amount, 1e-6);
        }
        struct lay_block block = lay_figures_of(&lay, UNITS_CM).block;
        assert_near(block.length_mm, rows[r].length, 1e-6);
        assert_near(block.width_mm, rows[r].width, 1e-6);
    }
}

/* Where nothing but the block's two ties lies, 5 past them: 805 less 5 from the cut end, 305 less 5 from the near edge.
 */
static void the_block_is_told_where_it_lies(void **state)
{
    struct room *room = *state;
    struct laying *l = three_ties(room);
    const struct lay_place places[TIES] = { tie_at(805, 305), tie_at(805, 405), tie_at(0, 0) };
    struct lay lay = lay_of(room->a, &l->task, places);
    struct lay_block block = lay_block_of(&lay);
    assert_near(block.from_cut_end_mm, 800, 1e-6);
    assert_near(block.from_near_edge_mm, 300, 1e-6);
    const struct lay_place first[TIES] = { tie_at(5, 5), tie_at(5, 105), tie_at(300, 300) };
    lay = lay_of(room->a, &l->task, first);
    block = lay_block_of(&lay);
    assert_near(block.from_cut_end_mm, 0, 1e-6);
    assert_near(block.from_near_edge_mm, 0, 1e-6);
}

/* From the corner that it takes of the block it is 5 to beside it. A fused one may lie there. */
static void a_piece_is_butted_against_the_block(void **state)
{
    struct room *room = *state;
    struct laying *l = three_ties(room);
    const struct lay_place places[TIES] = { tie_at(5, 5), tie_at(5, 105), tie_at(150, 205) };
    struct lay lay = lay_of(room->a, &l->task, places);
    struct lay_place at = places[STRANGER];
    assert_true(lay_butt(&lay, STRANGER, 50, &at));
    assert_near(at.motion.shift.y, 310, 1e-3);
    assert_near(at.motion.shift.x, 150, 1e-3);
}

/* Of eight sleeves, 450,000 mm² by 410 less 10, a block is 1125 long at least; the first that is found is longer than
 * what a search comes to, and it is what there is where that is stopped at once. */
static void a_block_lies_as_first_found_where_it_is_stopped(void **state)
{
    struct room *room = *state;
    struct cloth cloth = laying_cloth(900, CLOTH_SINGLE);
    cloth.block_mm = 410;
    struct laying *l = laying_soundly(room,
                                      "{ 'piece': 'sleeve', 'pairs': 4 }, { 'piece': 'gusset', 'count': 12 },"
                                      "{ 'piece': 'sleeve', 'pairs': 4, 'cloth': 'interfacing' },"
                                      "{ 'piece': 'gusset', 'count': 12, 'cloth': 'interfacing' }",
                                      cloth);
    double length[2];
    for (int i = 0; i < 2; i++) {
        const atomic_bool stop = i == 0;
        struct lay_search *s = lay_search_begin(&l->task, NULL, 1, NULL, &stop, room->errs);
        assert_non_null(s);
        struct lay lay = lay_search_best(room->a, s);
        laying_nothing_is_wrong(room, &lay);
        assert_int_equal(lay.left_out, 0);
        length[i] = lay_block_of(&lay).length_mm;
        lay_search_end(s);
    }
    assert_true(length[1] >= 1125);
    assert_true(length[0] > length[1] + 10);
}

/* Held where the block comes to lie, and held away from it. */
static void what_is_held_in_or_off_the_block_is_told(void **state)
{
    struct room *room = *state;
    struct laying *l = three_ties(room);
    struct lay_place held[TIES] = { [A] = tie_at(5, 5), [B] = tie_at(5, 105), [STRANGER] = tie_at(150, 205) };
    held[A].is_pinned = held[B].is_pinned = held[STRANGER].is_pinned = true;
    lay_search_end(lay_search_begin(&l->task, held, 1, NULL, NULL, room->errs));
    room_only_told(room, "lay.held_in_block");
    room_forget(room);
    held[B].motion = tie_at(5, 355).motion;
    lay_search_end(lay_search_begin(&l->task, held, 1, NULL, NULL, room->errs));
    room_only_told(room, "lay.held_off_block");
}

/* A tie is held from 805 on: the other one, 150 long, is laid from there on, too, so that the block begins 5 before and
 * is 160 long, both beside each other across. Two that are held from 845 on, side by side on 210 of 1000 of cloth,
 * leave room for a third one only before them. */
static void the_block_begins_at_what_is_held(void **state)
{
    struct room *room = *state;
    struct laying *l = three_ties(room);
    struct lay_place held[TIES] = { [A] = tie_at(805, 5) };
    held[A].is_pinned = true;
    struct lay lay = laying_best_after(room, &l->task, held, 1);
    struct lay_block block = lay_block_of(&lay);
    assert_near(block.from_cut_end_mm, 800, 1e-6);
    assert_near(block.length_mm, 160, 0.5);
    assert_near(block.width_mm, 210, 0.5);
    struct cloth cloth = laying_cloth(210, CLOTH_SINGLE);
    cloth.block_mm = 210;
    cloth.length_mm = 1000;
    l = laying_soundly(room, "{ 'piece': 'tie', 'count': 3 }, { 'piece': 'tie', 'count': 3, 'cloth': 'interfacing' }",
                       cloth);
    const struct lay_place two[TIES] = { { true, true, tie_at(845, 5).motion },
                                         { true, true, tie_at(845, 105).motion } };
    lay = laying_best_after(room, &l->task, two, 1);
    assert_int_equal(lay.left_out, 0);
}

/* --- its interfacing ---------------------------------------------------------------------------------------------- */

/* The fabric of that cloth laid, and the interfacing that is left then, on a cloth of its own. */
static void make_interfacing(struct room *room, struct laying *l, struct cloth fabric, struct cloth interfacing)
{
    assert_true(laying_make(room, l, fabric, PATTERN_FABRIC));
    struct lay lay = laying_best_after(room, &l->task, NULL, 3);
    const struct lay_block block = lay_block_of(&lay);
    const struct lay_hands *within = lay_in_block(room->a, &lay);
    l->cloth = interfacing;
    assert_true(lay_task_make_interfacing(room->a, &l->draft, within, &block, &l->cloth, &l->task, room->errs));
}

static void items_are(struct room *room, const struct laying *l, const char *const *names)
{
    for (size_t i = 0; i < l->task.item_count; i++)
        assert_string_equal(lay_item_name(room->a, &l->task, i), names[i]);
    assert_null(names[l->task.item_count]);
}

/* Four ties lie two by two, 300 by 200, with 5 past all round 310 by 210. No gusset is cut of the fabric, so that one
 * is laid by itself, trimmed, which the block is not. */
static void the_block_is_laid_in_place_of_its_pieces(void **state)
{
    struct room *room = *state;
    struct cloth fabric = laying_cloth(210, CLOTH_SINGLE), interfacing = laying_cloth(400, CLOTH_SINGLE);
    fabric.block_mm = 900;
    interfacing.trim_mm = 10;
    struct laying *l =
        laying_of(room, LAYING_PIECES, "",
                  "{ 'piece': 'tie', 'count': 4 }, { 'piece': 'tie', 'count': 3, 'cloth': 'interfacing' },"
                  "{ 'piece': 'tie', 'count': 1, 'cloth': 'interfacing' },"
                  "{ 'piece': 'gusset', 'count': 1, 'cloth': 'interfacing' }");
    make_interfacing(room, l, fabric, interfacing);
    items_are(room, l, (const char *const[]){ "Block", "Gusset", NULL });
    struct lay lay = laying_best_after(room, &l->task, NULL, 3);
    laying_nothing_is_wrong(room, &lay);
    struct geometry_box box = geometry_path_box(lay_outline(room->a, &l->task, 0, &lay.places[0]).path);
    assert_near(box.max.x - box.min.x, 310, 1e-2);
    assert_near(box.max.y - box.min.y, 210, 1e-2);
    room_nothing_told(room);
}

/* 210 wide of cloth that lies 120 wide, each strip 6 over the one before: two of 108. Of 80: (210 - 6) / 74 make three,
 * 74 each. */
static void a_block_wider_than_its_interfacing_is_cut_as_strips(void **state)
{
    struct room *room = *state;
    struct cloth fabric = laying_cloth(210, CLOTH_SINGLE);
    fabric.block_mm = 900;
    struct laying *l =
        laying_of(room, LAYING_PIECES, "",
                  "{ 'piece': 'tie', 'count': 4 }, { 'piece': 'tie', 'count': 4, 'cloth': 'interfacing' }");
    make_interfacing(room, l, fabric, laying_cloth(120, CLOTH_SINGLE));
    items_are(room, l, (const char *const[]){ "Block 1", "Block 2", NULL });
    const struct err *e = room_only_told(room, "lay.block_in_strips");
    assert_near(e->args[0].number, 210, 1e-9); /* whole mm are told: pieces lie a few hundredths apart */
    assert_near(e->args[3].number, 108, 1e-9);
    room_forget(room);
    make_interfacing(room, l, fabric, laying_cloth(80, CLOTH_SINGLE));
    items_are(room, l, (const char *const[]){ "Block 1", "Block 2", "Block 3", NULL });
    e = room_only_told(room, "lay.block_in_strips");
    assert_near(e->args[3].number, 74, 1e-2);
}

/* Two blocks for two layers are cut at once of folded interfacing; a sleeve of the other hand by itself. */
static void two_blocks_are_a_pair(void **state)
{
    struct room *room = *state;
    struct cloth fabric = laying_cloth(900, CLOTH_FOLDED);
    fabric.block_mm = 440;
    struct laying *l =
        laying_of(room, LAYING_PIECES, "",
                  "{ 'piece': 'sleeve', 'pairs': 1 }, { 'piece': 'sleeve', 'pairs': 1, 'cloth': 'interfacing' },"
                  "{ 'piece': 'sleeve', 'count': 1, 'hand': 'left', 'cloth': 'interfacing' }");
    make_interfacing(room, l, fabric, laying_cloth(900, CLOTH_FOLDED));
    assert_int_equal(l->task.items[0].copies, 2);
    items_are(room, l, (const char *const[]){ "Block", "Sleeve (left)", NULL });
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(what_is_fused_lies_in_a_block),
        room_test(what_is_not_fused_in_the_block_is_told),
        room_test(both_layers_of_doubled_cloth_are_fused),
        room_test(a_piece_on_the_fold_is_fused_over_it),
        room_test(what_the_block_cannot_take_is_told),
        room_test(what_is_moved_into_or_out_of_the_block_is_found),
        room_test(the_block_is_told_where_it_lies),
        room_test(a_piece_is_butted_against_the_block),
        room_test(a_block_lies_as_first_found_where_it_is_stopped),
        room_test(what_is_held_in_or_off_the_block_is_told),
        room_test(the_block_begins_at_what_is_held),
        room_test(the_block_is_laid_in_place_of_its_pieces),
        room_test(a_block_wider_than_its_interfacing_is_cut_as_strips),
        room_test(two_blocks_are_a_pair),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
