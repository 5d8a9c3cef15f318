/* What is said of a layout. Two pieces laid by hand on folded cloth; all figures are worked out beside them. */
#include "app/lay_report.h"
#include "app/lay_words.h"
#include "support/room.h"
#include "json/tree.h"

enum { FRONT, POCKET, ITEMS };

/* Cloth 150 cm wide that shrinks by 5 % along and 4 % across: washed 144 cm, without selvedges of 1.25 cm 141.5 cm,
 * folded 70.75 cm. On it a front 20 cm × 30 cm and behind it a pocket 10 cm × 15 cm, each through both layers. */
struct bench {
    struct room room;
    struct cloth cloth;
    struct draft_piece pieces[ITEMS];
    struct lay_item items[ITEMS];
    struct lay_task task;
    struct lay_place places[ITEMS];
    struct lay lay;
    struct app_layout layout;
};

static struct draft_piece rectangle(struct arena *a, const char *name, double width, double height)
{
    struct geometry_path path = { base_arena_alloc(a, 4, sizeof(vec2)), 4, true };
    path.points[1].x = path.points[2].x = width;
    path.points[2].y = path.points[3].y = height;
    return (struct draft_piece){ .name = name,
                                 .label = name,
                                 .cut.path = path,
                                 .seam.path = path,
                                 .grain = { { width / 2, height / 4 }, { width / 2, 3 * height / 4 } } };
}

/* So that the piece's upper end lies away from the cut end (a quarter turn to the right), or turned round. */
static struct lay_place place(double x, double y, bool turned_round)
{
    return (struct lay_place){ true, false, { false, turned_round ? 90 : 270, { x, y } } };
}

static void lay_anew(struct bench *b, enum units_length unit)
{
    b->lay = lay_of(b->room.a, &b->task, b->places);
    b->layout.lay = &b->lay;
    b->layout.figures = lay_figures_of(&b->lay, unit);
}

static int open_bench(void **state)
{
    static struct bench b;
    b = (struct bench){ .cloth = cloth_plain(1500) };
    room_init(&b.room);
    b.cloth.shrink_warp = 0.05;
    b.cloth.shrink_weft = 0.04;
    b.cloth.spread = CLOTH_FOLDED;
    b.pieces[FRONT] = rectangle(b.room.a, "Front", 200, 300);
    b.pieces[POCKET] = rectangle(b.room.a, "Pocket", 100, 150);
    for (int i = 0; i < ITEMS; i++)
        b.items[i] = (struct lay_item){ .cut = i, .piece = &b.pieces[i], .copies = 2, .layers = 2 };
    b.task = (struct lay_task){ .cloth = &b.cloth, .items = b.items, .item_count = ITEMS };
    assert_true(cloth_spread(b.room.a, &b.cloth, &b.task.spread, b.room.errs));
    b.places[FRONT] = place(0, 200, false);  /* x 0 to 300, y 0 to 200 */
    b.places[POCKET] = place(450, 50, true); /* x 300 to 450, y 50 to 150 */
    b.places[POCKET].is_pinned = true;
    lay_anew(&b, UNITS_CM);
    *state = &b;
    return 0;
}

static void says(struct bench *b, enum units_length unit, const char *text)
{
    const char *report = app_lay_report(b->room.a, &b->layout, unit);
    if (!strstr(report, text))
        fail_msg("no “%s” in\n%s", text, report);
}

/* 45 cm needed / 0.95 = 47.4 cm, up to 10 cm; (2 × 600 + 2 × 150) cm² of 141.5 × 45 cm² are 23.56 %. */
static void what_is_needed_is_told_with_what_to_buy(void **state)
{
    struct bench *b = *state;
    says(b, UNITS_CM, "Fabric, 150 cm wide, folded lengthwise\n");
    says(b, UNITS_CM, "needs 0.45 m of washed cloth. Buy 0.50 m, because it shrinks by 5 %.\n");
    says(b, UNITS_CM, "Cloth used: 24 %.\n");
    assert_string_equal(app_lay_short(b->room.a, &b->lay, UNITS_CM), "0.45 m, cloth used 24 %");
    assert_string_equal(app_lay_length(b->room.a, 0, UNITS_CM), "0.00 m"); /* where nothing has a place */
    assert_string_equal(app_lay_title(b->room.a, &b->layout, UNITS_CM),
                        "Fabric, 150 cm wide, folded lengthwise: needs 0.45 m, cloth used 24 %");
}

