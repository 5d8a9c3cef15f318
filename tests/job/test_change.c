/* A job that is filled in step by step. Expectations are hand-worked from the chart that is written here. */
#include "base/file.h"
#include "job/change.h"
#include "job/cloth.h"
#include "support/room.h"

/* Front: bust / 2 wide, 40 cm high; the waist's level is its lower edge, the bust's its upper. */
#define HEAD(name, sizes)                                                                                              \
    "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line', 'name': '" name                             \
    "', 'unit': 'cm', 'sizes': " sizes ", "
#define FRONT                                                                                                          \
    "{ 'name': 'front', 'points': { 'a': [0, 0], 'b': ['bust / 2', 0], 'c': ['bust / 2', 40], 'd': [0, 40],"           \
    "    'l': [0, 20], 'm': [5, 20] },"                                                                                \
    "  'outline': [ { 'name': 'waist', 'path': ['a', 'b'] }, { 'name': 'side', 'path': ['b', 'c'] },"                  \
    "    { 'name': 'top', 'path': ['c', 'd'] }, { 'name': 'centre', 'path': ['d', 'a'] } ],"                           \
    "  'levels': { 'waist': ['a', 'b'], 'bust': ['c', 'd'] },"                                                         \
    "  'lines': [ { 'kind': 'lengthen', 'name': 'body', 'measure': 'back length', 'from': 'l', 'to': 'm' } ] }"
#define PATTERN                                                                                                        \
    HEAD("P", "['1', '2', '3']")                                                                                       \
    "  'chart': { 'bust': [80, 90, 100], 'waist': [60, 70, 80], 'back length': [40, 41, 42] },"                        \
    "  'main_measurement': 'bust', 'pieces': [ " FRONT ", "                                                            \
    "  { 'name': 'tie', 'rectangle': { 'width': 5, 'height': 30 } } ],"                                                \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'front', 'count': 2 } ] },"                                       \
    "    { 'name': 'B', 'cut': [ { 'piece': 'front', 'count': 1 }, { 'piece': 'tie', 'count': 1 } ] } ] }"

/* Sizes 2 and 3 are there, its one view is not A, its waist tells no sizes apart by level, and it has no tie. */
#define OTHER                                                                                                          \
    HEAD("Q", "['2', '3', '4']")                                                                                       \
    "  'chart': { 'bust': [90, 100, 110], 'waist': [70, 80, 90], 'back length': [41, 42, 43] },"                       \
    "  'main_measurement': 'bust', 'pieces': [ " FRONT " ],"                                                           \
    "  'views': [ { 'name': 'C', 'cut': [ { 'piece': 'front', 'count': 1 } ] } ] }"

#define CUPS                                                                                                           \
    HEAD("R", "['S', 'M', 'L']")                                                                                       \
    "  'chart': { 'upper bust': [80, 84, 88] }, 'main_measurement': 'upper bust',"                                     \
    "  'cup_groups': [ { 'name': 'A-B', 'bust': [84, 88, 92] }, { 'name': 'C-D', 'bust': [89, 93, 97] } ],"            \
    "  'pieces': [ { 'name': 'p', 'rectangle': { 'width': 10, 'height': 10 } } ],"                                     \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }"

static const char *put(struct room *room, const char *name, const char *text)
{
    return room_put(room, name, room_json(room, text));
}

/* Printed, and read again from its text, it is the same. */
static void comes_back(struct room *room, const struct job *job)
{
    struct job again;
    const char *text = job_print(room->a, job);
    assert_true(job_parse_begun(room->a, "j.json", text, strlen(text), &again, room->errs));
    room_nothing_told(room);
    assert_string_equal(job_print(room->a, &again), text);
    assert_int_equal(job_is_finished(&again), job_is_finished(job));
    assert_near(again.position, job->position, 0);
    assert_int_equal(again.alteration_count, job->alteration_count);
    for (size_t i = 0; job_is_finished(job) && i < job->alteration_count; i++)
        assert_near(again.alterations[i].amount_mm, job->alterations[i].amount_mm, 1e-9);
    assert_int_equal(job_parse(room->a, "j.json", text, strlen(text), &again, room->errs), job_is_finished(job));
    room_forget(room);
}

static const struct job *measured(struct room *room, const struct job *job, const char *name, double mm)
{
    const struct job *out = job_with_measurement(room->a, job, name, mm, room->errs);
    room_nothing_told(room);
    comes_back(room, out);
    return out;
}

