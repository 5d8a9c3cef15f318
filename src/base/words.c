#include "base/words.h"

#include <libintl.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define DOMAIN "chalklight"

/* A language of its own name, and what no English text is: the catalogue's answer to whether it is there. */
static const char *const languages[] = { "en", "de" };
static const char language_name[] = BASE_TR_IN("code of this language", "en");

const char *base_tr(const char *english)
{
    return *english ? dgettext(DOMAIN, english) : english;
}

const char *base_tr_count(size_t count, const char *one, const char *many)
{
    return dngettext(DOMAIN, one, many, count);
}

const char *base_tr_in(const char *context, const char *english)
{
    char key[256];
    int length = snprintf(key, sizeof key, "%s\004%s", context, english);
    if (length < 0 || (size_t)length >= sizeof key)
        return english;
    const char *found = dgettext(DOMAIN, key);
    return found == key ? english : found;
}

const char *base_words_language(void)
{
    return base_tr_in("code of this language", language_name);
}

/* gettext asks LANGUAGE, but in the locale C it does not: C.UTF-8 is every system's, and like C in all else. What was
 * found before counts no more once textdomain was called. */
bool base_words_speak(const char *language, const char *folder)
{
    setenv("LANGUAGE", language, 1);
    setlocale(LC_MESSAGES, "C.UTF-8");
    textdomain(DOMAIN);
    bindtextdomain(DOMAIN, folder);
    bind_textdomain_codeset(DOMAIN, "UTF-8");
    return strcmp(base_words_language(), language) == 0;
}

static const char *known(const char *locale, size_t length)
{
    for (size_t i = 0; i < sizeof languages / sizeof languages[0]; i++)
        if (length >= 2 && strncmp(locale, languages[i], 2) == 0 && (length == 2 || strchr("_.@", locale[2])))
            return languages[i];
    return NULL;
}

/* The first of a list "de_AT:de:fr" that we have. */
static const char *first_known(const char *list)
{
    const char *found = NULL;
    while (*list && !found) {
        size_t length = strcspn(list, ":");
        found = known(list, length);
        list += length + (list[length] == ':');
    }
    return found;
}

const char *base_words_of_desktop(void)
{
    static const char *const asked[] = { "LC_ALL", "LC_MESSAGES", "LANG" };
    const char *locale = NULL, *list = getenv("LANGUAGE");
    for (size_t i = 0; i < sizeof asked / sizeof asked[0] && (!locale || !*locale); i++)
        locale = getenv(asked[i]);
    if (!locale || !*locale || strcmp(locale, "C") == 0 || strcmp(locale, "POSIX") == 0)
        return languages[0];
    const char *found = list ? first_known(list) : NULL;
    if (!found)
        found = known(locale, strlen(locale));
    return found ? found : languages[0];
}
