/* Every woman of ANSUR II (2012 US Army anthropometric survey, public release of 2017) through the sizing on the
 * classes of EN 13402-3, against her class from the classes' edges. Her chest girth at its fullest is the standard's
 * bust girth. The path of the survey's table, comma-separated with a heading, is the only argument. */
#include "base/file.h"
#include "pattern/read.h"
#include "sizing/choose.h"
#include "sizing/en_13402.h"
#include "support/room.h"

#include <stdlib.h>

enum { SURVEY_BYTES = 4 * 1024 * 1024, WOMEN = 1986 };

static const char *survey_path;

/* The number of a row in a column; fields hold no quotes up to the columns used here. */
static const char *field(const char *row, int column)
{
    for (; column > 0; column--)
        row = strchr(row, ',') + 1;
    return row;
}

static int column_of(const char *heading, const char *name)
{
    size_t length = strlen(name);
    int column = 0;
    for (const char *at = heading; at; at = strchr(at, ','), at += at != NULL, column++)
        if (strncmp(at, name, length) == 0 && at[length] == ',')
            return column;
    fail_msg("the survey has no column %s", name);
    return 0;
}

static const char *next_row(const char *row)
{
    const char *end = strchr(row, '\n');
    return end && end[1] ? end + 1 : NULL;
}

/* From the edges alone: class i is [edge i, edge i + 1); -1 below the first, EN_BUST_CLASSES above the last. */
static int class_of(int mm)
{
    int class = -1;
    while (class < EN_BUST_CLASSES && mm >= (int)en_bust_edge_cm[class + 1] * 10)
        class ++;
    return class;
}

static void check_one(struct room *room, const struct pattern *p, int chest_mm)
{
    const char *json =
        room_json(room, base_arena_print(room->a,
                                         "{ 'chalklight': 'body', 'version': 1, 'name': 'One', 'unit': 'mm',"
                                         "  'measurements': { 'bust': %d } }",
                                         chest_mm));
    const struct sizing_body *body = sizing_body_parse(room->a, "one", json, strlen(json), room->errs);
    struct sizing_choice c;
    assert_true(sizing_choose(room->a, p, body, &c, room->errs));
    int class = class_of(chest_mm);
    int size = class < 0 ? 0 : class == EN_BUST_CLASSES ? EN_BUST_CLASSES - 1 : class;
    if ((int)c.size != size || c.below != (class < 0) || c.above != (class == EN_BUST_CLASSES))
        fail_msg("bust %d mm: size %zu%s, but class %d", chest_mm, c.size, c.below || c.above ? " outside" : "", class);
    assert_int_equal(base_err_list_has(room->errs, "sizing.outside"), c.below || c.above);
    assert_false(base_err_list_has(room->errs, "sizing.question"));
}

static void every_woman_is_put_into_her_class(void **state)
{
    struct room *room = *state;
    struct base_bytes survey;
    const char *json = room_json(room, EN_BUST_PATTERN);
    const struct pattern *p = pattern_parse(room->a, "classes", json, strlen(json), room->errs);
    assert_non_null(p);
    assert_true(base_file_read(room->a, survey_path, SURVEY_BYTES, &survey, room->errs));
    int column = column_of(survey.data, "chestcircumference"), women = 0, per_class[EN_BUST_CLASSES + 2] = { 0 };
    double sum = 0;
    for (const char *row = next_row(survey.data); row; row = next_row(row)) {
        int chest_mm = atoi(field(row, column));
        check_one(room, p, chest_mm);
        per_class[class_of(chest_mm) + 1]++;
        sum += chest_mm;
        women++;
        room_forget(room);
    }
    for (int class = -1; class <= EN_BUST_CLASSES; class ++)
        print_message("class %d: %d\n", class + 1, per_class[class + 1]);
    /* That the right column was read: the memorandum with the data gives the number of women; the mean was reckoned
     * from the same file by other means. */
    assert_int_equal(women, WOMEN);
    assert_near(sum / women, 946.858, 0.0005);
}

int main(int argc, char **argv)
{
    if (argc != 2)
        return 2;
    survey_path = argv[1];
    const struct CMUnitTest tests[] = { room_test(every_woman_is_put_into_her_class) };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
