/* Pieces are arranged at the table: keys in, what lies where and what is told out. Pieces are boxes on cloth of 500 mm,
 * so that every place is worked out by hand. */
#include "app/arrange_look.h"
#include "app/arrange_state.h"
#include "geometry/random.h"
#include "input/key.h"
#include "job/cloth.h"
#include "scene/reading.h"
#include "support/room.h"

#include <math.h>
#include <semaphore.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define NEAR_MM 1e-3 /* as near as butting goes: finer than any cut */
#define SAME_MM 1e-9

/* Boxes of 200 × 300 mm, their grain along the 300; a pocket of 100 × 100; a bent side, cut as a pair; half of a piece
 * on the fold, 150 wide at one end, 100 at the other, 300 long. */
#define PATTERN                                                                                                        \
    "{ 'chalklight': 'pattern', 'version': 2, 'name': 'Boxes', 'unit': 'mm', 'outline': 'cutting line', "              \
    "'sizes': ['one'], 'pieces': [ "                                                                                   \
    "{ 'name': 'Front', 'rectangle': { 'width': 200, 'height': 300 } }, "                                              \
    "{ 'name': 'Back', 'rectangle': { 'width': 200, 'height': 300 } }, "                                               \
    "{ 'name': 'Pocket', 'rectangle': { 'width': 100, 'height': 100 } }, "                                             \
    "{ 'name': 'Side', 'points': { 'a': [0, 0], 'b': [150, 0], 'c': [150, 100], 'd': [50, 300], 'e': [0, 300] }, "     \
    "'outline': [ { 'name': 'all', 'path': ['a', 'b', 'c', 'd', 'e', 'a'] } ] }, "                                     \
    "{ 'name': 'Yoke', 'points': { 'a': [0, 0], 'b': [150, 0], 'c': [100, 300], 'd': [0, 300] }, 'fold': 'middle', "   \
    "'outline': [ { 'name': 'rest', 'path': ['a', 'b', 'c', 'd'] }, { 'name': 'middle', 'path': ['d', 'a'] } ] } ], "  \
    "'views': [ { 'name': 'Plain', 'cut': [ { 'piece': 'Front', 'count': 1 }, { 'piece': 'Back', 'count': 1 }, "       \
    "{ 'piece': 'Pocket', 'count': 1 } ] }, "                                                                          \
    "{ 'name': 'Bent', 'cut': [ { 'piece': 'Side', 'pairs': 1 } ] }, "                                                 \
    "{ 'name': 'Fold', 'cut': [ { 'piece': 'Yoke', 'count': 1 } ] }, "                                                 \
    "{ 'name': 'All', 'cut': [ { 'piece': 'Front', 'count': 1 }, { 'piece': 'Pocket', 'pairs': 1 }, "                  \
    "{ 'piece': 'Side', 'pairs': 1 }, { 'piece': 'Yoke', 'count': 1 } ] }, "                                           \
    "{ 'name': 'Fused', 'cut': [ { 'piece': 'Front', 'count': 1 }, { 'piece': 'Back', 'count': 1 }, "                  \
    "{ 'piece': 'Pocket', 'count': 1 }, { 'piece': 'Front', 'count': 1, 'cloth': 'interfacing' }, "                    \
    "{ 'piece': 'Back', 'count': 1, 'cloth': 'interfacing' } ] }, "                                                    \
    "{ 'name': 'Two', 'cut': [ { 'piece': 'Front', 'count': 1 }, "                                                     \
    "{ 'piece': 'Pocket', 'count': 2, 'cloth': 'lining' } ] } ] }"

enum { FRONT, BACK, POCKET, KEYS_PRESSED = 20 };

struct table_here {
    struct room room;
    struct here scene; /* for finding words */
    struct job job;
    struct cloth cloth;
    struct app_arrange *arrange;
    sem_t woken; /* posted for each time that the search's own thread has found something … */
    bool aside;  /* … where it has one */
};

static int set_up(void **state)
{
    static struct table_here h;
    room_init(&h.room);
    h.scene.a = h.room.a;
    h.scene.errs = h.room.errs;
    h.scene.font = text_font_open(h.room.errs);
    h.cloth = cloth_plain(500);
    h.cloth.selvedge_mm = h.cloth.gap_mm = 0;
    h.cloth.spread = CLOTH_SINGLE;
    h.arrange = NULL;
    h.aside = false;
    sem_init(&h.woken, 0, 0);
    *state = &h;
    return h.scene.font ? 0 : -1;
}

static int tear_down(void **state)
{
    struct table_here *h = *state;
    app_arrange_destroy(h->arrange);
    sem_destroy(&h->woken);
    text_font_close(h->scene.font);
    return room_close(state);
}

#define arrange_test(f) cmocka_unit_test_setup_teardown((f), set_up, tear_down)

static void wake(void *user)
{
    sem_post(user);
}

static void create(struct table_here *h)
{
    struct app_arrange_start start = { .job = &h->job,
                                       .table = { .map = map_of(&hangings[0]), .name = "table.json" },
                                       .font = h->scene.font,
                                       .unit = UNITS_MM,
                                       .locks = true,
                                       .widths = h->aside,
                                       .wake = h->aside ? wake : NULL,
                                       .wake_user = &h->woken };
    app_arrange_destroy(h->arrange);
    h->arrange = app_arrange_create(&start, h->room.errs);
    if (!h->arrange)
        room_print_told(&h->room);
    assert_non_null(h->arrange);
}

static void make_job(struct table_here *h, const char *view)
{
    const char *path = room_put(&h->room, "boxes.json", room_json(&h->room, PATTERN));
    struct job_choices choices = { .pattern = path, .view = view, .size = "one" };
    bool made = job_make(h->room.a, &choices, &h->job, NULL, h->room.errs);
    if (!made)
        room_print_told(&h->room);
    assert_true(made);
    job_set_cloth(h->room.a, &h->job, PATTERN_FABRIC, &h->cloth);
}

/* A box turned by -90° lies from its shift to the right by its height, and below it by its width: (x, y) goes to
 * (y, -x). */
static struct job_laid box_at(const char *piece, double x, double y, double width)
{
    return (struct job_laid){ .piece = piece, .motion = { .turn_deg = -90, .shift = { x, y + width } } };
}

/* Front over [0, 300] × [0, 200], Back over [back_x, back_x + 300] × [0, 200], the pocket over [0, 100] × [250, 350].
 */
static void begin_view(struct table_here *h, const char *view, double back_x)
{
    make_job(h, view);
    struct job_laid *laid = base_arena_alloc(h->room.a, 3, sizeof *laid);
    laid[FRONT] = box_at("Front", 0, 0, 200);
    laid[BACK] = box_at("Back", back_x, 0, 200);
    laid[POCKET] = box_at("Pocket", 0, 250, 100);
    struct job_cloth cloth = { .material = PATTERN_FABRIC, .cloth = h->cloth, .laid = laid, .laid_count = 3 };
    job_put_cloth(h->room.a, &h->job, &cloth);
    create(h);
}

