/* The file is text, a line end after each line, the first of them HEAD. Lines are written at the place after the last
 * whole one, so that what a failed write has left there is written over, or dropped when the journal is read again: it
 * has no line end. */
#include "base/journal.h"

#include "base/file.h"
#include "base/hold.h"
#include "base/text.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* What tells a journal from any other file; the number is the version. */
#define HEAD "chalklight journal 1\n"
enum { HEAD_BYTES = sizeof HEAD - 1 };

/* How often a journal that is replaced in the moment of opening is looked for again. */
enum { OPEN_TRIES = 16 };

static const struct err_kind cannot_open = { "journal.cannot_open", ERR_FAULT, BASE_TR("cannot be opened: {0}") };
static const struct err_kind held = {
    "journal.held", ERR_FAULT,
    BASE_TR("is open in another window of this program. Go on there, or close that one first")
};
static const struct err_kind not_a_journal = {
    "journal.not_a_journal", ERR_FAULT,
    BASE_TR("is no journal of ours, or one of a newer version; it was left as it is")
};
static const struct err_kind too_large = { "journal.too_large", ERR_FAULT,
                                           BASE_TR("would grow beyond {0} bytes, more than a journal can hold") };
static const struct err_kind torn = {
    "journal.torn", ERR_WARNING,
    BASE_TR("breaks off within its last line, number {0}. That line was dropped; all before it "
            "are there")
};
static const struct err_kind cannot_write = {
    "journal.cannot_write", ERR_FAULT,
    BASE_TR("cannot be written: {0}. What was done before is safe; this last step is not saved")
};
static const struct err_kind cannot_sync = {
    "journal.cannot_sync", ERR_FAULT,
    BASE_TR("cannot be brought to the disk: {0}. A power cut could lose the last steps")
};
static const struct err_kind cannot_restart = { "journal.cannot_restart", ERR_FAULT,
                                                BASE_TR("cannot be written anew: {0}. It stays as it was") };

struct base_journal {
    struct arena *a;
    const char *path,
        *beside; /* links followed; the file that a restart writes before it takes the place of the other */
    int fd;
    size_t count;  /* bytes of whole lines */
    bool unsynced; /* some of them may not be on the disk itself */
};

static void tell(const struct base_journal *j, const struct err_kind *kind, struct err_list *errs)
{
    base_err(errs, kind, base_err_in_file(j->path), ERR_TEXT(strerror(errno)));
}

enum hold { HOLD_MINE, HOLD_AGAIN, HOLD_REFUSED };

/* Opens the file and takes hold of it. Another program may have put a new one into its place meanwhile: again. */
static enum hold try_to_hold(struct base_journal *j, struct err_list *errs)
{
    /* O_NONBLOCK: opening a pipe must not wait for someone at its other end. */
    j->fd = open(j->path, O_RDWR | O_CREAT | O_CLOEXEC | O_NONBLOCK | O_NOCTTY, 0666);
    if (j->fd < 0) {
        tell(j, &cannot_open, errs);
        return HOLD_REFUSED;
    }
    struct stat st;
    if (fstat(j->fd, &st) != 0 || !S_ISREG(st.st_mode)) {
        base_err(errs, &not_a_journal, base_err_in_file(j->path), ERR_NONE);
        return HOLD_REFUSED;
    }
    if (!base_hold_lock(j->fd)) {
        tell(j, errno == EAGAIN || errno == EACCES ? &held : &cannot_open, errs);
        return HOLD_REFUSED;
    }
    return base_hold_is_at(j->fd, j->path) ? HOLD_MINE : HOLD_AGAIN;
}

static bool take_hold(struct base_journal *j, struct err_list *errs)
{
    enum hold hold = HOLD_AGAIN;
    for (int i = 0; i < OPEN_TRIES && hold == HOLD_AGAIN; i++) {
        hold = try_to_hold(j, errs);
        if (hold != HOLD_MINE && j->fd >= 0)
            close(j->fd);
    }
    if (hold == HOLD_AGAIN)
        base_err(errs, &held, base_err_in_file(j->path), ERR_NONE);
    return hold == HOLD_MINE;
}

/* Where the whole lines end: after the last line end before any zero byte, which is what some file systems leave of the
 * bytes that a power cut kept from the disk. */