/* A pattern and her measurements, and nothing chosen. */
static const struct job *begun(struct room *room)
{
    const struct job *job = job_with_pattern(room->a, job_begin(room->a), put(room, "p.json", PATTERN), room->errs);
    job = measured(room, job, "bust", 880);
    return measured(room, job, "waist", 750);
}

/* The same in view A: size 2 by her bust of 88, which lies nearest to 90. */
static const struct job *finished(struct room *room)
{
    const struct job *job = job_with_view(room->a, begun(room), 0, room->errs);
    room_nothing_told(room);
    assert_true(job_is_finished(job));
    return job;
}

static void a_job_begins_blank_and_is_filled_page_by_page(void **state)
{
    struct room *room = *state;
    const struct job *blank = job_begin(room->a), *job = blank;
    comes_back(room, blank);
    job = job_with_person(room->a, job, "Möwe");
    comes_back(room, job);
    assert_string_equal(job->body->name, "Möwe");
    job = measured(room, job, "bust", 880);
    job = measured(room, job, "waist", 650);
    job = measured(room, job, "waist", 750);
    assert_int_equal(job->body->count, 2);
    assert_false(job_is_finished(job));
    job = job_with_pattern(room->a, job, put(room, "p.json", PATTERN), room->errs);
    comes_back(room, job);
    assert_near(job->position, 1, 0); /* 88 lies nearest to 90 */
    assert_false(job_is_finished(job));
    job = job_with_view(room->a, job, 1, room->errs);
    comes_back(room, job);
    assert_true(job_is_finished(job));
    assert_false(job->ticket.size_confirmed);
    assert_true(job_with_size_confirmed(room->a, job, true)->ticket.size_confirmed);
    assert_null(blank->body); /* what was stays */
    assert_null(blank->pattern);
    assert_null(job->body_source.path);
}

static void what_a_file_lacks_is_told_in_one_sentence(void **state)
{
    struct room *room = *state;
    const struct job *blank = job_begin(room->a), *job = begun(room);
    const struct job *unsized = job_with_measurement(room->a, job, "bust", 0, room->errs);
    const struct {
        const struct job *job;
        const char *lacks;
    } rows[] = { { blank, "the pattern" }, { job, "the view" }, { unsized, "the view, the size" } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct job out;
        const char *path = room_put(room, "j.json", job_print(room->a, rows[i].job));
        assert_false(job_read(room->a, path, &out, room->errs));
        assert_string_equal(room_only_told(room, "job.unfinished")->args[0].text, rows[i].lacks);
        room_forget(room);
        assert_true(job_read_begun(room->a, path, &out, room->errs));
        room_nothing_told(room);
    }
}

/* Bust 97 lies nearest to 100, 84 to 80. */
static void the_size_follows_her_measurements_unless_she_chose_it(void **state)
{
    struct room *room = *state;
    const struct job *job = job_with_size_confirmed(room->a, finished(room), true);
    assert_true(measured(room, job, "waist", 760)->ticket.size_confirmed);
    job = measured(room, job, "bust", 970);
    assert_near(job->position, 2, 0);
    assert_false(job->ticket.size_confirmed);
    job = job_with_size(room->a, job, 0.5, room->errs);
    assert_true(job->ticket.size_confirmed);
    job = measured(room, job, "bust", 840);
    assert_near(job->position, 0.5, 0);
    assert_true(job->ticket.size_confirmed);
    job = job_with_size_by_body(room->a, job, room->errs);
    assert_near(job->position, 0, 0);
    assert_false(job->ticket.size_confirmed);
    job = measured(room, job, "bust", 0);
    assert_near(job->position, PATTERN_NONE, 0);
    assert_int_equal(job->body->count, 1);
    assert_near(job_with_size(room->a, job, 2, room->errs)->position, 2, 0);
}

/* Upper bust 85: M. At M, bust 93.5 lies nearest to 93 (C-D), 89 to 88 (A-B). */
static void so_does_the_cup_group(void **state)
{
    struct room *room = *state;
    const struct job *job = job_with_pattern(room->a, job_begin(room->a), put(room, "r.json", CUPS), room->errs);
    assert_int_equal(job->view, 0); /* the only one */
    job = measured(room, job, "bust", 935);
    job = measured(room, job, "upper bust", 850);
    assert_near(job->position, 1, 0);
    assert_int_equal(job->cup_group, 1);
    job = measured(room, job, "bust", 890);
    assert_int_equal(job->cup_group, 0);
    job = job_with_cup_group(room->a, job, 1, room->errs);
    assert_int_equal(measured(room, job, "bust", 880)->cup_group, 1);
    assert_int_equal(job_with_cup_group(room->a, job, PATTERN_NONE, room->errs)->cup_group, 0);
}

