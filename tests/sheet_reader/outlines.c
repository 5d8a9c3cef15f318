/* For reference.py: reads the SVG files named on the command line and prints what is drawn in each:
 * "page WIDTH HEIGHT", then for each subpath "part CLOSED" with a line of two or six numbers for its start and each
 * segment, in mm, y up. */
#include "sheet/drawn.h"
#include "sheet/sheet.h"
#include "sheet_reader/svg.h"

#include "base/file.h"

static void print_part(const struct sheet *s, const struct sheet_part *part)
{
    const struct sheet_point *p = s->points + part->first_point;
    printf("part %u\n%.17g %.17g\n", part->closed, p->x, p->y);
    p++;
    for (uint32_t k = 0; k < part->segment_count; k++) {
        int count = s->kinds[part->first_kind + k] == SHEET_CUBIC ? 3 : 1;
        for (int i = 0; i < count; i++, p++)
            printf("%.17g %.17g%c", p->x, p->y, i + 1 < count ? ' ' : '\n');
    }
}

static bool print_file(struct arena *a, const char *path, struct err_list *errs)
{
    struct base_bytes file;
    struct collect *c = collect_create(-1);
    struct sheet s = { 0 };
    const char *flaw = NULL;
    size_t count = 0;
    void *bytes = NULL;
    if (base_file_read(a, path, 1 << 20, &file, errs) && svg_read(c, file.data, file.count) == SHEET_EXIT_DONE)
        bytes = drawn_bytes(c, &count);
    bool ok = bytes && sheet_validate(bytes, count, &s, &flaw);
    if (ok)
        printf("page %.17g %.17g\n", s.pages[0].width_mm, s.pages[0].height_mm);
    for (size_t i = 0; i < s.counts[SHEET_PARTS]; i++)
        print_part(&s, &s.parts[i]);
    free(bytes);
    collect_destroy(c);
    return ok;
}

int main(int count, char **arguments)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    bool ok = true;
    for (int i = 1; i < count && ok; i++)
        ok = print_file(a, arguments[i], errs);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return !ok;
}