static size_t whole_bytes(const struct base_bytes *text)
{
    const char *zero = memchr(text->data, 0, text->count);
    size_t count = zero ? (size_t)(zero - text->data) : text->count;
    while (count && text->data[count - 1] != '\n')
        count--;
    return count;
}

static size_t count_lines(const char *text, size_t count)
{
    size_t lines = 0;
    for (size_t i = 0; i < count; i++)
        lines += text[i] == '\n';
    return lines;
}

static struct base_journal_lines split(struct arena *a, const char *text, size_t count)
{
    struct base_journal_lines lines = { NULL, count_lines(text, count) };
    const char **items = base_arena_alloc(a, lines.count, sizeof *items);
    const char *from = text;
    for (size_t i = 0; i < lines.count; i++) {
        const char *end = memchr(from, '\n', (size_t)(text + count - from));
        items[i] = base_arena_copy_bytes(a, from, (size_t)(end - from));
        from = end + 1;
    }
    lines.items = items;
    return lines;
}

/* Writes all of it at its place; false, with errno, when that fails. */
static bool write_at(int fd, const char *data, size_t count, size_t place)
{
    while (count) {
        ssize_t put = pwrite(fd, data, count, (off_t)place);
        if (put < 0 && errno == EINTR)
            continue;
        if (put < 0)
            return false;
        data += put;
        count -= (size_t)put;
        place += (size_t)put;
    }
    return true;
}

/* Cuts off what stands after the whole lines. */
static bool cut_back(const struct base_journal *j)
{
    int cut;
    do
        cut = ftruncate(j->fd, (off_t)j->count);
    while (cut != 0 && errno == EINTR);
    return cut == 0;
}

/* A new file, or one that was killed while its head was written. */
static bool is_new(const struct base_bytes *text)
{
    return text->count < HEAD_BYTES && memcmp(text->data, HEAD, text->count) == 0;
}

static bool begin(struct base_journal *j, struct err_list *errs)
{
    j->count = HEAD_BYTES;
    if (write_at(j->fd, HEAD, HEAD_BYTES, 0))
        return true;
    tell(j, &cannot_open, errs);
    return false;
}

/* How many bytes are whole lines behind a head; 0: it is no journal. */
static size_t journal_bytes(const struct base_bytes *text)
{
    size_t count = whole_bytes(text);
    bool ours =
        count >= HEAD_BYTES && memcmp(text->data, HEAD, HEAD_BYTES) == 0 && base_text_is_utf8(text->data, count);
    return ours ? count : 0;
}

bool base_journal_look(struct arena *a, const char *path, struct base_journal_lines *lines)
{
    struct err_list *ignored = base_err_list_create();
    struct base_bytes text;
    bool good = base_file_read(a, path, BASE_JOURNAL_MOST_BYTES, &text, ignored);
    size_t count = good ? journal_bytes(&text) : 0;
    base_err_list_destroy(ignored);
    if (count)
        *lines = split(a, text.data + HEAD_BYTES, count - HEAD_BYTES);
    return count > 0;
}

static bool read_lines(struct base_journal *j, struct base_journal_lines *out, struct err_list *errs)
{
    struct base_bytes text;
    if (!base_file_read(j->a, j->path, BASE_JOURNAL_MOST_BYTES, &text, errs))
        return false;
    if (is_new(&text))
        return begin(j, errs);
    j->count = journal_bytes(&text);
    if (!j->count) {
        base_err(errs, &not_a_journal, base_err_in_file(j->path), ERR_NONE);
        return false;
    }
    *out = split(j->a, text.data + HEAD_BYTES, j->count - HEAD_BYTES);
    if (j->count == text.count)
        return true;
    base_err(errs, &torn, base_err_in_file(j->path), ERR_NUMBER(out->count + 1));
    if (cut_back(j))
        return true;
    tell(j, &cannot_open, errs);
    return false;
}

