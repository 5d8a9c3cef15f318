/* Whether every word on the bench's pages can be translated, and has room when it is a third longer, as German is
 * (common practice, no source): run by tests/support/wrapped.sh with a catalogue in which each text of the program
 * stands in « » with as many letters more. What is outside is a number, a key's name, or from a file. Then the same
 * pages in English and German: no word of the program is cut, none lies over another. And on each of them Tab comes to
 * all that can be answered and round again, and the mouse can press whatever it comes to. */
#include "base/text.h"
#include "base/words.h"
#include "bench/inside.h"
#include "calibration/readings.h"
#include "calibration/table.h"
#include "form/picture.h"
#include "input/key.h"
#include "screen/bench.h"
#include "support/cmocka_all.h"
#include "support/room.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

static const char *pattern_path, *body_path, *readings_path; /* the demo's, from the command line */

static void press(struct bench *b, const char *name)
{
    int key, mods;
    assert_true(input_key_from_name(name, &key, &mods));
    bench_handle(b, (struct input_event){ .type = INPUT_KEY, .key = key, .mods = mods });
}

static void press_times(struct bench *b, const char *name, int times)
{
    for (int i = 0; i < times; i++)
        press(b, name);
}

static void write_text(struct bench *b, const char *text)
{
    while (*text) {
        unsigned long point = base_text_next(&text);
        bench_handle(b, (struct input_event){ .type = INPUT_KEY, .key = input_key_printing(point), .printed = point });
    }
}

/* --- what may stand outside -------------------------------------------------------------------------------------- */

/* Units that are the same in every language, keys that are printed so, and languages by their own names. */
static const char *const known[] = { "mm", "cm", "m", "F1", "F2", "F3", "F4", "F5", "F6", "F12", "English", "Deutsch" };

static void blank(char *text, const char *word)
{
    size_t length = word ? strlen(word) : 0;
    for (char *at = length ? strstr(text, word) : NULL; at; at = strstr(at + length, word))
        memset(at, ' ', length);
}

/* Names of the pattern, and of the person; longer ones before those that are in them. */
static void blank_names(char *text, const struct job *job)
{
    if (!job)
        return;
    if (job->body)
        blank(text, job->body->name);
    blank(text, job->ticket.name);
    const struct pattern *p = job->pattern;
    if (!p)
        return;
    blank(text, p->name);
    for (size_t i = 0; i < p->piece_count; i++)
        blank(text, p->pieces[i].label);
    for (size_t i = 0; i < p->view_count; i++)
        blank(text, p->views[i].label);
    for (size_t i = 0; i < p->cup_group_count; i++)
        blank(text, p->cup_groups[i].name);
}

/* Whether the word is one letter (a key, a view, a size) or known. */
static bool may_stand(const char *word, size_t length)
{
    bool may = length == 1 && isupper((unsigned char)*word);
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
        may = may || (strlen(known[i]) == length && memcmp(known[i], word, length) == 0);
    return may;
}

static bool in_word(unsigned char c)
{
    return isalnum(c) || c >= 0x80;
}

/* Whether a letter stands outside; `*depth` goes on in the next line of a paragraph. « and » are C2 AB and C2 BB. */
static bool has_bare_word(const char *text, int *depth)
{
    bool bare = false;
    for (const char *at = text; *at;) {
        bool mark = (unsigned char)at[0] == 0xc2;
        if (mark && (unsigned char)at[1] == 0xab)
            *depth += 1;
        if (mark && (unsigned char)at[1] == 0xbb && *depth > 0)
            *depth -= 1;
        if (*depth == 0 && isalnum((unsigned char)*at)) {
            size_t length = 1;
            bool letter = isalpha((unsigned char)*at);
            while (in_word((unsigned char)at[length]) && (unsigned char)at[length] != 0xc2)
                letter = isalpha((unsigned char)at[length++]) || letter;
            bare = bare || (letter && !may_stand(at, length));
            at += length;
        } else {
            at += mark ? 2 : 1;
        }
    }
    if (strstr(text, "…"))
        *depth = 0; /* cut short */
    return bare;
}

/* --- the pages --------------------------------------------------------------------------------------------------- */

