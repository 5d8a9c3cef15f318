/* The strip on any edge, whichever side she stands at. A pixel is a millimetre, so capitals are 14.2 mm high and the
 * strip of one row takes 2.5 of that and 12 mm, by hand 47.5 mm. */
#include "scene/parts.h"
#include "scene/reading.h"

static const struct geometry_map plain = { 800, 600, { 500, 0, 400, 0, -500, 300, 0, 0, 0, 0, 0 } };

#define DEEP_MM 47.5

static struct scene_view view_of(struct here *h, enum scene_side side, enum scene_side edge)
{
    return (struct scene_view){ .map = &plain,
                                .font = h->font,
                                .look = { 1, 3, &scene_chalks[0] },
                                .side = side,
                                .strip_edge = edge,
                                .mode = SCENE_STICKERS,
                                .strip_left = "Cut",
                                .strip_right = "One left" };
}

/* How far a box is from each edge of the frame: near, right, far and left as the mat has them. */
static double from_edge(struct geometry_box box, enum scene_side edge)
{
    const double off[] = { [SCENE_NEAR] = 600 - box.max.y,
                           [SCENE_RIGHT] = 800 - box.max.x,
                           [SCENE_FAR] = box.min.y,
                           [SCENE_LEFT] = box.min.x };
    return off[edge];
}

static struct geometry_box box_of(const struct paint_items *in, size_t item)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t p = 0; p < in->items[item].paths; p++)
        box = geometry_box_join(box, geometry_path_box(in->paths[in->items[item].first_path + p]));
    return box;
}

/* Hers, turned by her side: at the right side her left is the table's near edge (hand-worked). */
static const enum scene_side edges[SCENE_SIDES][SCENE_SIDES] = {
    [SCENE_NEAR] = { SCENE_NEAR, SCENE_RIGHT, SCENE_FAR, SCENE_LEFT },
    [SCENE_RIGHT] = { SCENE_RIGHT, SCENE_FAR, SCENE_LEFT, SCENE_NEAR },
    [SCENE_FAR] = { SCENE_FAR, SCENE_LEFT, SCENE_NEAR, SCENE_RIGHT },
    [SCENE_LEFT] = { SCENE_LEFT, SCENE_NEAR, SCENE_RIGHT, SCENE_FAR },
};

static void words_stand_within_the_strip_on_her_edge(void **state)
{
    struct here *h = *state;
    for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++)
        for (enum scene_side edge = SCENE_NEAR; edge < SCENE_SIDES; edge++) {
            struct scene_view view = view_of(h, side, edge);
            struct paint_items in = scene_make(h->a, &view).px.in;
            int words = 0;
            for (size_t i = 0; i < in.count; i++) {
                if (in.items[i].kind != PAINT_FILL || in.items[i].ink.level < 1)
                    continue;
                struct geometry_box box = box_of(&in, i);
                bool lies = from_edge(box, edges[side][edge]) >= 0 && from_edge(box, edges[side][edge]) < DEEP_MM;
                for (int e = 0; e < SCENE_SIDES; e++)
                    lies = lies && from_edge(box, (enum scene_side)e) >= 10;
                if (!lies)
                    fail_msg("standing %d, edge %d: words at %.0f, %.0f", side, edge, box.min.x, box.min.y);
                words++;
            }
            assert_int_equal(words, 2);
        }
}

static void pieces_have_the_rest_of_the_light(void **state)
{
    struct here *h = *state;
    struct geometry_box all = scene_light_box(&plain);
    for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++)
        for (enum scene_side edge = SCENE_NEAR; edge < SCENE_SIDES; edge++) {
            struct scene_view view = view_of(h, side, edge);
            struct geometry_box box = scene_usable_light(&view);
            const double lost[] = { [SCENE_NEAR] = box.min.y - all.min.y,
                                    [SCENE_RIGHT] = all.max.x - box.max.x,
                                    [SCENE_FAR] = all.max.y - box.max.y,
                                    [SCENE_LEFT] = box.min.x - all.min.x };
            for (int e = 0; e < SCENE_SIDES; e++)
                assert_near(lost[e], e == (int)edges[side][edge] ? DEEP_MM : 0, 1e-6);
        }
}

/* A notice is across from the strip, whichever edge that has, and as long as the frame's edge. 2.2 of the cap height
 * (hand-worked). */
static void a_notice_stands_across_from_the_strip(void **state)
{
    struct here *h = *state;
    for (enum scene_side edge = SCENE_NEAR; edge < SCENE_SIDES; edge++) {
        struct scene_view view = view_of(h, SCENE_NEAR, edge);
        view.notice = "Not true to scale";
        struct paint_items in = scene_make(h->a, &view).px.in;
        struct geometry_box usable = scene_usable_light(&view), clear = scene_clear_light(&view);
        enum scene_side across = edges[SCENE_FAR][edge];
        const double lost[] = { [SCENE_NEAR] = clear.min.y - usable.min.y,
                                [SCENE_RIGHT] = usable.max.x - clear.max.x,
                                [SCENE_FAR] = usable.max.y - clear.max.y,
                                [SCENE_LEFT] = clear.min.x - usable.min.x };
        for (int e = 0; e < SCENE_SIDES; e++)
            assert_near(lost[e], e == (int)across ? 2.2 * 14.2 : 0, 1e-6);
        bool found = false, lies = across == SCENE_NEAR || across == SCENE_FAR;
        for (size_t i = 0; i < in.count; i++) {
            struct geometry_box box = box_of(&in, i);
            double length = lies ? box.max.x - box.min.x : box.max.y - box.min.y;
            double deep = lies ? box.max.y - box.min.y : box.max.x - box.min.x;
            found = found || (in.items[i].ink.level >= 1 && length > (lies ? 800 : 600) && deep < 40 &&
                              from_edge(box, across) < 0);
        }
        assert_true(found);
    }
}

