/* Apart from text.c, which the program that reads drawings has, too: that speaks no language. */
#include "base/text.h"
#include "base/words.h"

const char *base_text_list(struct arena *a, const char *const *names, size_t count, size_t most)
{
    size_t named = count < most ? count : most;
    const char *text = named ? base_arena_copy_text(a, names[0]) : "";
    for (size_t i = 1; i < named; i++)
        text = base_arena_print(a, i + 1 == count ? base_tr("%s and %s") : "%s, %s", text, names[i]);
    return count > named ? base_arena_print(a, base_tr("%s and %zu more"), text, count - named) : text;
}
