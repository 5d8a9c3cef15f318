#include "form/form.h"
#include "form/kit_page.h"
#include "input/key.h"
#include "support/cmocka_all.h"

#include <string.h>

/* Every letter is half an em wide. */
static double half_an_em(const void *of, enum form_style style, const char *text, size_t bytes)
{
    (void)of;
    (void)text;
    return 0.5 * form_style(style)->size_u * (double)bytes;
}

static const struct form_type type = { half_an_em, NULL };

struct page {
    struct arena *a;
    struct form form;
    struct form_hand hand;
};

static int open_page(void **state)
{
    struct page *page = test_malloc(sizeof *page);
    *page = (struct page){ .a = base_arena_create() };
    page->form.a = page->a;
    page->form.height = 600;
    kit_make(&page->form);
    form_settle(&page->form, &page->hand);
    *state = page;
    return 0;
}

static int close_page(void **state)
{
    struct page *page = *state;
    base_arena_destroy(page->a);
    test_free(page);
    return 0;
}

static struct form_answer press(struct page *page, int key, int mods)
{
    return form_press(&page->form, &page->hand, (struct input_event){ .type = INPUT_KEY, .key = key, .mods = mods });
}

static void type_text(struct page *page, const char *text)
{
    for (; *text; text++)
        assert_int_equal(press(page, KEY_CHAR + *text, 0).did, FORM_LOOKED);
}

static struct form_answer point(struct page *page, double x, double y)
{
    return form_point(&page->form, &page->hand, (struct bench_pt){ x, y });
}

static void the_first_that_can_be_used_has_the_focus(void **state)
{
    struct page *page = *state;
    assert_int_equal(page->hand.focus, KIT_PLAIN);
    page->form.items[0].state = FORM_NOT_NOW;
    form_settle(&page->form, &page->hand);
    assert_int_equal(page->hand.focus, KIT_FOCUS);
}

static void what_is_typed_takes_the_old_text_s_place_and_is_told_on_leaving(void **state)
{
    struct page *page = *state;
    type_text(page, "94");
    assert_string_equal(page->hand.text, "94");
    struct form_answer answer = press(page, KEY_TAB, 0);
    assert_int_equal(answer.did, FORM_WROTE);
    assert_int_equal(answer.id, KIT_PLAIN);
    assert_string_equal(answer.text, "94");
    assert_int_equal(page->hand.focus, KIT_FOCUS);
}

static void a_text_left_as_it_was_is_not_told(void **state)
{
    struct page *page = *state;
    type_text(page, "150");
    assert_int_equal(press(page, KEY_ENTER, 0).did, FORM_LOOKED);
}

static void escape_puts_the_old_text_back(void **state)
{
    struct page *page = *state;
    type_text(page, "94");
    assert_int_equal(press(page, KEY_ESC, 0).did, FORM_LOOKED);
    assert_false(page->hand.writing);
    assert_int_equal(press(page, KEY_TAB, 0).did, FORM_LOOKED);
    assert_int_equal(press(page, KEY_ESC, 0).did, FORM_NOT_MINE);
}

static void keys_of_writing_work_on_whole_letters(void **state)
{
    struct page *page = *state;
    static const struct {
        int key;
        const char *text;
        size_t caret;
    } steps[] = {
        { KEY_LEFT, "150", 2 },         { KEY_CHAR + 0xfc, "15\303\2740", 4 },
        { KEY_LEFT, "15\303\2740", 2 }, { KEY_RIGHT, "15\303\2740", 4 },
        { KEY_BACKSPACE, "150", 2 },    { KEY_HOME, "150", 0 },
        { KEY_DELETE, "50", 0 },        { KEY_BACKSPACE, "50", 0 },
        { KEY_END, "50", 2 },           { KEY_RIGHT, "50", 2 },
        { KEY_DELETE, "50", 2 },
    };
    press(page, KEY_END, 0);
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++) {
        assert_int_equal(press(page, steps[i].key, 0).did, FORM_LOOKED);
        assert_string_equal(page->hand.text, steps[i].text);
        assert_int_equal(page->hand.caret, steps[i].caret);
    }
}

static void a_very_long_text_stops_growing(void **state)
{
    struct page *page = *state;
    for (int i = 0; i < 2 * FORM_MOST_TEXT; i++)
        press(page, KEY_CHAR + 0xe9, 0);
    assert_true(strlen(page->hand.text) < FORM_MOST_TEXT);
    assert_int_equal(strlen(page->hand.text) % 2, 0);
}

