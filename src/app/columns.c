#include "app/columns.h"
#include "base/text.h"

#include <stdlib.h>

void app_columns_widen(size_t *widths, const char *const *cells, int count)
{
    for (int c = 0; c < count; c++) {
        size_t width = base_text_letters(cells[c]);
        if (width > widths[c])
            widths[c] = width;
    }
}

const char *app_columns_padded(struct arena *a, const char *cell, int width)
{
    int blanks = abs(width) - (int)base_text_letters(cell);
    if (blanks <= 0)
        return cell;
    return width < 0 ? base_arena_print(a, "%s%*s", cell, blanks, "") : base_arena_print(a, "%*s%s", blanks, "", cell);
}

void app_columns_add(struct base_buffer *out, const size_t *widths, const char *const *cells, int count)
{
    size_t pending = 0; /* blanks, left out at a line's end */
    for (int c = 0; c < count; c++) {
        pending += 2;
        if (*cells[c])
            base_buffer_print(out, "%*s%s", (int)pending, "", cells[c]);
        size_t width = base_text_letters(cells[c]), left = widths[c] > width ? widths[c] - width : 0;
        pending = *cells[c] ? left : pending + left;
    }
    base_buffer_print(out, "\n");
}