static void begin(struct table_here *h, double back_x)
{
    begin_view(h, "Plain", back_x);
}

static struct app_arrange_effects press(struct table_here *h, const char *name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(name, &event.key, &event.mods));
    return app_arrange_handle(h->arrange, event);
}

static void press_all(struct table_here *h, const char *const *names)
{
    for (; *names; names++)
        press(h, *names);
}

#define keys(h, ...) press_all((h), (const char *const[]){ __VA_ARGS__, NULL })

static struct app_arranged *now(struct table_here *h)
{
    return app_arrange_now(h->arrange);
}

static struct lay_place place(struct table_here *h, size_t item)
{
    return app_arrange_places(now(h))[item];
}

static struct geometry_box box(struct table_here *h, size_t item)
{
    struct lay_place p = place(h, item);
    return geometry_path_box(lay_outline(h->room.a, &now(h)->task, item, &p).path);
}

static void assert_box(struct table_here *h, size_t item, double x, double y, double to_x, double to_y)
{
    struct geometry_box b = box(h, item);
    assert_near(b.min.x, x, NEAR_MM);
    assert_near(b.min.y, y, NEAR_MM);
    assert_near(b.max.x, to_x, NEAR_MM);
    assert_near(b.max.y, to_y, NEAR_MM);
}

static size_t wrongs(struct table_here *h)
{
    const struct lay_finding *findings;
    return app_arrange_findings(now(h), &findings);
}

static void assert_told(struct table_here *h, const char *words)
{
    assert_non_null(h->arrange->told);
    assert_string_equal(h->arrange->told, words);
}

/* --- moving ------------------------------------------------------------------------------------------------------ */

static void arrows_move_the_piece_in_hand(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    assert_false(app_arrange_is_searching(h->arrange)); /* what was kept stays until she asks */
    keys(h, "page down", "page down");
    assert_true(press(h, "right").keep);
    keys(h, "up", "shift up", "shift left", "ctrl down", "ctrl right");
    assert_near(place(h, BACK).motion.shift.x, 400 + 10 - 1 + 0.2, SAME_MM);
    assert_near(place(h, BACK).motion.shift.y, 200 + 10 + 1 - 0.2, SAME_MM);
    assert_box(h, FRONT, 0, 0, 300, 200);
    assert_int_equal(wrongs(h), 0);
}

static void nothing_is_moved_before_a_piece_is_taken(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    assert_false(press(h, "right").keep);
    assert_told(h, "Take a piece first: Page Down");
    keys(h, "page down", "esc", "b");
    assert_told(h, "Take a piece first: Page Down");
}

/* Back reaches over Front by 10 mm: the nearest place where it does not is 10 mm on. */
static void an_overlap_is_told_and_butting_mends_it(void **state)
{
    struct table_here *h = *state;
    begin(h, 290);
    struct paint_scene scene = app_arrange_scene(h->arrange, h->room.a);
    assert_string_equal(app_arrange_wrong_words(h->arrange, h->room.a), "“Front” lies 10 mm over “Back”");
    assert_int_equal(scene.table.in.count, 0);
    keys(h, "page down", "page down"); /* of the two the one in hand is spoken of */
    assert_string_equal(app_arrange_wrong_words(h->arrange, h->room.a), "“Back” lies 10 mm over “Front”");
    keys(h, "b");
    assert_box(h, BACK, 300, 0, 600, 200);
    assert_null(app_arrange_wrong_words(h->arrange, h->room.a));
}

/* Free as it lies it is pushed on towards the cut end; and with Alt any way. */
static void a_free_piece_is_pushed_until_it_touches(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    keys(h, "page down", "page down", "b");
    assert_box(h, BACK, 300, 0, 600, 200);
    keys(h, "alt up");
    assert_box(h, BACK, 300, 300, 600, 500);
    keys(h, "alt left");
    assert_box(h, BACK, 100, 300, 400, 500); /* at the pocket */
    keys(h, "alt left");
    assert_told(h, "It lies close on that side already");
}

/* Front and Back are fused, and their block is [0, 605] × [0, 205]. The pocket is [0, 100] × [250, 350]: 47 mm nearer
 * it reaches 2 mm into the block. Back at [460, 760], with the pocket between it and Front, is outside. */
static void what_is_moved_into_or_out_of_the_block_is_told(void **state)
{
    struct table_here *h = *state;
    h->cloth.block_mm = 500;
    begin_view(h, "Fused", 300);
    assert_null(app_arrange_wrong_words(h->arrange, h->room.a));
    keys(h, "page down", "page down", "page down");
    for (int i = 0; i < 4; i++)
        press(h, "down");
    for (int i = 0; i < 7; i++)
        press(h, "shift down");
    assert_string_equal(app_arrange_wrong_words(h->arrange, h->room.a),
                        "“Pocket” lies 2 mm within the block that is fused, and is not to be fused");
    begin_view(h, "Fused", 460);
    keys(h, "page down", "page down", "page down");
    for (int i = 0; i < 32; i++)
        press(h, "right");
    for (int i = 0; i < 20; i++)
        press(h, "down");
    assert_string_equal(app_arrange_wrong_words(h->arrange, h->room.a),
                        "“Back” is to be fused and lies 455 mm outside the block: fuse it by itself, or move it");
}

/* --- the interfacing of a block -----------------------------------------------------------------------------------
 */

/* Front and Back fused in a block, and their interfacing, 500 wide, that was never arranged. */
static void begin_fused(struct table_here *h, double back_x)
{
    struct cloth interfacing = h->cloth;
    make_job(h, "Fused");
    job_set_cloth(h->room.a, &h->job, PATTERN_INTERFACING, &interfacing);
    h->cloth.block_mm = 500;
    struct job_laid laid[] = { box_at("Front", 0, 0, 200), box_at("Back", back_x, 0, 200),
                               box_at("Pocket", 0, 250, 100) };
    struct job_cloth cloth = { .material = PATTERN_FABRIC, .cloth = h->cloth, .laid = laid, .laid_count = 3 };
    job_put_cloth(h->room.a, &h->job, &cloth);
    create(h);
}

static struct app_arranged *interfacing_of(struct table_here *h)
{
    for (size_t i = 0; i < h->arrange->cloth_count; i++)
        if (h->arrange->cloths[i].from->material == PATTERN_INTERFACING)
            return &h->arrange->cloths[i];
    return NULL;
}

