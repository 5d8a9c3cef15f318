#include "lifting/letters.h"
#include "support/room.h"
#include "text/faces.h"
#include "text/run.h"

#include <string.h>

/* Two pages: on the first a real text, a square and letters as outlines; on the second letters again. Words as drawn.
 */

enum { STYLE_FILL, STYLE_LINE, STYLES, LINES_MOST = 200 };

struct drawn {
    struct arena *a;
    struct text_font *font;
    struct drawing_line lines[LINES_MOST];
    size_t line_count;
    struct drawing_text texts[2];
    struct drawing_page pages[2];
    struct drawing_style styles[STYLES];
    struct drawing d;
};

static void put_line(struct drawn *w, struct geometry_path path, int page, int style, uint32_t item)
{
    w->lines[w->line_count++] = (struct drawing_line){
        .path = { path }, .page = page, .layer = DRAWING_NONE, .style = style, .clip = DRAWING_NONE, .item = item
    };
}

static void put_square(struct drawn *w, double x, int page, uint32_t item)
{
    static vec2 corners[2][4];
    vec2 *c = corners[page];
    c[0] = (vec2){ x, 0 }, c[1] = (vec2){ x + 100, 0 }, c[2] = (vec2){ x + 100, 100 }, c[3] = (vec2){ x, 100 };
    put_line(w, (struct geometry_path){ c, 4, true }, page, STYLE_LINE, item);
}

static void put_letters(struct drawn *w, const char *words, vec2 at, int page, uint32_t item)
{
    struct text_run run = text_run_outline(w->a, w->font, words, 5);
    for (size_t i = 0; i < run.count; i++) {
        for (size_t k = 0; k < run.contours[i].count; k++)
            run.contours[i].points[k] = vec2_add(run.contours[i].points[k], at);
        put_line(w, run.contours[i], page, STYLE_FILL, item);
    }
}

static struct drawing read_drawing(struct arena *a)
{
    static struct drawn w;
    struct text_face_file file;
    w = (struct drawn){ .a = a };
    w.styles[STYLE_FILL] = (struct drawing_style){ .filled = true };
    w.styles[STYLE_LINE] = (struct drawing_style){ .stroked = true, .width_mm = 0.3 };
    assert_int_equal(text_find_faces(a, &file, 1), 1);
    w.font = text_font_open_face(&file);
    put_letters(&w, "Front bodice", (vec2){ 20, 50 }, 0, 3);
    put_square(&w, 0, 0, 7);
    w.texts[0] = (struct drawing_text){
        .words = "36", .at = { 90, 90 }, .along = { 1, 0 }, .size_mm = 4, .layer = DRAWING_NONE, .item = 8
    };
    w.pages[0] =
        (struct drawing_page){ .width_mm = 200, .height_mm = 200, .line_count = w.line_count, .text_count = 1 };
    w.pages[1] = (struct drawing_page){ .first_line = w.line_count, .first_text = 1, .width_mm = 200 };
    put_square(&w, 0, 1, 9);
    put_letters(&w, "cut 2", (vec2){ 20, 50 }, 1, 10);
    w.pages[1].line_count = w.line_count - w.pages[1].first_line;
    w.d = (struct drawing){ .pages = w.pages,
                            .page_count = 2,
                            .styles = w.styles,
                            .style_count = STYLES,
                            .lines = w.lines,
                            .line_count = w.line_count,
                            .texts = w.texts,
                            .text_count = 1 };
    struct drawing out = lifting_read_letters(a, &w.d);
    text_font_close(w.font);
    assert_int_equal(out.line_count, w.line_count);
    return out;
}

static void words_are_texts_on_their_pages(void **state)
{
    struct drawing d = read_drawing(*state);
    assert_int_equal(d.text_count, 3);
    assert_string_equal(d.texts[0].words, "36");
    assert_false(d.texts[0].read);
    assert_string_equal(d.texts[1].words, "Front bodice");
    assert_true(d.texts[1].read);
    assert_near(d.texts[1].size_mm, 5 / 0.7, 0.1); /* capitals are 0.7 of the font's size: common practice, no source */
    assert_int_equal(d.pages[0].text_count, 2);
    assert_string_equal(d.texts[d.pages[1].first_text].words, "cut 2");
    assert_int_equal(d.texts[2].page, 1);
}

static void their_letters_are_no_lines_of_pieces(void **state)
{
    struct drawing d = read_drawing(*state);
    size_t plain = 0;
    for (size_t i = 0; i < d.line_count; i++)
        plain += !d.styles[d.lines[i].style].lettering;
    assert_int_equal(plain, 2); /* the squares */
    assert_true(d.style_count == STYLES + 1);
    assert_false(d.styles[STYLE_FILL].lettering);
}

/* As drawing.h has it: page after page, in painting order, a text's outlines lines of its item. */
static void lines_and_texts_stay_in_the_order_of_their_items(void **state)
{
    struct drawing d = read_drawing(*state);
    for (size_t i = 1; i < d.line_count; i++) {
        assert_true(d.lines[i - 1].item <= d.lines[i].item);
        assert_true(d.lines[i - 1].page <= d.lines[i].page);
    }
    for (size_t i = 0; i < d.text_count; i++) {
        size_t letters = 0;
        for (size_t k = 0; k < d.line_count; k++)
            letters += d.lines[k].item == d.texts[i].item;
        assert_int_equal(letters > 0, d.texts[i].read);
        assert_true(i == 0 || d.texts[i - 1].item < d.texts[i].item);
    }
}

static void a_drawing_without_letters_stays_as_it_is(void **state)
{
    struct arena *a = *state;
    vec2 corners[] = { { 0, 0 }, { 30, 0 }, { 30, 30 } };
    struct drawing_line line = { .path = { { corners, 3, true } } };
    struct drawing_style style = { .filled = true };
    struct drawing_page page = { .line_count = 1 };
    struct drawing d = {
        .pages = &page, .page_count = 1, .styles = &style, .style_count = 1, .lines = &line, .line_count = 1
    };
    struct drawing out = lifting_read_letters(a, &d);
    assert_ptr_equal(out.lines, &line);
    assert_int_equal(out.text_count, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(words_are_texts_on_their_pages),
        room_arena_test(their_letters_are_no_lines_of_pieces),
        room_arena_test(lines_and_texts_stay_in_the_order_of_their_items),
        room_arena_test(a_drawing_without_letters_stays_as_it_is),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