static int look_at_words(struct bench *b, const char *page)
{
    int found = 0, depth = 0;
    const struct form_picture *p = bench_picture(b);
    const struct form_mark *wide = form_first_too_wide(p);
    if (wide) {
        print_message("%s: no room for “%s”\n", page, wide->text);
        found++;
    }
    for (size_t i = 0; i < p->count; i++) {
        if (p->marks[i].shape != FORM_TEXT || !p->marks[i].text)
            continue;
        char *text = base_arena_copy_text(p->a, p->marks[i].text);
        blank_names(text, bench_job(b));
        bool name_cut = strstr(text, "…") && !strstr(text, "«"); /* the beginning of a name */
        if (name_cut || !has_bare_word(text, &depth))
            continue;
        print_message("%s: “%s”\n", page, p->marks[i].text);
        found++;
    }
    return found;
}

/* px that a text covers, about: capitals of Lato are 0.7255 em high, and it goes 0.2 em below its line. */
static struct form_px_box covered(const struct form_picture *p, const struct form_mark *m)
{
    double em = form_style(m->style)->size_u * p->scale, width = form_width(p->type, m->style, m->text) * p->scale;
    double left = m->align == FORM_LEFT ? m->at.x : m->align == FORM_RIGHT ? m->at.x - width : m->at.x - width / 2;
    return (struct form_px_box){ (int)left + 1, (int)(m->at.y - 0.7255 * em) + 1, (int)(left + width) - 1,
                                 (int)(m->at.y + 0.2 * em) - 1 };
}

static bool is_over(struct form_px_box one, struct form_px_box other)
{
    return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
}

/* What she wrote herself, as long as that is, may be cut. */
#define LONG_NAME "Wilhelmine"

static int look_at_room(struct bench *b, const char *page)
{
    int found = 0;
    const struct form_picture *p = bench_picture(b);
    struct form_px_box *boxes = base_arena_alloc(p->a, p->count, sizeof *boxes);
    const struct form_mark **texts = base_arena_alloc(p->a, p->count, sizeof(const struct form_mark *));
    size_t count = 0;
    for (size_t i = 0; i < p->count; i++) {
        const struct form_mark *m = &p->marks[i];
        if (m->shape != FORM_TEXT || !m->text)
            continue;
        boxes[count] = covered(p, m);
        texts[count] = m;
        if (strstr(m->text, "…") && !strstr(m->text, LONG_NAME)) {
            print_message("%s: “%s” is cut\n", page, m->text);
            found++;
        }
        for (size_t j = 0; j < count; j++)
            if (is_over(boxes[count], boxes[j])) {
                print_message("%s: “%s” lies over “%s”\n", page, m->text, texts[j]->text);
                found++;
            }
        count++;
    }
    return found;
}

/* Whether a press of the mouse in the middle of the item that Tab has come to, of its first tile where it has tiles, is
 * taken by it. The bench does not hear of it. */
static bool can_be_pressed(const struct bench *b, const struct form_item *item)
{
    struct bench_box box = item->kind == FORM_TILES ? form_tile_box(item, 0) : item->box;
    struct bench_pt at = { box.x + box.width / 2, box.y + box.height / 2 };
    double scale = b->made.p->scale;
    struct form_hand hand = { 0 };
    return !item->hidden && at.x > 0 && at.y > 0 && at.x * scale < b->width && at.y * scale < b->height &&
           form_point(&b->made.form, &hand, at).did != FORM_NOT_MINE && hand.focus == item->id;
}

static size_t can_be_answered(const struct bench *b)
{
    size_t count = 0;
    for (size_t i = 0; i < b->made.form.count; i++)
        count += b->made.form.items[i].state != FORM_NOT_NOW;
    return count;
}

/* Round by Tab: as many steps as there are items come back to the first, and to none twice. */
static int look_at_reach(struct bench *b, const char *page)
{
    enum { MOST_ITEMS = 400 };
    int found = 0, seen[MOST_ITEMS];
    bench_picture(b);
    size_t all = can_be_answered(b), count = 0;
    assert_true(all <= MOST_ITEMS);
    for (bool again = all == 0; !again && count < all; press(b, "Tab")) {
        bench_picture(b);
        const struct form_item *item = form_find(&b->made.form, b->hand.focus);
        for (size_t i = 0; i < count; i++)
            again = again || seen[i] == b->hand.focus;
        seen[count++] = b->hand.focus;
        if (item && can_be_pressed(b, item) && !again)
            continue;
        print_message("%s: item %d %s\n", page, b->hand.focus, again ? "comes twice" : "cannot be pressed");
        found++;
    }
    if (all > 0 && b->hand.focus != seen[0]) {
        print_message("%s: Tab does not come round\n", page);
        found++;
    }
    return found;
}

