/* Any text as a line of a job's journal: taken whole or not at all, and what is taken can be shown and said again. */
#include "app/memory.h"
#include "fuzz/fuzz.h"
#include "job/cloth.h"
#include "pattern/read.h"

#include <string.h>

static const char pattern[] =
    "{ \"chalklight\": \"pattern\", \"version\": 1, \"name\": \"p\", \"unit\": \"mm\", \"sizes\": [\"s\"],"
    "  \"chart\": { \"bust\": [900] }, \"main_measurement\": \"bust\","
    "  \"pieces\": [ { \"name\": \"one\", \"rectangle\": { \"width\": 100, \"height\": 60 } },"
    "    { \"name\": \"two\", \"rectangle\": { \"width\": 50, \"height\": 60 }, \"fold\": \"left\" } ],"
    "  \"views\": [ { \"name\": \"A\", \"cut\": [ { \"piece\": \"one\", \"count\": 2 }, { \"piece\": \"two\", "
    "\"count\": 1 } ] "
    "} ] }";
static const char body[] = "{ \"chalklight\": \"body\", \"version\": 1, \"name\": \"b\", \"unit\": \"mm\","
                           "  \"measurements\": { \"bust\": 900 } }";

/* A table by plain scale: 1000 x 600 px of 1 mm; rho is half the frame's diagonal. */
static struct calibration_table plain_table(void)
{
    const double rho = 583.0951894845301;
    struct calibration_table table = { .name = "t", .made = "2026-11-25", .unit = UNITS_MM };
    table.map = (struct geometry_map){ 1000, 600, { rho, 0, 500, 0, -rho, 300 } };
    return table;
}

/* Its layout is two sections long. */
static void lay_out(struct arena *a, struct job *job)
{
    static const struct job_laid laid[] = { { "one", 0, false, { .shift = { 40, 100 } } },
                                            { "two", 0, false, { .turn_deg = 90, .shift = { 1500, 0 } } } };
    struct job_cloth cloth = {
        .material = PATTERN_FABRIC, .cloth = cloth_plain(1000), .laid = laid, .laid_count = 2
    };
    cloth.cloth.spread = CLOTH_FOLDED;
    job_put_cloth(a, job, &cloth);
}

static struct app *app_of(struct arena *a, struct err_list *errs)
{
    struct job *job = base_arena_alloc(a, 1, sizeof *job);
    job->pattern_source.path = "p";
    job->pattern = pattern_parse(a, "p", pattern, sizeof pattern - 1, errs);
    job->body = sizing_body_parse(a, "b", body, sizeof body - 1, errs);
    job->cup_group = PATTERN_NONE;
    lay_out(a, job);
    struct app_start start = { .job = job, .table = plain_table() };
    return app_create(a, &start, errs);
}

/* Made once, for sections take a while; its own first line brings it back to how it was. */
static struct app *app_as_made(struct err_list *errs)
{
    static struct app *app;
    static const char *first;
    static struct arena *kept; /* as long as the program runs */
    if (!app) {
        kept = base_arena_create();
        app = app_of(kept, errs);
        fuzz_must(app != NULL);
        first = app_remember(app, kept);
    }
    fuzz_must(app_recall(app, first, errs));
    return app;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct app *app = app_as_made(errs);
    const char *before = app_remember(app, a), *line = base_arena_copy_bytes(a, (const char *)data, size);
    if (!app_recall(app, line, errs)) {
        fuzz_must(strcmp(app_remember(app, a), before) == 0);
    } else {
        const char *said = app_remember(app, a);
        app_scene(app, a);
        fuzz_must(app_recall(app, said, errs));
        fuzz_must(strcmp(app_remember(app, a), said) == 0);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
