/* The page where a file is chosen, and opening one by what it is. */
#include "base/file.h"
#include "base/folder.h"
#include "base/text.h"
#include "base/words.h"
#include "bench/inside.h"
#include "json/kind.h"

#include <stdlib.h>
#include <string.h>

enum { ROWS = 1, PATH };

static const double row_height = 34, field_height = 32, label_width = 176, gap = 10;

static const struct form_key keys[] = { { "↑ ↓", BASE_TR("choose") },
                                        { BASE_TR_IN("key", "Enter"), BASE_TR("open") },
                                        { BASE_TR_IN("key", "Esc"), BASE_TR("back") } };

/* What opens here, and what each is called. */
static const struct {
    const char *kind, *word;
    const struct job *(*change)(struct arena *a, const struct job *job, const char *path, struct err_list *errs);
    const char *done;
    int page; /* where that is seen */
} kinds[] = {
    { "pattern", BASE_TR("pattern"), job_with_pattern, BASE_TR("The pattern"), BENCH_PATTERN },
    { "body", BASE_TR("measurements"), job_with_body, BASE_TR("The measurements"), BENCH_MEASUREMENTS },
    { "table", BASE_TR("table set-up"), job_with_table, BASE_TR("The table set-up"), BENCH_TABLE },
    { "cloth", BASE_TR("cloth"), NULL, BASE_TR("The cloth"), BENCH_CLOTH },
    { "job", BASE_TR("ticket"), NULL, NULL, BENCH_MEASUREMENTS },
};
enum { KINDS = sizeof kinds / sizeof kinds[0] };

static int kind_of(struct arena *a, const char *path)
{
    const char *kind = json_kind(a, path);
    for (int i = 0; kind && i < KINDS; i++)
        if (strcmp(kinds[i].kind, kind) == 0)
            return i;
    return -1;
}

/* How a sheet that pieces are taken from is called, by its ending: what is in it is read at the table. NULL: it is
 * none.
 */
static const char *sheet_word(const char *path)
{
    static const char *const endings[][2] = { { ".pdf", BASE_TR("pattern sheet") },
                                              { ".svg", BASE_TR("pattern sheet") },
                                              { ".png", BASE_TR("picture: a scan?") },
                                              { ".jpg", BASE_TR("picture: a scan?") },
                                              { ".jpeg", BASE_TR("picture: a scan?") } };
    const char *dot = strrchr(path, '.');
    for (size_t i = 0; dot && i < sizeof endings / sizeof endings[0]; i++)
        if (base_text_distance(dot, endings[i][0], 1) == 0)
            return base_tr(endings[i][1]);
    return NULL;
}

/* --- what is in the folder --------------------------------------------------------------------------------------- */

struct shown {
    const char **names, **words; /* the first is the folder above, then comes her own, by its whole path */
    size_t count;
    size_t folders; /* so many of them, these among them */
};

static const char *home_of(const char *folder)
{
    const char *home = getenv("HOME");
    return home && *home == '/' && strcmp(home, folder) != 0 && base_file_exists(home) ? home : NULL;
}

static void add_folder(struct shown *shown, const char *name, const char *word)
{
    shown->names[shown->count] = name;
    shown->words[shown->count++] = word;
    shown->folders++;
}

static struct shown look_into(struct arena *a, const char *folder, struct err_list *errs)
{
    const struct base_entry *entries = NULL;
    size_t count = 0;
    base_folder_list(a, folder, &entries, &count, errs);
    const char *home = home_of(folder);
    struct shown shown = { base_arena_alloc(a, count + 2, sizeof *shown.names),
                           base_arena_alloc(a, count + 2, sizeof *shown.words), 0, 0 };
    add_folder(&shown, "..", base_tr("the folder above"));
    if (home)
        add_folder(&shown, home, base_tr("your own folder"));
    for (size_t i = 0; i < count; i++) {
        int kind = entries[i].is_folder ? -1 : kind_of(a, base_arena_print(a, "%s/%s", folder, entries[i].name));
        const char *sheet = sheet_word(entries[i].name);
        if (!entries[i].is_folder && kind < 0 && !sheet)
            continue;
        shown.names[shown.count] = entries[i].name;
        shown.words[shown.count++] = entries[i].is_folder ? base_tr("folder")
                                     : kind < 0           ? sheet
                                                          : base_tr(kinds[kind].word);
        shown.folders += entries[i].is_folder;
    }
    return shown;
}

