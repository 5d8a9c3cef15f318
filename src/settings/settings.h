/* What the program remembers of a person and her machine, apart from any job: values of the table in settings/rows.h,
 * kept in one file of ours. Not: what a setting is good for; keys are texts here, which the app reads.
 *
 * Another program may have the file open as well. What is saved here is what was set here, written over the file as it
 * stands at that moment, in one step: names that others set meanwhile stay, and of one name the last one saved holds.
 */
#ifndef SETTINGS_SETTINGS_H
#define SETTINGS_SETTINGS_H

#include "base/err_list.h"
#include "settings/rows.h"
#include "json/write.h"

struct settings;

/* Where the settings are kept (base/xdg.h); NULL where nothing says a home. Lives in `a`. */
const char *settings_path(struct arena *a);

/* The settings of that file, in `a`. What is no value of its setting, or a file that cannot be read, is told as a
 * warning and is as if it were not there; so is a NULL path, without a word. Never NULL. */
struct settings *settings_open(struct arena *a, const char *path, struct err_list *errs);

/* The same of a file that is to be proof-read: NULL, with the faults, when it cannot be read, and warnings of names
 * that are not known as well. */
struct settings *settings_read(struct arena *a, const char *path, struct err_list *errs);

/* The same of a text; `file` names it in complaints. */
struct settings *settings_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                                struct err_list *errs);

/* Saves what was set since; nothing is done when nothing was. Names and values that are not known stay in the file; a
 * file that cannot be read is kept beside under another name, with a warning; one of a newer Chalklight is not written
 * over. False, with the reason and everything still to be saved, when it cannot. */
bool settings_save(struct settings *s, struct err_list *errs);

/* The path it was opened with. */
const char *settings_file(const struct settings *s);

/* Whether nothing was said, so that the usual value holds. */
bool settings_is_usual(const struct settings *s, enum settings_name name);

/* The value of a setting of that type: which of its words; the number; the text or day, NULL for none; the texts. Texts
 * last as long as the settings. */
int settings_word(const struct settings *s, enum settings_name name);
int settings_number(const struct settings *s, enum settings_name name);
const char *settings_text(const struct settings *s, enum settings_name name);
size_t settings_texts(const struct settings *s, enum settings_name name, const char *const **out);

/* The value as it is typed: a word, a number, texts with "; " between; "" for none. Lives in `a`. */
const char *settings_shown(struct arena *a, const struct settings *s, enum settings_name name);

/* Adds the value to an object or a list, as a text, a number or a list; null for none. */
void settings_write(struct json_out *to, const char *key, const struct settings *s, enum settings_name name);

/* Sets a value of that type; a word or number is one of the row's. */
void settings_set_word(struct settings *s, enum settings_name name, int word);
void settings_set_number(struct settings *s, enum settings_name name, int number);

/* Texts are copied; false, with the setting as it was, when one is not of the row's form. */
bool settings_set_text(struct settings *s, enum settings_name name, const char *text);
bool settings_set_texts(struct settings *s, enum settings_name name, const char *const *texts, size_t count);

/* Puts a text first in a list, from where else it stood there; the last one goes where there are too many. In the file
 * it comes before what others put there meanwhile. */
bool settings_put_first(struct settings *s, enum settings_name name, const char *text);

/* Sets a value as it is typed; false, with the setting as it was, when it is none. */
bool settings_set_typed(struct settings *s, enum settings_name name, const char *typed);

/* Sets the usual value back. */
void settings_forget(struct settings *s, enum settings_name name);

#endif
