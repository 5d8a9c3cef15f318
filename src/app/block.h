/* Fabric that a job fuses in a block (lay/lay.h): what that leaves of its interfacing, and how it is told. */
#ifndef APP_BLOCK_H
#define APP_BLOCK_H

#include "app/torn.h"

/* The block that a job's fabric is fused with, as that is laid, and what it leaves of the interfacing, as
 * lay_task_make_interfacing takes both. */
struct app_block {
    struct lay_block block; /* no count: there is none, or not yet */
    const struct lay_hands *within;
};

/* Of interfacing; of another material there is none. In `a`. Told: the fabric is not laid yet, so that nobody knows how
 * large the block is. */
struct app_block app_block_of(struct arena *a, const struct app_material *m, struct err_list *errs);

/* "one piece of interfacing, 0.62 m long and 0.38 m wide"; of two: "two pieces of interfacing, each …". */
const char *app_block_words(struct arena *a, const struct lay_block *block, enum units_length unit);

/* "on the wrong side, at the cut end and 50 cm from the near edge": where it begins on the fabric of that layout, and
 * how the cloth lies for fusing. */
const char *app_block_where(struct arena *a, const struct lay *fabric, const struct lay_block *block,
                            enum units_length unit);

/* "First fuse it in a block, …: one piece of interfacing, ….": both; NULL where there is none. */
const char *app_block_first(struct arena *a, const struct lay *fabric, const struct lay_block *block,
                            enum units_length unit);

/* How often, how long and how wide, and where on the fabric; nothing where there is none. */
void app_block_json(struct json_out *to, const char *key, const struct lay_block *block);

#endif