/* Its pieces are those, in order, all of them laid as they may be; a block so long along the cloth and so wide. */
static void assert_interfacing(struct table_here *h, vec2 block, const char *other)
{
    struct app_arranged *cloth = interfacing_of(h);
    const struct lay_finding *findings;
    assert_int_equal(cloth->task.item_count, other ? 2 : 1);
    assert_string_equal(lay_item_name(h->room.a, &cloth->task, 0), LAY_BLOCK_LABEL);
    if (other)
        assert_string_equal(lay_item_name(h->room.a, &cloth->task, 1), other);
    struct geometry_box box =
        geometry_path_box(lay_outline(h->room.a, &cloth->task, 0, &app_arrange_places(cloth)[0]).path);
    assert_near(box.max.x - box.min.x, block.x, 1e-6);
    assert_near(box.max.y - box.min.y, block.y, 1e-6);
    assert_int_equal(app_arrange_lay(cloth)->left_out, 0);
    assert_int_equal(app_arrange_findings(cloth, &findings), 0);
}

/* A block reaches 5 mm past its pieces but at the cloth's edges: [0, 605] × [0, 205] of Front at [0, 300] and Back
 * behind it. Back carried 20 mm on goes along: 625. Behind the pocket that lies in the way, at [620, 920], it is cut by
 * itself, and of Front's block 305 are left. Undone, all is as before; and the job has it so each time. */
static void the_interfacing_follows_its_fabric(void **state)
{
    struct table_here *h = *state;
    begin_fused(h, 300);
    assert_interfacing(h, (vec2){ 605, 205 }, NULL);
    keys(h, "page down", "page down", "right", "right");
    assert_interfacing(h, (vec2){ 625, 205 }, NULL);
    keys(h, "page down"); /* the pocket to [320, 420] × [50, 150] */
    for (int i = 0; i < 32; i++)
        press(h, "right");
    keys(h, "page up");
    for (int i = 0; i < 30; i++)
        press(h, "right");
    keys(h, "page down");
    for (int i = 0; i < 20; i++)
        press(h, "down");
    assert_interfacing(h, (vec2){ 305, 205 }, "Back");
    struct job job = app_arrange_job(h->arrange, h->room.a);
    const struct job_cloth *kept = job_find_cloth(&job, PATTERN_INTERFACING);
    assert_int_equal(kept->laid_count, 2);
    assert_string_equal(kept->laid[0].piece, LAY_BLOCK_NAME);
    assert_string_equal(kept->laid[1].piece, "Back");
    while (press(h, "z").keep)
        continue;
    assert_interfacing(h, (vec2){ 605, 205 }, NULL);
}

/* What is held of the interfacing stays where it lies while another block comes to lie beside it. */
static void held_interfacing_stays_while_it_follows(void **state)
{
    struct table_here *h = *state;
    begin_fused(h, 620);
    keys(h, "page down", "page down", "page down");
    for (int i = 0; i < 32; i++)
        press(h, "right");
    for (int i = 0; i < 20; i++)
        press(h, "down");
    assert_interfacing(h, (vec2){ 305, 205 }, "Back");
    keys(h, "f3", "page down", "page down", "p", "f2", "page up", "page up");
    struct lay_place held = app_arrange_places(interfacing_of(h))[1];
    assert_true(held.is_pinned);
    keys(h, "up", "right"); /* Front, 10 mm on */
    assert_interfacing(h, (vec2){ 310, 210 }, "Back");
    struct lay_place still = app_arrange_places(interfacing_of(h))[1];
    assert_true(still.is_pinned);
    assert_true(still.motion.shift.x == held.motion.shift.x && still.motion.shift.y == held.motion.shift.y &&
                still.motion.turn_deg == held.motion.turn_deg);
}

static void past_the_edge_is_told_but_not_out_of_sight(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    keys(h, "page down", "left");
    assert_string_equal(app_arrange_wrong_words(h->arrange, h->room.a),
                        "“Front” lies 10 mm past what can be cut there");
    for (int i = 0; i < 40; i++)
        press(h, "left");
    assert_told(h, "That would be off the cloth: X takes it off");
    assert_box(h, FRONT, -290, 0, 10, 200);
}

/* --- the grain, the nap, the hand and the fold ------------------------------------------------------------------- */

static void a_piece_is_turned_end_for_end_where_it_lies(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    keys(h, "page down", "page down", "t");
    assert_box(h, BACK, 400, 0, 700, 200);
    assert_near(fabs(place(h, BACK).motion.turn_deg - -90), 180, SAME_MM);
    assert_near(lay_off_grain(&(struct lay_place){ .motion = place(h, BACK).motion }, &now(h)->task.items[BACK]), 0,
                SAME_MM);
    assert_int_equal(wrongs(h), 0);
}

static void on_one_way_cloth_it_is_not_turned_round(void **state)
{
    struct table_here *h = *state;
    h->cloth.one_way = true;
    begin(h, 400);
    keys(h, "page down");
    assert_false(press(h, "t").keep);
    assert_told(h, "This cloth is one way: all pieces lie the same way up on it");
    assert_near(place(h, FRONT).motion.turn_deg, -90, 0);
}

/* Off the grain it may be turned by hand, and that is told: in the line of the piece in hand, and as a fault where the
 * cloth has no such tolerance. Ten times a tenth of a degree is a degree. */
static void off_the_grain_is_told(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    keys(h, "page down", "page down");
    const char *words = app_arrange_hand_words(h->arrange, h->room.a);
    assert_string_equal(words, "Back: true to the grain · 100 mm from “Front” · 1 layer");
    keys(h, "up", ",", "ctrl ,", "ctrl ,", "ctrl ,", "ctrl ,", "ctrl ,"); /* clear of the edge: 150 sin 1.5° = 3.9 */
    words = app_arrange_hand_words(h->arrange, h->room.a);
    assert_memory_equal(words, "Back: 1.5° off the grain", strlen("Back: 1.5° off the grain"));
    assert_string_equal(app_arrange_wrong_words(h->arrange, h->room.a), "“Back” lies 1.5° off the grain");
    keys(h, ".", "ctrl .", "ctrl .", "ctrl .", "ctrl .", "ctrl .");
    assert_near(place(h, BACK).motion.turn_deg, -90, 0);
    assert_null(app_arrange_wrong_words(h->arrange, h->room.a));
}

/* A side of a single layer is a left or a right one; a box is its own mirror image. */
static void only_what_may_lie_either_way_is_turned_over(void **state)
{
    struct table_here *h = *state;
    make_job(h, "Bent");
    create(h);
    keys(h, "space", "page down");
    struct lay_place before = place(h, 0);
    assert_false(press(h, "o").keep);
    assert_told(h, "Turned over it would be cut for the other side");
    assert_int_equal(place(h, 0).motion.mirror, before.motion.mirror);
    begin(h, 400);
    keys(h, "page down");
    assert_true(press(h, "o").keep);
    assert_true(place(h, FRONT).motion.mirror);
    assert_box(h, FRONT, 0, 0, 300, 200);
    assert_int_equal(wrongs(h), 0);
}

