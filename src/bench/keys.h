/* The bench's own keys, for what no page takes. */
#ifndef BENCH_KEYS_H
#define BENCH_KEYS_H

#include "form/parts.h"

#include <stddef.h>

struct bench;

struct bench_key_row {
    int key, mods, amount;
    const char *help; /* NULL: as the row before */
    void (*run)(struct bench *b, int amount);
};

const struct bench_key_row *bench_find_key(int key, int mods);
const struct bench_key_row *bench_key_rows(size_t *count);

/* Those that stand on the ticket; in `a`. Returns how many. */
size_t bench_window_keys(const struct bench *b, struct arena *a, const struct form_key **out);

/* Those at the foot of a page whose work is done at the table. */
size_t bench_at_table_keys(const struct form_key **out);

#endif
