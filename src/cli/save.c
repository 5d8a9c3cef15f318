/* What is written where: a slip of the hand must not cost an evening's readings or what was done at the table. */
#include "base/file.h"
#include "base/hold.h"
#include "base/journal.h"
#include "base/words.h"
#include "cli/memory.h"
#include "cli/run.h"
#include "export/png.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

enum { MOST_KEPT_BYTES = 64 * 1024 * 1024 };

static const struct err_kind would_lose = {
    "use.would_lose", ERR_FAULT, BASE_TR("is read by this command and would be lost; give the result another name")
};
static const struct err_kind there_already = {
    "use.there_already", ERR_FAULT,
    BASE_TR("is there already: {0}. Give --replace to make it anew; what is there is then kept under another name")
};
static const struct err_kind no_picture = {
    "use.no_picture", ERR_FAULT, BASE_TR("is there already and is no picture; give the picture another name")
};
static const struct err_kind no_folder = { "use.no_folder", ERR_FAULT,
                                           BASE_TR(
                                               "cannot be made: its folder is not there; make it first, or give --out "
                                               "another name") };
static const struct err_kind kept_as = { "use.kept", ERR_WARNING, BASE_TR("was there already and is kept as {0}") };
static const struct err_kind kept_with_table = {
    "use.kept", ERR_WARNING,
    BASE_TR("was there already and is kept as {0}, with what was done at the table; the new one begins there anew")
};
static const struct err_kind journal_stays = { "use.journal_stays", ERR_FAULT,
                                               BASE_TR("cannot be given the name {0}: {1}; it stays where it is") };

static const struct err_kind open_on_bench = {
    "use.open_on_bench", ERR_FAULT,
    BASE_TR(
        "is open as a work ticket in another window of this program, which would not see what is changed here. Open "
        "another ticket there, or close that window, then try again")
};

/* A ticket is its bench's alone, whose own work at the table goes by way of it. */
static bool is_its_own(struct cli_run *run, const char *path)
{
    if (run->bench || !base_hold_is_taken(path))
        return true;
    base_err(run->errs, &open_on_bench, base_err_in_file(path), ERR_NONE);
    return false;
}

static bool is_a_file(const char *path)
{
    struct stat st;
    return stat(path, &st) == 0 && S_ISREG(st.st_mode);
}

/* Whether two paths lead to one file that is there. */
static bool same_file(const char *a, const char *b)
{
    struct stat one, other;
    return stat(a, &one) == 0 && stat(b, &other) == 0 && one.st_dev == other.st_dev && one.st_ino == other.st_ino;
}

static bool is_an_input(const struct cli_run *run, const char *path)
{
    static const enum cli_option inputs[] = { OPT_BODY, OPT_TABLE, OPT_MAT, OPT_BOARD, OPT_ON };
    bool found = run->args.operand && run->operand_is_read && same_file(path, run->args.operand);
    for (size_t i = 0; i < sizeof inputs / sizeof inputs[0]; i++)
        found = found || (run->args.value[inputs[i]] && same_file(path, run->args.value[inputs[i]]));
    return found;
}

static bool may_write(struct cli_run *run, const char *path)
{
    if (!is_an_input(run, path))
        return true;
    base_err(run->errs, &would_lose, base_err_in_file(path), ERR_NONE);
    return false;
}

bool cli_may_draw(struct cli_run *run, const char *path)
{
    if (!may_write(run, path))
        return false;
    if (!is_a_file(path) || export_is_png(path))
        return true;
    base_err(run->errs, &no_picture, base_err_in_file(path), ERR_NONE);
    return false;
}

static const char *journal_of(struct arena *a, const char *path)
{
    return base_arena_print(a, "%s.journal", path);
}

static const char *table_words(struct arena *a, const struct calibration_table *t)
{
    const char *words =
        *t->made
            ? base_arena_print(a, base_tr("the table “%s”, made %s, of %zu readings"), t->name, t->made, t->readings)
            : base_arena_print(a, base_tr("the table “%s”, of %zu readings"), t->name, t->readings);
    if (t->stickers.count)
        words = base_arena_print(a, base_tr("%s, with marks on %d check stickers"), words, t->stickers.count);
    return calibration_lens_is_known(&t->lens) ? base_arena_print(a, base_tr("%s, with its lens"), words) : words;
}

bool cli_is_free(struct cli_run *run, const char *job)
{
    struct base_journal_lines lines;
    if (!is_its_own(run, job))
        return false;
    if (!is_a_file(journal_of(run->a, job)))
        return true;
    struct base_journal *journal = base_journal_open(run->a, journal_of(run->a, job), &lines, run->errs);
    base_journal_close(journal);
    return journal != NULL;
}