/* Its fold edge, 300 mm, stays on the fold, y = 0, when its ends change places: the wide end, 150 mm, is then at the
 * other end. */
static void a_piece_on_the_fold_stays_on_it(void **state)
{
    struct table_here *h = *state;
    h->cloth.spread = CLOTH_FOLDED;
    make_job(h, "Fold");
    create(h);
    keys(h, "space", "page down");
    struct geometry_box before = box(h, 0);
    assert_true(now(h)->task.items[0].on_fold);
    assert_false(press(h, "up").keep);
    assert_told(h, "It lies on the fold: it moves along that only");
    assert_false(press(h, ",").keep);
    assert_false(press(h, "o").keep);
    assert_true(press(h, "right").keep);
    assert_box(h, 0, before.min.x + 10, 0, before.max.x + 10, 150);
    struct geometry_mover mover = geometry_mover_of(place(h, 0).motion);
    double wide_was = geometry_move(&mover, (vec2){ 150, 0 }).x;
    assert_true(press(h, "t").keep);
    mover = geometry_mover_of(place(h, 0).motion);
    assert_near(fabs(geometry_move(&mover, (vec2){ 150, 0 }).x - wide_was), 300, 60); /* about the middle of its area */
    assert_near(box(h, 0).min.y, 0, SAME_MM);
    assert_int_equal(wrongs(h), 0);
}

/* --- held in place, off the cloth, arranged again ---------------------------------------------------------------- */

static void what_is_held_is_not_moved(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    keys(h, "page down", "p", "right", "t", "x");
    assert_told(h, "It is held in place: P lets it go");
    assert_true(place(h, FRONT).is_laid && place(h, FRONT).is_pinned);
    assert_box(h, FRONT, 0, 0, 300, 200);
    keys(h, "p", "right");
    assert_box(h, FRONT, 10, 0, 310, 200);
}

/* Rounds until nothing comes of it any more. */
static void search(struct table_here *h)
{
    for (int i = 0; i < 200 && app_arrange_is_searching(h->arrange); i++)
        app_arrange_search(h->arrange, i);
}

/* The pocket is held at the far edge, from 350.2 to 450.2 mm along: it stays there to the bit, and both boxes find room
 * before it, so that nothing is longer than that. */
static void arranging_again_leaves_what_is_held(void **state)
{
    struct table_here *h = *state;
    begin(h, 290);
    keys(h, "page up", "ctrl right", "shift up", "alt up");
    for (int i = 0; i < 35; i++)
        press(h, "right");
    keys(h, "p");
    struct lay_place held = place(h, POCKET);
    assert_true(held.is_pinned);
    keys(h, "enter");
    assert_true(now(h)->search != NULL);
    search(h);
    struct lay_place after = place(h, POCKET);
    assert_memory_equal(&after.motion, &held.motion, sizeof held.motion);
    assert_true(after.is_pinned);
    assert_int_equal(wrongs(h), 0);
    assert_true(place(h, FRONT).is_laid && place(h, BACK).is_laid);
    assert_near(app_arrange_lay(now(h))->length_mm, 450.2, NEAR_MM);
}

/* Both boxes beside each other and the pocket beside them take 300 mm, and nothing can be shorter than a box: it stays
 * as it is, however it is searched, and there is no step to undo. */
static void the_best_is_kept(void **state)
{
    struct table_here *h = *state;
    make_job(h, "Plain");
    struct job_laid laid[3] = { box_at("Front", 0, 0, 200), box_at("Back", 0, 200, 200),
                                box_at("Pocket", 0, 400, 100) };
    struct job_cloth cloth = { .material = PATTERN_FABRIC, .cloth = h->cloth, .laid = laid, .laid_count = 3 };
    job_put_cloth(h->room.a, &h->job, &cloth);
    create(h);
    keys(h, "enter");
    search(h);
    assert_box(h, BACK, 0, 200, 300, 400);
    assert_box(h, POCKET, 0, 400, 100, 500);
    keys(h, "z");
    assert_told(h, "There is nothing to undo");
}

/* Two that are held over each other can have nothing arranged about them: told, and everything stays. */
static void what_is_held_over_another_is_told(void **state)
{
    struct table_here *h = *state;
    begin(h, 290);
    keys(h, "page down", "p", "page down", "p", "enter");
    assert_non_null(h->arrange->told);
    assert_non_null(strstr(h->arrange->told, "“Front” and “Back” are held in place over each other"));
    assert_false(app_arrange_is_searching(h->arrange));
    assert_box(h, BACK, 290, 0, 590, 200);
}

/* Off the cloth it is named; laid on again it finds the room there is: 300 mm beside the pocket are free. */
static void a_piece_is_taken_off_and_laid_on_again(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    keys(h, "page down", "page down", "x");
    assert_false(place(h, BACK).is_laid);
    assert_string_equal(app_arrange_left_out_words(h->arrange, h->room.a), "Off the cloth: Back");
    assert_string_equal(app_arrange_hand_words(h->arrange, h->room.a), "Back: off the cloth");
    assert_false(press(h, "right").keep);
    assert_told(h, "It is off the cloth: X lays it on");
    assert_true(press(h, "x").keep);
    assert_true(place(h, BACK).is_laid && !place(h, BACK).is_pinned);
    assert_int_equal(wrongs(h), 0);
    assert_box(h, FRONT, 0, 0, 300, 200);
    assert_box(h, POCKET, 0, 250, 100, 350);
}

/* --- undo -------------------------------------------------------------------------------------------------------- */

static void steps_are_undone_and_done_again(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    keys(h, "page down", "right", "right", "up", "t", "p");
    keys(h, "z");
    assert_false(place(h, FRONT).is_pinned);
    keys(h, "z");
    assert_near(place(h, FRONT).motion.turn_deg, -90, 0);
    assert_box(h, FRONT, 20, 10, 320, 210);
    keys(h, "ctrl z"); /* three arrows in a row are one step */
    assert_box(h, FRONT, 0, 0, 300, 200);
    keys(h, "z");
    assert_told(h, "There is nothing to undo");
    keys(h, "y", "y", "ctrl y");
    assert_true(place(h, FRONT).is_pinned);
    keys(h, "y");
    assert_told(h, "There is nothing to do again");
    keys(h, "z", "page down", "up"); /* something else is done: what was undone is gone */
    keys(h, "y");
    assert_told(h, "There is nothing to do again");
    assert_false(place(h, FRONT).is_pinned);
}

/* More steps than are remembered: the oldest are forgotten, the others come back one by one. */
static void many_steps_are_remembered(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    keys(h, "page down");
    for (int i = 0; i < 100; i++)
        keys(h, "right", "p", "p");
    assert_box(h, FRONT, 1000, 0, 1300, 200);
    int undone = 0;
    for (; undone < 1000 && press(h, "z").keep; undone++)
        continue;
    assert_int_equal(undone, APP_ARRANGE_STEPS - 1);
    assert_box(h, FRONT, 1000 - 10 * (APP_ARRANGE_STEPS - 1) / 3, 0, 1300 - 10 * (APP_ARRANGE_STEPS - 1) / 3, 200);
}

