/* A job's cloths and where its pieces lie on them. All values are hand-written into the files and read back. */
#include "job/cloth.h"
#include "job/places.h"
#include "support/room.h"
#include "json/tree.h"

/* A job file of version 1, as it was written before a job had cloths. */
#define PATTERN_COPY                                                                                                   \
    "{ \\'chalklight\\': \\'pattern\\', \\'version\\': 1, \\'name\\': \\'P\\', \\'unit\\': \\'cm\\', \\'sizes\\': "    \
    "[\\'1\\'], \\'chart\\': { \\'hip\\': [90] }, \\'main_measurement\\': \\'hip\\', \\'pieces\\': [ "                 \
    "{ \\'name\\': \\'front\\', \\'rectangle\\': { \\'width\\': 30, \\'height\\': 60 } }, "                            \
    "{ \\'name\\': \\'tie\\', \\'rectangle\\': { \\'width\\': 5, \\'height\\': 80 } } ], \\'views\\': [ { "            \
    "\\'name\\': \\'A\\', \\'cut\\': [ { \\'piece\\': \\'front\\', \\'count\\': 1 }, "                                 \
    "{ \\'piece\\': \\'tie\\', \\'count\\': 2 } ] } ] }"
#define JOB(version, more)                                                                                             \
    "{ 'chalklight': 'job', 'version': " version ", 'view': 'A', 'size_position': 0, " more                            \
    "'pattern': { 'path': 'p.json', 'copy': '" PATTERN_COPY "' } }"

#define COTTON "'cloth': { 'name': 'Blue cotton', 'kind': 'woven', 'unit': 'cm', 'width': 150 }"
#define LAID                                                                                                           \
    "'laid': [ { 'piece': 'front', 'held': true, 'turn': -90, 'shift': [10.1, 0.30000000000000004] }, "                \
    "{ 'piece': 'tie', 'number': 2, 'mirror': true, 'turn': 90, 'shift': [700, 500] } ]"
#define CLOTHS "'cloths': [ { 'material': 'fabric', " COTTON ", " LAID " }, { 'material': 'lining', " COTTON " } ], "

static bool parse(struct room *room, const char *text, struct job *out)
{
    text = room_json(room, text);
    return job_parse(room->a, "a.job", text, strlen(text), out, room->errs);
}

static void a_job_from_before_there_were_cloths_has_none(void **state)
{
    struct room *room = *state;
    struct job job;
    assert_true(parse(room, JOB("1", ""), &job));
    room_nothing_told(room);
    assert_int_equal(job.cloth_count, 0);
    assert_null(job_find_cloth(&job, PATTERN_FABRIC));
    const char *text = job_print(room->a, &job);
    assert_null(strstr(text, "cloths"));
    assert_non_null(strstr(text, "\"version\": 3"));
}

static void assert_as_written(const struct job *job)
{
    const struct job_cloth *fabric = job_find_cloth(job, PATTERN_FABRIC), *lining = job_find_cloth(job, PATTERN_LINING);
    assert_int_equal(job->cloth_count, 2);
    assert_null(job_find_cloth(job, PATTERN_INTERFACING));
    assert_string_equal(fabric->cloth.name, "Blue cotton");
    assert_near(lining->cloth.width_mm, 1500, 1e-9);
    assert_int_equal(lining->laid_count, 0);
    assert_int_equal(fabric->laid_count, 2);
    assert_string_equal(fabric->laid[0].piece, "front");
    assert_int_equal(fabric->laid[0].number, 0);
    assert_true(fabric->laid[0].is_pinned && !fabric->laid[0].motion.mirror);
    assert_near(fabric->laid[0].motion.turn_deg, -90, 0);
    assert_near(fabric->laid[0].motion.shift.x, 10.1, 0);
    assert_near(fabric->laid[0].motion.shift.y, 0.30000000000000004, 0); /* to the bit */
    assert_int_equal(fabric->laid[1].number, 1);
    assert_true(!fabric->laid[1].is_pinned && fabric->laid[1].motion.mirror);
}