struct base_journal *base_journal_open(struct arena *a, const char *path, struct base_journal_lines *lines,
                                       struct err_list *errs)
{
    struct base_journal *j = base_arena_alloc(a, 1, sizeof *j);
    *lines = (struct base_journal_lines){ NULL, 0 };
    *j = (struct base_journal){ .a = a, .path = base_file_whole_path(a, path), .fd = -1, .unsynced = true };
    j->beside = base_arena_print(a, "%s.new", j->path);
    if (!take_hold(j, errs))
        return NULL;
    if (!read_lines(j, lines, errs)) {
        close(j->fd);
        return NULL;
    }
    unlink(j->beside); /* of a restart that was killed; only the holder of the journal writes there */
    base_file_sync_folder(j->path);
    return j;
}

void base_journal_close(struct base_journal *journal)
{
    if (journal)
        close(journal->fd);
}

static bool fits(const struct base_journal *j, size_t bytes, struct err_list *errs)
{
    if (bytes <= BASE_JOURNAL_MOST_BYTES)
        return true;
    base_err(errs, &too_large, base_err_in_file(j->path), ERR_NUMBER(BASE_JOURNAL_MOST_BYTES));
    return false;
}

/* The text of these lines after a head ("" or HEAD), in `a`. */
static const char *joined(struct arena *a, const char *head, struct base_journal_lines lines, size_t *count)
{
    *count = strlen(head);
    for (size_t i = 0; i < lines.count; i++)
        *count += strlen(lines.items[i]) + 1;
    char *text = base_arena_alloc(a, *count + 1, 1);
    char *at = stpcpy(text, head);
    for (size_t i = 0; i < lines.count; i++) {
        assert(!strchr(lines.items[i], '\n') && base_text_is_utf8(lines.items[i], strlen(lines.items[i])));
        at = stpcpy(at, lines.items[i]);
        *at++ = '\n';
    }
    return text;
}

static bool append_text(struct base_journal *j, const char *text, size_t count, struct err_list *errs)
{
    if (!fits(j, j->count + count, errs))
        return false;
    j->unsynced = true;
    if (write_at(j->fd, text, count, j->count)) {
        j->count += count;
        return true;
    }
    tell(j, &cannot_write, errs);
    cut_back(j); /* should that fail too, the part of a line stays until the next one is written over it */
    return false;
}

bool base_journal_append(struct base_journal *journal, const char *line, struct err_list *errs)
{
    struct arena *scratch = base_arena_create();
    size_t count;
    const char *text = joined(scratch, "", (struct base_journal_lines){ &line, 1 }, &count);
    bool ok = append_text(journal, text, count, errs);
    base_arena_destroy(scratch);
    return ok;
}

bool base_journal_sync(struct base_journal *journal, struct err_list *errs)
{
    if (journal->unsynced && fdatasync(journal->fd) != 0) {
        tell(journal, &cannot_sync, errs);
        return false;
    }
    journal->unsynced = false;
    return true;
}

static mode_t rights_of(int fd)
{
    struct stat st;
    return fstat(fd, &st) == 0 ? st.st_mode & 0777 : 0600;
}

/* The new file is held before it takes the old one's place, so that nobody else ever holds it. -1, with errno and
 * nothing changed, when it cannot be made. */
static int replace(const struct base_journal *j, const char *text, size_t count)
{
    int fd = open(j->beside, O_RDWR | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, 0600);
    if (fd < 0)
        return -1;
    if (base_hold_lock(fd) && write_at(fd, text, count, 0) && fchmod(fd, rights_of(j->fd)) == 0 && fsync(fd) == 0 &&
        rename(j->beside, j->path) == 0)
        return fd;
    int fault = errno;
    close(fd);
    unlink(j->beside);
    errno = fault;
    return -1;
}

bool base_journal_restart(struct base_journal *journal, struct base_journal_lines lines, struct err_list *errs)
{
    struct arena *scratch = base_arena_create();
    size_t count;
    const char *text = joined(scratch, HEAD, lines, &count);
    bool fit = fits(journal, count, errs);
    int fd = fit ? replace(journal, text, count) : -1;
    if (fit && fd < 0)
        tell(journal, &cannot_restart, errs);
    base_arena_destroy(scratch);
    if (fd < 0)
        return false;
    close(journal->fd);
    journal->fd = fd;
    journal->count = count;
    journal->unsynced = false;
    base_file_sync_folder(journal->path);
    return true;
}

size_t base_journal_bytes(const struct base_journal *journal)
{
    return journal->count;
}