/* Waist 75 lies half way from 70 to 80, 65 half way from 60 to 70; bust 88 at 0.8. */
static void a_blend_follows_the_body_or_the_hand(void **state)
{
    struct room *room = *state;
    const struct job *job = job_with_blend_by_body(room->a, finished(room), room->errs);
    comes_back(room, job);
    assert_near(job->level_position[0], 0.8, 1e-9);
    assert_near(job->level_position[1], 1.5, 1e-9);
    assert_near(job->level_position[2], 1, 0);
    job = measured(room, job, "waist", 650);
    assert_near(job->level_position[1], 0.5, 1e-9);
    job = job_without_blend(room->a, job, room->errs);
    assert_null(job->level_position);
    job = job_with_blend(room->a, job, 1, 2, room->errs);
    assert_near(job->level_position[0], 1, 0);
    assert_near(job->level_position[1], 2, 0);
    job = job_with_size(room->a, job, 0, room->errs);
    comes_back(room, job);
    assert_near(job->level_position[0], 0, 0); /* at the size */
    assert_near(job->level_position[1], 2, 0); /* by hand */
    job = job_with_blend(room->a, job, 1, PATTERN_NONE, room->errs);
    assert_near(job->level_position[1], 0, 0);
    const struct job *cups = job_with_pattern(room->a, job_begin(room->a), put(room, "r.json", CUPS), room->errs);
    room_nothing_told(room);
    assert_ptr_equal(job_with_blend_by_body(room->a, cups, room->errs), cups);
    room_only_told(room, "job.no_levels");
}

/* Size 2 has a back of 41 cm: to 43 are 2 cm more, in size 3 (42) 1 cm. 2 in are 50.8 mm. */
static void alterations_are_read_anew(void **state)
{
    struct room *room = *state;
    const struct job *job = job_with_alteration(room->a, finished(room), "lengthen body to 43", room->errs);
    assert_near(job->alterations[0].amount_mm, 20, 1e-9);
    job = job_with_size(room->a, job, 2, room->errs);
    comes_back(room, job);
    assert_near(job->alterations[0].amount_mm, 10, 1e-9);
    job = job_with_unit(room->a, job, UNITS_IN, room->errs);
    comes_back(room, job);
    assert_string_equal(job->alteration_texts[0], "lengthen body to 43 cm");
    assert_near(job->alterations[0].amount_mm, 10, 1e-9);
    job = job_with_alteration(room->a, job, "lengthen body by 2", room->errs);
    assert_near(job->alterations[1].amount_mm, 50.8, 1e-9);
    job = job_without_alteration(room->a, job, 0, room->errs);
    comes_back(room, job);
    assert_int_equal(job->alteration_count, 1);
    assert_near(job->alterations[0].amount_mm, 50.8, 1e-9);
    assert_ptr_equal(job_with_alteration(room->a, job, "lengthen knee by 2", room->errs), job);
    room_only_told(room, "job.no_line");
    room_forget(room);
    const struct job *unfinished = begun(room);
    assert_ptr_equal(job_with_alteration(room->a, unfinished, "lengthen body by 2", room->errs), unfinished);
    room_only_told(room, "job.too_early");
}

static void an_alteration_that_cannot_be_made_any_more_is_told(void **state)
{
    struct room *room = *state;
    const struct job *job = measured(room, finished(room), "back length", 424);
    job = job_with_alteration(room->a, job, "lengthen body to body", room->errs);
    assert_near(job->alterations[0].amount_mm, 14, 1e-9); /* 42.4 less 41 */
    job = job_with_measurement(room->a, job, "back length", 430, room->errs);
    assert_near(job->alterations[0].amount_mm, 20, 1e-9);
    room_nothing_told(room);
    /* Without a view it waits; then it is gone. */
    const struct job *waits = job_with_view(room->a, job, PATTERN_NONE, room->errs);
    comes_back(room, waits);
    assert_int_equal(waits->alteration_count, 1);
    waits = measured(room, waits, "back length", 0);
    assert_int_equal(waits->alteration_count, 1);
    job_with_measurement(room->a, job, "back length", 0, room->errs);
    assert_string_equal(room_only_told(room, "job.alteration_lost")->args[0].text, "lengthen body to body");
    room_forget(room);
    assert_int_equal(job_with_view(room->a, waits, 0, room->errs)->alteration_count, 0);
    room_only_told(room, "job.alteration_lost");
}

