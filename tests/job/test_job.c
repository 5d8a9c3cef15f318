#include "job/job.h"
#include "support/room.h"
#include "json/tree.h"

/* Line ends of another system, letters beyond ASCII, a tab and quotes inside a name: copies must keep them all. */
#define PATTERN                                                                                                        \
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Möwe \\'G\\' ½', 'unit': 'cm',\r\n"                           \
    "\t'sizes': ['S', 'M', 'L'], 'chart': { 'upper bust': [80, 84, 88], 'hip': [90, 94, 98] },\n"                      \
    "  'main_measurement': 'upper bust',\n"                                                                            \
    "  'cup_groups': [ { 'name': 'A-B', 'bust': [84, 88, 92] }, { 'name': 'C-D', 'bust': [89, 93, 97] } ],\n"          \
    "  'pieces': [ { 'name': 'p', 'rectangle': { 'width': 1, 'height': 1 } } ],\n"                                     \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] },\n"                                         \
    "    { 'name': 'B', 'cut': [ { 'piece': 'p', 'count': 2 } ] } ] }\n\n"
#define PLAIN_PATTERN                                                                                                  \
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Plain', 'unit': 'cm', 'sizes': ['one'],"                        \
    "  'chart': { 'hip': [90] }, 'main_measurement': 'hip',"                                                           \
    "  'pieces': [ { 'name': 'p', 'rectangle': { 'width': 1, 'height': 1 } } ],"                                       \
    "  'views': [ { 'name': 'only', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }"
#define BODY                                                                                                           \
    "{ 'chalklight': 'body', 'version': 1, 'name': 'Guide', 'unit': 'cm',"                                             \
    "  'measurements': { 'upper bust': 85, 'bust': 93.5, 'hip': 91 } }"
#define TABLE                                                                                                          \
    "{ 'chalklight': 'table', 'version': 1, 'name': 'Kitchen', 'made': '2026-11-25', 'sample': false, 'unit': 'mm',"   \
    "  'frame': { 'width': 1920, 'height': 1080 },"                                                                    \
    "  'map': { 'h': [700, 0, 750, 0, -700, 420, 0, 0], 'k1': 0, 'p1': 0, 'p2': 0 },"                                  \
    "  'residual': { 'rms': 0.3, 'worst': 0.8 }, 'readings': 12 }"

/* A room with a folder in which the sources of a job lie. */
struct workplace {
    struct room room;
    const char *pattern, *body, *table;
};

static int open_workplace(void **state)
{
    static struct workplace w;
    room_init(&w.room);
    w.pattern = room_put(&w.room, "pattern.json", room_json(&w.room, PATTERN));
    w.body = room_put(&w.room, "body.json", room_json(&w.room, BODY));
    w.table = room_put(&w.room, "table.json", room_json(&w.room, TABLE));
    *state = &w;
    return 0;
}

static struct job_choices choices_of(const struct workplace *w)
{
    return (struct job_choices){ .pattern = w->pattern, .body = w->body, .table = w->table, .view = "B" };
}

static struct job make(struct workplace *w)
{
    struct job job;
    struct job_choices choices = choices_of(w);
    assert_true(job_make(w->room.a, &choices, &job, NULL, w->room.errs));
    return job;
}

static const char *refused(struct workplace *w, struct job_choices choices, const char *code)
{
    struct job job;
    assert_false(job_make(w->room.a, &choices, &job, NULL, w->room.errs));
    return room_only_told(&w->room, code)->args[1].text;
}

static void assert_same_source(const struct job_source *got, const struct job_source *want)
{
    assert_string_equal(got->path, want->path);
    assert_int_equal(got->text.count, want->text.count);
    assert_memory_equal(got->text.data, want->text.data, want->text.count);
}

static void a_job_is_made_from_the_body_and_the_view(void **state)
{
    struct workplace *w = *state;
    struct job job;
    struct sizing_choice choice;
    struct job_choices choices = choices_of(w);
    assert_true(job_make(w->room.a, &choices, &job, &choice, w->room.errs));
    assert_int_equal(job.view, 1);
    assert_near(job.position, 1, 0);    /* 85 lies nearest to 84 */
    assert_int_equal(job.cup_group, 1); /* and 93.5, at that size, to 93 */
    assert_int_equal(choice.size, 1);
    assert_int_equal(choice.reason_count, 3);
    assert_string_equal(job.pattern->name, "Möwe \"G\" ½");
    assert_string_equal(job.body->name, "Guide");
    assert_true(job.has_table);
    assert_string_equal(job.table.name, "Kitchen");
}

