/* sheet_saved FILE ...: whether each page of PDFs and SVGs, and the sheet that they make when they are joined, saved as
 * SVG and read again, is the same within 0.001 mm. Prints what is not; exits 1 then. A file that cannot be read is none
 * of its concern. */
#include "drawing/drawn_file.h"
#include "drawing/pages.h"
#include "export/read_back.h"

#include <stdio.h>

#define NEAR_MM 0.001

enum { PAGES_MOST = 20 }; /* of a file */

static int told(const char *path, size_t page, const char *what)
{
    if (what)
        printf("%s, page %zu: %s\n", path, page, what);
    return what != NULL;
}

/* Joined as it is drawn; told as page 0. Where every page is left out there is nothing to save. */
static int check_joined(struct arena *a, const char *path, const struct drawing *d)
{
    static const struct drawing_scale as_drawn = { 1, 1 };
    static const struct drawing_pages_choice found = { 0 };
    struct drawing_pages pages;
    drawing_find_pages(a, d, as_drawn, &found, &pages);
    struct drawing joined = drawing_join(a, d, as_drawn, &pages);
    return joined.pages[0].width_mm > 0 && told(path, 0, read_back(a, &joined, 0, NEAR_MM));
}

static int check(const char *path)
{
    struct arena *a = base_arena_create();
    struct drawing d;
    int exit, bad = 0;
    if (drawn_file(a, path, NULL, &d, &exit)) {
        for (size_t page = 0; page < d.page_count && page < PAGES_MOST; page++)
            bad += told(path, page + 1, read_back(a, &d, page, NEAR_MM));
        bad += check_joined(a, path, &d);
    }
    base_arena_destroy(a);
    return bad;
}

int main(int argc, char **argv)
{
    int bad = 0;
    for (int i = 1; i < argc; i++)
        bad += check(argv[i]);
    return bad ? 1 : 0;
}