static void what_is_made_to_a_body_needs_measurements(void **state)
{
    struct room *room = *state;
    const struct job *job = job_with_made_to(room->a, finished(room), true, room->errs);
    comes_back(room, job);
    assert_near(job_figure(job).body_mm[0], 880, 0);
    job = job_with_body(room->a, job_with_size(room->a, job, 1, room->errs), NULL, room->errs);
    assert_false(job_is_finished(job));
    const char *text = job_print(room->a, job);
    struct job out;
    assert_false(job_parse(room->a, "j.json", text, strlen(text), &out, room->errs));
    room_only_told(room, "job.no_body");
}

static void a_body_of_a_file_takes_the_place_of_what_was_typed(void **state)
{
    struct room *room = *state;
    const struct job *job = finished(room);
    const char *path = put(room, "b.json",
                           "{ 'chalklight': 'body', 'version': 1, 'name': 'Guide', 'unit': 'in',"
                           "  'measurements': { 'bust': 39 } }");
    job = job_with_body(room->a, job, path, room->errs);
    comes_back(room, job);
    assert_string_equal(job->body_source.path, path);
    assert_near(job->position, 2, 0); /* 39 in are 99.06 cm */
    assert_int_equal(job->body->count, 1);
    job = measured(room, job, "waist", 700);
    assert_null(job->body_source.path); /* no longer that file's */
    assert_string_equal(job->body->name, "Guide");
    assert_int_equal(job->body->unit, UNITS_IN);
    assert_ptr_equal(job_with_body(room->a, job, "/there/is/none.json", room->errs), job);
    room_only_told(room, "file.cannot_open");
    room_forget(room);
    assert_ptr_equal(job_with_body(room->a, job, put(room, "b.json", "{}"), room->errs), job);
    room_only_told(room, "json.not_ours");
}

static bool told(const struct room *room, const char *code, const char *what)
{
    for (int i = 0; i < room->errs->count; i++)
        if (strcmp(room->errs->items[i].kind->code, code) == 0 && strcmp(room->errs->items[i].args[0].text, what) == 0)
            return true;
    return false;
}

static void another_pattern_keeps_what_it_has_by_name(void **state)
{
    struct room *room = *state;
    const struct job *job = job_with_size(room->a, finished(room), 1.5, room->errs); /* "2 to 3" */
    job = job_with_blend(room->a, job, 1, 0, room->errs);                            /* waist in size 1 */
    job = job_with_blend(room->a, job, 2, 2, room->errs);                            /* back length in size 3 */
    job = job_with_alteration(room->a, job, "lengthen body by 2 cm", room->errs);
    job = job_with_note(room->a, job_with_note(room->a, job, "tie", "on the bias"), "front", "match");
    comes_back(room, job);
    const struct job *moved = job_with_pattern(room->a, job, put(room, "q.json", OTHER), room->errs);
    assert_int_equal(room->errs->count, 3);
    assert_true(told(room, "job.lost_view", "A"));
    assert_true(told(room, "job.lost_level", "waist"));
    assert_true(told(room, "job.lost_note", "tie"));
    room_forget(room);
    comes_back(room, moved);
    assert_int_equal(moved->view, 0);
    assert_near(moved->position, 0.5, 0);
    assert_true(moved->ticket.size_by_hand && !moved->ticket.size_confirmed);
    assert_near(moved->level_position[0], 0.5, 0);
    assert_near(moved->level_position[1], 0.5, 0);
    assert_near(moved->level_position[2], 1, 0);
    assert_int_equal(moved->alteration_count, 1);
    assert_string_equal(job_words_of(moved->ticket.notes, "front"), "match");
    assert_near(sizing_body_find(moved->body, "bust")->mm, 880, 0);

    job = job_with_size(room->a, finished(room), 0, room->errs); /* size 1 is not there: by her bust, 90 is nearest */
    moved = job_with_pattern(room->a, job, put(room, "q.json", OTHER), room->errs);
    assert_true(told(room, "job.lost_size", "1"));
    assert_near(moved->position, 0, 0);
    assert_false(moved->ticket.size_by_hand);
    room_forget(room);
    assert_ptr_equal(job_with_pattern(room->a, job, put(room, "x.json", "{}"), room->errs), job);
    room_only_told(room, "json.not_ours");
}