/* --- the search, and what is kept -------------------------------------------------------------------------------- */

/* Nothing was kept: it is arranged at once. What is found is shown twice a second and not more often; a key of the
 * hand ends it, and what it found is one step. */
static void a_search_is_shown_twice_a_second(void **state)
{
    struct table_here *h = *state;
    make_job(h, "Plain");
    create(h);
    assert_int_equal(wrongs(h), 0);
    for (size_t i = 0; i < 3; i++)
        assert_true(place(h, i).is_laid);
    size_t pictures = 0;
    for (int i = 0; i < 30 && app_arrange_is_searching(h->arrange); i++)
        pictures += app_arrange_search(h->arrange, 0.1 * i).redraw;
    assert_true(pictures <= 7);
    keys(h, "page down");
    if (place(h, FRONT).motion.shift.x > 0)
        keys(h, "left");
    else
        keys(h, "right");
    assert_false(app_arrange_is_searching(h->arrange));
    keys(h, "z", "z");
    assert_false(place(h, FRONT).is_laid);
}

enum { MOST_ROUNDS = 400 };

static struct lay_place *places_now(struct table_here *h)
{
    size_t items = now(h)->task.item_count;
    struct lay_place *places = base_arena_alloc(h->room.a, items, sizeof *places);
    for (size_t i = 0; i < items; i++)
        places[i] = place(h, i);
    return places;
}

static bool is_as(struct table_here *h, const struct lay_place *before)
{
    for (size_t i = 0; i < now(h)->task.item_count; i++) {
        struct lay_place is = place(h, i);
        if (is.is_laid != before[i].is_laid || is.motion.mirror != before[i].motion.mirror ||
            is.motion.turn_deg != before[i].motion.turn_deg || is.motion.shift.x != before[i].motion.shift.x ||
            is.motion.shift.y != before[i].motion.shift.y)
            return false;
    }
    return true;
}

/* In a thread of its own the search comes by the same lays as round by round, to the bit. */
static void a_search_in_its_own_thread_finds_the_same(void **state)
{
    struct table_here *h = *state;
    h->cloth.width_mm = 610; /* where the first lay is not the best */
    make_job(h, "All");
    h->aside = true;
    create(h);
    struct lay_place *first = places_now(h);
    for (; is_as(h, first); app_arrange_search(h->arrange, 0))
        sem_wait(&h->woken);
    struct lay_place *later = places_now(h);
    h->aside = false;
    create(h);
    assert_true(is_as(h, first));
    for (int i = 0; i < MOST_ROUNDS && !is_as(h, later); i++)
        app_arrange_search(h->arrange, 0);
    assert_true(is_as(h, later));
}

/* Keys are answered while it goes on, two cloths take turns, and it is left while a round is under way. */
static void keys_and_a_search_in_its_own_thread_go_together(void **state)
{
    struct table_here *h = *state;
    h->aside = true;
    make_job(h, "Two");
    job_set_cloth(h->room.a, &h->job, PATTERN_LINING, &h->cloth);
    create(h);
    for (int i = 0; i < 6; i++) {
        keys(h, "f3", "page down", "enter", "right", "f2", "enter", "page down", "x", "x", "enter", "space", "space");
        app_arrange_search(h->arrange, 0);
        app_arrange_rest(h->arrange, i % 2 == 0);
        assert_int_equal(wrongs(h), 0);
    }
}

/* The boxes and the pocket lie beside each other, 500 mm wide, on all of the usual widths, 90 cm to 150 cm: 300 mm of
 * each are enough. They are told one after the other, once the layout on 500 mm is as short as can be. */
static void other_widths_come_once_a_layout_has_settled(void **state)
{
    struct table_here *h = *state;
    static const double usual[] = { 900, 1100, 1400, 1500 };
    h->aside = true;
    begin(h, 400);
    keys(h, "enter");
    for (double s = 0; app_arrange_is_searching(h->arrange); app_arrange_search(h->arrange, s += 10))
        sem_wait(&h->woken);
    struct app_arrange_look look = app_arrange_look(h->arrange, h->room.a);
    assert_int_equal(look.width_count, 4);
    for (size_t i = 0; i < look.width_count; i++) {
        assert_near(look.widths[i].width_mm, usual[i], 1e-9);
        assert_true(look.widths[i].fits && !look.widths[i].opened);
        assert_near(look.widths[i].figures.length_mm, 300, NEAR_MM);
    }
}

/* It ends by itself: as short as can be, or a minute, by the clock it is told, without gain. Both boxes beside each
 * other are 400 mm wide and 300 long, so that with the pocket 400 mm are enough. */
static void a_search_ends(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    keys(h, "enter");
    double s = 0;
    while (app_arrange_is_searching(h->arrange) && s < 1000)
        app_arrange_search(h->arrange, s += 10);
    assert_false(app_arrange_is_searching(h->arrange));
    assert_true(app_arrange_lay(now(h))->length_mm <= 400 + NEAR_MM);
}

static void space_stops_and_goes_on(void **state)
{
    struct table_here *h = *state;
    make_job(h, "Bent");
    create(h);
    bool was = app_arrange_is_searching(h->arrange);
    keys(h, "space");
    assert_int_equal(app_arrange_is_searching(h->arrange), !was && lay_search_can_gain(now(h)->search));
    keys(h, "space");
    assert_int_equal(app_arrange_is_searching(h->arrange), was && lay_search_can_gain(now(h)->search));
}

/* Written to its file and read again the job has everything where it lay, to the bit. */
static void everything_comes_back_from_the_job(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    keys(h, "page down", "ctrl right", "p", "page down", "ctrl ,", "page down", "x");
    struct lay_place before[3] = { place(h, FRONT), place(h, BACK), place(h, POCKET) };
    struct job job = app_arrange_job(h->arrange, h->room.a);
    const char *text = job_print(h->room.a, &job);
    assert_true(job_parse(h->room.a, "a.job", text, strlen(text), &h->job, h->room.errs));
    create(h);
    assert_false(app_arrange_is_searching(h->arrange));
    for (size_t i = 0; i < 3; i++) {
        struct lay_place after = place(h, i);
        assert_int_equal(after.is_laid, before[i].is_laid);
        assert_int_equal(after.is_pinned, before[i].is_pinned);
        assert_memory_equal(&after.motion.shift, &before[i].motion.shift, sizeof after.motion.shift);
        assert_memory_equal(&after.motion.turn_deg, &before[i].motion.turn_deg, sizeof after.motion.turn_deg);
    }
}

/* --- any keys ---------------------------------------------------------------------------------------------------- */