/* Letters at her far edge are read as those at the near one: what is left stands at her right. */
static void what_is_left_stands_at_the_right(void **state)
{
    struct here *h = *state;
    const enum scene_side both[] = { SCENE_NEAR, SCENE_FAR };
    for (int i = 0; i < 2; i++) {
        struct scene_view view = view_of(h, SCENE_NEAR, both[i]);
        struct paint_items in = scene_make(h->a, &view).px.in;
        struct geometry_box last = box_of(&in, in.count - 1), first = box_of(&in, in.count - 2);
        assert_near(800 - last.max.x, 12, 3); /* the inset, and what a letter keeps of its own */
        assert_near(first.min.x, 12, 3);
        assert_near(last.max.y, first.max.y, 1); /* on one base line; an O reaches a hair below it */
    }
}

/* A notice of three rows in a light that is to be kept: its first sentence in one row, as deep as a short one's. */
static void a_notice_in_a_row_covers_no_more(void **state)
{
    struct here *h = *state;
    double deep[2];
    for (int i = 0; i < 2; i++) {
        struct scene_view view = view_of(h, SCENE_NEAR, SCENE_NEAR);
        view.notice =
            i ? "Not looked at since the start of all this. Measure the test square (S) before you go on, and "
                "its diagonals too · M: they do · or use the ruler that you trust most"
              : "Short";
        view.notice_in_a_row = true;
        struct paint_items in = scene_make(h->a, &view).px.in;
        deep[i] = 0;
        for (size_t k = 0; k < in.count; k++) {
            struct geometry_box box = box_of(&in, k);
            if (box.max.x - box.min.x > 800 && from_edge(box, SCENE_FAR) < 0)
                deep[i] = fmax(deep[i], box.max.y - box.min.y);
        }
    }
    assert_true(deep[0] > 0);
    assert_near(deep[1], deep[0], 1e-6);
}

/* The first words that are written: what to do now. */
static struct geometry_box first_words(struct here *h, const struct scene_view *view)
{
    struct paint_items in = scene_make(h->a, view).px.in;
    size_t i = 0;
    while (in.items[i].kind != PAINT_FILL || in.items[i].ink.level < 1)
        i++;
    return box_of(&in, i);
}

/* A mark lies 24 mm clear of words to either side, the longer stretch beside it is left (hand-worked). */
static void words_keep_off_check_stickers(void **state)
{
    static const struct {
        enum scene_side edge;
        struct px_pt mark;
        double first; /* where the first words begin, at least, along their edge */
    } rows[] = { { SCENE_NEAR, { 60, 570 }, 84 },
                 { SCENE_NEAR, { 300, 570 }, 324 },
                 { SCENE_NEAR, { 60, 300 }, 12 },
                 { SCENE_FAR, { 60, 30 }, 84 } };
    struct here *h = *state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct scene_view view = view_of(h, SCENE_NEAR, rows[i].edge);
        view.stickers = &rows[i].mark;
        view.sticker_count = 1;
        view.sticker_in_hand = -1;
        double begins = first_words(h, &view).min.x;
        assert_true(begins >= rows[i].first && begins < rows[i].first + 3);
    }
}

/* Of a text as long as four rows no word is lost, and none is taken apart. */
static void no_words_are_cut_off(void **state)
{
    struct here *h = *state;
    struct scene_view view = view_of(h, SCENE_NEAR, SCENE_NEAR);
    view.strip_left =
        "Lay the fold and the cut end of the cloth along their lines and look whether all of it is in the "
        "light that there is";
    view.strip_right = "Enter: it lies there · F: bring the light to the cloth · F1: keys";
    struct scene_page page = scene_page_of(&plain, SCENE_NEAR);
    struct paint_scene out = paint_scene_create(h->a);
    struct scene_canvas c = scene_canvas_of(h->a, &view, page, &out);
    const char *all = "";
    for (size_t i = 0; i < c.strip.left_count; i++)
        all = base_arena_print(h->a, "%s%s%s", all, i ? " " : "", c.strip.left[i]);
    assert_string_equal(all, view.strip_left);
    all = c.strip.right ? c.strip.right : "";
    for (size_t i = 0; i < c.strip.below_count; i++)
        all = base_arena_print(h->a, "%s%s%s", all, i ? " · " : "", c.strip.below[i]);
    assert_string_equal(all, view.strip_right);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        scene_test(words_stand_within_the_strip_on_her_edge),
        scene_test(pieces_have_the_rest_of_the_light),
        scene_test(a_notice_stands_across_from_the_strip),
        scene_test(what_is_left_stands_at_the_right),
        scene_test(words_keep_off_check_stickers),
        scene_test(a_notice_in_a_row_covers_no_more),
        scene_test(no_words_are_cut_off),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
