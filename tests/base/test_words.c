/* What is spoken. Catalogues are packed by gettext's own msgfmt from what is written here; which language a desktop
 * asks for is held against the gettext manual, 2.3 "Setting the Locale through Environment Variables". */
#include "base/words.h"

#include "support/folder.h"
#include "support/room.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>

static const char catalogue[] = "msgid \"\"\n"
                                "msgstr \"Content-Type: text/plain; charset=UTF-8\\n\"\n"
                                "\"Plural-Forms: nplurals=2; plural=(n != 1);\\n\"\n"
                                "msgctxt \"code of this language\"\nmsgid \"en\"\nmsgstr \"de\"\n"
                                "msgid \"Hip\"\nmsgstr \"Hüftumfang\"\n"
                                "msgid \"back\"\nmsgstr \"hinten\"\n"
                                "msgctxt \"navigation\"\nmsgid \"back\"\nmsgstr \"zurück\"\n"
                                "msgid \"%d piece\"\nmsgid_plural \"%d pieces\"\n"
                                "msgstr[0] \"%d Teil\"\nmsgstr[1] \"%d Teile\"\n";

/* The folder of catalogues with one for German. */
static char *pack(void)
{
    char *folder = support_folder_create(), path[512], command[1200];
    snprintf(command, sizeof command, "mkdir -p '%s/de/LC_MESSAGES'", folder);
    assert_int_equal(system(command), 0);
    snprintf(path, sizeof path, "%s/de.po", folder);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_true(fputs(catalogue, file) >= 0);
    assert_int_equal(fclose(file), 0);
    snprintf(command, sizeof command, "msgfmt -o '%s/de/LC_MESSAGES/chalklight.mo' '%s'", folder, path);
    assert_int_equal(system(command), 0);
    return folder;
}

static void words_change_with_the_language_and_back(void **state)
{
    (void)state;
    char *folder = pack();
    assert_true(base_words_speak("de", folder));
    assert_string_equal(base_words_language(), "de");
    assert_string_equal(base_tr("Hip"), "Hüftumfang");
    assert_string_equal(base_tr("back"), "hinten");
    assert_string_equal(base_tr_in("navigation", "back"), "zurück");
    assert_string_equal(base_tr_count(1, "%d piece", "%d pieces"), "%d Teil");
    assert_string_equal(base_tr_count(0, "%d piece", "%d pieces"), "%d Teile");
    assert_true(base_words_speak("en", folder));
    assert_string_equal(base_words_language(), "en");
    assert_string_equal(base_tr("Hip"), "Hip");
    assert_string_equal(base_tr_count(1, "%d piece", "%d pieces"), "%d piece");
    assert_string_equal(base_tr_in("navigation", "back"), "back");
    support_folder_remove(folder);
}

static void what_has_no_catalogue_is_english(void **state)
{
    (void)state;
    char *folder = support_folder_create();
    assert_false(base_words_speak("de", folder));
    assert_string_equal(base_words_language(), "en");
    assert_string_equal(base_tr("Hip"), "Hip");
    assert_string_equal(base_tr(""), "");
    support_folder_remove(folder);
}

static const struct {
    const char *language, *lc_all, *lc_messages, *lang, *spoken;
} desktops[] = {
    { NULL, NULL, NULL, NULL, "en" },
    { NULL, NULL, NULL, "de_DE.UTF-8", "de" },
    { NULL, NULL, NULL, "de", "de" },
    { NULL, NULL, NULL, "de@euro", "de" },
    { NULL, NULL, NULL, "deu", "en" },
    { NULL, NULL, NULL, "fr_FR.UTF-8", "en" },
    { NULL, NULL, "de_AT.UTF-8", "en_GB.UTF-8", "de" },
    { NULL, "en_GB.UTF-8", "de_AT.UTF-8", "de_DE.UTF-8", "en" },
    { NULL, "", "", "de_CH", "de" },
    { "de_CH:de:en", NULL, NULL, "en_GB.UTF-8", "de" },
    { "fr:de", NULL, NULL, "fr_FR.UTF-8", "de" },
    { "en", NULL, NULL, "de_DE.UTF-8", "en" },
    { "", NULL, NULL, "de_DE.UTF-8", "de" },
    { "de", NULL, NULL, "C", "en" },
    { "de", "POSIX", NULL, "de_DE.UTF-8", "en" },
    { "de", NULL, NULL, "C.UTF-8", "de" },
};

static void set(const char *name, const char *value)
{
    assert_int_equal(value ? setenv(name, value, 1) : unsetenv(name), 0);
}

static void the_desktop_s_language_is_found_as_gettext_does(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof desktops / sizeof desktops[0]; i++) {
        set("LANGUAGE", desktops[i].language);
        set("LC_ALL", desktops[i].lc_all);
        set("LC_MESSAGES", desktops[i].lc_messages);
        set("LANG", desktops[i].lang);
        const char *spoken = base_words_of_desktop();
        if (strcmp(spoken, desktops[i].spoken) != 0)
            fail_msg("row %zu: %s, not %s", i, spoken, desktops[i].spoken);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_desktop_s_language_is_found_as_gettext_does),
        cmocka_unit_test(words_change_with_the_language_and_back),
        cmocka_unit_test(what_has_no_catalogue_is_english),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
