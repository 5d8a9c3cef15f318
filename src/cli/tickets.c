#include "cli/tickets.h"

#include "base/file.h"
#include "base/words.h"
#include "base/xdg.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

enum { MOST_TICKETS = 10000, MOST_TICKET_BYTES = 64 * 1024 * 1024 };

static const struct err_kind no_room = { "bench.no_room", ERR_FAULT,
                                         BASE_TR("no folder for tickets and table set-ups: HOME names none") };
static const struct err_kind is_open = { "bench.is_open", ERR_FAULT,
                                         BASE_TR("is open. Open another ticket first, then put it away") };
static const struct err_kind is_put_away = {
    "bench.is_put_away", ERR_WARNING, BASE_TR("was put away: it is kept as {0}, and “Open a file” brings it back")
};
static const struct err_kind not_put_away = { "bench.not_put_away", ERR_FAULT, BASE_TR("cannot be put away: {0}") };
static const struct err_kind open_elsewhere = {
    "bench.open_elsewhere", ERR_FAULT,
    BASE_TR("is open in another window of this program. Go on there, or open another ticket here")
};

void cli_ticket_no_room(struct err_list *errs)
{
    base_err(errs, &no_room, (struct err_place){ 0 }, ERR_NONE);
}

const char *cli_ticket_new(struct cli_run *run, struct base_file_hold *hold, struct err_list *errs)
{
    for (int i = 1; i < MOST_TICKETS; i++) {
        const char *path = base_xdg_path(run->a, BASE_XDG_DATA, base_arena_print(run->a, "tickets/ticket-%d.json", i));
        if (!path)
            break;
        if (!base_xdg_make_folders(path, errs))
            return NULL;
        if (!base_file_exists(path) && base_hold_file(run->a, path, hold))
            return path;
    }
    cli_ticket_no_room(errs);
    return NULL;
}

const char *cli_ticket_text(struct arena *a, const char *path)
{
    struct err_list *ignored = base_err_list_create();
    struct base_bytes bytes;
    bool good = base_file_read(a, path, MOST_TICKET_BYTES, &bytes, ignored);
    base_err_list_destroy(ignored);
    return good ? bytes.data : NULL;
}

bool cli_ticket_is(struct cli_run *run, const char *one, const char *other)
{
    return one && other && strcmp(base_file_whole_path(run->a, one), base_file_whole_path(run->a, other)) == 0;
}

bool cli_ticket_claim(struct cli_run *run, const char *path, struct base_file_hold *hold, struct err_list *errs)
{
    if (base_hold_file(run->a, path, hold))
        return true;
    base_err(errs, &open_elsewhere, base_err_in_file(path), ERR_NONE);
    return false;
}

/* A name in the folder of what was put away, at which neither a file nor a journal stands; NULL with the reason. */
static const char *away_path(struct cli_run *run, const char *path, struct err_list *errs)
{
    const char *name = strrchr(path, '/'), *away = NULL;
    size_t length = name ? (size_t)(name - path) : 0;
    name = name ? name + 1 : path;
    for (int i = 1; !away || base_file_exists(away) || base_file_exists(base_arena_print(run->a, "%s.journal", away));
         i++)
        away = base_arena_print(run->a, "%.*s/put-away/%s%s", (int)length, path, name,
                                i > 1 ? base_arena_print(run->a, ".%d", i) : "");
    return base_xdg_make_folders(away, errs) ? away : NULL;
}

static bool move(const char *from, const char *to, struct err_list *errs)
{
    if (!base_file_exists(from) || rename(from, to) == 0)
        return true;
    base_err(errs, &not_put_away, base_err_in_file(from), ERR_TEXT(strerror(errno)));
    return false;
}

/* The journal goes last, as where a job is saved over. */
void cli_ticket_put_away(struct cli_run *run, const char *path, struct err_list *errs)
{
    bool taken = base_hold_is_taken(path);
    if (taken)
        base_err(errs, &is_open, base_err_in_file(path), ERR_NONE);
    const char *away = taken ? NULL : away_path(run, path, errs);
    if (away && move(path, away, errs) &&
        move(base_arena_print(run->a, "%s.journal", path), base_arena_print(run->a, "%s.journal", away), errs))
        base_err(errs, &is_put_away, base_err_in_file(path), ERR_TEXT(away));
}
