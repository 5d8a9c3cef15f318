/* Where a test is at work: memory, a list of complaints, a folder if it wants one, and JSON that is bearable to look at
 * in C. What was complained of is asked of the room too: it prints all of it before it fails a test. */
#ifndef TESTS_SUPPORT_ROOM_H
#define TESTS_SUPPORT_ROOM_H

#include "base/arena.h"
#include "base/err_list.h"
#include "support/cmocka_all.h"

#include <string.h>

struct room {
    struct arena *a;
    struct err_list *errs;
    char *folder; /* NULL until room_folder is asked for it */
};

void room_init(struct room *room);
void room_finish(struct room *room);

/* Set-up and tear-down of a test: *state is its struct room. Where a set-up of the test's own makes a struct that
 * begins with a room, room_close tears that down as well. */
int room_open(void **state);
int room_close(void **state);

#define room_test(f) cmocka_unit_test_setup_teardown((f), room_open, room_close)

/* For a test that needs nothing but memory: *state is its struct arena. */
int room_open_arena(void **state);
int room_close_arena(void **state);

#define room_arena_test(f) cmocka_unit_test_setup_teardown((f), room_open_arena, room_close_arena)

/* The room's own folder, empty when first asked for, gone with the room. */
const char *room_folder(struct room *room);

/* The path of that name in the room's folder; lives in the room's arena. */
const char *room_path(struct room *room, const char *name);

/* Saves a text in the room's folder and gives its path. */
const char *room_put(struct room *room, const char *name, const char *text);

/* JSON written with ' for "; lives in the room's arena. */
const char *room_json(struct room *room, const char *text);

/* Forgets the complaints so far. */
void room_forget(struct room *room);

/* Prints what was told, for a test that is about to fail. */
void room_print_told(const struct room *room);

/* Nothing was told, neither fault nor warning. */
void room_nothing_told(const struct room *room);

/* The one complaint there is; it has to be of that code. */
const struct err *room_only_told(const struct room *room, const char *code);

/* The same, and it has to be at that path in its file; "" for the top. */
const struct err *room_only_told_at(const struct room *room, const char *code, const char *path);

#endif
