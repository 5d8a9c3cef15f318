/* Going back and forward through the jobs that were. */
#include "base/words.h"
#include "job/change.h"
#include "job/cloth.h"
#include "job/history.h"
#include "support/room.h"

static const char *words_folder, *demo_pattern;

#define PATTERN                                                                                                        \
    "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line', 'name': 'P', 'unit': 'cm',"                 \
    "  'sizes': ['1', '2', '3'], 'chart': { 'bust': [80, 90, 100], 'back length': [40, 41, 42] },"                     \
    "  'main_measurement': 'bust', 'pieces': [ { 'name': 'f', 'points': { 'a': [0, 0], 'b': ['bust / 2', 0],"          \
    "      'c': ['bust / 2', 40], 'd': [0, 40], 'l': [0, 20], 'm': [5, 20] },"                                         \
    "    'outline': [ { 'name': 'all', 'path': ['a', 'b', 'c', 'd', 'a'] } ], 'levels': { 'bust': ['a', 'b'] },"       \
    "    'lines': [ { 'kind': 'lengthen', 'name': 'body', 'measure': 'back length', 'from': 'l', 'to': 'm' } ] } ],"   \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'f', 'count': 1 } ] } ] }"
#define TABLE                                                                                                          \
    "{ 'chalklight': 'table', 'version': 1, 'name': 'Kitchen', 'made': '2026-11-25', 'sample': false, 'unit': 'mm',"   \
    "  'frame': { 'width': 1920, 'height': 1080 },"                                                                    \
    "  'map': { 'h': [700, 0, 750, 0, -700, 420, 0, 0], 'k1': 0, 'p1': 0, 'p2': 0 },"                                  \
    "  'residual': { 'rms': 0.3, 'worst': 0.8 }, 'readings': 12 }"

static void name(struct job_history *h, const char *text)
{
    job_history_step(h, job_with_name(job_history_arena(h), job_history_now(h), text), text);
}

static void assert_named(const struct job_history *h, const char *text)
{
    const char *got = job_history_now(h)->ticket.name;
    assert_string_equal(got ? got : "", text);
}

static void steps_are_taken_back_and_again(void **state)
{
    (void)state;
    struct job_history *h = job_history_create(JOB_HISTORY_BYTES);
    assert_named(h, "");
    assert_false(job_history_undo(h) || job_history_redo(h));
    assert_null(job_history_undo_text(h));
    name(h, "one");
    name(h, "two");
    job_history_step(h, job_history_now(h), "nothing"); /* is no step */
    assert_string_equal(job_history_undo_text(h), "two");
    assert_null(job_history_redo_text(h));
    assert_true(job_history_undo(h));
    assert_named(h, "one");
    assert_string_equal(job_history_undo_text(h), "one");
    assert_string_equal(job_history_redo_text(h), "two");
    assert_true(job_history_redo(h));
    assert_named(h, "two");
    assert_true(job_history_undo(h) && job_history_undo(h));
    assert_false(job_history_undo(h));
    assert_named(h, "");
    name(h, "three"); /* the others cannot be gone to any more */
    assert_false(job_history_redo(h));
    job_history_replace(h, job_with_name(job_history_arena(h), job_history_now(h), "four"));
    assert_named(h, "four");
    assert_string_equal(job_history_undo_text(h), "three");
    assert_true(job_history_undo(h));
    assert_named(h, "");
    job_history_destroy(h);
    job_history_destroy(NULL);
}

static void a_hundred_steps_can_be_taken_back(void **state)
{
    (void)state;
    char text[16];
    struct job_history *h = job_history_create(JOB_HISTORY_BYTES);
    for (int i = 1; i <= 130; i++) {
        snprintf(text, sizeof text, "%d", i);
        name(h, text);
    }
    for (int i = 130; i > 30; i--) {
        snprintf(text, sizeof text, "%d", i);
        assert_named(h, text);
        assert_true(job_history_undo(h));
    }
    assert_named(h, "30");
    assert_false(job_history_undo(h));
    job_history_destroy(h);
}

/* A job with something of everything. */
static const struct job *full(struct room *room, struct arena *a)
{
    struct err_list *errs = room->errs;
    const char *pattern = room_put(room, "p.json", room_json(room, PATTERN));
    const char *table = room_put(room, "t.json", room_json(room, TABLE));
    vec2 corners[] = { { 10, 10 }, { 20, 10 }, { 20, 30 } };
    const struct cloth_path hole = { { corners, 3, true } };
    const struct cloth cloth = {
        .name = "Linen", .unit = UNITS_CM, .width_mm = 1400, .faults = &hole, .fault_count = 1
    };
    const struct job *job = job_with_pattern(a, job_begin(a), pattern, errs);
    job = job_with_measurement(a, job_with_person(a, job, "Guide"), "bust", 880, errs);
    job = job_with_blend_by_body(a, job_with_alteration(a, job, "lengthen body by 2 cm", errs), errs);
    job = job_with_table(a, job_with_cloth(a, job, PATTERN_FABRIC, &cloth, errs), table, errs);
    job = job_with_note(a, job_with_unread(a, job, "hip", "wide"), "f", "match");
    struct job_laid *laid = base_arena_alloc(a, 1, sizeof *laid);
    *laid = (struct job_laid){ "f", 0, true, { .turn_deg = -90, .shift = { 40, 500 } } };
    struct job out = *job;
    struct job_cloth put = *job_find_cloth(job, PATTERN_FABRIC);
    put.laid = laid;
    put.laid_count = 1;
    job_put_cloth(a, &out, &put);
    struct job *kept = base_arena_alloc(a, 1, sizeof *kept);
    *kept = out;
    room_nothing_told(room);
    return kept;
}