static void draw_row(struct form_picture *p, const struct form_item *item, struct bench_box box, size_t choice,
                     bool bold)
{
    const char *const *words = item->of;
    struct bench_pt at = { box.x + 16, box.y + box.height / 2 + form_drop(FORM_LABEL) };
    form_text(p, at, FORM_LEFT, bold ? FORM_STRONG : FORM_LABEL, FORM_INK, box.width - 180, item->choices[choice]);
    form_text(p, (struct bench_pt){ box.x + box.width - 14, at.y }, FORM_RIGHT, FORM_NOTE, FORM_INK_2, 150,
              words[choice]);
    form_line(p, (struct bench_pt){ box.x, box.y + box.height },
              (struct bench_pt){ box.x + box.width, box.y + box.height }, 1, FORM_HAIR);
}

static void add_path(struct bench_page *page, struct bench_box content)
{
    form_add(&page->form,
             (struct form_item){ .id = PATH,
                                 .kind = FORM_FIELD,
                                 .box = { content.x + label_width, content.y + content.height - field_height,
                                          content.width - label_width, field_height },
                                 .label_x = content.x,
                                 .label = base_tr("Or where it is") });
}

static void fill(struct bench_page *page)
{
    const struct bench *b = page->bench;
    struct bench_box content = bench_content(page->p);
    struct err_list *ignored = base_err_list_create();
    struct shown shown = look_into(page->a, b->files.folder, ignored);
    base_err_list_destroy(ignored);
    size_t room = (size_t)((content.height - field_height - gap) / row_height),
           at = b->files.at < shown.count ? b->files.at : 0;
    size_t first = at >= room ? at - room + 1 : 0, rows = shown.count - first < room ? shown.count - first : room;
    page->title = base_tr("Open a file");
    page->sentence = b->files.folder;
    page->keys = keys;
    page->key_count = 3;
    form_add(&page->form, (struct form_item){ .id = ROWS,
                                              .kind = FORM_TILES,
                                              .box = { content.x, content.y, content.width, (double)rows * row_height },
                                              .columns = 1,
                                              .choices = shown.names + first,
                                              .choice_count = rows,
                                              .chosen = (int)(at - first),
                                              .draw_tile = draw_row,
                                              .of = shown.words + first,
                                              .first = first,
                                              .total = shown.count });
    add_path(page, content);
}

/* --- opening ----------------------------------------------------------------------------------------------------- */

static const struct err_kind not_ours = { "bench.not_ours", ERR_FAULT,
                                          BASE_TR("is no pattern, no measurements, no cloth, no table set-up and no "
                                                  "ticket of ours, and no pattern sheet (PDF, SVG, or a scan as "
                                                  "PNG or JPEG). Choose another file") };

/* A ticket goes on at the first line that lacks something, or beyond that where she left it. */
static void go_on_with(struct bench *b, const char *path, enum job_page left)
{
    static const int pages[] = { [JOB_STAGE_MEASUREMENTS] = BENCH_MEASUREMENTS,
                                 [JOB_STAGE_PATTERN] = BENCH_PATTERN,
                                 [JOB_STAGE_CLOTH] = BENCH_CLOTH,
                                 [JOB_STAGE_LAYOUT] = BENCH_LAYOUT,
                                 [JOB_STAGE_TABLE] = BENCH_TABLE };
    const struct job_lacking *lacks;
    size_t count = app_lacks(b->told_in, bench_job(b), &lacks);
    int lacking = count ? pages[lacks[0].stage] : BENCH_PLACING, was = (int)left - JOB_PAGE_MEASUREMENTS;
    b->effects.opened = base_arena_copy_text(b->a, path);
    bench_go(b, was > lacking ? was : lacking);
}