static int (*look_at)(struct bench *b, const char *page); /* how a page is looked at */

/* All lines of the ticket in both units, and the pages of help and settings. */
static int look_at_all(struct bench *b, const char *when)
{
    int found = 0;
    press_times(b, "Ctrl Page Up", 8);
    for (int page = 0; page < 8; page++, press(b, "Ctrl Page Down")) {
        found += look_at(b, when);
        press(b, "F2");
        found += look_at(b, when);
        press(b, "F2");
    }
    press(b, "F1");
    found += look_at(b, "help");
    press(b, "F5");
    found += look_at(b, "settings");
    press(b, "F5");
    press_times(b, "Ctrl Page Up", 8);
    return found;
}

/* What cannot be read, what can hardly be, and what is done and undone. */
static int look_at_slips(struct bench *b)
{
    static const char *const typed[] = { "?", "9", "940", "" };
    int found = 0;
    for (size_t i = 0; i < sizeof typed / sizeof typed[0]; i++) {
        press(b, "Tab");
        write_text(b, typed[i]);
        press(b, "Tab");
        found += look_at(b, "a slip");
        press(b, "Shift Tab");
        press(b, "Shift Tab");
    }
    for (int i = 0; i < 4; i++) {
        press(b, "Ctrl Z");
        found += look_at(b, "undone");
    }
    return found;
}

/* A view is chosen on the pattern's page, whose size and cup group the measurements tell, and a cloth. */
static void choose(struct bench *b)
{
    press(b, "Ctrl Page Down");
    press(b, "Right");
    press(b, "Ctrl Page Down");
    press_times(b, "Tab", 3);
    write_text(b, "150");
    press(b, "Tab");
}

/* Every measurement in hand: where it is taken stands below the figure. */
static int look_at_measurements(struct bench *b)
{
    int found = 0;
    press_times(b, "Ctrl Page Up", 8);
    for (int i = 0; i < 8; i++, press(b, "Tab"))
        found += look_at(b, "a measurement in hand");
    return found;
}

/* Everything that can be written about a cloth is wrong, each field in hand once. */
static int look_at_slips_of_cloth(struct bench *b)
{
    int found = 0;
    press_times(b, "Ctrl Page Up", 8);
    press_times(b, "Ctrl Page Down", 2);
    press_times(b, "Tab", 3);
    for (int i = 0; i < 6; i++, press(b, "Tab"))
        write_text(b, i < 3 ? "?" : i < 5 ? "1.200.5" : "1.200");
    for (int i = 0; i < 6; i++) {
        press(b, "Shift Tab");
        found += look_at(b, "a slip of cloth");
    }
    press_times(b, "Ctrl Z", 6);
    return found;
}

/* Pieces laid out, and one of them in hand. */
static int look_at_layout(struct bench *b)
{
    enum { ROUNDS = 3 };
    press_times(b, "Ctrl Page Up", 8);
    press_times(b, "Ctrl Page Down", 3);
    for (int i = 0; i < ROUNDS && bench_is_working(b); i++)
        bench_work(b, i);
    int found = 0;
    for (int unit = 0; unit < 2; unit++, press(b, "F2")) {
        found += look_at(b, "laid out");
        press(b, "Page Down");
        found += look_at(b, "a piece in hand");
    }
    return found;
}

/* A table set-up with all that its page tells. */
static int look_at_table(struct bench *b, struct arena *a, struct err_list *errs)
{
    struct calibration_readings readings;
    struct calibration_solution solution;
    struct job with = *bench_job(b);
    assert_true(calibration_readings_read(a, readings_path, &readings, errs));
    assert_true(calibration_solve(a, readings_path, &readings, CALIBRATION_LENS_WEAK, &solution, errs));
    with.table = calibration_table_of(a, &readings, &solution, "2026-11-28");
    with.table.checked[0] = (struct calibration_checked){ .drawn_mm = 800, .taped_mm = 800.5, .may_be_off_mm = 1 };
    with.table.checked_count = 1;
    const char *text = calibration_table_print(a, &with.table);
    with.table_source = (struct job_source){ "table.json", { text, strlen(text) } };
    with.has_table = true;
    bench_set_at_table(b, BENCH_TO_SET_UP);
    bench_come_back(b, &with, NULL);
    return look_at_all(b, "a table set-up");
}

