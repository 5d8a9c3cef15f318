/* Lays a packing set and prints every placement, so that others can check it:
 *
 *   lay_bench FILE --seconds N [--seed S] [--threads T] [--rounds R] [--trace] --json
 *
 * N seconds of processor time for each thread, or R rounds. A piece lies where its outline, turned about its origin and
 * then shifted, is. */
#include "base/pool.h"
#include "bench/clock.h"
#include "packing/lay_set.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct asked {
    const char *file;
    double seconds;
    size_t rounds;
    unsigned long seed;
    int threads;
    bool trace;
};

static bool read_arguments(int argc, char **argv, struct asked *out)
{
    *out = (struct asked){ .seconds = 5, .seed = 1, .threads = 2 };
    for (int i = 1; i < argc; i++) {
        const char *value = i + 1 < argc ? argv[i + 1] : "";
        if (strcmp(argv[i], "--json") == 0)
            continue;
        if (strcmp(argv[i], "--trace") == 0) {
            out->trace = true;
            continue;
        }
        if (argv[i][0] != '-') {
            out->file = argv[i];
            continue;
        }
        i++;
        if (strcmp(argv[i - 1], "--seconds") == 0)
            out->seconds = strtod(value, NULL);
        else if (strcmp(argv[i - 1], "--rounds") == 0)
            out->rounds = strtoul(value, NULL, 10);
        else if (strcmp(argv[i - 1], "--seed") == 0)
            out->seed = strtoul(value, NULL, 10);
        else if (strcmp(argv[i - 1], "--threads") == 0)
            out->threads = (int)strtol(value, NULL, 10);
        else
            return false;
    }
    return out->file && out->threads >= 1 && out->threads <= BASE_POOL_MOST;
}

static void print_lay(const struct lay_set *set, const struct packing_lay *lay)
{
    printf("  \"strip_width\": %.17g,\n  \"length\": %.17g,\n  \"density_pct\": %.6f,\n  \"left_out\": %zu,\n",
           set->problem.width, lay->length, 100 * lay->density, lay->left_out);
    printf("  \"placements\": [\n");
    for (size_t i = 0; i < lay->item_count; i++) {
        struct packing_place p = lay->places[i];
        struct lay_shape shape = p.shape >= 0 ? set->shapes[p.shape] : (struct lay_shape){ -1, 0 };
        printf("    { \"piece\": %d, \"rotation_deg\": %.17g, \"x\": %.17g, \"y\": %.17g }%s\n", shape.piece,
               shape.turn_deg, p.shift.x, p.shift.y, i + 1 < lay->item_count ? "," : "");
    }
    printf("  ]\n");
}

static void search(const struct asked *asked, const struct lay_set *set)
{
    struct base_pool *pool = base_pool_create(asked->threads);
    double begun = process_cpu_s();
    struct packing_search *s = packing_begin(&set->problem, asked->seed, pool);
    double first = process_cpu_s() - begun, first_density = packing_best(s)->density, used = 0;
    while (packing_can_gain(s) && (asked->rounds ? packing_rounds(s) < asked->rounds : used < asked->seconds)) {
        bool gain = packing_round(s, NULL);
        used = (process_cpu_s() - begun) / asked->threads;
        if (asked->trace && gain)
            fprintf(stderr, "%7.2f s  %zu rounds  %.3f %%\n", used, packing_rounds(s), 100 * packing_best(s)->density);
    }
    printf("{\n  \"first_ms\": %.1f,\n  \"first_density_pct\": %.4f,\n  \"seconds\": %.2f,\n  \"rounds\": %zu,\n",
           1e3 * first, 100 * first_density, used, packing_rounds(s));
    print_lay(set, packing_best(s));
    printf("}\n");
    packing_end(s);
    base_pool_destroy(pool);
}

int main(int argc, char **argv)
{
    struct asked asked;
    if (!read_arguments(argc, argv, &asked)) {
        fprintf(stderr, "lay_bench FILE --seconds N [--seed S] [--threads T] [--rounds R] [--trace] --json\n");
        return 2;
    }
    struct arena *a = base_arena_create();
    struct lay_set set;
    bool read = lay_set_read(a, asked.file, &set);
    if (read)
        search(&asked, &set);
    base_arena_destroy(a);
    return read ? 0 : 1;
}