/* Sizes and cup groups of a pattern whose figures are on paper alone. */
#define PAPER_PATTERN                                                                                                  \
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Paper', 'unit': 'cm', 'sizes': ['S', 'M', 'L'],"                \
    "  'cup_groups': [ { 'name': 'A-B' }, { 'name': 'C-D' } ],"                                                        \
    "  'pieces': [ { 'name': 'p', 'rectangle': { 'width': [1, 2, 4], 'height': 1 } } ],"                               \
    "  'views': [ { 'name': 'B', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }"

/* There is nothing to choose. */
static void the_only_size_of_a_pattern_without_a_chart_is_taken(void **state)
{
    struct workplace *w = *state;
    struct job job;
    struct sizing_choice choice;
    struct job_choices choices = choices_of(w);
    choices.pattern = w->pattern =
        room_put(&w->room, "pattern.json",
                 room_json(&w->room, "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'cutting line', 'name': 'P', "
                                     "'unit': 'cm', 'sizes': ['one size'], 'pieces': [ { 'name': 'p', "
                                     "'rectangle': { 'width': 10, 'height': 20 }, 'allowance': 1 } ], 'views': [ "
                                     "{ 'name': 'B', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }"));
    choices.body = choices.size = NULL;
    assert_true(job_make(w->room.a, &choices, &job, &choice, w->room.errs));
    assert_near(job.position, 0, 0);
    room_nothing_told(&w->room);
}

static void without_a_chart_sizes_and_cup_groups_are_named(void **state)
{
    struct workplace *w = *state;
    struct job job;
    struct sizing_choice choice;
    struct job_choices choices = choices_of(w);
    choices.pattern = w->pattern = room_put(&w->room, "pattern.json", room_json(&w->room, PAPER_PATTERN));
    choices.size = "M to L";
    choices.cup_group = "C-D";
    assert_true(job_make(w->room.a, &choices, &job, &choice, w->room.errs));
    assert_near(job.position, 1.5, 0);
    assert_int_equal(job.cup_group, 1);
    assert_int_equal(choice.reason_count, 0);
    room_nothing_told(&w->room);
    choices.size = NULL;
    refused(w, choices, "job.no_chart");
    room_forget(&w->room);
    choices.body = NULL;
    refused(w, choices, "job.no_chart");
    room_forget(&w->room);
    choices.size = "M";
    choices.cup_group = NULL;
    refused(w, choices, "job.no_bust");
    room_forget(&w->room);
    choices.cup_group = "A-B";
    choices.blend = "hip M";
    refused(w, choices, "job.no_rows");
}

static void a_job_in_a_named_size_needs_no_body(void **state)
{
    struct workplace *w = *state;
    struct job job, again;
    struct job_choices choices = choices_of(w);
    choices.body = NULL;
    choices.size = "S to M";
    choices.cup_group = "A-B";
    assert_true(job_make(w->room.a, &choices, &job, NULL, w->room.errs));
    const char *text = job_print(w->room.a, &job);
    assert_true(job_parse(w->room.a, "j.json", text, strlen(text), &again, w->room.errs));
    assert_null(again.body);
    assert_near(again.position, 0.5, 0);
    assert_string_equal(job_whom_text(w->room.a, &again), "size S to M");
    const char *head = strchr(text, ',') + 1; /* behind "chalklight": "job" */
    const char *to_body = base_arena_print(w->room.a, "{ \"chalklight\": \"job\", \"made_to\": \"body\",%s", head);
    assert_false(job_parse(w->room.a, "j.json", to_body, strlen(to_body), &again, w->room.errs));
    room_only_told(&w->room, "job.no_body");
}

/* As for drafted pieces: nothing but names. */
static void without_a_body_size_and_cup_group_are_named(void **state)
{
    struct workplace *w = *state;
    struct job_choices choices = choices_of(w);
    struct job job = { .pattern = make(w).pattern };
    choices.size = job.pattern->sizes[2];
    choices.cup_group = job.pattern->cup_groups[1].name;
    assert_true(job_choose_size(w->room.a, &choices, &job, NULL, w->room.errs));
    assert_near(job.position, 2, 0);
    assert_int_equal(job.cup_group, 1);
    choices.size = NULL;
    assert_false(job_choose_size(w->room.a, &choices, &job, NULL, w->room.errs));
    room_only_told(&w->room, "job.which_size");
    room_forget(&w->room);
    choices.size = job.pattern->sizes[2];
    choices.cup_group = NULL;
    assert_false(job_choose_size(w->room.a, &choices, &job, NULL, w->room.errs));
    room_only_told(&w->room, "job.which_cup_group");
}

