/* What a person reads, in her language. English stands in the sources and is the key to the other languages' catalogues
 * (gettext; assets/words). Texts that scripts read (codes, names of options and fields) are not translated.
 *
 * A text is one whole sentence, label or word, with places for what is filled in: sentences are not put together from
 * pieces, for in another language the pieces stand in another order and have other endings. */
#ifndef BASE_WORDS_H
#define BASE_WORDS_H

#include <stdbool.h>
#include <stddef.h>

/* Marks a text that stands in a table: whoever shows it asks base_tr for it. */
#define BASE_TR(english) english
#define BASE_TR_IN(context, english) english

/* The text in the language in use; itself where there is none. Lasts until another language is asked for. */
const char *base_tr(const char *english) __attribute__((format_arg(1)));

/* The same by a count; both texts may have a place for it. */
const char *base_tr_count(size_t count, const char *one, const char *many)
    __attribute__((format_arg(2), format_arg(3)));

/* The same of a word that means several things, told apart by a context ("seam", "navigation"). */
const char *base_tr_in(const char *context, const char *english) __attribute__((format_arg(2)));

/* From now on speaks the language of that code ("de"; "en": the sources'). `folder` has the catalogues as gettext wants
 * them, LANGUAGE/LC_MESSAGES/chalklight.mo. Only words change: numbers and order of letters stay the C locale's. Not
 * while other threads ask for words. False when there is no catalogue of it: English is spoken then. */
bool base_words_speak(const char *language, const char *folder);

/* The code of the language that the desktop asks for, by LANGUAGE, LC_ALL, LC_MESSAGES and LANG in gettext's order, of
 * those we have; "en" where it is none of them. */
const char *base_words_of_desktop(void);

/* The code of the language in use. */
const char *base_words_language(void);

#endif
