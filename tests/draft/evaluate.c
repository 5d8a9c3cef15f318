/* For reference.py: drafts the pattern in a file and prints, for each of its points, its name and what its first value
 * comes to, 17 digits, or the code of what was told of it.
 *
 *     draft_evaluate FILE */
#include "pattern/read.h"
#include "support/at_size.h"

#include <stdio.h>
#include <string.h>

static const char *told_of(const struct err_list *errs, const struct pattern_point *point)
{
    for (int i = 0; i < errs->count; i++)
        if (errs->items[i].place.line == point->place.line)
            return errs->items[i].kind->code;
    return NULL;
}

static void print_piece(const struct draft_sized *sized, int index, const struct err_list *errs)
{
    const struct pattern_piece *piece = &sized->pattern->pieces[index];
    for (size_t i = 0; i < piece->point_count; i++) {
        const char *told = told_of(errs, &piece->points[i]);
        if (told)
            printf("%s %s\n", piece->points[i].name, told);
        else
            printf("%s %.17g\n", piece->points[i].name, sized->pieces[index].points[i].x);
    }
}

int main(int argc, char **argv)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    const struct pattern *p = argc == 2 ? pattern_read(a, argv[1], errs) : NULL;
    if (p) {
        const struct draft_sized *sized = size_at(a, p, 0, PATTERN_NONE, errs);
        for (size_t i = 0; i < p->piece_count; i++)
            print_piece(sized, (int)i, errs);
    }
    for (int i = 0; !p && i < errs->count; i++)
        fprintf(stderr, "line %d: %s\n", errs->items[i].place.line, errs->items[i].kind->code);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return p ? 0 : 1;
}