static void cloths_and_places_come_back_as_they_were(void **state)
{
    struct room *room = *state;
    struct job job, back;
    assert_true(parse(room, JOB("2", CLOTHS), &job));
    assert_as_written(&job);
    const char *text = job_print(room->a, &job);
    assert_true(job_parse(room->a, "b.job", text, strlen(text), &back, room->errs));
    assert_as_written(&back);
    assert_string_equal(job_print(room->a, &back), text);
    room_nothing_told(room);
}

static void what_cannot_be_is_told_at_its_place(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *cloths, *code, *path;
    } rows[] = {
        { "3", "json.wrong_type", "cloths" },
        { "[ 3 ]", "json.wrong_type", "cloths[0]" },
        { "[ { 'material': 'fabric' } ]", "json.missing", "cloths[0]" },
        { "[ { " COTTON " } ]", "json.missing", "cloths[0]" },
        { "[ { 'material': 'felt', " COTTON " } ]", "job.no_material", "cloths[0].material" },
        { "[ { 'material': 'lining', " COTTON " }, { 'material': 'lining', " COTTON " } ]", "job.material_twice",
          "cloths[1].material" },
        { "[ { 'material': 'lining', 'cloth': { 'width': 0 } } ]", "values.out_of_bounds", "cloths[0].cloth.width" },
        { "[ { 'material': 'lining', " COTTON ", 'tear': 1 } ]", "json.unknown_name", "cloths[0].tear" },
        { "[ { 'material': 'lining', " COTTON ", 'torn': 1 } ]", "json.wrong_type", "cloths[0].torn" },
        { "[ { 'material': 'lining', " COTTON ", 'torn': { 'off_square': 0 } } ]", "json.missing", "cloths[0].torn" },
        { "[ { 'material': 'lining', " COTTON ", 'torn': { 'off_square': 1001, 'margin': 0 } } ]",
          "values.out_of_bounds", "cloths[0].torn.off_square" },
        { "[ { 'material': 'lining', " COTTON ", 'torn': { 'off_square': 0, 'margin': -1 } } ]", "values.out_of_bounds",
          "cloths[0].torn.margin" },
        { "[ { 'material': 'lining', " COTTON ", 'torn': { 'off_square': 0, 'margin': 0, 'along': 1 } } ]",
          "json.wrong_type", "cloths[0].torn.along" },
        { "[ { 'material': 'lining', " COTTON ", 'torn': { 'off_square': 0, 'margin': 0, 'rests': 'all' } } ]",
          "json.wrong_type", "cloths[0].torn.rests" },
        { "[ { 'material': 'lining', " COTTON ", 'laid': [ 1 ] } ]", "json.wrong_type", "cloths[0].laid[0]" },
        { "[ { 'material': 'lining', " COTTON ", 'laid': [ { 'piece': 'x', 'turn': 361, 'shift': [0, 0] } ] } ]",
          "job.no_turn", "cloths[0].laid[0].turn" },
        { "[ { 'material': 'lining', " COTTON ", 'laid': [ { 'piece': 'x', 'turn': 0, 'shift': [0] } ] } ]",
          "job.no_shift", "cloths[0].laid[0].shift" },
        { "[ { 'material': 'lining', " COTTON ", 'laid': [ { 'piece': 'x', 'turn': 0, 'shift': [0, 1e6] } ] } ]",
          "job.no_shift", "cloths[0].laid[0].shift" },
        { "[ { 'material': 'lining', " COTTON ", 'laid': [ { 'piece': 'x', 'turn': 0, 'number': 0, 'shift': [0, 0] } ] "
          "} ]",
          "json.not_whole", "cloths[0].laid[0].number" },
        { "[ { 'material': 'lining', " COTTON ", 'laid': [ { 'piece': 'x', 'turn': 0, 'shift': [0, 0] }, "
          "{ 'piece': 'x', 'number': 1, 'turn': 0, 'shift': [9, 9] } ] } ]",
          "job.laid_twice", "cloths[0].laid[1]" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct job job;
        assert_false(parse(room, base_arena_print(room->a, JOB("2", "'cloths': %s, "), rows[i].cloths), &job));
        room_only_told_at(room, rows[i].code, rows[i].path);
        room_forget(room);
    }
}