static void open_job(struct bench *b, const char *path, struct err_list *errs)
{
    struct job *job = base_arena_alloc(bench_room(b), 1, sizeof *job);
    bool may = !b->claim || b->claim(b->claims_of, path, errs);
    bool read = may && job_read_begun(bench_room(b), path, job, errs);
    enum job_page left = read ? job->ticket.page : JOB_NO_PAGE; /* opening leads to its first page */
    if (read && bench_open(b, job))
        go_on_with(b, path, left);
    bench_take(b, bench_job(b), NULL, errs);
}

/* The pattern that comes of it is opened by the caller. */
static void lift(struct bench *b, const char *path)
{
    if (b->at_table) {
        bench_say(b, base_tr("The table is in use: leave the table first, then open the pattern sheet."));
        return;
    }
    if (!b->is_open)
        bench_open(b, job_begin(bench_room(b)));
    b->effects.to = BENCH_TO_LIFT;
    b->effects.sheet = base_arena_copy_text(b->a, path);
}

void bench_open_file(struct bench *b, const char *path)
{
    if (sheet_word(path)) {
        lift(b, path);
        return;
    }
    struct err_list *errs = base_err_list_create();
    int kind = kind_of(b->told_in, path);
    if (kind < 0) {
        base_err(errs, &not_ours, base_err_in_file(path), ERR_NONE);
        bench_take(b, bench_job(b), NULL, errs);
        return;
    }
    if (!kinds[kind].done) {
        open_job(b, path, errs);
        return;
    }
    if (!b->is_open)
        bench_open(b, bench_blank(b));
    const struct job *now = bench_job(b), *job = kinds[kind].change ? kinds[kind].change(bench_room(b), now, path, errs)
                                                                    : bench_with_cloth_of(b, path, errs);
    bench_take(b, job, base_tr(kinds[kind].done), errs);
    if (job != now)
        bench_go(b, kinds[kind].page);
}

void bench_look_into(struct bench *b, const char *folder)
{
    const char *whole = base_file_whole_path(b->a, folder);
    b->files.folder = whole;
    b->files.at = 0;
}

/* "/…" as it is, "~/…" from her own folder, else from the folder that is shown. */
static const char *typed_path(struct arena *a, const char *folder, const char *text)
{
    const char *home = getenv("HOME");
    if (*text == '/')
        return text;
    if (home && *text == '~' && (!text[1] || text[1] == '/'))
        return base_arena_print(a, "%s%s", home, text + 1);
    return base_arena_print(a, "%s/%s", folder, text);
}

static void open_typed(struct bench *b, const char *text)
{
    struct arena *a = base_arena_create();
    struct err_list *no_folder = base_err_list_create();
    const struct base_entry *entries;
    size_t count;
    const char *path = typed_path(a, b->files.folder, text);
    if (base_folder_list(a, path, &entries, &count, no_folder))
        bench_look_into(b, path);
    else
        bench_open_file(b, path);
    if (b->page == BENCH_FILES)
        b->hand.focus = PATH;
    base_err_list_destroy(no_folder);
    base_arena_destroy(a);
}

static void answer(struct bench *b, const struct form_answer *did)
{
    if (did->did == FORM_WROTE && *did->text)
        open_typed(b, did->text);
    if (did->id == PATH)
        return;
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    size_t at = (size_t)did->choice + form_find(&b->made.form, ROWS)->first;
    struct shown shown = look_into(a, b->files.folder, errs);
    if (did->did == FORM_CHOSE) {
        b->files.at = at;
    } else if (did->did == FORM_PRESSED && at < shown.count) {
        bool whole = *shown.names[at] == '/';
        const char *path = whole ? shown.names[at] : base_arena_print(a, "%s/%s", b->files.folder, shown.names[at]);
        if (at < shown.folders)
            bench_look_into(b, path);
        else
            bench_open_file(b, path);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
}

const struct bench_stage bench_files = { .fill = fill, .answer = answer };
