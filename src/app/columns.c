#include "app/columns.h"
#include "base/text.h"

void app_columns_widen(size_t *widths, const char *const *cells, int count)
{
    for (int c = 0; c < count; c++) {
        size_t width = base_text_letters(cells[c]);
        if (width > widths[c])
            widths[c] = width;
    }
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
