/* Tables of keys: the row of a key that was pressed, and pages of what each does, keys that do the same on one line. */
#ifndef APP_KEY_LINES_H
#define APP_KEY_LINES_H

#include "app/key_map.h"
#include "scene/scene.h"

/* A key, as each row of a table begins with. */
struct app_key {
    unsigned on; /* its pages, as bits; 0: all of them */
    int key, mods;
    const char *what; /* NULL: it does the same as the one before it */
};

/* A table of any rows that begin with a struct app_key. */
struct app_key_table {
    const void *rows;
    size_t count, row_size;
    unsigned of; /* for what keys may be given; 0: for none */
};

/* The row of that key on one of the pages `on`, or of the key it does the work of (input_key_does); or NULL. */
const void *app_find_row(const struct app_key_table *table, unsigned on, int key, int mods);

/* The lines of a page: "Enter or F5", and, where four arrows do the same, "Shift arrows", or three
 * function keys in a row and more, "F2 to F8". The first key has a `what`.
 * Returns how many; keys are written in `a`, what they do is kept by reference. */
size_t app_key_lines(struct arena *a, const struct app_key *keys, size_t count, const struct scene_help_line **out);

/* The lines of a table's rows on the pages `on`, with keys as she gave them (NULL: the usual ones). */
size_t app_table_lines(struct arena *a, const struct app_key_table *table, const struct app_key_map *map, unsigned on,
                       const struct scene_help_line **out);

#endif
