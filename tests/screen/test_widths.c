/* Widths that are kept. What each should be is reckoned here: the number put there for it. */
#include "screen/widths.h"
#include "support/cmocka_all.h"

#include <stdio.h>
#include <string.h>

static void each_text_and_style_has_its_own(void **state)
{
    (void)state;
    struct screen_widths *w = screen_widths_create();
    assert_true(*screen_widths_of(w, 0, "bib", 3) < 0);
    *screen_widths_of(w, 0, "bib", 3) = 30;
    assert_true(*screen_widths_of(w, 1, "bib", 3) < 0);
    *screen_widths_of(w, 1, "bib", 3) = 33;
    assert_true(*screen_widths_of(w, 0, "bib front", 2) < 0);
    assert_int_equal(*screen_widths_of(w, 0, "bib front", 3), 30);
    assert_int_equal(*screen_widths_of(w, 1, "bib", 3), 33);
    *screen_widths_of(w, 0, "", 0) = 0;
    assert_int_equal(*screen_widths_of(w, 0, "bib", 0), 0);
    screen_widths_forget(w);
    assert_true(*screen_widths_of(w, 0, "bib", 3) < 0);
    screen_widths_destroy(w);
}

/* More than are kept: some are forgotten, none is ever another's. */
static void none_is_mistaken_for_another(void **state)
{
    (void)state;
    enum { TEXTS = 10000, ROUNDS = 2 };
    struct screen_widths *w = screen_widths_create();
    int known = 0;
    for (int i = 0; i < TEXTS * ROUNDS; i++) {
        char text[16];
        int number = i / ROUNDS;
        int bytes = snprintf(text, sizeof text, "%d", number);
        int *px = screen_widths_of(w, (enum form_style)(number % 3), text, (size_t)bytes);
        assert_true(*px == number || *px < 0);
        known += *px == number;
        *px = number;
    }
    assert_int_equal(known, TEXTS); /* each was asked for again at once, and was there */
    screen_widths_destroy(w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_text_and_style_has_its_own),
        cmocka_unit_test(none_is_mistaken_for_another),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
