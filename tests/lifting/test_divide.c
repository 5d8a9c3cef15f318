#include "drawing/drawn.h"
#include "lifting/lifting.h"
#include "support/room.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Names of layers as drawing programs and people make them: common practice, no source; what each is, worked out by
 * hand. */

enum { LAYERS_MOST = 16 };

/* A name may stand below another: "Sizes/34"; parents come first and have nothing drawn. What is expected: "34" that
 * size, "34 A/B" with its cup, "=" common, "-" unused; with "?" unsure. */
static const struct {
    const char *layers[LAYERS_MOST];
    const char *roles[LAYERS_MOST];
    const char *sizes, *cups;
} sheets[] = {
    { { "Size 38", "Size 34", "Size 36", "All sizes" }, { "38", "34", "36", "=" }, "34 36 38", "" },
    { { "Gr\xc3\xb6\xc3\x9f"
        "e 34",
        "Gr. 36",
        "Gr\xc3\xb6\xc3\x9f"
        "e 100",
        "Alle Gr\xc3\xb6\xc3\x9f"
        "en" },
      { "34", "36", "100", "=" },
      "34 36 100",
      "" },
    { { "34", "36", "Text", "Frame" }, { "34", "36", "=", "-" }, "34 36", "" },
    { { "XL", "XXS", "M", "S", "3XL", "XXL", "L", "XS" },
      { "XL", "XXS", "M", "S", "3XL", "XXL", "L", "XS" },
      "XXS XS S M L XL XXL 3XL",
      "" },
    { { "EU 36 / UK 10", "EU 34 / UK 8", "Markings" },
      { "EU 36 / UK 10", "EU 34 / UK 8", "=" },
      "EU 34 / UK 8,EU 36 / UK 10",
      "" },
    { { "Size_12", "Size_10", "Notches", "Logo" }, { "12", "10", "=", "-" }, "10 12", "" },
    { { "size 8 A/B cup", "size 8 C/D cup", "size 10 A/B cup" }, { "8 A/B", "8 C/D", "10 A/B" }, "8 10", "A/B C/D" },
    { { "8 A", "8 B", "10 A", "10 B", "Common" }, { "8 A", "8 B", "10 A", "10 B", "=" }, "8 10", "A B" },
    { { "36 B", "36 C", "36 D", "Text" }, { "36 B", "36 C", "36 D", "=" }, "36", "B C D" },
    { { "Cup C", "Cup D", "Cup C/36", "Cup C/38", "Cup D/36" }, { "", "", "36 C", "38 C", "36 D" }, "36 38", "C D" },
    { { "K\xc3\xb6rbchen B - Gr. 40", "K\xc3\xb6rbchen C - Gr. 40" }, { "40 B", "40 C" }, "40", "B C" },
    { { "Sizes", "Sizes/6", "Sizes/8", "Labels", "Test square" }, { "", "6", "8", "=", "-" }, "6 8", "" },
    { { "34", "34/Cut", "34/Notches", "36", "36/Cut", "36/Text" }, { "", "34", "34", "", "36", "36" }, "34 36", "" },
    { { "34", "36", "34 or 36", "36 and not Lines", "not 34" }, { "34", "36", "=", "36", "=" }, "34 36", "" },
    { { "Layer 1", "Layer 2" }, { "=?", "=?" }, "one size", "" },
    { { "1" }, { "=?" }, "one size", "" },
    { { "34-36", "38-40", "42-44" }, { "34-36", "38-40", "42-44" }, "34-36 38-40 42-44", "" },
    { { "34", "36", "38", "34-38" }, { "34", "36", "38", "=" }, "34 36 38", "" },
    { { "S/M", "L/XL" }, { "S/M", "L/XL" }, "S/M L/XL", "" },
    { { "92/98", "80/86", "104/110" }, { "92/98", "80/86", "104/110" }, "80/86 92/98 104/110", "" },
    { { "3-6M", "0-3M", "12M", "2T" }, { "3-6M", "0-3M", "12M", "2T" }, "0-3M 3-6M 12M 2T", "" },
    { { "0", "00", "2", "4" }, { "0", "00", "2", "4" }, "00 0 2 4", "" },
    { { "Blouse 34", "Blouse 36", "Blouse 38" }, { "34?", "36?", "38?" }, "34 36 38", "" },
    { { "Size 34", "Size 36", "Notches 34", "Notches 36" }, { "34", "36", "34", "36" }, "34 36", "" },
    { { "Size 8", "Size chart", "Instructions", "Testquadrat 10 cm", "Anleitung" },
      { "8", "-", "-", "-", "-" },
      "8",
      "" },
    { { "UK 8", "UK 10", "Grainlines", "Border" }, { "UK 8", "UK 10", "=", "-" }, "UK 8,UK 10", "" },
    { { "Small", "Medium", "Large", "Extra Large" },
      { "Small", "Medium", "Large", "Extra Large" },
      "Small,Medium,Large,Extra Large",
      "" },
    { { "38 cutting line", "40 cutting line" }, { "38", "40" }, "38 40", "" },
    { { "Size 2XL", "Size XL", "Size 1X" }, { "2XL", "XL", "1X" }, "XL 1X 2XL", "" },
    { { "GRO\xcc\x88SSE 44", "GRO\xcc\x88SSE 42" }, { "44", "42" }, "42 44", "" },
    { { "Front", "Back" }, { "=?", "=?" }, "one size", "" },
    { { "Large", "X-Small", "Small" }, { "Large", "X-Small", "Small" }, "X-Small,Small,Large", "" },
    { { "1", "2", "3" }, { "1?", "2?", "3?" }, "1 2 3", "" },
    { { "Page 1", "Page 2", "Page 3" }, { "=?", "=?", "=?" }, "one size", "" },
    { { "Size 34 36 38", "Gr 34" }, { "=", "34" }, "34", "" },
};

