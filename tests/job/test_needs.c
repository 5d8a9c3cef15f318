/* What a job asks for and what it lacks; hand-worked from the patterns that are written here. */
#include "job/change.h"
#include "job/cloth.h"
#include "job/needs.h"
#include "lay/lay.h"
#include "support/room.h"

#define PATTERN(more)                                                                                                  \
    "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line', 'name': 'P', 'unit': 'cm',"                 \
    "  'sizes': ['S', 'M'], 'chart': { 'upper bust': [80, 84], 'waist': [64, 68], 'hip': [90, 94] },"                  \
    "  'main_measurement': 'upper bust', 'measurements': ['wrist', 'knee'], " more                                     \
    "  'pieces': [ { 'name': 'f', 'label': 'Front', 'rectangle': { 'width': 'waist / 2', 'height': 30 } },"            \
    "    { 'name': 'cuff', 'label': 'Cuff', 'rectangle': { 'width': 'wrist', 'height': 6 } },"                         \
    "    { 'name': 'lining', 'points': { 'a': [0, 0], 'b': [30, 0], 'c': [0, 30] },"                                   \
    "      'outline': [ { 'name': 'e', 'path': ['a', 'b', 'c', 'a'] } ] } ],"                                          \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'f', 'count': 2 } ] },"                                           \
    "    { 'name': 'B', 'cut': [ { 'piece': 'f', 'count': 2 }, { 'piece': 'cuff', 'count': 2 },"                       \
    "      { 'piece': 'lining', 'count': 1, 'cloth': 'lining' } ] },"                                                  \
    "    { 'name': 'C', 'cut': [ { 'piece': 'f', 'count': 2 },"                                                        \
    "      { 'piece': 'f', 'count': 2, 'cloth': 'interfacing' } ] } ] }"
#define CUPS "'cup_groups': [ { 'name': 'A', 'bust': [84, 88] }, { 'name': 'C', 'bust': [89, 93] } ], "

static const struct job *with_pattern(struct room *room, const char *pattern, int view)
{
    const char *path = room_put(room, "p.json", room_json(room, pattern));
    const struct job *job = job_with_pattern(room->a, job_begin(room->a), path, room->errs);
    job = job_with_view(room->a, job, view, room->errs);
    room_nothing_told(room);
    return job;
}

/* "upper bust:size!, waist:compared": what each is for, with a mark where it is still to be taken. */
static const char *needs(struct room *room, const struct job *job)
{
    static const char *const uses[] = { "size", "cup", "drafts", "compared", "usual", "unused" };
    const struct job_measure *m;
    size_t count = job_needed_measurements(room->a, job, &m);
    const char *list = "";
    for (size_t i = 0; i < count; i++) {
        assert_int_equal(m[i].piece != NULL, m[i].use == JOB_DRAFTS);
        list =
            base_arena_print(room->a, "%s%s%s:%s%s%s", list, i ? ", " : "", m[i].name, uses[m[i].use],
                             m[i].piece ? base_arena_print(room->a, " %s", m[i].piece) : "", m[i].is_wanted ? "!" : "");
    }
    return list;
}

static const struct job *measured(struct room *room, const struct job *job, const char *name, double mm)
{
    return job_with_measurement(room->a, job, name, mm, room->errs);
}

static void without_a_pattern_the_usual_ones_are_offered(void **state)
{
    struct room *room = *state;
    const struct job *job = measured(room, job_begin(room->a), "knee", 400);
    assert_string_equal(needs(room, job), "height:usual, upper bust:usual, bust:usual, waist:usual, hip:usual, "
                                          "back waist length:usual, knee:usual");
}

static void a_pattern_asks_for_what_it_goes_by(void **state)
{
    struct room *room = *state;
    const struct job *job = with_pattern(room, PATTERN(""), 0);
    assert_string_equal(needs(room, job), "upper bust:size!, waist:compared, hip:compared");
    job = job_with_view(room->a, job, 1, room->errs);
    assert_string_equal(needs(room, job), "upper bust:size!, waist:compared, hip:compared, wrist:drafts Cuff!");
    job = job_with_made_to(room->a, job, true, room->errs);
    assert_string_equal(needs(room, job), "upper bust:size!, waist:drafts Front!, hip:compared, wrist:drafts Cuff!");
    job = measured(room, job, "wrist", 160);
    job = measured(room, job, "height", 1680);
    job = job_with_size(room->a, job, 1, room->errs);
    assert_string_equal(needs(room, job),
                        "upper bust:size, waist:drafts Front!, hip:compared, wrist:drafts Cuff, height:unused");
    job = with_pattern(room, PATTERN(CUPS), 0);
    assert_string_equal(needs(room, job), "upper bust:size!, waist:compared, hip:compared, bust:cup!");
    job = job_with_cup_group(room->a, job, 1, room->errs);
    assert_string_equal(needs(room, job), "upper bust:size!, waist:compared, hip:compared, bust:cup");
}

