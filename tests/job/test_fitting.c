/* How a job is fitted: to the body, blended, altered in words, as a trial garment; kept in its file and read again. */
#include "draft/draft.h"
#include "job/job.h"
#include "support/room.h"

#define PATTERN                                                                                                        \
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'cm', 'sizes': ['1', '2', '3'],\n"                  \
    "  'chart': { 'bust': [80, 90, 100], 'waist': [60, 70, 80], 'back length': [40, 41, 42] },\n"                      \
    "  'main_measurement': 'bust', 'measurements': ['knee'],\n"                                                        \
    "  'pieces': [ { 'name': 'front', 'points': { 'a': [0, 0], 'b': ['waist / 4', 0], 'c': ['bust / 4', 40],"          \
    "      'd': [0, 40], 'l': [0, 10], 'm': [5, 10] },\n"                                                              \
    "    'outline': [ { 'name': 'waist', 'path': ['a', 'b'] }, { 'name': 'side', 'path': ['b', 'c'] },"                \
    "      { 'name': 'top', 'path': ['c', 'd'] }, { 'name': 'centre', 'path': ['d', 'a'] } ],\n"                       \
    "    'levels': { 'waist': ['a', 'b'], 'bust': ['c', 'd'] },\n"                                                     \
    "    'lines': [ { 'kind': 'lengthen', 'name': 'body', 'measure': 'back length', 'from': 'l', 'to': 'm' },"         \
    "      { 'kind': 'lengthen', 'name': 'neck', 'measure': 'knee', 'from': 'l', 'to': 'm' } ] },\n"                   \
    "  { 'name': 'facing', 'rectangle': { 'width': 5, 'height': 'length(front.side)' }, 'trial': false } ],\n"         \
    "  'seams': [ { 'name': 'side, long', 'join': [['front.side'], ['front.side']] } ],\n"                             \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'front', 'pairs': 1 }, { 'piece': 'facing', 'count': 1 } ] } ] }"
#define BODY                                                                                                           \
    "{ 'chalklight': 'body', 'version': 1, 'name': 'Guide', 'unit': 'cm',"                                             \
    "  'measurements': { 'bust': 88, 'waist': 75, 'knee': 45 } }"

static struct job_choices choices_in(struct room *room)
{
    return (struct job_choices){ .pattern = room_put(room, "p.json", room_json(room, PATTERN)),
                                 .body = room_put(room, "b.json", room_json(room, BODY)) };
}

/* Made, printed, and read again from its text. */
static struct job made(struct room *room, struct job_choices choices)
{
    struct job job, again;
    bool ok = job_make(room->a, &choices, &job, NULL, room->errs);
    room_nothing_told(room);
    assert_true(ok);
    const char *text = job_print(room->a, &job);
    assert_true(job_parse(room->a, "j.json", text, strlen(text), &again, room->errs));
    room_nothing_told(room);
    assert_string_equal(job_print(room->a, &again), text);
    return again;
}

static const struct draft_sized *sized(struct room *room, const struct job *job)
{
    struct draft_figure figure = job_figure(job);
    const struct draft_sized *s = draft_size(room->a, job->pattern, &figure, room->errs);
    room_nothing_told(room);
    return s;
}

static void a_job_is_made_to_the_size_or_to_the_body(void **state)
{
    struct room *room = *state;
    struct job_choices choices = choices_in(room);
    struct job job = made(room, choices);
    assert_near(sized(room, &job)->pieces[0].points[1].x, 175, 1e-9); /* waist of size 2 */
    choices.made_to = "body";
    job = made(room, choices);
    assert_near(sized(room, &job)->pieces[0].points[1].x, 187.5, 1e-9); /* 75 cm, her own */
    assert_near(sized(room, &job)->pieces[0].points[2].x, 220, 1e-9);
}

/* Waist 75 lies half way from 70 to 80: position 1.5. */
static void a_job_is_blended_by_the_body_or_by_hand(void **state)
{
    struct room *room = *state;
    struct job_choices choices = choices_in(room);
    choices.blend = "body";
    struct job job = made(room, choices);
    assert_near(job.level_position[1], 1.5, 1e-9);
    assert_near(job.level_position[0], 0.8, 1e-9); /* bust 88 from 80 to 90 */
    assert_near(job.level_position[2], 1, 0);      /* not measured: the size */
    assert_near(sized(room, &job)->pieces[0].points[1].x, 187.5, 1e-9);
    choices.blend = "waist 3, bust 1 to 2";
    job = made(room, choices);
    assert_near(job.level_position[0], 0.5, 0);
    assert_near(sized(room, &job)->pieces[0].points[1].x, 200, 1e-9);
}

