/* The language that is spoken: the person's setting, else the desktop's. */
#include "base/words.h"
#include "base/program.h"
#include "cli/run.h"

void cli_speak(int setting, const char *desktop)
{
    static const char *const codes[] = { [SETTINGS_LANGUAGE_ENGLISH] = "en", [SETTINGS_LANGUAGE_GERMAN] = "de" };
    struct arena *a = base_arena_create();
    const char *folder = base_program_path(a, CHALK_WORDS_FROM_PROGRAM);
    const char *code = setting != SETTINGS_LANGUAGE_AS_DESKTOP ? codes[setting]
                       : desktop                               ? desktop
                                                               : base_words_of_desktop();
    base_words_speak(code, folder ? folder : CHALK_INSTALL_WORDS);
    base_arena_destroy(a);
}
