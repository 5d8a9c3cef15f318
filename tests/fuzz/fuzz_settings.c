/* Any text as settings: nothing that stands in them is a fault, and what is set over and over comes back as it was. */
#include "fuzz/fuzz.h"
#include "settings/settings.h"

#include <string.h>

/* Every value set in `to` as it is asked of `from`. */
static void set_alike(struct arena *a, const struct settings *from, struct settings *to)
{
    for (int i = 0; i < SETTINGS_COUNT; i++) {
        enum settings_name name = (enum settings_name)i;
        size_t count;
        if (settings_is_usual(from, name) || settings_rows(&count)[i].type == SETTINGS_TEXTS)
            continue;
        fuzz_must(settings_set_typed(to, name, settings_shown(a, from, name)));
        fuzz_must(strcmp(settings_shown(a, from, name), settings_shown(a, to, name)) == 0);
    }
}

static void set_texts_alike(const struct settings *from, struct settings *to)
{
    const char *const *texts;
    size_t count = settings_texts(from, SETTINGS_KEYS, &texts);
    fuzz_must(count <= 100 && settings_set_texts(to, SETTINGS_KEYS, texts, count));
    count = settings_texts(from, SETTINGS_RECENT, &texts);
    fuzz_must(count <= 10);
    while (count)
        fuzz_must(settings_put_first(to, SETTINGS_RECENT, texts[--count]));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct settings *read = settings_parse(a, "fuzz", (const char *)data, size, errs);
    fuzz_must((read != NULL) == (errs->faults == 0));
    if (read) {
        struct settings *other = settings_open(a, NULL, errs);
        set_alike(a, read, other);
        set_texts_alike(read, other);
        fuzz_must(strcmp(settings_shown(a, read, SETTINGS_KEYS), settings_shown(a, other, SETTINGS_KEYS)) == 0);
        fuzz_must(strcmp(settings_shown(a, read, SETTINGS_RECENT), settings_shown(a, other, SETTINGS_RECENT)) == 0);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