/* 450 mm are 17.717 in, up to an eighth; to buy 473.7 mm, which are 4.14 eighths of a yard (114.3 mm). */
static void in_inches_shops_cut_by_eighths_of_a_yard(void **state)
{
    struct bench *b = *state;
    static const struct {
        double x;
        const char *needs, *buy;
    } rows[] = { { 450, "needs 17 3/4 in", "Buy 5/8 yd," },    /* 4.14 */
                 { 860, "needs 33 7/8 in", "Buy 1 yd," },      /* 33.858; 905.3 mm: 7.92 */
                 { 1000, "needs 39 3/8 in", "Buy 1 1/4 yd," }, /* 39.370; 1052.6 mm: 9.21 */
                 { 2540, "needs 100 in", "Buy 3 yd," } };      /* 100; 2673.7 mm: 23.39 */
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        b->places[POCKET].motion.shift.x = rows[i].x;
        lay_anew(b, UNITS_IN);
        says(b, UNITS_IN, rows[i].needs);
        says(b, UNITS_IN, rows[i].buy);
    }
}

static void each_piece_is_told_with_its_place_and_turn(void **state)
{
    struct bench *b = *state;
    says(b, UNITS_CM, "  piece   layers  from the cut end  from the fold\n");
    says(b, UNITS_CM, "  Front   2       0 cm              0 cm\n");
    says(b, UNITS_CM, "  Pocket  2       30 cm             5 cm           end for end, held in place\n");
    b->places[POCKET].motion.turn_deg = 91.5;
    b->items[POCKET].copies = 1;
    lay_anew(b, UNITS_CM);
    says(b, UNITS_CM, "end for end, 1.5° off the grain, held in place\n");
    says(b, UNITS_CM, "2, keep the lower");
    b->items[POCKET].hand = PATTERN_LEFT;
    lay_anew(b, UNITS_CM);
    says(b, UNITS_CM, "2, keep the upper");
}

/* Through two layers both hands are cut whichever way up it lies; in a single one that is how it is meant. Of two folds
 * the near one is measured from. */
static void a_turn_is_told_where_it_means_anything(void **state)
{
    struct bench *b = *state;
    b->places[FRONT].motion = (struct geometry_motion){ true, 90, { 300, 200 } };
    lay_anew(b, UNITS_CM);
    assert_null(strstr(app_lay_report(b->room.a, &b->layout, UNITS_CM), "turned over"));
    b->items[FRONT].copies = b->items[FRONT].layers = 1;
    says(b, UNITS_CM, "turned over\n");
    b->cloth.spread = CLOTH_TO_MIDDLE;
    assert_true(cloth_spread(b->room.a, &b->cloth, &b->task.spread, b->room.errs));
    says(b, UNITS_CM, "from the near fold\n");
}

/* The same layout, where the job has one; and what all of it would need where some has no place: 1.9 m / 0.95 = 2 m. */
static void what_becomes_of_the_jobs_layout_and_of_what_is_left_out_is_told(void **state)
{
    struct bench *b = *state;
    b->layout.before = APP_LAY_STAYS;
    says(b, UNITS_CM, "  What was found now is no better than the layout that the job had, which stays.\n");
    b->layout.before = APP_LAY_WAS_LONGER;
    says(b, UNITS_CM, "which was longer.\n");
    b->cloth.length_mm = 1000;
    assert_true(cloth_spread(b->room.a, &b->cloth, &b->task.spread, b->room.errs));
    b->places[POCKET].is_laid = false;
    lay_anew(b, UNITS_CM);
    says(b, UNITS_CM, "More cloth would help");
    b->layout.fits_on_more = true;
    b->layout.on_more = (struct lay_figures){ .length_mm = 1900, .to_buy_mm = 2000 };
    says(b, UNITS_CM,
         "All of it needs 1.90 m of such cloth, washed and without faults. Buy 2.00 m, because it shrinks by 5 %.");
}

/* Folded crosswise on a half repeat, 5.5 cm, behind the last piece at 45 cm: at 49.5 cm, so that 99 cm are needed, and
 * 1500 of 147.5 x 99 cm2 are 10.3 %. */
