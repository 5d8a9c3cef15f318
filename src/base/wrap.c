#include "base/wrap.h"

#include <string.h>

/* Where the line that begins here ends: the last blank within the columns, or else the next one. */
static size_t line_end(const char *text, size_t columns)
{
    size_t end = strlen(text);
    if (end <= columns)
        return end;
    for (size_t i = columns; i > 0; i--)
        if (text[i] == ' ')
            return i;
    return strcspn(text, " ");
}

size_t base_wrap(struct arena *a, const char *text, size_t columns, const char **lines, size_t count, size_t most)
{
    while (*text && count + 1 < most) {
        size_t end = line_end(text, columns);
        lines[count++] = base_arena_copy_bytes(a, text, end);
        text += end + (text[end] == ' ');
    }
    return count;
}