static const char *name_of(const char *layer)
{
    const char *slash = strchr(layer, '/');
    /* "EU 36 / UK 10" and "S/M" are no paths: there a path's parent is spelled out before */
    return slash ? slash + 1 : layer;
}

/* The layer above it: one whose name it begins with. */
static uint32_t parent_of(const char *const *layers, size_t k)
{
    for (size_t i = 0; i < k; i++) {
        size_t length = strlen(layers[i]);
        if (strncmp(layers[i], layers[k], length) == 0 && layers[k][length] == '/')
            return (uint32_t)i;
    }
    return SHEET_NONE;
}

/* Each layer has a line of its own, all of one look and length. */
static struct drawing layered(struct arena *a, const char *const *layers, const char *const *roles)
{
    struct collect *c = collect_create(-1);
    collect_page(c, 500, 500, NULL);
    for (size_t k = 0; k < LAYERS_MOST && layers[k]; k++) {
        uint32_t parent = parent_of(layers, k);
        uint32_t layer =
            collect_layer(c, parent, parent == SHEET_NONE ? layers[k] : name_of(layers[k]), SHEET_LAYER_ON);
        double y = 10 * (double)k;
        if (*roles[k])
            drawn_line(c, layer, (const double[]){ 10, y, 90, y }, 2, false);
    }
    return drawn_drawing(a, c);
}

static const char *role_text(struct arena *a, const struct lifting_division *v, const struct lifting_strand *s)
{
    const char *sure = s->sure ? "" : "?";
    if (s->role == LIFTING_UNUSED)
        return base_arena_print(a, "-%s", sure);
    if (s->role == LIFTING_COMMON)
        return base_arena_print(a, "=%s", sure);
    bool cup = s->cup_group != LIFTING_NONE;
    return base_arena_print(a, "%s%s%s%s", v->sizes[s->size], cup ? " " : "", cup ? v->cup_groups[s->cup_group] : "",
                            sure);
}

