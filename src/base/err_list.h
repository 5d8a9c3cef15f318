/* Faults of the outside world, collected: what is wrong (a kind), where (file, path inside it, line) and the values
 * that its sentence names. Lower floors record; app and cli turn a fault into a sentence and print it.
 *
 * A kind is a row that the folder which finds the fault owns:
 *
 *     static const struct err_kind no_fold = { "pattern.no_fold", ERR_FAULT, BASE_TR("piece “{0}” has no edge “{1}” to
 * fold") }; base_err(errs, &no_fold, place, ERR_TEXT(piece), ERR_TEXT(edge));
 */
#ifndef BASE_ERR_LIST_H
#define BASE_ERR_LIST_H

#include "base/arena.h"
#include "base/words.h"

#include <stdbool.h>

enum { ERR_MOST = 100, ERR_ARGS = 4 };

enum err_severity { ERR_FAULT, ERR_WARNING };

struct err_kind {
    const char *code; /* "folder.what", stable: scripts read it */
    enum err_severity severity;
    const char *sentence; /* {0} to {3} stand for the arguments; says what is wrong and what to do */
};

enum err_arg_type { ERR_ARG_NONE, ERR_ARG_TEXT, ERR_ARG_NUMBER, ERR_ARG_MM, ERR_ARG_TAPE_MM, ERR_ARG_OFF_MM };

struct err_arg {
    enum err_arg_type type;
    const char *text;
    double number; /* a plain number, mm to be shown in the person's unit (as a tape
                      has it), or mm that stay mm */
};

#define ERR_NONE ((struct err_arg){ ERR_ARG_NONE, NULL, 0 })
#define ERR_TEXT(t) ((struct err_arg){ ERR_ARG_TEXT, (t), 0 })
#define ERR_NUMBER(n) ((struct err_arg){ ERR_ARG_NUMBER, NULL, (double)(n) })
#define ERR_MM(n) ((struct err_arg){ ERR_ARG_MM, NULL, (double)(n) })
/* What a person measures by a tape: in inches to the nearest sixteenth. */
#define ERR_TAPE_MM(n) ((struct err_arg){ ERR_ARG_TAPE_MM, NULL, (double)(n) })
/* What something is off by: in mm, whatever the person measures in. */
#define ERR_OFF_MM(n) ((struct err_arg){ ERR_ARG_OFF_MM, NULL, (double)(n) })

struct err_place {
    const char *file; /* NULL: not about a file */
    const char *path; /* such as pieces[2].points.a; NULL: the whole file */
    int line;         /* from 1; 0: not known */
};

struct err {
    const struct err_kind *kind;
    struct err_place place;
    struct err_arg args[ERR_ARGS];
};

struct err_list {
    struct arena *arena; /* owns the copies of all texts */
    struct err items[ERR_MOST];
    int count;
    int dropped; /* faults past the first hundred, only counted */
    int faults;  /* how many of all were faults rather than warnings */
};

/* An empty list; the caller owns it. */
struct err_list *base_err_list_create(void);
void base_err_list_destroy(struct err_list *errs);

/* Records one fault; texts are copied. Use through base_err. */
void base_err_add(struct err_list *errs, const struct err_kind *kind, struct err_place place,
                  const struct err_arg args[ERR_ARGS]);

/* Records a fault with one to four arguments (ERR_NONE when it has none). */
#define base_err(errs, kind, place, ...)                                                                               \
    base_err_add((errs), (kind), (place), (const struct err_arg[ERR_ARGS]){ __VA_ARGS__ })

/* The place that names a whole file. */
struct err_place base_err_in_file(const char *file);

/* Whether a kind of that code was recorded. */
bool base_err_list_has(const struct err_list *errs, const char *code);

#endif
