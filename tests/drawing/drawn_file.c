#include "drawing/drawn_file.h"
#include "base/file.h"
#include "sheet_reader/collect.h"
#include "sheet_reader/kind.h"

#include <stdio.h>

/* What was collected through a file and the validator. */
static const struct sheet *validated(struct arena *a, struct collect *c)
{
    struct sheet *sheet = base_arena_alloc(a, 1, sizeof *sheet);
    const char *flaw = "not written";
    FILE *file = tmpfile();
    bool ok = file && collect_write(c, fileno(file)) && fseek(file, 0, SEEK_END) == 0;
    size_t count = ok ? (size_t)ftell(file) : 0;
    void *bytes = base_arena_alloc(a, count, 1);
    ok = ok && fseek(file, 0, SEEK_SET) == 0 && fread(bytes, 1, count, file) == count &&
         sheet_validate(bytes, count, sheet, &flaw);
    if (!ok)
        fprintf(stderr, "the program would refuse it: %s\n", flaw);
    if (file)
        fclose(file);
    return ok ? sheet : NULL;
}

const struct sheet *drawn_sheet_file(struct arena *a, const char *path, const char *password, int *exit)
{
    struct err_list *errs = base_err_list_create();
    struct base_bytes bytes;
    const struct sheet *sheet = NULL;
    *exit = SHEET_EXIT_BAD_SURROUNDINGS;
    if (base_file_read(a, path, SHEET_FILE_MOST, &bytes, errs)) {
        struct collect *c = collect_create(-1);
        const struct kind_orders orders = { password, 0 };
        *exit = (int)kind_read(c, bytes.data, bytes.count, &orders);
        if (*exit == SHEET_EXIT_DONE)
            sheet = validated(a, c);
        collect_destroy(c);
    }
    base_err_list_destroy(errs);
    return sheet;
}

bool drawn_file(struct arena *a, const char *path, const char *password, struct drawing *out, int *exit)
{
    const struct sheet *sheet = drawn_sheet_file(a, path, password, exit);
    struct err_list *errs = base_err_list_create();
    bool ok = sheet && drawing_flatten(a, sheet, out, errs);
    base_err_list_destroy(errs);
    return ok;
}