/* Fronts of size 2 are 45 cm wide: two of them side by side across cloth of 1 m, from 0 to 45 and from 45 to 90 cm. */
static const struct job *laid(struct room *room)
{
    static const struct job_laid places[] = {
        { "front", 0, false, { .turn_deg = -90, .shift = { 0, 450 } } },
        { "front", 1, true, { .turn_deg = -90, .shift = { 0, 900 } } },
    };
    const struct cloth plain = { .name = "Linen", .unit = UNITS_CM, .width_mm = 1000 };
    const struct job *job = job_with_cloth(room->a, finished(room), PATTERN_FABRIC, &plain, room->errs);
    struct job out = *job;
    struct job_cloth cloth = *job_find_cloth(job, PATTERN_FABRIC);
    cloth.laid = places;
    cloth.laid_count = 2;
    job_put_cloth(room->a, &out, &cloth);
    struct job *kept = base_arena_alloc(room->a, 1, sizeof *kept);
    *kept = out;
    comes_back(room, kept);
    return kept;
}

static size_t laid_on(const struct job *job)
{
    return job_find_cloth(job, PATTERN_FABRIC)->laid_count;
}

/* In size 1 each is 5 cm narrower within its place; in size 3 the first reaches 5 cm past the near edge. */
static void a_layout_stays_while_its_pieces_fit(void **state)
{
    struct room *room = *state;
    const struct job *job = laid(room);
    assert_int_equal(laid_on(job_with_person(room->a, job, "Guide")), 2);
    assert_int_equal(laid_on(job_with_size(room->a, job, 0, room->errs)), 2);
    room_nothing_told(room);
    assert_int_equal(laid_on(job_with_size(room->a, job, 2, room->errs)), 0);
    assert_int_equal(room_only_told(room, "job.layout_off")->kind->severity, ERR_WARNING);
    room_forget(room);
    assert_int_equal(laid_on(job), 2); /* the old job has it still */
    job = job_with_view(room->a, job, 1, room->errs);
    assert_int_equal(laid_on(job), 1); /* view B cuts one front */
    assert_int_equal(room_only_told(room, "job.layout_less")->args[1].number, 1);
    assert_string_equal(job_find_cloth(job, PATTERN_FABRIC)->laid[0].piece, "front");
}

static void a_layout_that_was_wrong_already_stays_as_it_is(void **state)
{
    struct room *room = *state;
    struct job job = *laid(room);
    struct job_laid places[2] = { { "front", 0, false, { .turn_deg = -90, .shift = { 0, 450 } } },
                                  { "front", 1, false, { .turn_deg = -90, .shift = { 0, 600 } } } };
    struct job_cloth cloth = *job_find_cloth(&job, PATTERN_FABRIC);
    cloth.laid = places;
    job_put_cloth(room->a, &job, &cloth);
    assert_int_equal(laid_on(job_with_size(room->a, &job, 0, room->errs)), 2); /* over each other on the way by hand */
    room_nothing_told(room);
}

static void a_cloth_keeps_what_fits_on_it(void **state)
{
    struct room *room = *state;
    const struct job *job = job_with_ready(room->a, laid(room), PATTERN_FABRIC, CLOTH_PRESS, true);
    char name[] = "Wool";
    struct cloth cloth = { .name = name, .unit = UNITS_CM, .width_mm = 950 };
    job = job_with_cloth(room->a, job, PATTERN_FABRIC, &cloth, room->errs);
    room_nothing_told(room);
    name[0] = 'x';
    assert_string_equal(job_find_cloth(job, PATTERN_FABRIC)->cloth.name, "Wool");
    assert_int_equal(laid_on(job), 2);
    assert_true(job->ticket.ready[PATTERN_FABRIC][CLOTH_PRESS]);
    comes_back(room, job);
    cloth.width_mm = 890; /* 90 cm of pieces */
    assert_int_equal(laid_on(job_with_cloth(room->a, job, PATTERN_FABRIC, &cloth, room->errs)), 0);
    room_only_told(room, "job.layout_off");
    room_forget(room);
    const struct job_torn torn = { .is_kept = true, .off_square_mm = 10 };
    const struct job *strips = job_with_torn(room->a, job, PATTERN_FABRIC, torn, room->errs);
    room_only_told(room, "job.torn_anew");
    assert_true(job_find_cloth(strips, PATTERN_FABRIC)->torn.is_kept);
    assert_int_equal(laid_on(strips), 0);
    job = job_without_cloth(room->a, job, PATTERN_FABRIC);
    assert_null(job_find_cloth(job, PATTERN_FABRIC));
    assert_false(job->ticket.ready[PATTERN_FABRIC][CLOTH_PRESS]);
}