/* Whatever room it has, its arena does not hold twice as much, and what can be gone back to is what was. */
static void a_history_keeps_within_its_room(void **state)
{
    struct room *room = *state;
    enum { ROOM = 200 * 1000, STEPS = 300 };
    static const char *texts[STEPS + 1];
    struct job_history *h = job_history_create(ROOM);
    job_history_restart(h, full(room, job_history_arena(h)));
    texts[0] = job_print(room->a, job_history_now(h));
    for (int i = 1; i <= STEPS; i++) {
        struct arena *a = job_history_arena(h);
        const struct job *now = job_history_now(h);
        const struct job *next = i % 3 ? job_with_measurement(a, now, "bust", 800 + i % 200, room->errs)
                                       : job_with_name(a, now, base_arena_print(room->a, "job %d", i));
        texts[i] = job_print(room->a, next);
        job_history_step(h, next, "step");
        assert_true(base_arena_bytes(job_history_arena(h)) <= ROOM);
        assert_string_equal(job_print(room->a, job_history_now(h)), texts[i]);
        room_forget(room); /* layouts that fell away */
    }
    int back = STEPS;
    while (job_history_undo(h))
        assert_string_equal(job_print(room->a, job_history_now(h)), texts[--back]);
    assert_true(back < STEPS - 5 && back > STEPS - JOB_HISTORY_STEPS); /* not all of them fit */
    job_history_destroy(h);
}

/* Where all fits, nothing of it is lost when it moves: the new arena has what can be gone to alone. */
static void moving_loses_no_step(void **state)
{
    struct room *room = *state;
    struct job_history *h = job_history_create(2 * 1000 * 1000);
    job_history_restart(h, full(room, job_history_arena(h)));
    const char *first = job_print(room->a, job_history_now(h));
    size_t most = 0;
    bool moved = false;
    for (int i = 0; i < 2000; i++) {
        struct arena *a = job_history_arena(h);
        const struct job *draft = job_with_name(a, job_history_now(h), base_arena_print(a, "%0180d", i));
        job_history_replace(h, draft);
        moved = moved || base_arena_bytes(job_history_arena(h)) < most;
        most = base_arena_bytes(job_history_arena(h));
    }
    assert_true(moved);
    assert_string_equal(job_history_now(h)->table.name, "Kitchen");
    assert_string_equal(job_history_now(h)->alterations[0].what, "body");
    assert_string_equal(job_find_cloth(job_history_now(h), PATTERN_FABRIC)->cloth.name, "Linen");
    assert_string_equal(job_history_now(h)->pattern->views[0].name, "A");
    job_history_replace(h, job_with_name(job_history_arena(h), job_history_now(h), NULL));
    assert_string_equal(job_print(room->a, job_history_now(h)), first);
    job_history_destroy(h);
}

/* All steps, those that can be gone back to as well; the words are the demo's own. */
static void another_language_shows_other_words(void **state)
{
    struct room *room = *state;
    base_words_speak("en", words_folder);
    struct job_history *h = job_history_create(JOB_HISTORY_BYTES);
    struct job job;
    const struct job_choices choices = { .pattern = demo_pattern, .size = "5", .cup_group = "C-D", .view = "A" };
    assert_true(job_make(job_history_arena(h), &choices, &job, NULL, room->errs));
    struct job *first = base_arena_alloc(job_history_arena(h), 1, sizeof *first);
    *first = job;
    job_history_restart(h, first);
    job_history_step(h, job_with_name(job_history_arena(h), job_history_now(h), "Hers"), "named");
    const char *kept = job_print(room->a, job_history_now(h));
    assert_string_equal(job_history_now(h)->pattern->pieces[0].label, "Bib front");
    base_words_speak("de", words_folder);
    job_history_read_anew(h);
    assert_string_equal(job_history_now(h)->pattern->pieces[0].label, "Latzvorderteil");
    assert_string_equal(job_print(room->a, job_history_now(h)), kept);
    assert_true(job_history_undo(h));
    assert_string_equal(job_history_now(h)->pattern->pieces[0].label, "Latzvorderteil");
    base_words_speak("en", words_folder);
    job_history_destroy(h);
}

int main(int argc, char **argv)
{
    if (argc != 3)
        return 1;
    words_folder = argv[1];
    demo_pattern = argv[2];
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(steps_are_taken_back_and_again), cmocka_unit_test(a_hundred_steps_can_be_taken_back),
        room_test(a_history_keeps_within_its_room),       room_test(moving_loses_no_step),
        room_test(another_language_shows_other_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
