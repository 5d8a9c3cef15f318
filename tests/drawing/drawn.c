#include "drawing/drawn.h"
#include "support/cmocka_all.h"

#include <stdio.h>
#include <string.h>

static const struct collect_style fine = { 0.3, 0x000000, SHEET_STROKED, NULL, 0 };

void drawn_line(struct collect *c, uint32_t layer, const double *xy, size_t count, bool closed)
{
    collect_begin(c, layer, &fine);
    collect_move(c, xy[0], xy[1]);
    for (size_t i = 1; i < count; i++)
        collect_line(c, xy[2 * i], xy[2 * i + 1]);
    if (closed)
        collect_close(c);
    collect_end(c);
}

void drawn_words(struct collect *c, uint32_t layer, double x, double y, double size_mm, const char *words)
{
    static const struct collect_style black = { 0, 0x000000, SHEET_FILLED | SHEET_TEXT, NULL, 0 };
    collect_begin_run(c, layer, &black, words, strlen(words), &(struct sheet_run){ x, y, 1, 0, size_mm });
    collect_end(c);
}

struct drawing drawn_drawing(struct arena *a, struct collect *c)
{
    FILE *file = tmpfile();
    struct sheet *sheet = base_arena_alloc(a, 1, sizeof *sheet);
    struct drawing d = { 0 };
    const char *flaw = "not written";
    struct err_list *errs = base_err_list_create();
    bool ok = file && collect_write(c, fileno(file));
    size_t count = ok && fseek(file, 0, SEEK_END) == 0 ? (size_t)ftell(file) : 0;
    void *bytes = base_arena_alloc(a, count, 1);
    rewind(file);
    ok = ok && fread(bytes, 1, count, file) == count && sheet_validate(bytes, count, sheet, &flaw) &&
         drawing_flatten(a, sheet, &d, errs);
    if (!ok)
        fail_msg("the drawn sheet was refused: %s", flaw);
    fclose(file);
    base_err_list_destroy(errs);
    collect_destroy(c);
    return d;
}