static const char *list(struct arena *a, const char *const *names, size_t count, char apart)
{
    const char *out = "";
    for (size_t i = 0; i < count; i++)
        out = base_arena_print(a, "%s%.*s%s", out, i ? 1 : 0, &apart, names[i]);
    return out;
}

static size_t wrong_roles(struct arena *a, size_t i)
{
    struct drawing d = layered(a, sheets[i].layers, sheets[i].roles);
    struct lifting_division v;
    size_t wrong = 0, strand = 0;
    lifting_divide(a, &d, NULL, 0, &v);
    for (size_t k = 0; k < LAYERS_MOST && sheets[i].layers[k]; k++) {
        if (!*sheets[i].roles[k])
            continue;
        const char *role = role_text(a, &v, &v.strands[strand++]);
        if (strcmp(role, sheets[i].roles[k]) != 0) {
            fprintf(stderr, "“%s” is “%s”, not “%s”\n", sheets[i].layers[k], role, sheets[i].roles[k]);
            wrong++;
        }
    }
    const char *sizes = list(a, v.sizes, v.size_count, strchr(sheets[i].sizes, ',') ? ',' : ' ');
    const char *cups = list(a, v.cup_groups, v.cup_group_count, ' ');
    if (strcmp(sizes, sheets[i].sizes) != 0 || strcmp(cups, sheets[i].cups) != 0) {
        fprintf(stderr, "sizes “%s”, cups “%s”, not “%s”, “%s”\n", sizes, cups, sheets[i].sizes, sheets[i].cups);
        wrong++;
    }
    return wrong;
}

static void layers_are_what_their_names_say(void **state)
{
    size_t wrong = 0;
    for (size_t i = 0; i < sizeof sheets / sizeof sheets[0]; i++)
        wrong += wrong_roles(*state, i);
    assert_int_equal(wrong, 0);
}

static void box(struct collect *c, const struct collect_style *look, double x, double y, double w, double h)
{
    collect_begin(c, SHEET_NONE, look);
    collect_move(c, x, y);
    collect_line(c, x + w, y);
    collect_line(c, x + w, y + h);
    collect_line(c, x, y + h);
    collect_close(c);
    collect_end(c);
}

static void stroke(struct collect *c, const struct collect_style *look, double x, double y, double x2, double y2)
{
    collect_begin(c, SHEET_NONE, look);
    collect_move(c, x, y);
    collect_line(c, x2, y2);
    collect_end(c);
}

static const double dashes[3][2] = { { 6, 2 }, { 3, 3 }, { 1, 1 } };
static const struct collect_style looks[] = {
    { 0.3, 0x000000, SHEET_STROKED, dashes[0], 2 },
    { 0.3, 0x000000, SHEET_STROKED, dashes[1], 2 },
    { 0.3, 0x000000, SHEET_STROKED, dashes[2], 2 },
    { 0.3, 0x000000, SHEET_STROKED, NULL, 0 },
};

/* Three sizes of two pieces, the largest first, and marks in a look of their own. */
static void draw_sizes(struct collect *c)
{
    for (size_t k = 0; k < 3; k++) {
        double more = 10 - 5 * (double)k;
        box(c, &looks[k], 50, 50, 200 + more, 300 + 2 * more);
        box(c, &looks[k], 300, 50, 120 + more, 180 + 2 * more);
    }
    stroke(c, &looks[3], 120, 100, 120, 300);
    stroke(c, &looks[3], 350, 80, 350, 180);
}