/* What a key may never lead to: off the fold, the wrong hand, against the nap. */
static void assert_rules(struct table_here *h, const char *key)
{
    const struct lay_finding *findings;
    size_t count = app_arrange_findings(now(h), &findings);
    for (size_t i = 0; i < count; i++)
        if (findings[i].fault == LAY_OFF_FOLD || findings[i].fault == LAY_WRONG_HAND ||
            findings[i].fault == LAY_AGAINST_NAP)
            fail_msg("after %s: fault %d of item %d", key, findings[i].fault, findings[i].item);
}

/* A held piece stays to the bit under every key but those that let go or step back and forth. */
static void press_and_look(struct table_here *h, const char *key)
{
    size_t items = now(h)->task.item_count;
    struct lay_place *before = base_arena_alloc(h->room.a, items, sizeof *before);
    memcpy(before, app_arrange_places(now(h)), items * sizeof *before);
    press(h, key);
    app_arrange_search(h->arrange, 0);
    assert_rules(h, key);
    bool may = strcmp(key, "p") == 0 || strcmp(key, "z") == 0 || strcmp(key, "y") == 0;
    for (size_t i = 0; i < items && !may; i++)
        if (before[i].is_laid && before[i].is_pinned) {
            struct lay_place after = place(h, i);
            assert_true(after.is_laid && after.is_pinned);
            assert_memory_equal(&after.motion.shift, &before[i].motion.shift, sizeof after.motion.shift);
            assert_true(after.motion.turn_deg == before[i].motion.turn_deg &&
                        after.motion.mirror == before[i].motion.mirror);
        }
}

/* Whatever is pressed, in all spreads, on cloth with and without nap: the fold, the nap and the hand are kept, what is
 * held stays, and undoing everything that is remembered and doing it again leads to the same. */
static void whatever_is_pressed_the_rules_are_kept(void **state)
{
    static const char *const names[] = { "page down", "page up",   "left",   "right",    "up",  "down",
                                         "alt left",  "alt right", "alt up", "alt down", "b",   "t",
                                         ",",         "ctrl .",    "o",      "p",        "x",   "x",
                                         "enter",     "space",     "z",      "y",        "esc", "shift up" };
    struct table_here *h = *state;
    uint64_t seed = 7;
    for (int spread = CLOTH_SINGLE; spread <= CLOTH_FOLDED_ACROSS; spread++)
        for (int one_way = 0; one_way < 2; one_way++) {
            h->cloth = cloth_plain(1200);
            h->cloth.spread = (enum cloth_spread_kind)spread;
            h->cloth.fold_depth_mm = 320;
            h->cloth.one_way = one_way != 0;
            h->cloth.gap_mm = one_way ? 5 : 0;
            make_job(h, "All");
            create(h);
            for (int i = 0; i < KEYS_PRESSED; i++)
                press_and_look(h, names[(size_t)random_between(&seed, 0, sizeof names / sizeof names[0])]);
            struct job job = app_arrange_job(h->arrange, h->room.a);
            const char *text = job_print(h->room.a, &job);
            int steps = 0;
            while (press(h, "z").keep)
                steps++;
            while (steps-- > 0)
                press(h, "y");
            job = app_arrange_job(h->arrange, h->room.a);
            assert_string_equal(job_print(h->room.a, &job), text);
        }
}

/* --- the page ---------------------------------------------------------------------------------------------------- */

static void each_cloth_has_a_page(void **state)
{
    struct table_here *h = *state;
    make_job(h, "Two");
    job_set_cloth(h->room.a, &h->job, PATTERN_LINING, &h->cloth);
    create(h);
    size_t items = now(h)->task.item_count;
    keys(h, "f3");
    assert_int_equal(items, 1);
    assert_int_equal(now(h)->task.material, PATTERN_LINING);
    assert_int_equal(now(h)->task.item_count, 2);
    keys(h, "f4");
    assert_told(h, "This job has no more than 2 cloths");
    keys(h, "f2");
    assert_int_equal(now(h)->task.material, PATTERN_FABRIC);
}

/* A cloth on which nothing can be laid says why, and the other is there all the same: a box 200 mm wide on 150 mm. */
static void what_cannot_be_laid_is_told_on_its_page(void **state)
{
    struct table_here *h = *state;
    make_job(h, "Two");
    h->cloth.width_mm = 150;
    job_set_cloth(h->room.a, &h->job, PATTERN_FABRIC, &h->cloth);
    h->cloth.width_mm = 500;
    job_set_cloth(h->room.a, &h->job, PATTERN_LINING, &h->cloth);
    create(h);
    assert_int_equal(now(h)->task.material, PATTERN_LINING);
    keys(h, "f2");
    assert_non_null(now(h)->refused);
    assert_non_null(strstr(now(h)->refused, "Front"));
    keys(h, "right", "enter", "space", "p", "x", "z", "page down", "b");
    assert_true(app_arrange_scene(h->arrange, h->room.a).px.in.count > 0);
}

/* What lies at hand is set against what is needed, 700 mm; 60 000 mm² twice and 10 000 are 37 % of 700 × 500. */
static void words_on_the_page(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    assert_string_equal(app_arrange_title(h->arrange, h->room.a),
                        "Fabric, 500 mm wide, in a single layer: needs 0.70 m · buy 0.70 m · cloth used 37 %");
    keys(h, "page up", "x");
    assert_string_equal(
        app_arrange_title(h->arrange, h->room.a),
        "Fabric, 500 mm wide, in a single layer: needs 0.70 m · 1 piece off the cloth · cloth used 34 %");
    keys(h, "z", "f1");
    assert_true(h->arrange->help);
    keys(h, "right");
    assert_false(h->arrange->help);
    assert_box(h, FRONT, 0, 0, 300, 200);
}

/* Of view All the front, 300 mm high, and beside it both pockets are torn in one strip, 10 mm wider at either end: 320
 * of 1500 mm, and 1180 are left for two sides and the yoke, two of which fit beside each other. */
static void what_is_torn_first_is_not_arranged(void **state)
{
    struct table_here *h = *state;
    make_job(h, "All");
    h->cloth.length_mm = 1500;
    struct job_cloth cloth = { .material = PATTERN_FABRIC,
                               .cloth = h->cloth,
                               .torn = { .is_kept = true, .margin_mm = 10 } };
    job_put_cloth(h->room.a, &h->job, &cloth);
    create(h);
    const struct lay_task *task = &now(h)->task;
    assert_int_equal(task->item_count, 3);
    for (size_t i = 0; i < task->item_count; i++)
        assert_true(strcmp(task->items[i].piece->name, "Side") == 0 || strcmp(task->items[i].piece->name, "Yoke") == 0);
    assert_near(task->spread.most_length_mm, 1180, SAME_MM);
    double needs;
    const char *words = strstr(app_arrange_title(h->arrange, h->room.a), "needs "), *left = strstr(words, "strips · ");
    assert_int_equal(sscanf(words, "needs %lf m with its torn strips", &needs), 1);
    assert_near(needs, ceil((320 + app_arrange_lay(now(h))->length_mm) / 10 - SAME_MM) / 100, 1e-9);
    assert_near(strtod(left + strlen("strips · "), NULL), 1.5 - needs, 0.011);
    struct job kept = app_arrange_job(h->arrange, h->room.a);
    assert_true(job_find_cloth(&kept, PATTERN_FABRIC)->torn.is_kept);
}