static void what_the_person_names_goes_before_her_measurements(void **state)
{
    struct workplace *w = *state;
    static const struct {
        const char *size, *cup_group;
        double position;
        int group;
    } rows[] = { { "L", NULL, 2, 0 },
                 { NULL, "A-B", 1, 0 },
                 { "S", "C-D", 0, 1 },
                 { "M to L", NULL, 1.5, 1 } /* 93.5 lies nearer to 95 than to 90 */,
                 { "S to M at 40%", "C-D", 0.4, 1 } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct job job;
        struct job_choices choices = choices_of(w);
        choices.size = rows[i].size;
        choices.cup_group = rows[i].cup_group;
        assert_true(job_make(w->room.a, &choices, &job, NULL, w->room.errs));
        assert_near(job.position, rows[i].position, 0);
        assert_int_equal(job.cup_group, rows[i].group);
    }
}

static void what_is_named_needs_no_measurement(void **state)
{
    struct workplace *w = *state;
    w->body = room_put(&w->room, "body.json",
                       room_json(&w->room, "{ 'chalklight': 'body', 'version': 1, 'name': 'Guide', 'unit': 'cm',"
                                           "  'measurements': { 'upper bust': 85 } }"));
    struct job job;
    struct job_choices choices = choices_of(w);
    choices.cup_group = "A-B";
    assert_true(job_make(w->room.a, &choices, &job, NULL, w->room.errs));
    assert_near(job.position, 1, 0);
    room_nothing_told(&w->room);
}

static void a_pattern_of_one_view_needs_no_view_named(void **state)
{
    struct workplace *w = *state;
    struct job job;
    struct job_choices choices = { .pattern = room_put(&w->room, "plain.json", room_json(&w->room, PLAIN_PATTERN)),
                                   .body = w->body };
    assert_true(job_make(w->room.a, &choices, &job, NULL, w->room.errs));
    assert_int_equal(job.view, 0);
    assert_int_equal(job.cup_group, PATTERN_NONE);
    assert_false(job.has_table);
}

static void a_job_comes_back_from_its_text_as_it_was(void **state)
{
    struct workplace *w = *state;
    struct room *room = &w->room;
    static const double positions[] = { 0, 1, 1.0 / 3, 1.9999999999999998, 2 };
    struct job job = make(w), back;
    for (size_t i = 0; i < sizeof positions / sizeof positions[0]; i++) {
        job.position = positions[i];
        const char *text = job_print(room->a, &job);
        assert_true(job_parse(room->a, "a.job", text, strlen(text), &back, room->errs));
        assert_int_equal(back.view, job.view);
        assert_int_equal(back.cup_group, job.cup_group);
        assert_memory_equal(&back.position, &job.position, sizeof job.position);
        assert_same_source(&back.pattern_source, &job.pattern_source);
        assert_same_source(&back.body_source, &job.body_source);
        assert_same_source(&back.table_source, &job.table_source);
        assert_true(back.has_table);
        assert_memory_equal(&back.table.map, &job.table.map, sizeof job.table.map);
        assert_string_equal(back.body->name, job.body->name);
        assert_string_equal(job_print(room->a, &back), text);
    }
    room_nothing_told(room);
}

static void a_job_without_cup_group_or_table_comes_back_without(void **state)
{
    struct workplace *w = *state;
    struct room *room = &w->room;
    struct job job, back;
    struct job_choices choices = { .pattern = room_put(&w->room, "plain.json", room_json(room, PLAIN_PATTERN)),
                                   .body = w->body };
    assert_true(job_make(room->a, &choices, &job, NULL, room->errs));
    room_forget(room); /* measurements that the plain pattern does not use */
    const char *text = job_print(room->a, &job);
    assert_true(job_parse(room->a, "a.job", text, strlen(text), &back, room->errs));
    room_nothing_told(room);
    assert_int_equal(back.cup_group, PATTERN_NONE);
    assert_false(back.has_table);
    assert_null(back.table_source.path);
}

static void a_job_owns_all_that_it_holds(void **state)
{
    struct workplace *w = *state;
    char path[4096];
    struct job job;
    struct job_choices choices = choices_of(w);
    choices.pattern = strcpy(path, w->pattern);
    assert_true(job_make(w->room.a, &choices, &job, NULL, w->room.errs));
    memset(path, 'x', strlen(path));
    assert_string_equal(job.pattern_source.path, w->pattern);
}

