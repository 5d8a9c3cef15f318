/* Left, right and pairs, from the pattern's cutting list to the light: which way round each lies and what it says. */
#include "app/app.h"
#include "base/file.h"
#include "input/key.h"
#include "scene/reading.h"
#include "support/folder.h"
#include "table/rig.h"

#include <string.h>

/* 200 wide; its left side, as it is drawn, is 300 high and its right side 150. */
static const char pattern[] =
    "{ \"chalklight\": \"pattern\", \"version\": 1, \"name\": \"P\", \"unit\": \"mm\", \"sizes\": [\"one\"],"
    "  \"chart\": { \"hip\": [900] }, \"main_measurement\": \"hip\","
    "  \"pieces\": [ { \"name\": \"cuff\", \"points\": { \"a\": [0, 0], \"b\": [200, 0], \"c\": [200, 150], \"d\": [0, "
    "300] },"
    "    \"outline\": [ { \"name\": \"all\", \"path\": [\"a\", \"b\", \"c\", \"d\", \"a\"] } ] } ],"
    "  \"views\": [ { \"name\": \"A\", \"cut\": [ { \"piece\": \"cuff\", \"count\": 1, \"hand\": \"left\" },"
    "    { \"piece\": \"cuff\", \"count\": 3, \"hand\": \"right\" }, { \"piece\": \"cuff\", \"pairs\": 1 },"
    "    { \"piece\": \"cuff\", \"count\": 2 } ] } ] }";
static const char body[] = "{ \"chalklight\": \"body\", \"version\": 1, \"name\": \"B\", \"unit\": \"mm\","
                           "  \"measurements\": { \"hip\": 900 } }";

static const char *put(struct here *h, const char *folder, const char *name, const char *text)
{
    const char *path = base_arena_print(h->a, "%s/%s", folder, name);
    assert_true(base_file_save(path, text, strlen(text), h->errs));
    return path;
}

static struct app *app_of(struct here *h)
{
    char *folder = support_folder_create();
    struct calibration_table table = { .name = "plain", .made = "", .unit = UNITS_MM };
    struct job_choices choices = { .pattern = put(h, folder, "pattern.json", pattern),
                                   .body = put(h, folder, "body.json", body),
                                   .view = "A" };
    table.map = map_of(&hangings[0]);
    struct app *app = rig_app_of(h->a, &choices, &table, h->font, h->errs);
    support_folder_remove(folder);
    assert_non_null(app);
    assert_int_equal(app_cut_count(app), 4);
    return app;
}

/* On which side of its middle the cut line of four corners is 300 high: -1 left, 1 right. */
static int high_side(const struct paint_items *in)
{
    for (size_t i = 0; i < in->count; i++) {
        struct geometry_path path = in->paths[in->items[i].first_path];
        struct geometry_box box = geometry_path_box(path);
        if (in->items[i].kind != PAINT_STROKE || !path.closed || path.count != 4)
            continue;
        assert_near(box.max.x - box.min.x, 200, EXACT_MM);
        for (int p = 0; p < 4; p++)
            if (path.points[p].y > box.max.y - EXACT_MM)
                return path.points[p].x < (box.min.x + box.max.x) / 2 ? -1 : 1;
    }
    fail_msg("there is no cut line of four corners");
    return 0;
}

/* A piece is drawn as the right one; of a pair the one is shown, and by the key for turning over the other. */
static void each_hand_lies_its_way_round_and_says_so(void **state)
{
    struct here *h = *state;
    static const struct {
        const char *words;
        int high;
    } rows[] = { { "CUT 1, LEFT", 1 }, { "CUT 3, RIGHT", -1 }, { "1 PAIR", -1 }, { "CUT 2", -1 } };
    struct app *app = app_of(h);
    for (size_t i = 0; i < 4; i++) {
        app_go_to_cut(app, i);
        struct paint_items in = app_scene(app, h->a).table.in;
        assert_int_equal(find_words(h, &in, rows[i].words, CAP_MM, rights[SCENE_NEAR]).count, 1);
        assert_int_equal(high_side(&in), rows[i].high);
        app_handle(app, (struct input_event){ .type = INPUT_KEY, .key = KEY_CHAR + 'o' });
        in = app_scene(app, h->a).table.in;
        assert_int_equal(find_words(h, &in, rows[i].words, CAP_MM, rights[SCENE_NEAR]).count, 1); /* not mirrored */
        assert_int_equal(high_side(&in), -rows[i].high);
    }
}

/* All of them at once: the left one lies the other way round from its neighbours. */
static void among_all_pieces_every_hand_is_named(void **state)
{
    struct here *h = *state;
    struct app *app = app_of(h);
    app_handle(app, (struct input_event){ .type = INPUT_KEY, .key = KEY_CHAR + 'a' });
    struct paint_items in = app_scene(app, h->a).table.in;
    static const char *const words[] = { "CUT 1, LEFT", "CUT 3, RIGHT", "1 PAIR", "CUT 2" };
    for (size_t i = 0; i < 4; i++)
        assert_int_equal(find_words(h, &in, words[i], CAP_MM, rights[SCENE_NEAR]).count, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        scene_test(each_hand_lies_its_way_round_and_says_so),
        scene_test(among_all_pieces_every_hand_is_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