static void the_ticket_keeps_what_is_written_on_it(void **state)
{
    struct room *room = *state;
    char field[] = "measurements.waist", words[] = "about 3";
    const struct job *job = job_with_unread(room->a, job_begin(room->a), field, words);
    field[0] = words[0] = 'x';
    job = job_with_unread(room->a, job, "cloth.length", "");
    job = job_with_name(room->a, job, "Guide’s pinafore");
    job = job_with_way(room->a, job, JOB_CHALK_ALL);
    job = job_with_page(room->a, job, JOB_PAGE_PLACING);
    job = job_with_ready(room->a, job, PATTERN_LINING, CLOTH_MARK_WAY, true);
    job = job_with_surface(room->a, job, (struct calibration_surface){ .cloth_mm = 2, .layers = 2 });
    comes_back(room, job);
    const char *text = job_print(room->a, job);
    struct job back;
    assert_true(job_parse_begun(room->a, "j.json", text, strlen(text), &back, room->errs));
    assert_string_equal(back.ticket.name, "Guide’s pinafore");
    assert_int_equal(back.ticket.way, JOB_CHALK_ALL);
    assert_int_equal(back.ticket.page, JOB_PAGE_PLACING);
    assert_true(back.ticket.ready[PATTERN_LINING][CLOTH_MARK_WAY]);
    assert_false(back.ticket.ready[PATTERN_FABRIC][CLOTH_MARK_WAY]);
    assert_string_equal(job_words_of(back.ticket.unread, "measurements.waist"), "about 3");
    assert_string_equal(job_words_of(back.ticket.unread, "cloth.length"), "");
    assert_null(job_words_of(back.ticket.unread, "cloth.width"));
    assert_int_equal(back.surface.layers, 2);
    job = job_with_unread(room->a, job, "measurements.waist", "3 m");
    assert_int_equal(job->ticket.unread.count, 2);
    job = job_with_unread(room->a, job_with_unread(room->a, job, "measurements.waist", NULL), "none", NULL);
    assert_int_equal(job->ticket.unread.count, 1);
    assert_null(job_with_name(room->a, job, "")->ticket.name);
}

/* What no line goes by does not change what a journal goes by. */
static void a_journal_goes_by_what_is_cut_alone(void **state)
{
    struct room *room = *state;
    const struct job *job = finished(room), *named = job_with_name(room->a, job, "Apron");
    named = job_with_note(room->a, job_with_size_confirmed(room->a, named, true), "front", "match");
    assert_string_equal(job_print_choices(room->a, named), job_print_choices(room->a, job));
    const struct job *larger = job_with_size(room->a, job, 2, room->errs);
    assert_string_not_equal(job_print_choices(room->a, larger), job_print_choices(room->a, job));
    assert_non_null(strstr(job_print_choices(room->a, job), "\"version\": 2"));
}

static const char *version_2; /* a job as the program wrote it before there was a ticket */

/* What was settled then stays so, and a journal of it goes by the text that it had. */
static void a_job_of_version_2_is_still_read(void **state)
{
    struct room *room = *state;
    struct base_bytes was;
    struct job job;
    assert_true(base_file_read(room->a, version_2, JOB_MOST_SOURCE_BYTES, &was, room->errs));
    assert_true(job_read(room->a, version_2, &job, room->errs));
    room_nothing_told(room);
    assert_string_equal(job_print_choices(room->a, &job), was.data);
    assert_true(job.ticket.size_confirmed && job.ticket.size_by_hand);
    assert_null(job.ticket.name);
    comes_back(room, &job);
    assert_non_null(strstr(job_print(room->a, &job), "\"version\": 3"));
    const struct job *longer = job_with_measurement(room->a, &job, "waist", 860, room->errs);
    assert_near(longer->position, 1, 0); /* M, whatever her waist, till she lets it follow */
    assert_near(job_with_size_by_body(room->a, longer, room->errs)->position, 2, 0);
}