static void assert_torn(const struct job *job)
{
    const struct job_torn *fabric = &job_find_cloth(job, PATTERN_FABRIC)->torn;
    const struct job_torn *lining = &job_find_cloth(job, PATTERN_LINING)->torn;
    assert_true(fabric->is_kept && fabric->along && fabric->rests);
    assert_near(fabric->off_square_mm, 30, 0);
    assert_near(fabric->margin_mm, 12.7, 0);
    assert_true(lining->is_kept && !lining->along && !lining->rests);
    assert_near(lining->margin_mm, 0, 0);
}

/* It stays with other cloth and other pieces; what was not told is not written. */
static void what_is_torn_first_comes_back_as_it_was(void **state)
{
    struct room *room = *state;
    struct job job, back, plain;
    assert_true(
        parse(room,
              JOB("2", "'cloths': [ { 'material': 'fabric', " COTTON ", " LAID ", 'torn': { 'along': true, "
                       "'off_square': '3 cm', 'margin': 12.7, 'rests': true } }, { 'material': 'lining', " COTTON
                       ", 'torn': { 'off_square': 0, 'margin': 0 } } ], "),
              &job));
    assert_torn(&job);
    const char *text = job_print(room->a, &job);
    assert_true(job_parse(room->a, "b.job", text, strlen(text), &back, room->errs));
    assert_torn(&back);
    assert_string_equal(job_print(room->a, &back), text);
    job_set_cloth(room->a, &back, PATTERN_FABRIC, &(struct cloth){ .width_mm = 1400 });
    assert_true(job_clear_places(room->a, &job));
    assert_torn(&job);
    assert_torn(&back);
    assert_true(parse(room, JOB("2", CLOTHS), &plain));
    assert_null(strstr(job_print(room->a, &plain), "torn"));
    room_nothing_told(room);
}

/* Another cloth for a material begins with nothing on it; the others stay as they are. */
static void another_cloth_takes_the_old_one_s_place(void **state)
{
    struct room *room = *state;
    struct job job;
    assert_true(parse(room, JOB("2", CLOTHS), &job));
    struct cloth linen = { .name = "Linen", .width_mm = 1400 };
    job_set_cloth(room->a, &job, PATTERN_FABRIC, &linen);
    assert_int_equal(job.cloth_count, 2);
    assert_string_equal(job_find_cloth(&job, PATTERN_FABRIC)->cloth.name, "Linen");
    assert_int_equal(job.cloths[0].material, PATTERN_FABRIC); /* in its place */
    assert_int_equal(job_find_cloth(&job, PATTERN_FABRIC)->laid_count, 0);
    assert_string_equal(job_find_cloth(&job, PATTERN_LINING)->cloth.name, "Blue cotton");
}

static void pieces_are_taken_off_their_cloths(void **state)
{
    struct room *room = *state;
    struct job job;
    assert_true(parse(room, JOB("2", CLOTHS), &job));
    assert_true(job_clear_places(room->a, &job));
    assert_int_equal(job.cloth_count, 2);
    assert_int_equal(job_find_cloth(&job, PATTERN_FABRIC)->laid_count, 0);
    assert_string_equal(job_find_cloth(&job, PATTERN_FABRIC)->cloth.name, "Blue cotton");
    assert_false(job_clear_places(room->a, &job));
}

/* One front and three ties to be laid. */
static struct lay_task task_of(enum pattern_cloth material)
{
    static const struct draft_piece pieces[] = { { .name = "front" }, { .name = "tie" } };
    static const struct lay_item items[] = {
        { .piece = &pieces[1] }, { .piece = &pieces[0] }, { .piece = &pieces[1] }, { .piece = &pieces[1] }
    };
    return (struct lay_task){ .material = material, .items = items, .item_count = 4 };
}

