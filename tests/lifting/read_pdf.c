#include "read_pdf.h"
#include "sheet_reader/collect.h"
#include "sheet_reader/pdf.h"

#include <stdio.h>
#include <time.h>
#include <unistd.h>

static char *read_whole(struct arena *a, FILE *f, size_t *count)
{
    if (fseek(f, 0, SEEK_END) != 0)
        return NULL;
    *count = (size_t)ftell(f);
    rewind(f);
    char *bytes = base_arena_alloc(a, *count + 1, 1);
    return fread(bytes, 1, *count, f) == *count ? bytes : NULL;
}

bool read_pdf(struct arena *a, const char *path, struct sheet *s)
{
    FILE *f = fopen(path, "rb"), *result = tmpfile();
    size_t count = 0;
    const char *flaw;
    struct collect *c = collect_create(-1);
    const char *bytes = f ? read_whole(a, f, &count) : NULL;
    bool ok = bytes && result && pdf_read(c, bytes, count, NULL) == SHEET_EXIT_DONE && collect_write(c, fileno(result));
    const char *written = ok ? read_whole(a, result, &count) : NULL;
    ok = written && sheet_validate(written, count, s, &flaw);
    collect_destroy(c);
    if (f)
        fclose(f);
    if (result)
        fclose(result);
    return ok;
}

double read_pdf_seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}