static void a_fold_past_the_last_piece_is_told_and_counted(void **state)
{
    struct bench *b = *state;
    b->cloth.is_washed = true;
    b->cloth.spread = CLOTH_FOLDED_ACROSS;
    b->cloth.repeat = (struct cloth_repeat){ .along_mm = 110 };
    assert_true(cloth_spread(b->room.a, &b->cloth, &b->task.spread, b->room.errs));
    room_forget(&b->room);
    lay_anew(b, UNITS_CM);
    says(b, UNITS_CM, "needs 0.99 m of washed cloth.");
    says(b, UNITS_CM, "  Fold it 49.5 cm from the cut end: there its repeat matches through both layers.\n");
    says(b, UNITS_CM, "Cloth used: 10 %.");
    assert_near(b->layout.figures.used, 1500 / (147.5 * 99), 1e-9);
}

static void where_nothing_is_laid_nothing_is_shown(void **state)
{
    struct bench *b = *state;
    b->cloth.length_mm = 100;
    b->places[FRONT].is_laid = b->places[POCKET].is_laid = false;
    lay_anew(b, UNITS_CM);
    const char *report = app_lay_report(b->room.a, &b->layout, UNITS_CM);
    says(b, UNITS_CM, "2 pieces do not fit");
    assert_null(strstr(report, "What is shown"));
    assert_null(strstr(report, "Cloth used"));
    assert_null(strstr(report, "from the cut end"));
}

/* Of a metre, 95 cm washed, enough for all, or for either piece at least, some is faulty. */
static void faults_are_told_as_the_reason(void **state)
{
    struct bench *b = *state;
    vec2 corners[] = { { 0, 0 }, { 1000, 0 }, { 1000, 700 }, { 0, 700 } };
    const struct cloth_path all = { { corners, 4, true } };
    b->cloth.length_mm = 1000;
    b->places[FRONT].is_laid = b->places[POCKET].is_laid = false;
    assert_true(cloth_spread(b->room.a, &b->cloth, &b->task.spread, b->room.errs));
    lay_anew(b, UNITS_CM);
    assert_null(strstr(app_lay_report(b->room.a, &b->layout, UNITS_CM), "faults are"));
    b->cloth.faults = &all;
    b->cloth.fault_count = 1;
    says(b, UNITS_CM, "  Its faults are the reason: they leave no room for any of them.\n");
    b->layout.fits_on_more = true;
    b->layout.on_more.length_mm = 900;
    says(b, UNITS_CM, "  Its faults are the reason: without them all of it would have room.\n");
}

/* A metre at hand is 95 cm washed. */
static void of_cloth_at_hand_what_is_left_or_does_not_fit_is_told(void **state)
{
    struct bench *b = *state;
    b->cloth.length_mm = 1000;
    assert_true(cloth_spread(b->room.a, &b->cloth, &b->task.spread, b->room.errs));
    lay_anew(b, UNITS_CM);
    says(b, UNITS_CM, "needs 0.45 m of washed cloth; of the 0.95 m at hand 0.50 m are left over.\n");
    b->places[POCKET].is_laid = false;
    lay_anew(b, UNITS_CM);
    says(b, UNITS_CM, "On the 0.95 m at hand 1 piece does not fit: “Pocket”.\n");
    says(b, UNITS_CM, "More cloth would help, a wider one, or another spread");
    b->task.spread.bands[0].layers = 1; /* for pieces that lie double there is no place */
    lay_anew(b, UNITS_CM);
    says(b, UNITS_CM,
         "However long the cloth, 1 piece does not fit where its folds and its repeat let it lie: “Pocket”.\n");
    says(b, UNITS_CM, "  Wider cloth would help, or another spread");
}

/* Of the fabric that it is fused on, and of its interfacing, where it is laid. 462.5 mm are 47 cm, up. */
static void a_block_is_told_with_its_size_and_how_often_it_is_cut(void **state)
{
    struct bench *b = *state;
    struct lay_block *block = &b->layout.figures.block;
    *block = (struct lay_block){ .length_mm = 462.5, .width_mm = 400, .count = 1 };
    says(b, UNITS_CM,
         "  First fuse it in a block, on the wrong side, at the cut end and at the fold: one piece of interfacing, "
         "0.47 m long and 0.40 m wide.\n");
    block->from_cut_end_mm = 1; /* too near to be measured */
    says(b, UNITS_CM, ", at the cut end and at the fold: ");
    block->count = 2;
    block->from_cut_end_mm = 800;
    block->from_near_edge_mm = 508;
    says(b, UNITS_CM,
         "  First fuse it in a block, both layers on the wrong side, in the same place, 80 cm from the cut end and "
         "50.8 cm from the fold: two pieces of interfacing, each 0.47 m long and 0.40 m wide.\n");
    says(b, UNITS_IN, "31 1/2 in from the cut end and 20 in from the fold: two pieces"); /* 800 / 25.4 = 31.496 */
    *block = (struct lay_block){ .length_mm = 462.5, .width_mm = 400, .count = 1, .over_fold = true };
    says(b, UNITS_CM,
         "  First fuse it in a block, on the wrong side of the cloth opened out, at the cut end, as far to either side "
         "of the fold: one piece");
    b->task.fabric_block = (struct lay_block){ .length_mm = 462.5, .width_mm = 400, .count = 2 };
    says(b, UNITS_CM,
         "  The fabric is fused in a block before its pieces are cut: that is “Block” below, two pieces of "
         "interfacing, each 0.47 m long and 0.40 m wide.\n");
}

