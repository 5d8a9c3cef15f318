/* A journal: lines of text in a file of its own, each on it before base_journal_append returns. A program that is
 * killed at any moment has lost none of them; after a power cut, none that was synced. Not: what the lines say. */
#ifndef BASE_JOURNAL_H
#define BASE_JOURNAL_H

#include "base/arena.h"
#include "base/err_list.h"

#include <stdbool.h>
#include <stddef.h>

enum { BASE_JOURNAL_MOST_BYTES = 16 * 1024 * 1024 };

struct base_journal;

struct base_journal_lines {
    const char *const *items; /* without their line ends */
    size_t count;
};

/* Creates the journal or continues the one that is there, and holds it against every other program (and against being
 * opened twice) until it is closed. *lines (in `a`, as the journal is) is what it holds, in order. A line at the end
 * that a power cut or a full disk has torn is dropped with a warning. NULL, with the reason and the file untouched,
 * when it cannot be opened, is held already or is no journal. */
struct base_journal *base_journal_open(struct arena *a, const char *path, struct base_journal_lines *lines,
                                       struct err_list *errs);

/* The whole lines of a journal as it is now, whoever holds it; nothing of it is changed. False, with nothing told, when
 * there is none that can be read. */
bool base_journal_look(struct arena *a, const char *path, struct base_journal_lines *lines);

/* Lets go of the file. What was appended stays, synced or not. NULL is allowed. */
void base_journal_close(struct base_journal *journal);

/* Adds one line: UTF-8 without a line end. False, with the reason, when it cannot (a full disk): the line is then not
 * in the journal, all before it are, and the next may be tried. */
bool base_journal_append(struct base_journal *journal, const char *line, struct err_list *errs);

/* Waits until all lines are on the disk itself. Nothing is done when they are. */
bool base_journal_sync(struct base_journal *journal, struct err_list *errs);

/* Begins anew with these lines instead of all there were: a snapshot of where they led to. Either the old or the new
 * lines are on the disk, whenever the program is killed. False, with the reason and the old lines kept, when it cannot.
 */
bool base_journal_restart(struct base_journal *journal, struct base_journal_lines lines, struct err_list *errs);

/* How many bytes it holds: what tells when a restart is due. */
size_t base_journal_bytes(const struct base_journal *journal);

#endif
