#include "cli/memory.h"

#include "app/memory.h"
#include "base/digest.h"
#include "base/file.h"
#include "base/journal.h"
#include "base/text.h"
#include "base/words.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

enum { SETTLE_MS = 400, LATEST_MS = 1000, LONG_BYTES = 1024 * 1024 };

struct cli_memory {
    struct arena *a;
    struct base_journal *journal;
    const char *head;         /* the line that names the job's choices */
    struct err_list *trouble; /* why the last lines could not be kept; empty when all are */
    struct arena *said;
    bool unsettled;
    long since_ms; /* the first line that is not on the disk yet */
};

static const struct err_kind other_job = {
    "cut.other_job", ERR_WARNING,
    BASE_TR("is the journal of this job as it was before it was made again: begun anew; the old one is kept as {0}")
};

static const char *named(struct arena *a, const char *name, const char *text)
{
    return base_arena_print(a, "{\"%s\": \"%016" PRIx64 "\"", name, base_digest_text(text));
}

/* A journal goes by what its pieces are, and tells itself which of its lines are of layouts as they are now. */
static const char *pieces_of(struct arena *a, const struct job *job)
{
    return named(a, "pieces", job_print_pieces(a, job));
}

/* The same, and the table set-up that its places are of. */
static const char *head_of(struct arena *a, const struct app_start *start)
{
    const struct geometry_map *map = &start->table.map;
    const char *text = base_arena_print(a, "%d %d", map->width_px, map->height_px);
    for (int i = 0; i < GEOMETRY_MAP_TERMS; i++)
        text = base_arena_print(a, "%s %.17g", text, map->term[i]);
    return base_arena_print(a, "%s, \"table\": \"%016" PRIx64 "\"}", pieces_of(a, start->job), base_digest_text(text));
}

/* As journals began before: by the pieces with their table or, first of all, by all choices, layouts too. */
static bool is_old_head(struct arena *a, const char *line, const struct job *job)
{
    return strcmp(line, base_arena_print(a, "%s}", named(a, "pieces", job_print_pieces_on_table(a, job)))) == 0 ||
           strcmp(line, base_arena_print(a, "%s}", named(a, "job", job_print_choices(a, job)))) == 0;
}

static bool is_of_pieces(struct arena *a, const char *line, const struct job *job)
{
    return base_text_behind(line, pieces_of(a, job)) != NULL;
}

static bool is_ours(struct arena *a, struct base_journal_lines lines, const struct job *job)
{
    return lines.count > 0 && (is_of_pieces(a, lines.items[0], job) || is_old_head(a, lines.items[0], job));
}

static long now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

/* The journal in its shortest form: the head, and how everything stands. */
static bool begin_anew(struct cli_memory *m, const struct app *app, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    size_t count;
    const char *const *all = app_remember_all(app, a, &count);
    const char **lines = base_arena_alloc(a, count + 1, sizeof *lines);
    lines[0] = m->head;
    memcpy(lines + 1, all, count * sizeof *lines);
    bool ok = base_journal_restart(m->journal, (struct base_journal_lines){ lines, count + 1 }, errs);
    base_arena_destroy(a);
    return ok;
}

/* Of old it was not named. */
static bool is_of_other_table(const struct cli_memory *m, const char *line, const struct job *job)
{
    const char *table = base_text_behind(line, pieces_of(m->a, job));
    return table && strcmp(table, "}") != 0 && strcmp(line, m->head) != 0;
}

/* Another job's journal is kept before it makes room; false when it cannot be. A journal that cannot be begun anew is
 * tried again by the first key. */
static bool recall(struct cli_memory *m, struct cli_run *run, struct app *app, const char *path, const struct job *job,
                   struct base_journal_lines lines)
{
    bool ours = is_ours(run->a, lines, job);
    for (size_t i = 1; ours && i < lines.count; i++)
        app_recall(app, lines.items[i], run->errs);
    if (ours && is_of_other_table(m, lines.items[0], job))
        app_table_is_new(app);
    if (lines.count > 0 && !ours) {
        const char *kept = cli_keep_beside(run, path);
        if (!kept)
            return false;
        base_err(run->errs, &other_job, base_err_in_file(path), ERR_TEXT(kept));
    }
    if (!ours || strcmp(lines.items[0], m->head) != 0 || base_journal_bytes(m->journal) > LONG_BYTES)
        begin_anew(m, app, m->trouble);
    return true;
}