/* What stands there, in a few words. */
static const char *what_is_there(struct cli_run *run, const char *path)
{
    struct err_list *complaints = base_err_list_create();
    struct calibration_table table;
    struct job job;
    const char *words = base_tr("another file");
    if (calibration_table_read(run->a, path, &table, complaints))
        words = table_words(run->a, &table);
    else if (job_read_begun(run->a, path, &job, complaints))
        words =
            is_a_file(journal_of(run->a, path)) ? base_tr("a job, with what was done at the table") : base_tr("a job");
    base_err_list_destroy(complaints);
    return words;
}

/* A name beside the file at which neither a file nor a journal stands. */
static const char *free_name(struct arena *a, const char *path)
{
    const char *name = base_arena_print(a, "%s.old", path);
    for (int i = 2; base_file_exists(name) || base_file_exists(journal_of(a, name)); i++)
        name = base_arena_print(a, "%s.old%d", path, i);
    return name;
}

const char *cli_keep_beside(struct cli_run *run, const char *path)
{
    const char *name = free_name(run->a, path);
    struct base_bytes bytes;
    bool ok = base_file_read(run->a, path, MOST_KEPT_BYTES, &bytes, run->errs) &&
              base_file_save(name, bytes.data, bytes.count, run->errs);
    return ok ? name : NULL;
}

static bool rename_journal(struct cli_run *run, const char *from, const char *to)
{
    if (rename(from, to) == 0)
        return true;
    base_err(run->errs, &journal_stays, base_err_in_file(from), ERR_TEXT(to), ERR_TEXT(strerror(errno)));
    return false;
}

/* The journal goes last: until then the old job, or its copy, has it beside. `journal`: the path, or NULL. */
static bool keep_and_save(struct cli_run *run, const char *path, const char *journal, const char *text)
{
    const char *kept = cli_keep_beside(run, path);
    if (!kept || !base_file_save(path, text, strlen(text), run->errs))
        return false;
    base_err(run->errs, journal ? &kept_with_table : &kept_as, base_err_in_file(path), ERR_TEXT(kept));
    return !journal || rename_journal(run, journal, journal_of(run->a, kept));
}

/* Whether what was done at the table holds for the job that is written, too. */
static bool journal_fits(struct cli_run *run, const char *path, const char *text)
{
    struct err_list *ignored = base_err_list_create();
    struct job job;
    bool fits = job_parse_begun(run->a, path, text, strlen(text), &job, ignored) && cli_memory_fits(run->a, path, &job);
    base_err_list_destroy(ignored);
    return fits;
}

/* A journal is held meanwhile, so that the job is not open in `cut`, and is not opened before all is done. It stays
 * beside a job that is `changed` where it fits that. */
static bool write_over(struct cli_run *run, const char *path, const char *text, bool changed)
{
    const char *journal = journal_of(run->a, path);
    struct base_journal_lines lines;
    if (!is_its_own(run, path))
        return false;
    if (!is_a_file(journal))
        return keep_and_save(run, path, NULL, text);
    struct base_journal *held = base_journal_open(run->a, journal, &lines, run->errs);
    bool stays = changed && journal_fits(run, path, text);
    bool ok = held && keep_and_save(run, path, stays ? NULL : journal, text);
    base_journal_close(held);
    return ok;
}

int cli_save_over(struct cli_run *run, const char *path, const char *text)
{
    return write_over(run, path, text, true) ? CLI_OK : CLI_FAULT;
}

int cli_save_more(struct cli_run *run, const char *path, const char *text)
{
    if (is_a_file(journal_of(run->a, path)))
        return cli_save_over(run, path, text);
    bool ok = is_its_own(run, path) && base_file_save(path, text, strlen(text), run->errs);
    return ok ? CLI_OK : CLI_FAULT;
}

bool cli_may_save(struct cli_run *run, const char *path)
{
    if (!may_write(run, path))
        return false;
    if (!is_a_file(path) || run->args.value[OPT_REPLACE])
        return true;
    base_err(run->errs, &there_already, base_err_in_file(path), ERR_TEXT(what_is_there(run, path)));
    return false;
}

bool cli_has_folder(struct cli_run *run, const char *path)
{
    const char *slash = strrchr(path, '/');
    const char *folder = slash && slash > path ? base_arena_copy_bytes(run->a, path, (size_t)(slash - path)) : "/";
    if (!slash || base_file_exists(folder))
        return true;
    base_err(run->errs, &no_folder, base_err_in_file(path), ERR_NONE);
    return false;
}

int cli_save_text(struct cli_run *run, const char *path, const char *text)
{
    bool ok = cli_may_save(run, path);
    if (ok && is_a_file(path))
        ok = write_over(run, path, text, false);
    else if (ok)
        ok = base_file_save(path, text, strlen(text), run->errs);
    return ok ? CLI_OK : CLI_FAULT;
}