/* Size 2, position 1. Whatever her waist, a row of 60 cm in all sizes says nothing; where 60 cm are both 1 and 2, 59 and
 * 60 cm are 2, the nearest to the size; 60.5 is half way from 2 to 3, and past the end is 3. Hand-worked. */
static void a_blend_keeps_the_size_where_a_row_tells_none(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *row, *size, *own;
        double position;
    } rows[] = {
        { "[60, 60, 60]", "2", "75", 1 },   { "[60, 60, 60]", "2", "50", 1 }, { "[60, 60, 61]", "2", "60", 1 },
        { "[60, 60, 61]", "2", "59", 1 },   { "[60, 60, 61]", "1", "60", 0 }, { "[60, 60, 61]", "1 to 2", "60", 0.5 },
        { "[60, 60, 61]", "3", "60", 1 },   { "[60, 61, 61]", "2", "65", 1 }, { "[60, 61, 61]", "1", "65", 1 },
        { "[60, 60, 61]", "2", "60.5", 1.5 },
    };
    static const char written[] = "\"waist\": [60, 70, 80]", measured[] = "\"waist\": 75";
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *p = room_json(room, PATTERN), *b = room_json(room, BODY);
        const char *at = strstr(p, written), *own = strstr(b, measured);
        p = base_arena_print(room->a, "%.*s\"waist\": %s%s", (int)(at - p), p, rows[i].row, at + strlen(written));
        b = base_arena_print(room->a, "%.*s\"waist\": %s%s", (int)(own - b), b, rows[i].own, own + strlen(measured));
        struct job_choices choices = { .pattern = room_put(room, "flat.json", p),
                                       .body = room_put(room, "b.json", b),
                                       .size = rows[i].size,
                                       .blend = "body" };
        struct job job;
        assert_true(job_make(room->a, &choices, &job, NULL, room->errs));
        assert_near(job.level_position[1], rows[i].position, 1e-9);
    }
}

static void alterations_are_told_in_words(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *words;
        enum draft_alteration_kind kind;
        double mm;
    } rows[] = {
        { "lengthen body by 2 cm", DRAFT_LENGTHEN, 20 },
        { "lengthen body by 1 1/2 in", DRAFT_LENGTHEN, 38.1 },
        { "shorten body by 5", DRAFT_LENGTHEN, -50 }, /* bare numbers as the body's */
        { "lengthen body to 43 cm", DRAFT_LENGTHEN, 20 },
        { "take in side at waist by 6 mm", DRAFT_TAKE_IN, 6 },
        { "let out side, long at waist by 6 mm", DRAFT_TAKE_IN, -6 },
        { "allow 4 cm at front.waist", DRAFT_ALLOWANCE, 40 },
        { "allow 0 at front.waist", DRAFT_ALLOWANCE, 0 },
        { "Lengthen  body   BY 2 cm", DRAFT_LENGTHEN, 20 },
        { "side seam at waist, take in 6 mm each side", DRAFT_TAKE_IN, 6 }, /* as it is pinned */
        { "side at waist, let out 6 mm", DRAFT_TAKE_IN, -6 },
        { "take in side seam at waist by 6 mm each side", DRAFT_TAKE_IN, 6 },
        { "cut facing 8 cm wide", DRAFT_WIDTH, 80 },
        { "Facing 3 1/2 in wide", DRAFT_WIDTH, 88.9 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct job_choices choices = choices_in(room);
        choices.alter = rows[i].words;
        struct job job = made(room, choices);
        assert_int_equal(job.alteration_count, 1);
        assert_int_equal(job.alterations[0].kind, rows[i].kind);
        assert_near(job.alterations[0].amount_mm, rows[i].mm, 1e-9);
        assert_string_equal(job.alteration_texts[0], rows[i].words);
    }
}

