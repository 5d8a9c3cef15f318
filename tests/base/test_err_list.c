#include "base/err_list.h"
#include "support/cmocka_all.h"

#include <string.h>

static const struct err_kind fault = { "test.fault", ERR_FAULT, "{0} is wrong" };
static const struct err_kind warning = { "test.warning", ERR_WARNING, "{0} is odd" };

static void texts_outlive_their_givers(void **state)
{
    (void)state;
    struct err_list *errs = base_err_list_create();
    char name[] = "front";
    char file[] = "shirt.json";
    base_err(errs, &fault, ((struct err_place){ file, NULL, 4 }), ERR_TEXT(name), ERR_NUMBER(3));
    memset(name, 'x', sizeof name - 1);
    memset(file, 'x', sizeof file - 1);
    assert_string_equal(errs->items[0].args[0].text, "front");
    assert_string_equal(errs->items[0].place.file, "shirt.json");
    assert_int_equal(errs->items[0].place.line, 4);
    assert_int_equal(errs->items[0].args[2].type, ERR_ARG_NONE);
    base_err_list_destroy(errs);
}

static void warnings_do_not_count_as_faults(void **state)
{
    (void)state;
    struct err_list *errs = base_err_list_create();
    base_err(errs, &warning, base_err_in_file("a"), ERR_NONE);
    assert_int_equal(errs->count, 1);
    assert_int_equal(errs->faults, 0);
    base_err(errs, &fault, base_err_in_file("a"), ERR_NONE);
    assert_int_equal(errs->faults, 1);
    assert_true(base_err_list_has(errs, "test.fault"));
    assert_false(base_err_list_has(errs, "test.other"));
    base_err_list_destroy(errs);
}

static void past_the_hundredth_only_the_count_grows(void **state)
{
    (void)state;
    struct err_list *errs = base_err_list_create();
    for (int i = 0; i < 250; i++)
        base_err(errs, &fault, base_err_in_file("a"), ERR_NUMBER(i));
    assert_int_equal(errs->count, ERR_MOST);
    assert_int_equal(errs->dropped, 150);
    assert_int_equal(errs->faults, 250);
    assert_near(errs->items[99].args[0].number, 99, 0);
    base_err_list_destroy(errs);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(texts_outlive_their_givers),
        cmocka_unit_test(warnings_do_not_count_as_faults),
        cmocka_unit_test(past_the_hundredth_only_the_count_grows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