/* Of view Plain all are rectangles: there is nothing to arrange, and that is no fault. */
static void what_is_all_torn_is_told(void **state)
{
    static const char *const all[] = { "page down", "up", "b", "p", "x", "enter", "space", "z", "y", "t", "o" };
    struct table_here *h = *state;
    make_job(h, "Plain");
    struct job_cloth cloth = { .material = PATTERN_FABRIC,
                               .cloth = h->cloth,
                               .torn = { .is_kept = true, .margin_mm = 10 } };
    job_put_cloth(h->room.a, &h->job, &cloth);
    create(h);
    assert_int_equal(h->room.errs->faults, 0);
    assert_true(base_err_list_has(h->room.errs, "app.all_torn"));
    assert_non_null(strstr(now(h)->refused, "is torn"));
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        press(h, all[i]);
        app_arrange_scene(h->arrange, h->room.a);
    }
    assert_false(app_arrange_is_searching(h->arrange));
    struct job kept = app_arrange_job(h->arrange, h->room.a);
    assert_true(job_find_cloth(&kept, PATTERN_FABRIC)->torn.is_kept);
}

/* Arranging begun with these items in work at the table, and these all cut. */
static void begin_with_cut(struct table_here *h, const bool *begun, const bool *done)
{
    static struct app_cloth_progress fabric; /* asked as long as pieces are arranged */
    static struct app_progress progress;
    begin(h, 400);
    fabric = (struct app_cloth_progress){
        .material = PATTERN_FABRIC, .begun = begun, .done = done, .item_count = 3, .cut = 1
    };
    progress = (struct app_progress){ .cloths = &fabric, .cloth_count = 1 };
    struct app_arrange_start start = h->arrange->start;
    start.cut = &progress;
    app_arrange_destroy(h->arrange);
    h->arrange = app_arrange_create(&start, h->room.errs);
    assert_non_null(h->arrange);
    keys(h, "page down");
}

/* The front is cut: nothing moves it, and the others are arranged about it. */
static void what_is_cut_stays_where_it_lies(void **state)
{
    static const char *const all[] = { "up", "shift left", "alt right", "b", "p", "x", "t", "," };
    static const bool begun[] = { true, false, false };
    struct table_here *h = *state;
    begin_with_cut(h, begun, begun);
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        assert_false(press(h, all[i]).keep);
        assert_told(h, "It is cut: it stays where it lies");
    }
    keys(h, "enter");
    search(h);
    assert_box(h, FRONT, 0, 0, 300, 200);
    assert_false(place(h, FRONT).is_pinned);
    assert_int_equal(wrongs(h), 0);
}

/* Chalked lines stay as well; the picture does not call them cut. */
static void what_is_chalked_stays_and_is_not_called_cut(void **state)
{
    static const bool begun[] = { true, false, false }, done[] = { false, false, false };
    struct table_here *h = *state;
    begin_with_cut(h, begun, done);
    assert_false(press(h, "up").keep);
    assert_told(h, "It is begun at the table: it stays where it lies");
    assert_false(app_arrange_look(h->arrange, h->room.a).cut[FRONT]);
}

/* After the cautions what the caller has to say stands there, whatever else is told, until a piece is moved. */
static void a_note_is_read_after_the_cautions(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    h->arrange->cautions = true;
    h->arrange->start.note = "It was begun";
    keys(h, "right"); /* any key goes on, and does nothing else */
    assert_false(h->arrange->cautions);
    assert_told(h, "It was begun");
    keys(h, "page down");
    assert_told(h, "It was begun");
    keys(h, "z");
    assert_told(h, "There is nothing to undo");
    keys(h, "esc", "page down");
    assert_told(h, "It was begun");
    keys(h, "right");
    assert_null(h->arrange->told);
    keys(h, "page down");
    assert_null(h->arrange->told);
}

static void cloth_at_hand_is_told_of(void **state)
{
    struct table_here *h = *state;
    h->cloth.length_mm = 1000;
    begin(h, 400);
    assert_non_null(strstr(app_arrange_title(h->arrange, h->room.a), "needs 0.70 m · 0.30 m left over"));
    for (int i = 0; i < 32; i++)
        keys(h, "page down", "page down", "right", "esc");
    assert_non_null(strstr(app_arrange_title(h->arrange, h->room.a), "needs 1.02 m · 0.02 m too little"));
    assert_string_equal(app_arrange_wrong_words(h->arrange, h->room.a), "“Back” lies 20 mm past what can be cut there");
}

static void every_key_has_one_meaning_and_help(void **state)
{
    struct table_here *h = *state;
    const struct scene_help_line *lines;
    size_t count = app_arrange_help_lines(h->room.a, NULL, &lines);
    assert_true(count > 10);
    for (size_t i = 0; i < count; i++) {
        assert_true(*lines[i].key && *lines[i].what);
        for (size_t k = 0; k < i; k++)
            assert_string_not_equal(lines[i].key, lines[k].key);
    }
}

static bool help_has(struct table_here *h, const char *key)
{
    const struct scene_help_line *lines;
    size_t count = app_arrange_help_lines(h->room.a, h->arrange->start.keys, &lines);
    for (size_t i = 0; i < count; i++)
        if (strcmp(lines[i].key, key) == 0)
            return true;
    return false;
}

static void keys_of_her_own_count_here_too(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    static const char *const given[] = { "next = F6", "take off = Ctrl Alt K", "lock = F9" };
    struct app_key_map map = app_key_map_read(h->room.a, given, 3, h->room.errs);
    assert_int_equal(map.count, 3);
    h->arrange->start.keys = &map;
    keys(h, "page down");
    assert_int_equal(now(h)->in_hand, now(h)->task.item_count);
    keys(h, "f6");
    assert_int_not_equal(now(h)->in_hand, now(h)->task.item_count);
    assert_false(press(h, "x").keep);
    assert_true(press(h, "ctrl alt k").keep);
    assert_true(help_has(h, "F9"));
    assert_false(help_has(h, "X"));
    keys(h, "f9");
    assert_false(press(h, "ctrl l").redraw);
    assert_true(press(h, "f9").redraw);
}