static void a_table_can_be_told_and_taken_away(void **state)
{
    struct room *room = *state;
    const char *path =
        put(room, "t.json",
            "{ 'chalklight': 'table', 'version': 1, 'name': 'Kitchen', 'made': '2026-11-25', 'sample': false,"
            "  'unit': 'mm', 'frame': { 'width': 1920, 'height': 1080 },"
            "  'map': { 'h': [700, 0, 750, 0, -700, 420, 0, 0], 'k1': 0, 'p1': 0, 'p2': 0 },"
            "  'residual': { 'rms': 0.3, 'worst': 0.8 }, 'readings': 12 }");
    const struct job *job = job_with_table(room->a, job_begin(room->a), path, room->errs);
    comes_back(room, job);
    assert_string_equal(job->table.name, "Kitchen");
    assert_ptr_equal(job_with_table(room->a, job, put(room, "x.json", "{}"), room->errs), job);
    room_only_told(room, "json.not_ours");
    assert_false(job_with_table(room->a, job, NULL, room->errs)->has_table);
}

static void a_ticket_that_cannot_be_is_told_at_its_place(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *members, *code, *path;
    } rows[] = {
        { "'ticket': 3", "json.wrong_type", "ticket" },
        { "'ticket': { 'nam': 'x' }", "json.unknown_name", "ticket.nam" },
        { "'ticket': { 'name': '' }", "json.text_size", "ticket.name" },
        { "'ticket': { 'way': 'tear' }", "job.no_way", "ticket.way" },
        { "'ticket': { 'page': 'attic' }", "job.no_page", "ticket.page" },
        { "'ticket': { 'size_confirmed': 1 }", "json.wrong_type", "ticket.size_confirmed" },
        { "'ticket': { 'ready': { 'felt': [] } }", "json.unknown_name", "ticket.ready.felt" },
        { "'ticket': { 'ready': { 'fabric': ['iron'] } }", "job.no_step", "ticket.ready.fabric[0]" },
        { "'ticket': { 'ready': { 'fabric': [1] } }", "json.wrong_type", "ticket.ready.fabric[0]" },
        { "'ticket': { 'unread': { 'x': 1 } }", "json.wrong_type", "ticket.unread.x" },
        { "'ticket': { 'notes': [] }", "json.wrong_type", "ticket.notes" },
        { "'view': 'A'", "job.no_pattern", "view" },
        { "'alterations': []", "job.no_pattern", "alterations" },
        { "'body': { 'copy': 'x' }", "json.syntax", NULL },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct job job;
        const char *text =
            room_json(room, base_arena_print(room->a, "{ 'chalklight': 'job', 'version': 3, %s }", rows[i].members));
        assert_false(job_parse_begun(room->a, "j.json", text, strlen(text), &job, room->errs));
        if (rows[i].path)
            room_only_told_at(room, rows[i].code, rows[i].path);
        assert_int_equal(room->errs->faults, 1);
        room_forget(room);
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        room_test(a_job_begins_blank_and_is_filled_page_by_page),
        room_test(what_a_file_lacks_is_told_in_one_sentence),
        room_test(the_size_follows_her_measurements_unless_she_chose_it),
        room_test(so_does_the_cup_group),
        room_test(a_blend_follows_the_body_or_the_hand),
        room_test(alterations_are_read_anew),
        room_test(an_alteration_that_cannot_be_made_any_more_is_told),
        room_test(what_is_made_to_a_body_needs_measurements),
        room_test(a_body_of_a_file_takes_the_place_of_what_was_typed),
        room_test(another_pattern_keeps_what_it_has_by_name),
        room_test(a_layout_stays_while_its_pieces_fit),
        room_test(a_layout_that_was_wrong_already_stays_as_it_is),
        room_test(a_cloth_keeps_what_fits_on_it),
        room_test(the_ticket_keeps_what_is_written_on_it),
        room_test(a_journal_goes_by_what_is_cut_alone),
        room_test(a_job_of_version_2_is_still_read),
        room_test(a_table_can_be_told_and_taken_away),
        room_test(a_ticket_that_cannot_be_is_told_at_its_place),
    };
    if (argc < 2)
        return 1;
    version_2 = argv[1];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
