#include "export/xml.h"

#include "base/buffer.h"
#include "base/text.h"

#include <string.h>

static const struct {
    const char *is, *becomes;
} rows[] = {
    { "&", "&amp;" },   { "<", "&lt;" },         { ">", "&gt;" },
    { "\"", "&quot;" }, { "\xef\xbf\xbe", "?" }, { "\xef\xbf\xbf", "?" }, /* U+FFFE, U+FFFF */
};

enum { ROWS = sizeof rows / sizeof rows[0] };

/* The row whose text stands here; ROWS: none. */
static size_t row_at(const char *text)
{
    size_t row = 0;
    while (row < ROWS && strncmp(text, rows[row].is, strlen(rows[row].is)) != 0)
        row++;
    return row;
}

const char *export_xml_text(struct arena *a, const char *text)
{
    struct base_buffer out = { .a = a };
    const char *p = base_text_plain(a, text);
    while (*p) {
        size_t row = row_at(p);
        if (row == ROWS) {
            base_buffer_print(&out, "%c", *p++);
            continue;
        }
        base_buffer_print(&out, "%s", rows[row].becomes);
        p += strlen(rows[row].is);
    }
    return base_buffer_text(&out);
}
