/* Runs a fuzz target without libFuzzer: over every file of the folders given, then over a fixed number of seeded
 * mutations of them, so that each build on each compiler tries the same inputs.
 *
 *     fuzz_NAME [--runs N] [--keep FILE] FOLDER...
 *
 * The input at work stands in FILE (default: fuzz_kept) while the target runs; it stays there when the target dies. */
#include "fuzz/fuzz.h"

#include <dirent.h>
#include <fcntl.h>
#include <stdbool.h>
#include <string.h>
#include <unistd.h>

enum { MOST_BYTES = 64 * 1024, MOST_SEEDS = 1000, MOST_CHANGES = 6, MOST_MOVED = 32 };

struct bytes {
    uint8_t *data;
    size_t count;
};

struct replay {
    struct bytes seeds[MOST_SEEDS];
    size_t count;
    int kept; /* the file that holds the input at work */
    uint64_t random;
};

static void stop(const char *what, const char *which)
{
    fprintf(stderr, "%s: %s\n", what, which);
    exit(2);
}

/* splitmix64 (Steele, Lea and Flood, 2014). */
static uint64_t random_bits(struct replay *r)
{
    uint64_t z = r->random += 0x9e3779b97f4a7c15u;
    z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9u;
    z = (z ^ z >> 27) * 0x94d049bb133111ebu;
    return z ^ z >> 31;
}

/* From 0 to `most`. */
static size_t random_up_to(struct replay *r, size_t most)
{
    return (size_t)(random_bits(r) % ((uint64_t)most + 1));
}

static void try_one(struct replay *r, const uint8_t *data, size_t count)
{
    if (ftruncate(r->kept, 0) != 0 || pwrite(r->kept, data, count, 0) != (ssize_t)count)
        stop("the input at work cannot be kept", "disk full?");
    /* a copy of just that size, so that the address sanitizer sees a step past it */
    uint8_t *exact = malloc(count ? count : 1);
    if (!exact)
        stop("out of memory", "replay");
    if (count)
        memcpy(exact, data, count);
    LLVMFuzzerTestOneInput(exact, count);
    free(exact);
}

static struct bytes read_seed(const char *path)
{
    FILE *file = fopen(path, "rb");
    uint8_t *data = malloc(MOST_BYTES);
    if (!file || !data)
        stop("cannot be opened", path);
    size_t count = fread(data, 1, MOST_BYTES, file);
    fclose(file);
    return (struct bytes){ data, count };
}

static int is_seed(const struct dirent *entry)
{
    return entry->d_name[0] != '.';
}

/* By name, as folders list their files in any order. */
static void read_seeds(struct replay *r, const char *folder)
{
    struct dirent **entries;
    int count = scandir(folder, &entries, is_seed, alphasort);
    if (count <= 0)
        stop("holds no seeds", folder);
    for (int i = 0; i < count; i++) {
        char path[4096];
        snprintf(path, sizeof path, "%s/%s", folder, entries[i]->d_name);
        if (r->count == MOST_SEEDS)
            stop("too many seeds", folder);
        r->seeds[r->count++] = read_seed(path);
        free(entries[i]);
    }
    free(entries);
}

/* Puts `count` bytes in at `at`, as far as there is room. */
static void insert(struct bytes *b, size_t at, const uint8_t *data, size_t count)
{
    if (count > MOST_BYTES - b->count)
        return;
    memmove(b->data + at + count, b->data + at, b->count - at);
    memcpy(b->data + at, data, count);
    b->count += count;
}

static void flip_bit(struct replay *r, struct bytes *b)
{
    if (b->count)
        b->data[random_up_to(r, b->count - 1)] ^= (uint8_t)(1u << random_up_to(r, 7));
}

static void change_byte(struct replay *r, struct bytes *b)
{
    if (b->count)
        b->data[random_up_to(r, b->count - 1)] = (uint8_t)random_bits(r);
}

/* Bytes that formats give a meaning to. */
static void insert_mark(struct replay *r, struct bytes *b)
{
    static const char marks[] = "\0\n\t \"'\\/{}[]()<>:,;.+-*eE0189uxnN%#\x7f\x80\xbf\xc3\xe2\xf0\xff";
    uint8_t mark = (uint8_t)marks[random_up_to(r, sizeof marks - 2)];
    insert(b, random_up_to(r, b->count), &mark, 1);
}

static void remove_some(struct replay *r, struct bytes *b)
{
    size_t at = random_up_to(r, b->count), count = random_up_to(r, MOST_MOVED);
    if (count > b->count - at)
        count = b->count - at;
    memmove(b->data + at, b->data + at + count, b->count - at - count);
    b->count -= count;
}

static void cut_off(struct replay *r, struct bytes *b)
{
    b->count = random_up_to(r, b->count);
}

/* A stretch of any seed, its own too. */
static void splice(struct replay *r, struct bytes *b)
{
    const struct bytes *from = &r->seeds[random_up_to(r, r->count - 1)];
    size_t start = random_up_to(r, from->count), count = random_up_to(r, MOST_MOVED);
    if (count > from->count - start)
        count = from->count - start;
    insert(b, random_up_to(r, b->count), from->data + start, count);
}

/* The same stretch many times: long numbers, deep nesting. */
static void repeat(struct replay *r, struct bytes *b)
{
    uint8_t some[MOST_MOVED];
    size_t at = random_up_to(r, b->count), count = random_up_to(r, MOST_MOVED / 4);
    if (count > b->count - at)
        count = b->count - at;
    memcpy(some, b->data + at, count);
    for (size_t times = random_up_to(r, 100); times > 0; times--)
        insert(b, at, some, count);
}

static void (*const changes[])(struct replay *r, struct bytes *b) = {
    flip_bit, change_byte, insert_mark, insert_mark, remove_some, cut_off, splice, splice, repeat,
};

static void try_mutation(struct replay *r, uint8_t *room)
{
    const struct bytes *seed = &r->seeds[random_up_to(r, r->count - 1)];
    struct bytes b = { room, seed->count };
    memcpy(room, seed->data, seed->count);
    for (size_t left = 1 + random_up_to(r, MOST_CHANGES - 1); left > 0; left--)
        changes[random_up_to(r, sizeof changes / sizeof changes[0] - 1)](r, &b);
    try_one(r, b.data, b.count);
}

static void try_all(struct replay *r, long runs)
{
    static uint8_t room[MOST_BYTES];
    for (size_t i = 0; i < r->count; i++)
        try_one(r, r->seeds[i].data, r->seeds[i].count);
    for (long i = 0; i < runs; i++)
        try_mutation(r, room);
    printf("%zu seeds and %ld mutations of them\n", r->count, runs);
}

int main(int argc, char **argv)
{
    static struct replay r = { .random = 1 };
    const char *keep = "fuzz_kept";
    long runs = 0;
    for (int i = 1; i < argc; i++) {
        bool more = i + 1 < argc;
        if (more && strcmp(argv[i], "--runs") == 0)
            runs = strtol(argv[++i], NULL, 10);
        else if (more && strcmp(argv[i], "--keep") == 0)
            keep = argv[++i];
        else
            read_seeds(&r, argv[i]);
    }
    r.kept = open(keep, O_RDWR | O_CREAT, 0644);
    if (r.kept < 0)
        stop("cannot be written", keep);
    if (!r.count)
        stop("usage", "fuzz_NAME [--runs N] [--keep FILE] FOLDER...");
    try_all(&r, runs);
    for (size_t i = 0; i < r.count; i++)
        free(r.seeds[i].data);
    close(r.kept);
    unlink(keep);
    return 0;
}