static void without_layers_a_legend_tells(void **state)
{
    struct arena *a = *state;
    static const char *const names[] = { "Gr. 42", "Gr. 40", "Gr. 38" };
    struct collect *c = collect_create(-1);
    struct lifting_division v;
    collect_page(c, 500, 500, NULL);
    draw_sizes(c);
    for (size_t k = 0; k < 3; k++) {
        double y = 480 - 6 * (double)k;
        stroke(c, &looks[k], 300, y, 330, y);
        drawn_words(c, SHEET_NONE, 333, y - 1, 3, names[k]);
    }
    struct drawing d = drawn_drawing(a, c);
    lifting_divide(a, &d, NULL, 0, &v);
    assert_int_equal(v.strand_count, 4);
    assert_string_equal(list(a, v.sizes, v.size_count, ' '), "38 40 42");
    assert_int_equal(v.strands[0].size, 2);
    assert_int_equal(v.strands[1].size, 1);
    assert_int_equal(v.strands[2].size, 0);
    assert_true(v.strands[0].sure);
    assert_int_equal(v.strands[3].role, LIFTING_COMMON);
    assert_int_equal(v.strand_of_line[0], 0);
}

static void without_names_lines_beside_each_other_are_sizes(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    struct lifting_division v;
    collect_page(c, 500, 500, NULL);
    draw_sizes(c);
    struct drawing d = drawn_drawing(a, c);
    lifting_divide(a, &d, NULL, 0, &v);
    assert_string_equal(list(a, v.sizes, v.size_count, ' '), "1 2 3");
    assert_int_equal(v.strands[0].size, 2);
    assert_int_equal(v.strands[2].size, 0);
    assert_false(v.strands[0].sure);
    assert_int_equal(v.strands[3].role, LIFTING_COMMON);
}

/* All in one look; what is on a layer that is no size is of all. */
static void layers_whose_names_say_nothing_are_sizes_if_beside_each_other(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    struct lifting_division v;
    collect_page(c, 500, 500, NULL);
    for (int k = 0; k < 4; k++) {
        double more = 10 - 5 * k;
        uint32_t layer = collect_layer(c, SHEET_NONE, base_arena_print(a, "Layer %d", k + 1), SHEET_LAYER_ON);
        if (k == 3)
            drawn_line(c, layer, (const double[]){ 120, 100, 120, 300 }, 2, false);
        else
            drawn_line(c, layer, (const double[]){ 50, 50, 250 + more, 50, 250 + more, 350 + more, 50, 350 + more }, 4,
                       true);
    }
    struct drawing d = drawn_drawing(a, c);
    lifting_divide(a, &d, NULL, 0, &v);
    assert_string_equal(list(a, v.sizes, v.size_count, ' '), "1 2 3");
    for (int k = 0; k < 3; k++) {
        assert_int_equal(v.strands[k].size, 2 - k);
        assert_false(v.strands[k].sure);
        assert_false(v.strands[k].shares_colour);
    }
    assert_int_equal(v.strands[3].role, LIFTING_COMMON);
}

/* A dashed line 10 mm within every outline, all round, is where it is sewn; further in at one side it may be a size. */
static void a_line_at_one_distance_within_is_no_size(void **state)
{
    struct arena *a = *state;
    for (int more = 0; more < 2; more++) {
        struct collect *c = collect_create(-1);
        struct lifting_division v;
        collect_page(c, 500, 500, NULL);
        box(c, &looks[3], 50, 50, 200, 300);
        box(c, &looks[0], 60, 60, 180, 280);
        box(c, &looks[3], 300, 50, 120, 180);
        box(c, &looks[0], 310, 60, 100 - 4 * more, 160 - 4 * more);
        struct drawing d = drawn_drawing(a, c);
        lifting_divide(a, &d, NULL, 0, &v);
        assert_int_equal(v.size_count, more ? 2 : 1);
    }
}

/* Of a size's colour, but without its dashes. */
static void a_notch_in_a_sizes_colour_is_of_that_size(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    struct lifting_division v;
    static const struct collect_style red = { 0.3, 0xff0000, SHEET_STROKED, dashes[0], 2 },
                                      blue = { 0.3, 0x0000ff, SHEET_STROKED, dashes[1], 2 },
                                      notch = { 0.3, 0x0000ff, SHEET_STROKED, NULL, 0 };
    collect_page(c, 500, 500, NULL);
    box(c, &red, 50, 50, 200, 300);
    box(c, &blue, 50, 50, 205, 310);
    stroke(c, &notch, 150, 50, 150, 55);
    struct drawing d = drawn_drawing(a, c);
    lifting_divide(a, &d, NULL, 0, &v);
    assert_int_equal(v.size_count, 2);
    assert_int_equal(v.strands[2].size, 1);
    assert_false(v.strands[2].sure);
}