static void what_the_event_wrote_goes_before_the_key_s_name(void **state)
{
    struct page *page = *state;
    form_press(&page->form, &page->hand,
               (struct input_event){ .type = INPUT_KEY, .key = KEY_CHAR + 'f', .printed = 0x444 });
    assert_string_equal(page->hand.text, "\321\204");
}

static void an_offer_is_taken_by_its_key(void **state)
{
    struct page *page = *state;
    page->hand.focus = KIT_FAULT;
    struct form_answer answer = press(page, KEY_F4, 0);
    assert_int_equal(answer.did, FORM_WROTE);
    assert_string_equal(answer.text, "150");
}

static void the_only_offer_is_taken_from_any_field(void **state)
{
    struct page *page = *state;
    page->hand.focus = KIT_PLAIN;
    struct form_answer answer = press(page, KEY_F4, 0);
    assert_int_equal(answer.did, FORM_WROTE);
    assert_int_equal(answer.id, KIT_FAULT);
    assert_int_equal(page->hand.focus, KIT_FAULT);
    page->hand.focus = KIT_PLAIN;
    press(page, KEY_CHAR + '7', 0); /* what she writes is not lost */
    assert_int_equal(press(page, KEY_F4, 0).did, FORM_NOT_MINE);
}

static void tab_goes_round_and_passes_what_is_not_to_be_used(void **state)
{
    struct page *page = *state;
    page->hand.focus = KIT_TO_DO;
    press(page, KEY_TAB, 0);
    assert_int_equal(page->hand.focus, KIT_LIST);
    press(page, KEY_TAB, MOD_SHIFT);
    assert_int_equal(page->hand.focus, KIT_TO_DO);
    page->hand.focus = KIT_TAG;
    press(page, KEY_TAB, 0);
    assert_int_equal(page->hand.focus, KIT_PLAIN);
    press(page, KEY_UP, 0);
    assert_int_equal(page->hand.focus, KIT_TAG);
}

static void a_list_opens_and_closes_by_keys(void **state)
{
    struct page *page = *state;
    page->hand.focus = KIT_LIST;
    press(page, KEY_SPACE, 0);
    assert_true(page->hand.open);
    assert_int_equal(page->hand.at, 1);
    press(page, KEY_DOWN, 0);
    press(page, KEY_DOWN, 0);
    assert_int_equal(page->hand.at, 2);
    struct form_answer answer = press(page, KEY_ENTER, 0);
    assert_int_equal(answer.did, FORM_CHOSE);
    assert_int_equal(answer.choice, 2);
    assert_false(page->hand.open);
    press(page, KEY_ENTER, 0);
    assert_int_equal(press(page, KEY_ESC, 0).did, FORM_LOOKED);
    assert_false(page->hand.open);
    assert_int_equal(page->hand.focus, KIT_LIST);
}

