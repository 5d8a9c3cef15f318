#include "base/err_list.h"

#include <stdlib.h>
#include <string.h>

struct err_list *base_err_list_create(void)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_arena_alloc(a, 1, sizeof *errs);
    errs->arena = a;
    return errs;
}

void base_err_list_destroy(struct err_list *errs)
{
    if (errs)
        base_arena_destroy(errs->arena);
}

static const char *copied(struct err_list *errs, const char *text)
{
    return text ? base_arena_copy_text(errs->arena, text) : NULL;
}

void base_err_add(struct err_list *errs, const struct err_kind *kind, struct err_place place,
                  const struct err_arg args[ERR_ARGS])
{
    if (kind->severity == ERR_FAULT)
        errs->faults++;
    if (errs->count == ERR_MOST) {
        errs->dropped++;
        return;
    }
    struct err *e = &errs->items[errs->count++];
    e->kind = kind;
    e->place = (struct err_place){ copied(errs, place.file), copied(errs, place.path), place.line };
    for (int i = 0; i < ERR_ARGS; i++) {
        e->args[i] = args[i];
        e->args[i].text = copied(errs, args[i].text);
    }
}

struct err_place base_err_in_file(const char *file)
{
    return (struct err_place){ file, NULL, 0 };
}

bool base_err_list_has(const struct err_list *errs, const char *code)
{
    for (int i = 0; i < errs->count; i++)
        if (strcmp(errs->items[i].kind->code, code) == 0)
            return true;
    return false;
}
