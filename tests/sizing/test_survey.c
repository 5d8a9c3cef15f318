/* Every woman of ANSUR II (2012 US Army anthropometric survey; its memorandum of 14 April 2017 clears the data for
 * unlimited public release) through the sizing on the classes of EN 13402-3, against her classes from the classes'
 * edges alone. Her chest girth at its fullest is the standard's bust girth and her buttock girth its hip girth. The
 * survey has no upper bust, and its waist is measured at the navel, not at the natural waistline, where it is smaller:
 * sizes are told by bust and hip; the waist counts only where a published tally has it. The path of the survey's table
 * of women (comma-separated with a heading, in Latin-1; the columns read here are plain numbers) is the only argument.
 */
#include "base/file.h"
#include "pattern/read.h"
#include "sizing/choose.h"
#include "sizing/en_13402.h"
#include "support/room.h"

#include <stdlib.h>

enum { SURVEY_BYTES = 4 * 1024 * 1024, WOMEN = 1986, OUTSIDE = -1 };

static const char *const columns[EN_ROWS] = { "chestcircumference", "waistcircumference", "buttockcircumference" };

struct woman {
    int mm[EN_ROWS];
    int class[EN_ROWS]; /* EN_CLASSES or OUTSIDE beyond the last and before the first */
};

struct survey {
    struct woman women[WOMEN + 1];
    int count;
};

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

/* From the edges alone: class i is [edge i, edge i + 1). */
static int class_of(int row, int mm)
{
    int class = OUTSIDE;
    while (class < EN_CLASSES && mm >= en_rows[row].edge_cm[class + 1] * 10)
        class ++;
    return class;
}

static bool is_inside(int class)
{
    return class >= 0 && class < EN_CLASSES;
}

static const struct survey *read_survey(struct room *room)
{
    struct base_bytes table;
    struct survey *survey = base_arena_alloc(room->a, 1, sizeof *survey);
    assert_true(base_file_read(room->a, survey_path, SURVEY_BYTES, &table, room->errs));
    for (const char *row = next_row(table.data); row && survey->count <= WOMEN; row = next_row(row)) {
        struct woman *w = &survey->women[survey->count++];
        for (int i = 0; i < EN_ROWS; i++) {
            w->mm[i] = atoi(field(row, column_of(table.data, columns[i])));
            w->class[i] = class_of(i, w->mm[i]);
        }
    }
    assert_int_equal(survey->count, WOMEN);
    return survey;
}

/* That the right columns were read: the memorandum gives the number of women; the means were reckoned from the same
 * file by other means (Python). */
static void the_survey_is_read_as_it_is(void **state)
{
    struct room *room = *state;
    const struct survey *survey = read_survey(room);
    static const double means[EN_ROWS] = { 946.858, 860.905, 1021.248 };
    for (int row = 0; row < EN_ROWS; row++) {
        double sum = 0;
        for (int i = 0; i < survey->count; i++)
            sum += survey->women[i].mm[row];
        assert_near(sum / survey->count, means[row], 0.0005);
    }
}

static const struct pattern *standard(struct room *room)
{
    const char *json = room_json(room, EN_PATTERN);
    const struct pattern *p = pattern_parse(room->a, "classes", json, strlen(json), room->errs);
    assert_non_null(p);
    return p;
}

static struct sizing_choice choose(struct room *room, const struct pattern *p, const struct woman *w, bool with_waist)
{
    const char *waist = with_waist ? base_arena_print(room->a, ", 'waist': %d", w->mm[EN_WAIST]) : "";
    const char *json =
        room_json(room, base_arena_print(room->a,
                                         "{ 'chalklight': 'body', 'version': 1, 'name': 'One', 'unit': 'mm',"
                                         "  'measurements': { 'bust': %d, 'hip': %d%s } }",
                                         w->mm[EN_BUST], w->mm[EN_HIP], waist));
    const struct sizing_body *body = sizing_body_parse(room->a, "one", json, strlen(json), room->errs);
    struct sizing_choice c;
    assert_true(sizing_choose(room->a, p, body, &c, room->errs));
    return c;
}

static int times_told(const struct room *room, const char *code)
{
    int times = 0;
    for (int i = 0; i < room->errs->count; i++)
        times += strcmp(room->errs->items[i].kind->code, code) == 0;
    return times;
}

/* The end size beyond the classes. */
static int size_of(int class)
{
    return class < 0 ? 0 : class == EN_CLASSES ? EN_CLASSES - 1 : class;
}

static bool gets_a_size(const struct room *room, const struct pattern *p, const struct sizing_choice *c)
{
    return !c->below && !c->above && !sizing_is_questioned(p, c) && room->errs->faults == 0;
}

/* At least 95 in 100 whose bust lies inside the chart get a size by it; who gets none, or lies outside with the hip,
 * is told why. */