static void other_widths_stand_in_a_table(void **state)
{
    struct bench *b = *state;
    const struct app_lay_width widths[] = {
        { .width_mm = 500, .too_wide = "Front" },
        { .width_mm = 900,
          .fits = true,
          .opened = true,
          .figures = { .length_mm = 900, .to_buy_mm = 1000, .used = 0.2 } },
        { .width_mm = 1100, .fits = true, .figures = { .length_mm = 611, .to_buy_mm = 700, .used = 0.239 } },
    };
    b->layout.widths = widths;
    b->layout.width_count = 3;
    says(b, UNITS_CM,
         "  width   needs         buy     cloth used\n"
         "  50 cm   does not fit                      “Front” is too wide\n"
         "  90 cm   0.90 m        1.00 m  20 %        in a single layer\n"
         "  110 cm  0.62 m        0.70 m  24 %\n");
    says(b, UNITS_IN, "  19 5/8 in  does not fit "); /* 50 / 2.54 = 19.69, on the nearest mark of the tape */
}

static double number(const struct json_node *object, const char *name)
{
    const struct json_node *node = json_find(object, name);
    assert_true(node && node->type == JSON_NUMBER);
    return node->number;
}

static void json_has_the_figures_as_they_are(void **state)
{
    struct bench *b = *state;
    struct arena *a = b->room.a;
    struct json_out *top = json_out_create();
    app_lay_json(a, top, &b->layout, UNITS_CM);
    const char *text = json_out_print(a, top);
    json_out_destroy(top);
    const struct json_node *root = json_parse(a, "j", text, strlen(text), b->room.errs);
    assert_near(number(root, "length_mm"), 450, 1e-9);
    assert_near(number(root, "to_buy_mm"), 500, 1e-9);
    assert_near(number(root, "used"), 150000 / (1415.0 * 450), 1e-12);
    assert_near(number(json_find(root, "as_it_lies"), "width_mm"), 707.5, 1e-9);
    assert_null(json_find(root, "spare_mm"));
    const struct json_node *pocket = json_find(root, "pieces")->first->next;
    assert_string_equal(json_find(pocket, "name")->text, "Pocket");
    assert_near(number(pocket, "from_cut_end_mm"), 300, 1e-9);
    assert_near(number(pocket, "from_near_edge_mm"), 50, 1e-9);
    assert_int_equal(json_find(pocket, "held")->type, JSON_TRUE);
    assert_int_equal(json_find(pocket, "outline_mm")->count, 4);
    assert_true(json_find(root, "making_ready")->count > 3);
}

#define bench_test(f) cmocka_unit_test_setup_teardown((f), open_bench, room_close)

int main(void)
{
    const struct CMUnitTest tests[] = {
        bench_test(what_is_needed_is_told_with_what_to_buy),
        bench_test(in_inches_shops_cut_by_eighths_of_a_yard),
        bench_test(each_piece_is_told_with_its_place_and_turn),
        bench_test(a_turn_is_told_where_it_means_anything),
        bench_test(what_becomes_of_the_jobs_layout_and_of_what_is_left_out_is_told),
        bench_test(a_fold_past_the_last_piece_is_told_and_counted),
        bench_test(where_nothing_is_laid_nothing_is_shown),
        bench_test(faults_are_told_as_the_reason),
        bench_test(of_cloth_at_hand_what_is_left_or_does_not_fit_is_told),
        bench_test(a_block_is_told_with_its_size_and_how_often_it_is_cut),
        bench_test(other_widths_stand_in_a_table),
        bench_test(json_has_the_figures_as_they_are),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
