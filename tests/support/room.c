#include "support/room.h"

#include "base/file.h"
#include "support/folder.h"

void room_init(struct room *room)
{
    *room = (struct room){ base_arena_create(), base_err_list_create(), NULL };
}

void room_finish(struct room *room)
{
    if (room->folder)
        support_folder_remove(room->folder);
    base_err_list_destroy(room->errs);
    base_arena_destroy(room->a);
}

int room_open(void **state)
{
    static struct room room;
    room_init(&room);
    *state = &room;
    return 0;
}

int room_close(void **state)
{
    room_finish(*state);
    return 0;
}

int room_open_arena(void **state)
{
    *state = base_arena_create();
    return 0;
}

int room_close_arena(void **state)
{
    base_arena_destroy(*state);
    return 0;
}

const char *room_folder(struct room *room)
{
    if (!room->folder)
        room->folder = support_folder_create();
    return room->folder;
}

const char *room_path(struct room *room, const char *name)
{
    return base_arena_print(room->a, "%s/%s", room_folder(room), name);
}

const char *room_put(struct room *room, const char *name, const char *text)
{
    const char *path = room_path(room, name);
    assert_true(base_file_save(path, text, strlen(text), room->errs));
    return path;
}

const char *room_json(struct room *room, const char *text)
{
    char *copy = base_arena_copy_text(room->a, text);
    for (char *c = copy; *c; c++)
        if (*c == '\'')
            *c = '"';
    return copy;
}

void room_forget(struct room *room)
{
    base_err_list_destroy(room->errs);
    room->errs = base_err_list_create();
}

static const char *path_of(const struct err *e)
{
    return e->place.path ? e->place.path : "";
}

void room_print_told(const struct room *room)
{
    for (int i = 0; i < room->errs->count; i++) {
        const struct err *e = &room->errs->items[i];
        print_error("told: %s at %s:%d %s\n", e->kind->code, e->place.file ? e->place.file : "", e->place.line,
                    path_of(e));
    }
}

void room_nothing_told(const struct room *room)
{
    room_print_told(room);
    assert_int_equal(room->errs->count, 0);
}

const struct err *room_only_told(const struct room *room, const char *code)
{
    if (room->errs->count != 1 || strcmp(room->errs->items[0].kind->code, code) != 0) {
        room_print_told(room);
        fail_msg("wanted only %s", code);
    }
    return &room->errs->items[0];
}

const struct err *room_only_told_at(const struct room *room, const char *code, const char *path)
{
    const struct err *e = room_only_told(room, code);
    if (strcmp(path_of(e), path) != 0) {
        room_print_told(room);
        fail_msg("wanted %s at “%s”", code, path);
    }
    return e;
}