static void a_number_pad_moves_and_steps(void **state)
{
    struct table_here *h = *state;
    begin(h, 400);
    keys(h, "3");
    assert_int_not_equal(now(h)->in_hand, now(h)->task.item_count);
    double x = place(h, now(h)->in_hand).motion.shift.x;
    keys(h, "6");
    assert_near(place(h, now(h)->in_hand).motion.shift.x, x + 10, SAME_MM);
}

/* --- whose right is whose ---------------------------------------------------------------------------------------- */

static struct geometry_path path_of(const struct paint_items *in, size_t item)
{
    return in->paths[in->items[item].first_path];
}

/* By how many px what is drawn has moved the farthest. */
static vec2 farthest_moved(const struct paint_items *before, const struct paint_items *after)
{
    vec2 most = { 0, 0 };
    for (size_t i = 0; i < before->count && i < after->count; i++) {
        struct geometry_path from = path_of(before, i), to = path_of(after, i);
        if (!from.count || from.count != to.count)
            continue;
        vec2 by = vec2_sub(to.points[0], from.points[0]);
        most = vec2_length(by) > vec2_length(most) ? by : most;
    }
    return most;
}

static struct paint_items drawn(struct table_here *h)
{
    return app_arrange_scene(h->arrange, h->room.a).px.in;
}

/* Right and away in px of a light whose origin is far left, as one who stands near sees it. */
static void a_piece_moves_to_her_own_right_and_away_on_every_side(void **state)
{
    static const vec2 right[] = { { 1, 0 }, { 0, -1 }, { -1, 0 }, { 0, 1 } };
    static const vec2 away[] = { { 0, -1 }, { -1, 0 }, { 0, 1 }, { 1, 0 } };
    static const struct {
        const char *key;
        const vec2 *way;
        double held;
    } rows[] = { { "right", right, +1 }, { "left", right, -1 }, { "up", away, +1 }, { "down", away, -1 } };
    struct table_here *h = *state;
    begin(h, 700);
    keys(h, "page down", "page down", "page down");
    assert_int_equal(now(h)->in_hand, POCKET);
    for (int side = 0; side < 4; side++, press(h, "tab"))
        for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
            struct paint_items before = drawn(h);
            press(h, rows[i].key);
            struct paint_items after = drawn(h);
            vec2 by = vec2_scale(farthest_moved(&before, &after), rows[i].held), way = rows[i].way[side];
            assert_true(by.x * way.x + by.y * way.y > 1);
            assert_near(by.x * way.y - by.y * way.x, 0, 0.05);
        }
    assert_box(h, POCKET, 0, 250, 100, 350);
}

/* 500 mm of cloth a second, and one step to undo for the whole way; kept once it is let go. */
static void a_stick_moves_the_piece_in_hand(void **state)
{
    struct table_here *h = *state;
    begin(h, 700);
    keys(h, "page down", "page down", "page down");
    struct input_event held = { .type = INPUT_STICKS, .left = { 1, 0 }, .held_s = 0.02 };
    for (int i = 0; i < 20; i++)
        assert_false(app_arrange_handle(h->arrange, held).keep);
    assert_box(h, POCKET, 200, 250, 300, 350);
    assert_true(app_arrange_handle(h->arrange, (struct input_event){ .type = INPUT_STICKS }).keep);
    press(h, "z");
    assert_box(h, POCKET, 0, 250, 100, 350);
}

static void a_cat_on_the_keys_moves_no_piece(void **state)
{
    struct table_here *h = *state;
    begin(h, 700);
    keys(h, "page down", "page down", "page down", "ctrl l");
    struct app_arrange_effects done = press(h, "right");
    assert_false(done.redraw || done.keep);
    keys(h, "x", "enter", "t", "page down", "z");
    assert_false(press(h, "ctrl q").quit);
    assert_false(app_arrange_handle(h->arrange, (struct input_event){ .type = INPUT_QUIT }).quit);
    struct input_event held = { .type = INPUT_STICKS, .left = { 1, 0 }, .held_s = 0.02 };
    assert_false(app_arrange_handle(h->arrange, held).redraw);
    assert_box(h, POCKET, 0, 250, 100, 350);
    press(h, "ctrl l");
    assert_true(press(h, "right").keep);
    assert_true(press(h, "ctrl q").quit);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        arrange_test(a_piece_moves_to_her_own_right_and_away_on_every_side),
        arrange_test(a_stick_moves_the_piece_in_hand),
        arrange_test(a_cat_on_the_keys_moves_no_piece),
        arrange_test(arrows_move_the_piece_in_hand),
        arrange_test(nothing_is_moved_before_a_piece_is_taken),
        arrange_test(an_overlap_is_told_and_butting_mends_it),
        arrange_test(a_free_piece_is_pushed_until_it_touches),
        arrange_test(what_is_moved_into_or_out_of_the_block_is_told),
        arrange_test(the_interfacing_follows_its_fabric),
        arrange_test(held_interfacing_stays_while_it_follows),
        arrange_test(past_the_edge_is_told_but_not_out_of_sight),
        arrange_test(a_piece_is_turned_end_for_end_where_it_lies),
        arrange_test(on_one_way_cloth_it_is_not_turned_round),
        arrange_test(off_the_grain_is_told),
        arrange_test(only_what_may_lie_either_way_is_turned_over),
        arrange_test(a_piece_on_the_fold_stays_on_it),
        arrange_test(what_is_held_is_not_moved),
        arrange_test(arranging_again_leaves_what_is_held),
        arrange_test(the_best_is_kept),
        arrange_test(what_is_held_over_another_is_told),
        arrange_test(a_piece_is_taken_off_and_laid_on_again),
        arrange_test(steps_are_undone_and_done_again),
        arrange_test(many_steps_are_remembered),
        arrange_test(a_search_is_shown_twice_a_second),
        arrange_test(a_search_in_its_own_thread_finds_the_same),
        arrange_test(keys_and_a_search_in_its_own_thread_go_together),
        arrange_test(other_widths_come_once_a_layout_has_settled),
        arrange_test(a_search_ends),
        arrange_test(space_stops_and_goes_on),
        arrange_test(everything_comes_back_from_the_job),
        arrange_test(whatever_is_pressed_the_rules_are_kept),
        arrange_test(each_cloth_has_a_page),
        arrange_test(what_cannot_be_laid_is_told_on_its_page),
        arrange_test(words_on_the_page),
        arrange_test(what_is_torn_first_is_not_arranged),
        arrange_test(what_is_all_torn_is_told),
        arrange_test(what_is_cut_stays_where_it_lies),
        arrange_test(what_is_chalked_stays_and_is_not_called_cut),
        arrange_test(cloth_at_hand_is_told_of),
        arrange_test(a_note_is_read_after_the_cautions),
        arrange_test(every_key_has_one_meaning_and_help),
        arrange_test(keys_of_her_own_count_here_too),
        arrange_test(a_number_pad_moves_and_steps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