/* Her back is 42.4 cm long, size 2 of the chart has 41: 14 mm. */
static void a_line_is_lengthened_to_what_she_measures(void **state)
{
    struct room *room = *state;
    struct job_choices choices = choices_in(room);
    const char *body = room_json(room, BODY), *at = strstr(body, "\"knee\"");
    choices.body = room_put(
        room, "long.json", base_arena_print(room->a, "%.*s\"back length\": 42.4, %s", (int)(at - body), body, at));
    choices.alter = "lengthen body to body";
    struct job job = made(room, choices);
    assert_near(job.alterations[0].amount_mm, 14, 1e-9);
    assert_string_equal(job.alteration_texts[0], "lengthen body to body");
}

/* A bare number under another unit than the job's is kept with that unit; 3 1/2 in are 88.9 mm (by definition). */
static void bare_numbers_are_kept_as_they_were_meant(void **state)
{
    struct room *room = *state;
    static const enum units_length in = UNITS_IN;
    static const struct {
        const char *words, *kept;
        double mm;
    } rows[] = {
        { "cut facing 3 1/2 wide", "cut facing 3 1/2 in wide", 88.9 },
        { "allow 2 at front.waist", "allow 2 in at front.waist", 50.8 },
        { "side at waist, take in 1/4 each side", "side at waist, take in 1/4 in each side", 6.35 },
        { "cut facing 8 cm wide", "cut facing 8 cm wide", 80 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct job_choices choices = choices_in(room);
        choices.alter = rows[i].words;
        choices.unit = &in;
        struct job job = made(room, choices);
        assert_near(job.alterations[0].amount_mm, rows[i].mm, 1e-9);
        assert_string_equal(job.alteration_texts[0], rows[i].kept);
    }
}

static void a_rectangle_has_one_width(void **state)
{
    struct room *room = *state;
    struct job_choices choices = choices_in(room);
    choices.alter = "cut facing 8 cm wide; lengthen body by 2 cm; cut facing 9 cm wide";
    struct job job = made(room, choices);
    assert_int_equal(job.alteration_count, 2);
    assert_string_equal(job.alteration_texts[0], "lengthen body by 2 cm");
    assert_string_equal(job.alteration_texts[1], "cut facing 9 cm wide");
}

/* Drawn 41 cm: "by 1 cm" and then "to 43 cm" is 43 cm, 1 cm more; an edge has one allowance, the last. */
static void a_length_to_be_had_counts_what_came_before(void **state)
{
    struct room *room = *state;
    struct job_choices choices = choices_in(room);
    choices.alter = "lengthen body by 1 cm; lengthen body to 43 cm; allow 2 cm at front.waist; allow 3 cm at front.waist";
    struct job job = made(room, choices);
    assert_int_equal(job.alteration_count, 3);
    assert_near(job.alterations[1].amount_mm, 10, 1e-9);
    assert_near(job.alterations[2].amount_mm, 30, 1e-9);
    assert_near(sized(room, &job)->pieces[0].points[1].y, -20, 1e-9);
}

static void several_alterations_have_semicolons_between(void **state)
{
    struct room *room = *state;
    struct job_choices choices = choices_in(room);
    choices.alter = " lengthen body by 2 cm ;take in side at waist by 6 mm;";
    struct job job = made(room, choices);
    assert_int_equal(job.alteration_count, 2);
    const struct draft_sized *s = sized(room, &job);
    assert_near(s->pieces[0].points[1].x, 169, 1e-9);
    assert_near(s->pieces[0].points[1].y, -20, 1e-9);
    assert_near(s->pieces[1].points[2].y, geometry_path_length(s->pieces[0].edge_paths[1]), 1e-9);
}

static void what_is_wrong_with_the_words_is_told(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *alter, *blend, *made_to, *code;
    } rows[] = {
        { "make it nicer", NULL, NULL, "job.alteration" },
        { "lengthen body", NULL, NULL, "job.alteration" },
        { "lengthen skirt by 2 cm", NULL, NULL, "job.no_line" },
        { "lengthen body by two", NULL, NULL, "job.alteration_length" },
        { "lengthen body by -2 cm", NULL, NULL, "job.alteration_none" },
        { "lengthen body by 2 m", NULL, NULL, "job.alteration_large" },
        { "lengthen neck to 60 cm", NULL, NULL, "job.no_measure" }, /* the chart has no knee */
        { "lengthen body to body", NULL, NULL, "job.no_own_measure" },
        { "take in hem at waist by 6 mm", NULL, NULL, "job.no_seam" },
        { "take in side at knee by 6 mm", NULL, NULL, "job.no_level" },
        { "take in side at back length by 6 mm", NULL, NULL, "job.no_level" },
        { "take in side at waist by 6 kg", NULL, NULL, "job.alteration_length" },
        { "take in side by 6 mm", NULL, NULL, "job.alteration" },
        { "fuller bust", NULL, NULL, "job.no_spread" },
        { "allow 2 cm at front.hem", NULL, NULL, "job.no_edge" },
        { "allow 2 cm at hem", NULL, NULL, "job.no_edge" },
        { "allow 2 m at front.waist", NULL, NULL, "job.alteration_large" },
        { "allow -1 cm at front.waist", NULL, NULL, "job.alteration_none" },
        { "cut front 8 cm wide", NULL, NULL, "job.no_rectangle" },
        { "cut facing wide", NULL, NULL, "job.no_rectangle" },
        { "facing two hands wide", NULL, NULL, "job.alteration_length" },
        { "cut facing 0 cm wide", NULL, NULL, "job.no_width" },
        { "cut facing 30 m wide", NULL, NULL, "job.no_width" },
        { NULL, "waist", NULL, "job.blend" },
        { NULL, "waist 9", NULL, "job.blend_size" },
        { NULL, "Waist 2", NULL, "job.blend" },
        { NULL, "", NULL, "job.blend_empty" },
        { NULL, "waist 1, waist 2", NULL, "job.level_twice" },
        { NULL, NULL, "measure", "job.made_to" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct job_choices choices = choices_in(room);
        struct job job;
        choices.alter = rows[i].alter;
        choices.blend = rows[i].blend;
        choices.made_to = rows[i].made_to;
        assert_false(job_make(room->a, &choices, &job, NULL, room->errs));
        room_only_told(room, rows[i].code);
        room_forget(room);
    }
}

/* The bust's level of a pattern in cup groups is that of her own: 88 in group D, which is drawn for 60, 70 and 90. */
static void a_blend_looks_for_the_bust_in_her_cup_group(void **state)
{
    struct room *room = *state;
    const char *text = room_json(room, PATTERN);
    const char *main = "\"main_measurement\": \"bust\",";
    const char *at = strstr(text, main);
    text = base_arena_print(room->a,
                            "%.*s\"main_measurement\": \"waist\", \"cup_groups\": [ { \"name\": \"D\", "
                            "\"bust\": [60, 70, 90] } ],%s",
                            (int)(at - text), text, at + strlen(main));
    struct job_choices choices = { .pattern = room_put(room, "cups.json", text),
                                   .body = room_put(room, "b.json", room_json(room, BODY)),
                                   .blend = "body" };
    struct job job = made(room, choices);
    assert_near(job.level_position[0], 1.9, 1e-9); /* 88 from 70 to 90 */
}

static void without_a_body_nothing_is_made_to_it(void **state)
{
    struct room *room = *state;
    struct job_choices choices = choices_in(room);
    struct job job;
    choices.body = NULL;
    choices.size = "2";
    choices.made_to = "body";
    assert_false(job_make(room->a, &choices, &job, NULL, room->errs));
    room_only_told(room, "job.no_body");
}

static void a_trial_garment_is_cut_of_main_pieces_alone(void **state)
{
    struct room *room = *state;
    struct job_choices choices = choices_in(room);
    choices.trial = true;
    struct job job = made(room, choices);
    struct draft_figure figure = job_figure(&job);
    struct draft draft;
    assert_true(draft_make(room->a, job.pattern, &figure, job.view, &draft, room->errs));
    assert_int_equal(draft.cut_count, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_job_is_made_to_the_size_or_to_the_body),
        room_test(a_job_is_blended_by_the_body_or_by_hand),
        room_test(a_blend_keeps_the_size_where_a_row_tells_none),
        room_test(alterations_are_told_in_words),
        room_test(a_line_is_lengthened_to_what_she_measures),
        room_test(bare_numbers_are_kept_as_they_were_meant),
        room_test(a_rectangle_has_one_width),
        room_test(a_length_to_be_had_counts_what_came_before),
        room_test(several_alterations_have_semicolons_between),
        room_test(what_is_wrong_with_the_words_is_told),
        room_test(a_blend_looks_for_the_bust_in_her_cup_group),
        room_test(without_a_body_nothing_is_made_to_it),
        room_test(a_trial_garment_is_cut_of_main_pieces_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