static void every_woman_is_put_into_her_classes_or_told_why_not(void **state)
{
    struct room *room = *state;
    const struct pattern *p = standard(room);
    const struct survey *survey = read_survey(room);
    int inside = 0, sized = 0, hip_outside = 0, got[EN_CLASSES] = { 0 }, tally[EN_CLASSES] = { 0 };
    for (int i = 0; i < survey->count; i++) {
        const struct woman *w = &survey->women[i];
        struct sizing_choice c = choose(room, p, w, false);
        bool bust_inside = is_inside(w->class[EN_BUST]), has_size = gets_a_size(room, p, &c);
        int outside = !bust_inside + !is_inside(w->class[EN_HIP]);
        if ((int)c.size != size_of(w->class[EN_BUST]) || (int)c.reasons[1].nearest != size_of(w->class[EN_HIP]))
            fail_msg("bust %d, hip %d mm: sizes %zu and %zu", w->mm[EN_BUST], w->mm[EN_HIP], c.size,
                     c.reasons[1].nearest);
        assert_int_equal(times_told(room, "sizing.outside"), outside);
        assert_int_equal(room->errs->count, outside);
        assert_true(has_size || room->errs->count > 0);
        inside += bust_inside;
        sized += bust_inside && has_size;
        hip_outside += bust_inside && !is_inside(w->class[EN_HIP]);
        got[c.size] += has_size;
        if (bust_inside)
            tally[w->class[EN_BUST]]++;
        room_forget(room);
    }
    print_message("%d women: bust inside the chart %d, of these with a size %d, with the hip outside %d\n",
                  survey->count, inside, sized, hip_outside);
    for (int class = 0; class < EN_CLASSES; class ++)
        print_message("size %2d: %3d, by class edges %3d\n", class + 1, got[class], tally[class]);
    assert_true(100 * sized >= 95 * inside);
    assert_memory_equal(got, tally, sizeof got);
}

/* The place in tenths of a size by whole numbers alone: the class whose centre is at or below the bust, and the tenths
 * of the step to the next, halves up. -1 farther than a quarter of the step from the middle, and off the centres. */
static int tenths_between(int mm)
{
    int i = 0;
    const double *centre_cm = en_rows[EN_BUST].centre_cm;
    while (i + 1 < EN_CLASSES && mm >= (int)centre_cm[i + 1] * 10)
        i++;
    int from = mm - (int)centre_cm[i] * 10;
    int step = i + 1 < EN_CLASSES ? (int)(centre_cm[i + 1] - centre_cm[i]) * 10 : 0;
    if (from < 0 || !step || 4 * from < step || 4 * from > 3 * step)
        return -1;
    return 10 * i + (20 * from + step) / (2 * step);
}

static void close_to_the_middle_the_size_in_between_is_where_she_is(void **state)
{
    struct room *room = *state;
    const struct pattern *p = standard(room);
    const struct survey *survey = read_survey(room);
    int between = 0;
    for (int i = 0; i < survey->count; i++) {
        const struct woman *w = &survey->women[i];
        struct sizing_choice c = choose(room, p, w, false);
        int want = tenths_between(w->mm[EN_BUST]);
        if ((c.between ? (int)(10 * c.between->position + 0.5) : -1) != want)
            fail_msg("bust %d mm: in between at %g, want %d tenths", w->mm[EN_BUST],
                     c.between ? c.between->position : -1, want);
        between += want >= 0;
        room_forget(room);
    }
    print_message("%d women stand between two sizes\n", between);
}

/* How far apart the classes of bust, waist and hip are, of those inside all three: Python's tally on the same file by
 * the edges (0 to 3 apart, 4 and more). The survey's waist is the navel's: at the natural waist more would agree. */
static void three_girths_are_as_far_apart_as_by_the_class_edges(void **state)
{
    struct room *room = *state;
    static const int want[] = { 57, 410, 698, 557, 249 };
    enum { APART = sizeof want / sizeof want[0] };
    const struct pattern *p = standard(room);
    const struct survey *survey = read_survey(room);
    int got[APART] = { 0 }, inside = 0;
    for (int i = 0; i < survey->count; i++) {
        struct sizing_choice c = choose(room, p, &survey->women[i], true);
        size_t low = EN_CLASSES, high = 0;
        bool outside = false;
        assert_int_equal(c.reason_count, EN_ROWS);
        for (size_t r = 0; r < c.reason_count; r++) {
            low = c.reasons[r].nearest < low ? c.reasons[r].nearest : low;
            high = c.reasons[r].nearest > high ? c.reasons[r].nearest : high;
            outside = outside || c.reasons[r].below || c.reasons[r].above;
        }
        inside += !outside;
        if (!outside)
            got[high - low < APART - 1 ? high - low : APART - 1]++;
        room_forget(room);
    }
    for (int apart = 0; apart < APART; apart++)
        print_message("%d rows apart%s: %d\n", apart, apart == APART - 1 ? " or more" : "", got[apart]);
    assert_int_equal(inside, 1971);
    assert_memory_equal(got, want, sizeof got);
}

int main(int argc, char **argv)
{
    if (argc != 2)
        return 2;
    survey_path = argv[1];
    const struct CMUnitTest tests[] = {
        room_test(the_survey_is_read_as_it_is),
        room_test(every_woman_is_put_into_her_classes_or_told_why_not),
        room_test(close_to_the_middle_the_size_in_between_is_where_she_is),
        room_test(three_girths_are_as_far_apart_as_by_the_class_edges),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