/* A bust of 37 cm is an inch's number; 82 and 66 are within the chart; 98 less 80 the other way round is more than 5 cm
 * (sizing/plausible.c). */
static void a_number_that_can_hardly_be_is_asked_about(void **state)
{
    struct room *room = *state;
    const struct job_measure *m;
    const struct job *job = measured(room, with_pattern(room, PATTERN(CUPS), 0), "bust", 370);
    job = measured(room, measured(room, job, "upper bust", 820), "waist", 660);
    size_t count = job_needed_measurements(room->a, job, &m);
    assert_int_equal(count, 4);
    assert_string_equal(m[3].name, "bust");
    assert_string_equal(m[3].question.unit, "inches");
    assert_near(m[3].question.meant_mm, 939.8, 1e-9);
    assert_null(m[0].question.range);
    assert_null(m[1].question.range);
    assert_false(m[0].at_odds);
    job = measured(room, measured(room, job, "bust", 800), "upper bust", 980);
    count = job_needed_measurements(room->a, job, &m);
    assert_int_equal(count, 4);
    assert_true(m[0].at_odds && m[3].at_odds);
}

static const struct job_lacking *find(const struct job_lacking *items, size_t count, enum job_lack kind)
{
    for (size_t i = 0; i < count; i++)
        if (items[i].kind == kind)
            return &items[i];
    return NULL;
}

/* The kinds as a row of small numbers: they are told stage by stage. */
static void assert_lacks(struct room *room, const struct job *job, const enum job_lack *kinds, size_t expected)
{
    const struct job_lacking *items;
    size_t count = job_lacks(room->a, job, &items);
    assert_int_equal(count, expected);
    for (size_t i = 0; i < count; i++) {
        assert_int_equal(items[i].kind, kinds[i]);
        assert_true(!i || items[i].stage >= items[i - 1].stage);
    }
}

#define assert_lacking(room, job, ...)                                                                                 \
    assert_lacks((room), (job), (const enum job_lack[]){ __VA_ARGS__ },                                                \
                 sizeof((const enum job_lack[]){ __VA_ARGS__ }) / sizeof(enum job_lack))

static const struct job *with_cloth(struct room *room, const struct job *job, enum pattern_cloth material)
{
    const struct cloth plain = { .unit = UNITS_CM, .width_mm = 1000, .is_washed = true, .sides_alike = true };
    return job_with_cloth(room->a, job, material, &plain, room->errs);
}

static void each_stage_says_what_it_lacks(void **state)
{
    struct room *room = *state;
    const struct job *job = job_begin(room->a);
    const struct job_lacking *items;
    assert_lacking(room, job, JOB_LACKS_MEASUREMENT, JOB_LACKS_PATTERN, JOB_LACKS_TABLE);
    job = with_pattern(room, PATTERN(CUPS), PATTERN_NONE);
    assert_lacking(room, job, JOB_LACKS_MEASUREMENT, JOB_LACKS_MEASUREMENT, JOB_LACKS_VIEW, JOB_LACKS_SIZE,
                   JOB_LACKS_CUP_GROUP, JOB_LACKS_TABLE);
    job = measured(room, measured(room, job, "bust", 880), "upper bust", 840);
    job = job_with_view(room->a, job, 1, room->errs);
    assert_lacking(room, job, JOB_LACKS_MEASUREMENT, JOB_LACKS_CONFIRMATION, JOB_LACKS_CLOTH, JOB_LACKS_CLOTH,
                   JOB_LACKS_LAYOUT, JOB_LACKS_LAYOUT, JOB_LACKS_TABLE);
    size_t count = job_lacks(room->a, job, &items);
    assert_string_equal(find(items, count, JOB_LACKS_MEASUREMENT)->name, "wrist");
    assert_int_equal(items[2].material, PATTERN_FABRIC);
    assert_int_equal(items[3].material, PATTERN_LINING);
    job = job_with_size_confirmed(room->a, measured(room, job, "wrist", 160), true);
    job = with_cloth(room, with_cloth(room, job, PATTERN_FABRIC), PATTERN_LINING);
    assert_lacking(room, job, JOB_LACKS_READY, JOB_LACKS_READY, JOB_LACKS_LAYOUT, JOB_LACKS_LAYOUT, JOB_LACKS_TABLE);
    job_lacks(room->a, job, &items);
    assert_int_equal(items[0].count, 4); /* press, square the end, measure, look over */
    job = job_with_ready(room->a, job, PATTERN_FABRIC, CLOTH_PRESS, true);
    job_lacks(room->a, job, &items);
    assert_int_equal(items[0].count, 3);
    room_nothing_told(room);
}

