#include "app/sentence.h"
#include "support/room.h"

static const struct err_kind kind = { "test.kind", ERR_FAULT, "“{0}” is {1}, not {2}; {3} and {9} stay" };

static const char *sentence(struct arena *a, struct err_place place, enum units_length unit)
{
    struct err_list *errs = base_err_list_create();
    base_err(errs, &kind, place, ERR_TEXT("hip"), ERR_MM(25.4), ERR_NUMBER(3));
    const char *text = app_sentence(a, &errs->items[0], unit);
    base_err_list_destroy(errs);
    return text;
}

static void arguments_stand_where_the_sentence_names_them(void **state)
{
    struct arena *a = *state;
    assert_string_equal(sentence(a, base_err_in_file(NULL), UNITS_CM), "“hip” is 2.54 cm, not 3;  and {9} stay");
    assert_string_equal(sentence(a, base_err_in_file(NULL), UNITS_IN), "“hip” is 1 in, not 3;  and {9} stay");
}

static void what_something_is_off_by_stays_in_mm(void **state)
{
    struct arena *a = *state;
    static const struct err_kind off = { "test.off", ERR_FAULT, "off by {0}" };
    struct err_list *errs = base_err_list_create();
    base_err(errs, &off, base_err_in_file(NULL), ERR_OFF_MM(1.1));
    for (enum units_length unit = UNITS_MM; unit <= UNITS_IN; unit++)
        assert_string_equal(app_sentence(a, &errs->items[0], unit), "off by 1.1 mm");
    base_err_list_destroy(errs);
}

/* 1356.1 mm are 53.39 in, and 53 3/8 are 53.375. */
static void what_a_tape_measures_has_no_decimals_of_an_inch(void **state)
{
    struct arena *a = *state;
    static const struct err_kind long_by = { "test.long", ERR_FAULT, "{0} long" };
    struct err_list *errs = base_err_list_create();
    base_err(errs, &long_by, base_err_in_file(NULL), ERR_TAPE_MM(1356.1));
    assert_string_equal(app_sentence(a, &errs->items[0], UNITS_IN), "53 3/8 in long");
    assert_string_equal(app_sentence(a, &errs->items[0], UNITS_CM), "135.61 cm long");
    base_err_list_destroy(errs);
}

static void the_place_stands_before(void **state)
{
    struct arena *a = *state;
    struct err_place place = { "shirt.json", "pieces[2]", 41 };
    assert_string_equal(sentence(a, place, UNITS_MM),
                        "shirt.json:41: pieces[2]: “hip” is 25.4 mm, not 3;  and {9} stay");
    assert_string_equal(sentence(a, base_err_in_file("shirt.json"), UNITS_MM),
                        "shirt.json: “hip” is 25.4 mm, not 3;  and {9} stay");
}

static void a_window_is_told_the_file_without_its_folders(void **state)
{
    struct arena *a = *state;
    static const struct err_kind plain = { "test.plain", ERR_FAULT, "is not closed" };
    static const struct err_place places[] = { { "/home/her/shirt.json", NULL, 7 }, { "shirt.json", NULL, 7 } };
    for (size_t i = 0; i < 2; i++) {
        struct err_list *errs = base_err_list_create();
        base_err(errs, &plain, places[i], ERR_NONE);
        assert_string_equal(app_sentence_short(a, &errs->items[0], UNITS_MM), "shirt.json:7: is not closed");
        base_err_list_destroy(errs);
    }
}

static void alone_in_a_window_it_begins_with_a_capital(void **state)
{
    struct arena *a = *state;
    static const struct err_kind kinds[] = { { "test.plain", ERR_FAULT, "pieces no longer fit" },
                                             { "test.named", ERR_FAULT, "“bib” does not fit" } };
    static const char *const wanted[] = { "Pieces no longer fit", "“bib” does not fit" };
    for (size_t i = 0; i < 2; i++) {
        struct err_list *errs = base_err_list_create();
        base_err(errs, &kinds[i], (struct err_place){ 0 }, ERR_NONE);
        assert_string_equal(app_sentence_short(a, &errs->items[0], UNITS_MM), wanted[i]);
        base_err_list_destroy(errs);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(arguments_stand_where_the_sentence_names_them),
        room_arena_test(what_something_is_off_by_stays_in_mm),
        room_arena_test(what_a_tape_measures_has_no_decimals_of_an_inch),
        room_arena_test(the_place_stands_before),
        room_arena_test(a_window_is_told_the_file_without_its_folders),
        room_arena_test(alone_in_a_window_it_begins_with_a_capital),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
