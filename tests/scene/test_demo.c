/* What is written on each piece of the demo, in every size and cup group. Its pattern and its body are the arguments.
 */
#include "app/app.h"
#include "input/key.h"
#include "job/job.h"
#include "pattern/read.h"
#include "scene/reading.h"
#include "table/rig.h"

#include <string.h>

static const char *demo_pattern, *demo_body;

/* The boxes of words that were found, as she sees them. */
struct boxes {
    struct geometry_box items[16];
    size_t count;
};

static bool found_at(struct here *h, const struct paint_items *in, const char *text, struct boxes *boxes,
                     enum scene_side side)
{
    const vec2 ways[] = { rights[side], aways[side] };
    static const double caps[] = { CAP_MM, NAME_MM };
    for (int w = 0; w < 2; w++)
        for (int c = 0; c < 2; c++) {
            struct found_words words = find_words(h, in, text, caps[c], ways[w]);
            if (!words.count)
                continue;
            assert_true(boxes->count < sizeof boxes->items / sizeof boxes->items[0]);
            boxes->items[boxes->count++] = box_seen(in, &words, rights[side], aways[side]);
            return true;
        }
    return false;
}

/* A count and a size are broken behind a comma or before where the piece lies or is fused, never within "2 PAIRS" or
 * "CUP C-D". */
static bool may_break_at(const char *text, const char *blank, int which)
{
    return which == 0 || (blank > text && blank[-1] == ',') || strncmp(blank, " ON ", 4) == 0;
}

/* Whether the text stands there: alone, in one line with its neighbours, or broken at a blank. */
static bool is_written(struct here *h, const struct paint_items *in, const char *const texts[3], int which,
                       struct boxes *boxes, enum scene_side side)
{
    const char *text = texts[which];
    if (found_at(h, in, text, boxes, side))
        return true;
    for (int first = 0; first <= which; first++)
        for (int last = which; last < 3; last++) {
            const char *line = texts[first];
            for (int i = first + 1; i <= last; i++)
                line = base_arena_print(h->a, "%s · %s", line, texts[i]);
            if (first < last && found_at(h, in, line, boxes, side))
                return true;
        }
    for (const char *blank = strchr(text, ' '); blank; blank = strchr(blank + 1, ' '))
        if (may_break_at(text, blank, which) &&
            found_at(h, in, base_arena_print(h->a, "%.*s", (int)(blank - text), text), boxes, side) &&
            found_at(h, in, blank + 1, boxes, side))
            return true;
    return false;
}

/* No line runs over the words. */
static void check_clear(const struct paint_items *in, const struct boxes *boxes, enum scene_side side, const char *what)
{
    for (size_t i = 0; i < in->count; i++) {
        struct geometry_path path = in->paths[in->items[i].first_path];
        if (in->items[i].kind != PAINT_STROKE)
            continue;
        for (size_t b = 0; b < boxes->count; b++)
            for (size_t p = 0; p + !path.closed < path.count; p++)
                if (runs_over(boxes->items[b], path.points[p], path.points[(p + 1) % path.count], rights[side],
                              aways[side]))
                    fail_msg("%s: a line runs over the words", what);
    }
}

static const char *in_capitals(struct here *h, const char *text)
{
    char *out = base_arena_copy_text(h->a, text);
    for (char *p = out; *p; p++)
        if (*p >= 'a' && *p <= 'z')
            *p = (char)(*p - 'a' + 'A');
    return out;
}

/* "CUT 1 ON THE FOLD", "2 PAIRS, INTERF.", from the pattern's own list. */
static const char *count_written(struct here *h, const struct pattern_cut *cut, bool on_fold)
{
    bool pairs = cut->hand == PATTERN_PAIRS;
    int count = cut->count.number;
    const char *text = pairs ? base_arena_print(h->a, "%d PAIR%s", count, count > 1 ? "S" : "")
                             : base_arena_print(h->a, "CUT %d", count);
    return base_arena_print(h->a, "%s%s%s%s", text, cut->hand == PATTERN_LEFT ? ", LEFT" : "",
                            on_fold ? " ON THE FOLD" : "",
                            cut->cloth == PATTERN_INTERFACING ? ", INTERF. ON WRONG SIDE" : "");
}

/* Every line of a view's cutting list, by itself on the table: name, count and size, clear of all lines. `opened`: only
 * the pieces on the fold, opened out. */
static void check_view(struct here *h, const struct pattern *p, int view, const char *size, int group,
                       enum scene_side side, bool opened)
{
    struct calibration_table table = { .name = "plain", .made = "", .unit = UNITS_MM };
    table.map = map_of(&hangings[0]);
    struct job_choices choices = { .pattern = demo_pattern,
                                   .body = demo_body,
                                   .view = p->views[view].name,
                                   .size = size,
                                   .cup_group = p->cup_groups[group].name };
    struct app *app = rig_app_of(h->a, &choices, &table, h->font, h->errs);
    assert_non_null(app);
    app_set_side(app, scene_side_name(side));
    if (opened)
        app_handle(app, (struct input_event){ .type = INPUT_KEY, .key = KEY_CHAR + 'u' });
    size_t shown = 0;
    for (size_t c = 0; c < p->views[view].cut_count; c++) {
        const struct pattern_cut *cut = &p->views[view].cuts[c];
        const struct pattern_piece *cut_piece = &p->pieces[cut->piece];
        if (!pattern_in_cup_group(cut_piece->cup_group, group))
            continue;
        bool on_fold = cut_piece->fold != PATTERN_NONE;
        app_go_to_cut(app, shown++);
        if (opened && !on_fold)
            continue;
        struct paint_items in = app_scene(app, h->a).table.in;
        struct boxes boxes = { .count = 0 };
        const char *const texts[] = { in_capitals(h, cut_piece->label), count_written(h, cut, on_fold && !opened),
                                      base_arena_print(h->a, "SIZE %s, CUP %s", size, p->cup_groups[group].name) };
        const char *what =
            base_arena_print(h->a, "%s, %s, from the %s side", texts[0], texts[2], scene_side_name(side));
        for (int t = 0; t < 3; t++)
            if (!is_written(h, &in, texts, t, &boxes, side))
                fail_msg("%s: “%s” is not written", what, texts[t]);
        check_clear(&in, &boxes, side, what);
    }
    assert_int_equal(shown, app_cut_count(app));
}

/* All sizes in both cup groups, from the four sides in turn. */
static void every_piece_of_the_demo_says_name_count_and_size(void **state)
{
    struct here *h = *state;
    const struct pattern *p = pattern_read(h->a, demo_pattern, h->errs);
    assert_non_null(p);
    static const char *const views[] = { "A", "B", "D" }; /* C is A without the skirt */
    for (int group = 0; group < (int)p->cup_group_count; group++)
        for (size_t size = 0; size < p->size_count; size++)
            for (int v = 0; v < 3; v++) {
                if (v && (size + (size_t)v) % 3) /* what they share with A is seen often enough */
                    continue;
                enum scene_side side = (enum scene_side)((size + (size_t)group) % SCENE_SIDES);
                for (int opened = 0; opened < 2; opened++)
                    check_view(h, p, pattern_find_view(p, views[v]), p->sizes[size], group, side, opened);
            }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        scene_test(every_piece_of_the_demo_says_name_count_and_size),
    };
    if (argc != 3)
        return 1;
    demo_pattern = argv[1];
    demo_body = argv[2];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