struct cli_memory *cli_memory_open(struct cli_run *run, struct app *app, const char *job_path,
                                   const struct app_start *start)
{
    struct cli_memory *m = base_arena_alloc(run->a, 1, sizeof *m);
    const char *path = base_arena_print(run->a, "%s.journal", job_path);
    struct base_journal_lines lines;
    m->a = run->a;
    m->head = head_of(run->a, start);
    m->journal = base_journal_open(run->a, path, &lines, run->errs);
    if (!m->journal)
        return NULL;
    m->trouble = base_err_list_create();
    m->said = base_arena_create();
    if (recall(m, run, app, path, start->job, lines))
        return m;
    cli_memory_close(m, run);
    return NULL;
}

void cli_memory_close(struct cli_memory *m, struct cli_run *run)
{
    if (!m)
        return;
    for (int i = 0; i < m->trouble->count; i++)
        base_err_add(run->errs, m->trouble->items[i].kind, m->trouble->items[i].place, m->trouble->items[i].args);
    base_err_list_destroy(m->trouble);
    base_arena_destroy(m->said);
    base_journal_sync(m->journal, run->errs);
    base_journal_close(m->journal);
}

bool cli_memory_look(struct arena *a, struct app *app, const char *job_path, const struct job *job)
{
    struct err_list *ignored = base_err_list_create();
    struct base_journal_lines lines;
    bool ours = base_journal_look(a, base_arena_print(a, "%s.journal", job_path), &lines) && is_ours(a, lines, job);
    for (size_t i = 1; ours && i < lines.count; i++)
        app_recall(app, lines.items[i], ignored);
    base_err_list_destroy(ignored);
    return ours;
}

bool cli_memory_progress(const struct cli_run *run, struct arena *a, const char *job_path, const struct job *job,
                         struct app_progress *out)
{
    struct err_list *ignored = base_err_list_create();
    struct cli_run own = { .a = a, .errs = ignored, .settings = run->settings };
    struct app_start start = { .job = job, .table = job->table, .unit = UNITS_MM };
    bool wanted = job_path && job_is_finished(job) && base_file_exists(base_arena_print(a, "%s.journal", job_path)) &&
                  (job->has_table || cli_sample_table(&own, 0, 0, &start.table));
    struct app *app = wanted ? app_create(a, &start, ignored) : NULL;
    bool known = app && cli_memory_look(a, app, job_path, job);
    if (known)
        *out = app_progress_of(app, a);
    base_err_list_destroy(ignored);
    return known;
}

bool cli_memory_fits(struct arena *a, const char *job_path, const struct job *job)
{
    struct base_journal_lines lines;
    return base_journal_look(a, base_arena_print(a, "%s.journal", job_path), &lines) && lines.count > 0 &&
           is_of_pieces(a, lines.items[0], job);
}

static bool append(struct cli_memory *m, const struct app *app, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    bool ok = base_journal_append(m->journal, app_remember(app, a), errs);
    base_arena_destroy(a);
    return ok;
}

/* Short enough to be read across a table. */
static const char *say_trouble(struct cli_memory *m)
{
    const char *why = m->trouble->items[0].args[0].text;
    return base_arena_print(m->said,
                            base_tr("Your last steps are not kept (%s). Make room: the next key keeps them all"),
                            why ? why : base_tr("the journal is full"));
}

const char *cli_memory_keep(struct cli_memory *m, const struct app *app)
{
    struct err_list *before = m->trouble;
    m->trouble = base_err_list_create();
    bool ok = before->count ? begin_anew(m, app, m->trouble) : append(m, app, m->trouble);
    base_err_list_destroy(before);
    base_arena_reset(m->said);
    if (!ok)
        return say_trouble(m);
    if (!m->unsettled) {
        m->unsettled = true;
        m->since_ms = now_ms();
    }
    return NULL;
}

int cli_memory_patience(const struct cli_memory *m)
{
    return m && m->unsettled ? SETTLE_MS : -1;
}

void cli_memory_settle(struct cli_memory *m, struct cli_run *run, bool idle)
{
    if (!m || !m->unsettled || (!idle && now_ms() - m->since_ms < LATEST_MS))
        return;
    base_journal_sync(m->journal, run->errs);
    m->unsettled = false;
}