static void ticks_steppers_tiles_and_tags_answer(void **state)
{
    struct page *page = *state;
    static const struct {
        int id, key;
        enum form_did did;
        int step, choice;
    } rows[] = {
        { KIT_TICKED, KEY_SPACE, FORM_TICKED, 0, 0 },
        { KIT_STEPPER, KEY_RIGHT, FORM_STEPPED, 1, 0 },
        { KIT_STEPPER, KEY_CHAR + '-', FORM_STEPPED, -1, 0 },
        { KIT_TILES, KEY_RIGHT, FORM_CHOSE, 0, 2 },
        { KIT_TILES, KEY_LEFT, FORM_CHOSE, 0, 0 },
        { KIT_ROWS, KEY_UP, FORM_CHOSE, 0, 1 },
        { KIT_TAG, KEY_ENTER, FORM_PRESSED, 0, 0 },
        { KIT_NEXT, KEY_SPACE, FORM_PRESSED, 0, 0 },
        { KIT_TICKED, KEY_F1, FORM_NOT_MINE, 0, 0 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        page->hand.focus = rows[i].id;
        struct form_answer answer = press(page, rows[i].key, 0);
        assert_int_equal(answer.did, rows[i].did);
        assert_int_equal(answer.step, rows[i].step);
        assert_int_equal(answer.choice, rows[i].choice);
    }
    page->hand.focus = KIT_TILES;
    size_t tiles = (size_t)(form_find(&page->form, KIT_TILES) - page->form.items);
    page->form.items[tiles].chosen = -1;
    assert_int_equal(press(page, KEY_ENTER, 0).did, FORM_CHOSE); /* the first, where none is chosen */
    page->hand.focus = KIT_ROWS;
    press(page, KEY_DOWN, 0); /* the last row is chosen: down leads on */
    assert_int_equal(page->hand.focus, KIT_TAG);
}

static void the_mouse_does_what_the_keys_do(void **state)
{
    struct page *page = *state;
    assert_int_equal(point(page, 400, 170).did, FORM_LOOKED);
    assert_int_equal(page->hand.focus, KIT_FOCUS);
    assert_int_equal(point(page, 800, 131).did, FORM_TICKED); /* on the words beside the box */
    assert_int_equal(page->hand.focus, KIT_NOT_YET);
    assert_int_equal(point(page, 745, 217).step, -1);
    assert_int_equal(point(page, 890, 217).step, 1);
    assert_int_equal(point(page, 820, 217).did, FORM_LOOKED);
    assert_int_equal(point(page, 750, 280).choice, 0);
    assert_int_equal(point(page, 450, 420).did, FORM_PRESSED);
    assert_int_equal(point(page, 400, 310).did, FORM_NOT_MINE); /* what is not to be used now */
    assert_int_equal(point(page, 400, 360).did, FORM_LOOKED);
    assert_true(page->hand.open);
    struct form_hang hang = form_hang_of(&page->form, &page->hand, form_find(&page->form, KIT_LIST));
    struct bench_box row = form_row_box(&hang, 2);
    struct form_answer answer = point(page, row.x + 5, row.y + 5);
    assert_int_equal(answer.did, FORM_CHOSE);
    assert_int_equal(answer.choice, 2);
}

/* 600 u less 10 above and below have room for 17 rows of 34 (hand-worked). */
static void a_list_longer_than_the_page_shows_where_she_is(void **state)
{
    struct page *page = *state;
    const char *words[40];
    for (int i = 0; i < 40; i++)
        words[i] = "word";
    struct form_item item = { .id = 500, .kind = FORM_LIST, .box = { 300, 400, 100, 34 }, .choices = words };
    item.choice_count = 3;
    struct form_hang hang = form_hang_of(&page->form, &page->hand, &item);
    assert_near(hang.box.y, 434, 1e-9);
    item.choice_count = 40;
    for (int at = 0; at < 40; at++) {
        page->hand.at = at;
        hang = form_hang_of(&page->form, &page->hand, &item);
        assert_int_equal(hang.count, 17);
        assert_true(hang.first <= (size_t)at && (size_t)at < hang.first + hang.count);
        assert_true(hang.first + hang.count <= 40);
        assert_true(hang.box.y >= 10 && hang.box.y + hang.box.height <= 590);
    }
}

static void a_text_longer_than_its_room_ends_in_dots(void **state)
{
    struct page *page = *state;
    struct form_picture p = form_picture_create(page->a, &type, 1024, 600, 1, false);
    const char *text = "Überhangstreifen für den Latz";
    assert_string_equal(form_cut_text(&p, FORM_SMALL, 1e6, text), text);
    const char *cut = form_cut_text(&p, FORM_SMALL, 80, text);
    assert_true(form_width(&type, FORM_SMALL, cut) <= 80);
    assert_true(strlen(cut) > strlen("…"));
    assert_string_equal(cut + strlen(cut) - strlen("…"), "…");
    assert_memory_equal(cut, text, strlen(cut) - strlen("…"));
}

static void edges_of_boxes_lie_on_whole_pixels_at_every_scale(void **state)
{
    struct page *page = *state;
    for (double scale = 1; scale <= 3; scale += 0.25) {
        struct form_picture p =
            form_picture_create(page->a, &type, (int)(1024 * scale), (int)(600 * scale), scale, false);
        form_fill_box(&p, (struct bench_box){ 10.3, 7.7, 33.1, 20.9 }, FORM_INK);
        form_frame_box(&p, (struct bench_box){ 10.3, 7.7, 33.1, 20.9 }, 1.5, FORM_INK);
        struct form_px_box fill = p.marks[1].box, top = p.marks[2].box, right = p.marks[5].box;
        assert_int_equal(p.count, 6);
        assert_int_equal(fill.left, (int)floor(10.3 * scale + 0.5));
        assert_int_equal(fill.bottom, (int)floor(28.6 * scale + 0.5));
        assert_true(top.left == fill.left && top.top == fill.top && top.right == fill.right);
        assert_true(right.right == fill.right && right.right - right.left == top.bottom - top.top);
        assert_true(top.bottom - top.top >= 1);
    }
}

static void a_page_has_a_thousand_units_and_its_scale_goes_by_quarters(void **state)
{
    (void)state;
    assert_true(form_scale(1024, 600, 0) == 1);
    assert_true(form_scale(1280, 800, 0) == 1.25);
    assert_true(form_scale(1919, 1080, 0) == 1.75);
    assert_true(form_scale(3840, 2160, 0) == 3.5);
    assert_true(form_scale(1920, 1080, 1) == 1.5);
    assert_true(form_scale(640, 480, 3) == 1);
}

static void a_text_without_room_is_found(void **state)
{
    struct page *page = *state;
    struct form_picture p = form_picture_create(page->a, &type, 1024, 600, 1, false);
    form_text(&p, (struct bench_pt){ 10, 20 }, FORM_LEFT, FORM_LABEL, FORM_INK, 40, "12345");
    assert_null(form_first_too_wide(&p));
    form_text(&p, (struct bench_pt){ 10, 40 }, FORM_LEFT, FORM_LABEL, FORM_INK, 40, "123456");
    assert_string_equal(form_first_too_wide(&p)->text, "123456");
}

static void a_paragraph_breaks_at_blanks(void **state)
{
    struct page *page = *state;
    struct form_picture p = form_picture_create(page->a, &type, 1024, 600, 1, false);
    size_t lines = form_paragraph(&p, (struct bench_pt){ 10, 20 }, FORM_LABEL, FORM_INK, 80, "one two three fourteen");
    assert_int_equal(lines, 3);
    assert_string_equal(p.marks[1].text, "one two");
    assert_string_equal(p.marks[2].text, "three");
    assert_string_equal(p.marks[3].text, "fourteen");
}

/* WCAG 2.1, 1.4.3 and 1.4.11; black on white is 21 : 1 there. */
static void every_pair_of_colours_is_told_apart_by_day_and_by_night(void **state)
{
    (void)state;
    size_t count;
    const struct form_pair *pairs = form_pairs(&count);
    assert_true(fabs(form_contrast(0, 0xffffff) - 21) < 1e-9);
    for (size_t i = 0; i < count; i++)
        for (int night = 0; night < 2; night++) {
            double contrast = form_contrast(form_rgb(pairs[i].front, night), form_rgb(pairs[i].back, night));
            if (contrast < pairs[i].least)
                fail_msg("colour %d on %d, night %d: %.2f, wanted %.1f", (int)pairs[i].front, (int)pairs[i].back, night,
                         contrast, pairs[i].least);
        }
}

static void every_part_is_drawn(void **state)
{
    struct page *page = *state;
    struct form_picture p = form_picture_create(page->a, &type, 1024, 600, 1, false);
    page->hand.focus = KIT_LIST;
    page->hand.open = true;
    form_draw(&p, &page->form, &page->hand);
    assert_true(p.count > 80);
    for (size_t i = 0; i < page->form.count; i++) {
        const char *label = page->form.items[i].label;
        bool found = !label;
        for (size_t m = 0; m < p.count; m++)
            found = found || (p.marks[m].text && strcmp(p.marks[m].text, label) == 0);
        assert_true(found);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
#define PAGE(name) cmocka_unit_test_setup_teardown(name, open_page, close_page)
        PAGE(the_first_that_can_be_used_has_the_focus),
        PAGE(what_is_typed_takes_the_old_text_s_place_and_is_told_on_leaving),
        PAGE(a_text_left_as_it_was_is_not_told),
        PAGE(escape_puts_the_old_text_back),
        PAGE(keys_of_writing_work_on_whole_letters),
        PAGE(a_very_long_text_stops_growing),
        PAGE(what_the_event_wrote_goes_before_the_key_s_name),
        PAGE(an_offer_is_taken_by_its_key),
        PAGE(the_only_offer_is_taken_from_any_field),
        PAGE(tab_goes_round_and_passes_what_is_not_to_be_used),
        PAGE(a_list_opens_and_closes_by_keys),
        PAGE(ticks_steppers_tiles_and_tags_answer),
        PAGE(the_mouse_does_what_the_keys_do),
        PAGE(a_list_longer_than_the_page_shows_where_she_is),
        PAGE(a_text_longer_than_its_room_ends_in_dots),
        PAGE(edges_of_boxes_lie_on_whole_pixels_at_every_scale),
        PAGE(a_page_has_a_thousand_units_and_its_scale_goes_by_quarters),
        PAGE(a_text_without_room_is_found),
        PAGE(a_paragraph_breaks_at_blanks),
        PAGE(every_pair_of_colours_is_told_apart_by_day_and_by_night),
        PAGE(every_part_is_drawn),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
