#include "export/markup.h"

#include "base/text.h"

#include <string.h>

static void add_text(struct export_markup *m, const char *text)
{
    size_t more = strlen(text), need = m->count + more + 1;
    if (need > m->cap)
        m->text = base_arena_grow(m->a, m->text, &m->cap, 2 * need, 1);
    memcpy(m->text + m->count, text, more + 1);
    m->count += more;
}

void export_markup_add(struct export_markup *m, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const char *text = base_arena_vprint(m->a, format, args);
    va_end(args);
    add_text(m, text);
}

static const char *escaped_char(char c)
{
    switch (c) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    default:
        return NULL;
    }
}

const char *export_markup_escape(struct arena *a, const char *text)
{
    struct export_markup m = { .a = a };
    const char *plain = base_text_plain(a, text);
    add_text(&m, "");
    for (const char *p = plain; *p; p++) {
        const char one[] = { *p, '\0' }, *escaped = escaped_char(*p);
        add_text(&m, escaped ? escaped : one);
    }
    return m.text;
}