/* What was made before there was a surface has none, and is written as it was. */
static void a_job_keeps_what_is_cut_on(void **state)
{
    struct workplace *w = *state;
    struct room *room = &w->room;
    static const struct calibration_surface rows[] = {
        { 0 },
        { 3, 2, CALIBRATION_MAT_STAYS, 0 },
        { 0.7, 1, CALIBRATION_MAT_GOES, 3 },
        { 0, 0, CALIBRATION_MAT_COMES, 2.5 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct job job, back;
        struct job_choices choices = choices_of(w);
        choices.surface = rows[i];
        assert_true(job_make(room->a, &choices, &job, NULL, room->errs));
        const char *text = job_print(room->a, &job);
        assert_int_equal(strstr(text, "surface") != NULL, i > 0);
        assert_true(job_parse(room->a, "a.job", text, strlen(text), &back, room->errs));
        assert_near(back.surface.cloth_mm, rows[i].cloth_mm, 0);
        assert_int_equal(back.surface.layers, rows[i].layers);
        assert_int_equal(back.surface.mat, rows[i].mat);
        assert_near(back.surface.mat_mm, rows[i].mat_mm, 0);
    }
    room_nothing_told(room);
}

/* Every prefix of a job's text that is no job: a file cut off by a full disk or a broken copy. */
static void a_job_file_that_breaks_off_anywhere_is_told(void **state)
{
    struct workplace *w = *state;
    struct room *room = &w->room;
    struct job job = make(w);
    const char *text = job_print(room->a, &job);
    size_t whole = strlen(text) - 1; /* all but the newline at its end */
    assert_int_equal(text[whole - 1], '}');
    for (size_t count = 0; count < whole; count++) {
        struct job back;
        assert_false(job_parse(room->a, "a.job", text, count, &back, room->errs));
        assert_int_equal(room->errs->count, 1);
        assert_string_equal(room->errs->items[0].place.file, "a.job");
        assert_true(room->errs->items[0].place.line > 0);
        room_forget(room);
    }
}

static void a_newer_job_and_another_kind_of_file_are_refused(void **state)
{
    struct room *room = &((struct workplace *)*state)->room;
    static const struct {
        const char *text, *code;
    } rows[] = {
        { "{ 'chalklight': 'job', 'version': 4 }", "json.newer" },
        { "{ 'chalklight': 'pattern', 'version': 1 }", "json.other_kind" },
        { "{ 'version': 1 }", "json.not_ours" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct job job;
        const char *text = room_json(room, rows[i].text);
        assert_false(job_parse(room->a, "a.job", text, strlen(text), &job, room->errs));
        room_only_told(room, rows[i].code);
        room_forget(room);
    }
}

/* The job's text with the first `was` in it replaced. */
static const char *with(struct room *room, const char *text, const char *was, const char *now)
{
    const char *from = room_json(room, was), *at = strstr(text, from);
    assert_non_null(at);
    return base_arena_print(room->a, "%.*s%s%s", (int)(at - text), text, room_json(room, now), at + strlen(from));
}

static void choices_that_do_not_fit_the_copies_are_told(void **state)
{
    struct workplace *w = *state;
    struct room *room = &w->room;
    struct job job = make(w), back;
    const char *text = job_print(room->a, &job);
    static const struct {
        const char *was, *now, *code;
    } rows[] = {
        { "'view': 'B'", "'view': 'C'", "job.no_view" },
        { "'size_position': 1", "'size_position': 2.5", "job.no_position" },
        { "'size_position': 1", "'size_position': -0.1", "job.no_position" },
        { "'size_position': 1", "'size_position': '1'", "json.wrong_type" },
        { "'cup_group': 'C-D'", "'cup_group': 'E'", "job.no_cup_group" },
        { "'cup_group': 'C-D',", "", "job.unfinished" },
        { "'view':", "'cloth': 1, 'view':", "json.unknown_name" },
        { "Guide\\'", "Guide\\', \\'height\\': 3", "json.unknown_name" }, /* within the body's copy */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *changed = with(room, text, rows[i].was, rows[i].now);
        assert_false(job_parse(room->a, "a.job", changed, strlen(changed), &back, room->errs));
        room_only_told(room, rows[i].code);
        room_forget(room);
    }
}

static void a_surface_that_cannot_be_is_told_at_its_place(void **state)
{
    struct workplace *w = *state;
    struct room *room = &w->room;
    struct job job = make(w), back;
    const char *text = job_print(room->a, &job);
    static const struct {
        const char *surface, *code, *path;
    } rows[] = {
        { "3", "json.wrong_type", "surface" },
        { "{ 'cloth': 3 }", "json.missing", "surface" },
        { "{ 'layers': 2 }", "json.missing", "surface" },
        { "{ 'cloth': '2 in', 'layers': 2 }", "values.out_of_bounds", "surface.cloth" },
        { "{ 'cloth': -1, 'layers': 2 }", "values.out_of_bounds", "surface.cloth" },
        { "{ 'cloth': 3, 'layers': 0 }", "json.not_whole", "surface.layers" },
        { "{ 'cloth': 3, 'layers': 101 }", "json.not_whole", "surface.layers" },
        { "{ 'cloth': 30, 'layers': 4 }", "job.too_high", "surface" },
        { "{ 'mat': 'floats' }", "job.no_mat_word", "surface.mat" },
        { "{ 'mat': 'goes' }", "json.missing", "surface" },
        { "{ 'mat': 'goes', 'mat_thickness': 60 }", "values.out_of_bounds", "surface.mat_thickness" },
        { "{ 'nap': 1 }", "json.unknown_name", "surface.nap" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *changed =
            with(room, text, "'view':", base_arena_print(room->a, "'surface': %s, 'view':", rows[i].surface));
        assert_false(job_parse(room->a, "a.job", changed, strlen(changed), &back, room->errs));
        room_only_told_at(room, rows[i].code, rows[i].path);
        room_forget(room);
    }
}

static void a_source_that_has_changed_is_a_warning_and_the_copy_goes_on(void **state)
{
    struct workplace *w = *state;
    struct room *room = &w->room;
    struct job job = make(w), back;
    const char *path = room_put(&w->room, "a.job", job_print(room->a, &job));
    assert_true(job_read(room->a, path, &back, room->errs));
    room_nothing_told(room);

    room_put(&w->room, "pattern.json", "{}");
    assert_true(job_read(room->a, path, &back, room->errs));
    const struct err *e = room_only_told(room, "job.source_changed");
    assert_int_equal(e->kind->severity, ERR_WARNING);
    assert_string_equal(e->place.file, w->pattern);
    assert_string_equal(back.pattern->name, job.pattern->name);
    room_forget(room);

    char *one_byte = base_arena_copy_text(room->a, job.pattern_source.text.data);
    one_byte[job.pattern_source.text.count - 1] = ' ';
    room_put(&w->room, "pattern.json", one_byte);
    assert_true(job_read(room->a, path, &back, room->errs));
    room_only_told(room, "job.source_changed");
    room_forget(room);

    remove(w->pattern);
    assert_true(job_read(room->a, path, &back, room->errs)); /* gone, but the job has its copy */
    room_nothing_told(room);
}

static void files_that_are_not_there_are_told_together(void **state)
{
    struct workplace *w = *state;
    struct job job;
    struct job_choices choices = { .pattern = "/there/is/none/p.json",
                                   .body = "/there/is/none/b.json",
                                   .table = w->table };
    assert_false(job_make(w->room.a, &choices, &job, NULL, w->room.errs));
    assert_int_equal(w->room.errs->faults, 2);
    assert_string_equal(w->room.errs->items[0].place.file, "/there/is/none/p.json");
    assert_string_equal(w->room.errs->items[1].place.file, "/there/is/none/b.json");
    room_forget(&w->room);
    assert_false(job_read(w->room.a, "/there/is/none/a.job", &job, w->room.errs));
    room_only_told(&w->room, "file.cannot_open");
}

static void an_unknown_view_size_or_cup_group_is_told_with_the_names_there_are(void **state)
{
    struct workplace *w = *state;
    struct job_choices view = choices_of(w), size = choices_of(w), cup = choices_of(w), all = choices_of(w);
    view.view = "C";
    assert_string_equal(refused(w, view, "job.no_view"), "“A”, “B”");
    room_forget(&w->room);
    size.size = "XL";
    assert_string_equal(refused(w, size, "job.no_size"), "“S”, “M”, “L”");
    assert_string_equal(w->room.errs->items[0].args[2].text, "S to M");
    room_forget(&w->room);
    cup.cup_group = "E";
    assert_string_equal(refused(w, cup, "job.no_cup_group"), "“A-B”, “C-D”");
    room_forget(&w->room);

    struct job job;
    all.view = NULL;
    all.size = "XL";
    all.cup_group = "E";
    assert_false(job_make(w->room.a, &all, &job, NULL, w->room.errs));
    assert_int_equal(w->room.errs->count, 3);
    assert_true(base_err_list_has(w->room.errs, "job.which_view"));
    assert_true(base_err_list_has(w->room.errs, "job.no_size"));
    assert_true(base_err_list_has(w->room.errs, "job.no_cup_group"));
}

static void a_cup_group_for_a_pattern_that_has_none_is_told(void **state)
{
    struct workplace *w = *state;
    struct job_choices choices = { .pattern = room_put(&w->room, "plain.json", room_json(&w->room, PLAIN_PATTERN)),
                                   .body = w->body,
                                   .cup_group = "A-B" };
    assert_string_equal(refused(w, choices, "job.no_cup_group"), "none");
}

/* 0xff is never part of UTF-8 (RFC 3629). */
static void a_file_whose_name_a_job_cannot_hold_is_told(void **state)
{
    struct workplace *w = *state;
    struct job_choices choices = choices_of(w);
    choices.body = room_put(&w->room, "body\xff.json", room_json(&w->room, BODY));
    refused(w, choices, "job.path_text");
}

/* The text with line ends behind it, up to a number of bytes. */
static const char *padded(struct room *room, const char *text, size_t bytes)
{
    char *out = base_arena_alloc(room->a, bytes + 1, 1);
    memset(out, '\n', bytes);
    memcpy(out, text, strlen(text));
    return out;
}

static void the_largest_sources_make_a_job_that_can_be_read_again(void **state)
{
    struct workplace *w = *state;
    struct room *room = &w->room;
    w->pattern =
        room_put(&w->room, "pattern.json", padded(room, room_json(room, PLAIN_PATTERN), JOB_MOST_SOURCE_BYTES));
    w->body = room_put(&w->room, "body.json", padded(room, room_json(room, BODY), JOB_MOST_SOURCE_BYTES));
    w->table = room_put(&w->room, "table.json", padded(room, room_json(room, TABLE), JOB_MOST_SOURCE_BYTES));
    struct job_choices choices = choices_of(w);
    choices.view = NULL;
    struct job job, back;
    assert_true(job_make(room->a, &choices, &job, NULL, room->errs));
    const char *text = job_print(room->a, &job);
    assert_true(job_parse(room->a, "a.job", text, strlen(text), &back, room->errs));
    assert_same_source(&back.table_source, &job.table_source);
    room_forget(room);

    choices.pattern =
        room_put(&w->room, "pattern.json", padded(room, room_json(room, PLAIN_PATTERN), JOB_MOST_SOURCE_BYTES + 1));
    refused(w, choices, "file.too_large");
}

#define job_test(f) cmocka_unit_test_setup_teardown((f), open_workplace, room_close)

int main(void)
{
    const struct CMUnitTest tests[] = {
        job_test(a_job_is_made_from_the_body_and_the_view),
        job_test(the_only_size_of_a_pattern_without_a_chart_is_taken),
        job_test(without_a_chart_sizes_and_cup_groups_are_named),
        job_test(a_job_in_a_named_size_needs_no_body),
        job_test(without_a_body_size_and_cup_group_are_named),
        job_test(what_the_person_names_goes_before_her_measurements),
        job_test(what_is_named_needs_no_measurement),
        job_test(a_pattern_of_one_view_needs_no_view_named),
        job_test(a_job_comes_back_from_its_text_as_it_was),
        job_test(a_job_without_cup_group_or_table_comes_back_without),
        job_test(a_job_keeps_what_is_cut_on),
        job_test(a_job_owns_all_that_it_holds),
        job_test(a_job_file_that_breaks_off_anywhere_is_told),
        job_test(a_newer_job_and_another_kind_of_file_are_refused),
        job_test(choices_that_do_not_fit_the_copies_are_told),
        job_test(a_surface_that_cannot_be_is_told_at_its_place),
        job_test(a_source_that_has_changed_is_a_warning_and_the_copy_goes_on),
        job_test(files_that_are_not_there_are_told_together),
        job_test(an_unknown_view_size_or_cup_group_is_told_with_the_names_there_are),
        job_test(a_cup_group_for_a_pattern_that_has_none_is_told),
        job_test(a_file_whose_name_a_job_cannot_hold_is_told),
        job_test(the_largest_sources_make_a_job_that_can_be_read_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