static void places_are_found_again_by_piece_and_number(void **state)
{
    struct room *room = *state;
    struct job job;
    struct lay_place *places;
    struct lay_task fabric = task_of(PATTERN_FABRIC), interfacing = task_of(PATTERN_INTERFACING);
    assert_true(parse(room, JOB("2", CLOTHS), &job));
    assert_int_equal(job_places(room->a, &job, &fabric, &places, room->errs), 2);
    assert_true(!places[0].is_laid && places[1].is_laid && places[2].is_laid && !places[3].is_laid);
    assert_true(places[1].is_pinned && !places[2].is_pinned);
    assert_near(places[2].motion.shift.x, 700, 0);

    places[0] = (struct lay_place){ true, true, { false, 270, { 1, 2 } } };
    places[1].is_laid = false;
    job_keep_places(room->a, &job, &fabric, places);
    assert_int_equal(job_find_cloth(&job, PATTERN_FABRIC)->laid_count, 2);
    assert_int_equal(job_places(room->a, &job, &fabric, &places, room->errs), 2);
    assert_true(places[0].is_laid && places[0].is_pinned && !places[1].is_laid && places[2].is_laid);
    assert_near(places[0].motion.turn_deg, 270, 0);
    assert_int_equal(job_places(room->a, &job, &interfacing, &places, room->errs), 0);
    room_nothing_told(room);
}

static void what_is_laid_and_not_cut_any_more_is_told(void **state)
{
    struct room *room = *state;
    struct job job;
    struct lay_place *places;
    struct lay_task task = task_of(PATTERN_FABRIC);
    assert_true(parse(room, JOB("2", CLOTHS), &job));
    task.item_count = 1; /* one tie is all that is left */
    assert_int_equal(job_places(room->a, &job, &task, &places, NULL), 0);
    room_nothing_told(room);
    assert_int_equal(job_places(room->a, &job, &task, &places, room->errs), 0);
    const struct err *e = room_only_told(room, "job.not_laid_any_more");
    assert_int_equal(e->kind->severity, ERR_WARNING);
    assert_string_equal(e->args[0].text, "“front”, “tie”");
}

/* A block is told by what it is called to a person, not by its name in the file. */
static void a_block_that_is_not_cut_any_more_is_told(void **state)
{
    struct room *room = *state;
    struct lay_place *places;
    struct lay_task task = task_of(PATTERN_INTERFACING);
    struct job_laid laid = { .piece = LAY_BLOCK_NAME };
    struct job_cloth cloth = { .material = PATTERN_INTERFACING, .laid = &laid, .laid_count = 1 };
    struct job job = { .cloths = &cloth, .cloth_count = 1 };
    assert_int_equal(job_places(room->a, &job, &task, &places, room->errs), 0);
    assert_string_equal(room_only_told(room, "job.not_laid_any_more")->args[0].text, "“Block”");
}

/* The lining keeps what a cloth without a kind is. */
static void a_jobs_interfacing_without_a_kind_is_fusible(void **state)
{
    struct room *room = *state;
    struct job job;
    assert_true(parse(room,
                      JOB("2", "'cloths': [ { 'material': 'interfacing', 'cloth': { 'unit': 'cm', 'width': 90 } }, "
                               "{ 'material': 'lining', 'cloth': { 'unit': 'cm', 'width': 90 } } ], "),
                      &job));
    assert_int_equal(job_find_cloth(&job, PATTERN_INTERFACING)->cloth.kind, CLOTH_FUSIBLE);
    assert_int_equal(job_find_cloth(&job, PATTERN_LINING)->cloth.kind, CLOTH_WOVEN);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_job_from_before_there_were_cloths_has_none),
        room_test(a_jobs_interfacing_without_a_kind_is_fusible),
        room_test(cloths_and_places_come_back_as_they_were),
        room_test(what_cannot_be_is_told_at_its_place),
        room_test(what_is_torn_first_comes_back_as_it_was),
        room_test(another_cloth_takes_the_old_one_s_place),
        room_test(pieces_are_taken_off_their_cloths),
        room_test(places_are_found_again_by_piece_and_number),
        room_test(what_is_laid_and_not_cut_any_more_is_told),
        room_test(a_block_that_is_not_cut_any_more_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
