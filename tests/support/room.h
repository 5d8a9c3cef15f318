/* What a test of a room that reads files needs: memory, a list of complaints, and JSON that is bearable to look at in
 * C. */
#ifndef TESTS_SUPPORT_ROOM_H
#define TESTS_SUPPORT_ROOM_H

#include "base/arena.h"
#include "base/err_list.h"
#include "support/cmocka_all.h"

#include <string.h>

struct room {
    struct arena *a;
    struct err_list *errs;
};

/* Set-up and tear-down of a test: *state is its struct room. */
static inline int room_open(void **state)
{
    static struct room room;
    room = (struct room){ base_arena_create(), base_err_list_create() };
    *state = &room;
    return 0;
}

static inline int room_close(void **state)
{
    struct room *room = *state;
    base_err_list_destroy(room->errs);
    base_arena_destroy(room->a);
    return 0;
}

#define room_test(f) cmocka_unit_test_setup_teardown((f), room_open, room_close)

/* JSON written with ' for ". */
static inline const char *room_json(struct room *room, const char *text)
{
    char *copy = base_arena_copy_text(room->a, text);
    for (char *c = copy; *c; c++)
        if (*c == '\'')
            *c = '"';
    return copy;
}

/* Forgets the complaints so far. */
static inline void room_forget(struct room *room)
{
    base_err_list_destroy(room->errs);
    room->errs = base_err_list_create();
}

/* Prints what was told, for a test that is about to fail. */
static inline void room_print_told(const struct room *room)
{
    for (int i = 0; i < room->errs->count; i++) {
        const struct err *e = &room->errs->items[i];
        print_error("told: %s at %s:%d %s\n", e->kind->code, e->place.file ? e->place.file : "", e->place.line,
                    e->place.path ? e->place.path : "");
    }
}

static inline void room_nothing_told(const struct room *room)
{
    room_print_told(room);
    assert_int_equal(room->errs->count, 0);
}

/* The one complaint there is; it has to be of that code. */
static inline const struct err *room_only_told(const struct room *room, const char *code)
{
    if (room->errs->count != 1 || strcmp(room->errs->items[0].kind->code, code) != 0) {
        room_print_told(room);
        fail_msg("wanted only %s", code);
    }
    return &room->errs->items[0];
}

#endif