static int look_at_alterations(struct bench *b)
{
    press_times(b, "Ctrl Page Up", 8);
    press(b, "Ctrl Page Down");
    press_times(b, "Shift Tab", 2);
    press(b, "Enter");
    int found = look_at(b, "alterations");
    press(b, "Tab");
    write_text(b, "3 ?");
    press(b, "Tab");
    found += look_at(b, "alterations, no length");
    press(b, "Tab");
    write_text(b, "lengthen nothing by 3 cm");
    press(b, "Enter");
    return found + look_at(b, "alterations");
}

/* All pages, from the first start on; how many findings. */
static int walk(int (*look)(struct bench *b, const char *page))
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct screen_letters *letters = screen_letters_open(errs);
    struct bench_start start = {
        .manner = { .unit = UNITS_CM }, .example_pattern = pattern_path, .example_body = body_path, .cautions = true
    };
    assert_non_null(letters);
    struct bench *b = bench_create(&start);
    look_at = look;
    bench_fit(b, 1024, 600, screen_letters_at(letters, bench_scale(b, 1024, 600)));
    int found = look_at(b, "cautions");
    press(b, "Space");
    found += look_at(b, "begin");
    press(b, "F12"); /* told on the slip that there is nothing to show */
    found += look_at(b, "begin, told");
    press(b, "Enter");
    found += look_at_all(b, "a blank ticket");
    press(b, "Ctrl N");
    found += look_at(b, "begin anew");
    press_times(b, "Tab", 2);
    press(b, "Enter");
    found += look_at_all(b, "the example");
    choose(b);
    assert_true(job_is_finished(bench_job(b)));
    found += look_at_all(b, "a view");
    found += look_at_alterations(b);
    press(b, "Esc");
    press_times(b, "Ctrl Page Up", 8);
    if (look == look_at_room) {
        write_text(b, LONG_NAME " Hohenstein-Wolkenburg aus dem Nähzimmer");
        press(b, "Tab");
        found += look_at_all(b, "a long name");
    }
    found += look_at_slips(b);
    found += look_at_measurements(b);
    found += look_at_slips_of_cloth(b);
    found += look_at_layout(b);
    found += look_at_table(b, a, errs);
    bench_destroy(b);
    base_arena_destroy(a);
    screen_letters_close(letters);
    base_err_list_destroy(errs);
    return found;
}

static void every_word_of_the_pages_is_marked(void **state)
{
    (void)state;
    assert_true(base_words_speak("de", getenv("CHALK_WRAPPED")));
    assert_int_equal(walk(look_at_words), 0);
}

static void no_word_is_cut_or_lies_over_another_in_english(void **state)
{
    (void)state;
    base_words_speak("en", CHALK_WORDS);
    assert_int_equal(walk(look_at_room), 0);
}

static void no_word_is_cut_or_lies_over_another_in_german(void **state)
{
    (void)state;
    assert_true(base_words_speak("de", CHALK_WORDS));
    assert_int_equal(walk(look_at_room), 0);
}

static void all_can_be_reached_by_tab_and_pressed(void **state)
{
    (void)state;
    base_words_speak("en", CHALK_WORDS);
    assert_int_equal(walk(look_at_reach), 0);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = { cmocka_unit_test(every_word_of_the_pages_is_marked),
                                        cmocka_unit_test(no_word_is_cut_or_lies_over_another_in_english),
                                        cmocka_unit_test(no_word_is_cut_or_lies_over_another_in_german),
                                        cmocka_unit_test(all_can_be_reached_by_tab_and_pressed) };
    if (argc != 4 || !getenv("CHALK_WRAPPED"))
        return 1;
    pattern_path = argv[1];
    body_path = argv[2];
    readings_path = argv[3];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