static struct job laid(struct room *room, const struct job *job, enum pattern_cloth material,
                       const struct job_laid *places, size_t count)
{
    struct job out = *job;
    struct job_cloth cloth = *job_find_cloth(job, material);
    cloth.laid = places;
    cloth.laid_count = count;
    job_put_cloth(room->a, &out, &cloth);
    return out;
}

/* View B has two fronts, two cuffs and a lining; of a cloth that strips are torn off all its pieces are rectangles. */
static void pieces_without_a_place_are_counted(void **state)
{
    struct room *room = *state;
    static const struct job_laid fronts[] = { { "f", 0, false, { .turn_deg = -90, .shift = { 0, 340 } } },
                                              { "f", 1, false, { .turn_deg = -90, .shift = { 0, 680 } } } };
    static const struct job_laid lining[] = { { "lining", 0, false, { .turn_deg = -90, .shift = { 0, 300 } } } };
    const struct job_lacking *items;
    const struct job *job = measured(room, with_pattern(room, PATTERN(""), 1), "upper bust", 840);
    job = job_with_made_to(room->a, measured(room, job, "wrist", 160), true, room->errs); /* her waist as the chart's */
    job = with_cloth(room, with_cloth(room, job, PATTERN_FABRIC), PATTERN_LINING);
    struct job part = laid(room, job, PATTERN_FABRIC, fronts, 2);
    part = laid(room, &part, PATTERN_LINING, lining, 1);
    size_t count = job_lacks(room->a, &part, &items);
    assert_null(find(items, count, JOB_LACKS_LAYOUT));
    assert_int_equal(find(items, count, JOB_LACKS_PLACES)->count, 2);
    assert_int_equal(find(items, count, JOB_LACKS_PLACES)->material, PATTERN_FABRIC);
    const struct job_torn strips = { .is_kept = true };
    job = job_with_torn(room->a, job, PATTERN_FABRIC, strips, room->errs);
    count = job_lacks(room->a, job, &items);
    assert_int_equal(find(items, count, JOB_LACKS_LAYOUT)->material, PATTERN_LINING); /* that alone */
    assert_true(job_cuts_from(job, PATTERN_LINING));
    assert_false(job_cuts_from(job, PATTERN_INTERFACING));
    assert_false(job_cuts_from(job_with_trial(room->a, job, true, room->errs), PATTERN_LINING));
}

/* The fronts of view C are fused in a block: then their interfacing is that block, and not two fronts. */
static void a_block_stands_for_what_is_cut_out_of_it(void **state)
{
    struct room *room = *state;
    static const struct job_laid fronts[] = { { "f", 0, false, { .turn_deg = -90, .shift = { 5, 345 } } },
                                              { "f", 1, false, { .turn_deg = -90, .shift = { 5, 690 } } } };
    static const struct job_laid block[] = { { LAY_BLOCK_NAME, 0, false, { .turn_deg = -90, .shift = { 0, 700 } } } };
    const struct job_lacking *items;
    const struct job *job = measured(room, with_pattern(room, PATTERN(""), 2), "upper bust", 840);
    job = with_cloth(room, with_cloth(room, job, PATTERN_FABRIC), PATTERN_INTERFACING);
    struct job fused = laid(room, job, PATTERN_FABRIC, fronts, 2);
    fused = laid(room, &fused, PATTERN_INTERFACING, block, 1);
    size_t count = job_lacks(room->a, &fused, &items);
    assert_int_equal(find(items, count, JOB_LACKS_LAYOUT)->material, PATTERN_INTERFACING);
    struct job_cloth fabric = *job_find_cloth(&fused, PATTERN_FABRIC);
    fabric.cloth.block_mm = 900;
    job_put_cloth(room->a, &fused, &fabric);
    count = job_lacks(room->a, &fused, &items);
    assert_null(find(items, count, JOB_LACKS_LAYOUT));
    assert_null(find(items, count, JOB_LACKS_PLACES));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(without_a_pattern_the_usual_ones_are_offered), room_test(a_pattern_asks_for_what_it_goes_by),
        room_test(a_number_that_can_hardly_be_is_asked_about),   room_test(each_stage_says_what_it_lacks),
        room_test(pieces_without_a_place_are_counted),           room_test(a_block_stands_for_what_is_cut_out_of_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