static void what_the_person_says_goes_before(void **state)
{
    struct arena *a = *state;
    struct drawing d = layered(a, (const char *const[LAYERS_MOST]){ "34", "36", "Odds", "Logo" },
                               (const char *const[LAYERS_MOST]){ "34", "36", "=?", "-" });
    const struct lifting_say says[] = { { 0, LIFTING_UNUSED, NULL, NULL },
                                        { 2, LIFTING_SIZE, "Toddler", NULL },
                                        { 3, LIFTING_SIZE, "36", "D" },
                                        { 99, LIFTING_SIZE, "8", NULL } };
    struct lifting_division v;
    lifting_divide(a, &d, says, 4, &v);
    assert_string_equal(list(a, v.sizes, v.size_count, ' '), "36 Toddler");
    assert_int_equal(v.strands[0].role, LIFTING_UNUSED);
    assert_int_equal(v.strands[1].size, 0);
    assert_int_equal(v.strands[2].size, 1);
    assert_true(v.strands[2].sure);
    assert_int_equal(v.strands[3].size, 0);
    assert_int_equal(v.strands[3].cup_group, 0);
    assert_string_equal(v.cup_groups[0], "D");
}

/* Letters have no strand. */
static void letters_are_no_lines(void **state)
{
    struct arena *a = *state;
    static const struct collect_style black = { 0, 0, SHEET_FILLED | SHEET_TEXT, NULL, 0 };
    struct collect *c = collect_create(-1);
    struct lifting_division v;
    collect_page(c, 500, 500, NULL);
    collect_begin_run(c, SHEET_NONE, &black, "I", 1, &(struct sheet_run){ 10, 10, 1, 0, 5 });
    collect_move(c, 10, 10);
    collect_line(c, 11, 10);
    collect_line(c, 11, 15);
    collect_close(c);
    collect_end(c);
    struct drawing d = drawn_drawing(a, c);
    assert_int_equal(d.line_count, 1);
    lifting_divide(a, &d, NULL, 0, &v);
    assert_int_equal(v.strand_count, 0);
    assert_int_equal(v.strand_of_line[0], LIFTING_NONE);
    assert_int_equal(v.size_count, 1);
}

static void twenty_thousand_layers_are_no_trouble(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    struct lifting_division v;
    collect_page(c, 500, 500, NULL);
    for (uint32_t i = 0; i < SHEET_LAYERS_MOST; i++) {
        char name[32];
        snprintf(name, sizeof name, i % 3 ? "Size %u" : "%u - %u A", (unsigned)i, (unsigned)i + 2);
        uint32_t layer = collect_layer(c, i % 7 == 6 ? i - 1 : SHEET_NONE, name, 0);
        drawn_line(c, layer, (const double[]){ 0, 0, 100, i }, 2, false);
    }
    struct drawing d = drawn_drawing(a, c);
    lifting_divide(a, &d, NULL, 0, &v);
    assert_int_equal(v.strand_count, SHEET_LAYERS_MOST);
    assert_int_equal(v.size_count, LIFTING_SIZES_MOST);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(layers_are_what_their_names_say),
        room_arena_test(without_layers_a_legend_tells),
        room_arena_test(without_names_lines_beside_each_other_are_sizes),
        room_arena_test(layers_whose_names_say_nothing_are_sizes_if_beside_each_other),
        room_arena_test(a_line_at_one_distance_within_is_no_size),
        room_arena_test(a_notch_in_a_sizes_colour_is_of_that_size),
        room_arena_test(what_the_person_says_goes_before),
        room_arena_test(letters_are_no_lines),
        room_arena_test(twenty_thousand_layers_are_no_trouble),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
