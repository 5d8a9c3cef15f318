/* sheet_saved FILE ...: whether each page of PDFs and SVGs, saved as SVG and read again, is the same within 0.001 mm.
 * Prints what is not; exits 1 then. A file that cannot be read is none of its concern. */
#include "drawing/drawn_file.h"
#include "export/read_back.h"

#include <stdio.h>

#define NEAR_MM 0.001

enum { PAGES_MOST = 20 }; /* of a file */

static int check(const char *path)
{
    struct arena *a = base_arena_create();
    struct drawing d;
    int exit, bad = 0;
    if (drawn_file(a, path, NULL, &d, &exit)) {
        for (size_t page = 0; page < d.page_count && page < PAGES_MOST; page++) {
            const char *what = read_back(a, &d, page, NEAR_MM);
            if (what) {
                printf("%s, page %zu: %s\n", path, page + 1, what);
                bad++;
            }
        }
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
