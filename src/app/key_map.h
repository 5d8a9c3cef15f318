/* Keys that a person gave to what is done at the table, by its name: "tick = Space". A key that was given does what the
 * usual key of that name does, which then does nothing any more unless it is given, too; where that name means nothing
 * both are what they are else. */
#ifndef APP_KEY_MAP_H
#define APP_KEY_MAP_H

#include "base/arena.h"
#include "base/err_list.h"

#include <stdbool.h>
#include <stddef.h>

/* What is done at the table, as bits. */
enum app_keys_of {
    APP_KEYS_CUT = 1, /* placing, too */
    APP_KEYS_SET_UP = 2,
    APP_KEYS_ARRANGE = 4,
    APP_KEYS_ALL = 7
};

/* A name, and its usual key; a name may stand for several keys, all of the same pages. In files the names are English;
 * to be shown they are translated in the context "what a key does". */
struct app_key_name {
    const char *name;
    int key, mods;
    unsigned of;
};

/* All of them. */
const struct app_key_name *app_key_names(size_t *count);

struct app_given_key {
    int key, mods;
    const struct app_key_name *does;
};

struct app_key_map {
    const struct app_given_key *given;
    size_t count;
};

/* Reads texts "action = key"; in `a`. What names no action or no key, or a key that does something else, is told as a
 * warning and left out. */
struct app_key_map app_key_map_read(struct arena *a, const char *const *texts, size_t count, struct err_list *errs);

/* The usual key that a pressed one stands for on those pages; false when it does nothing any more. What numbers are
 * written with stays itself while setting up, whatever it was given to. No map (NULL) changes nothing. */
bool app_key_map_usual(const struct app_key_map *map, unsigned of, int *key, int *mods);

/* The key to press there for a usual one, the first where several were given. */
void app_key_map_shown(const struct app_key_map *map, unsigned of, int *key, int *mods);

/* What is told there about keys, "Enter: done · F1: keys", with keys as she gave them: the names before a colon,
 * several by commas or “or”. In `a` where it is another text. */
const char *app_key_map_said(const struct app_key_map *map, unsigned of, struct arena *a, const char *text);

#endif
