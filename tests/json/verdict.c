/* For reference.py: reads documents from standard input, each as "COUNT\n" and that many bytes, and answers each with 1
 * (taken) or 0 (refused). */
#include "json/tree.h"

#include <stdio.h>
#include <stdlib.h>

static bool is_taken(const char *bytes, size_t count)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    bool taken = json_parse(a, "stdin", bytes, count, errs);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return taken;
}

int main(void)
{
    size_t count;
    while (scanf("%zu", &count) == 1 && getchar() == '\n') {
        char *bytes = malloc(count ? count : 1);
        if (!bytes || fread(bytes, 1, count, stdin) != count)
            return 1;
        putchar(is_taken(bytes, count) ? '1' : '0');
        free(bytes);
    }
    return 0;
}
