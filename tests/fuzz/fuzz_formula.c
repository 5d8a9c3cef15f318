/* Any text as the formula of a point in a small pattern: read or told once, at its line; what is read comes to a number
 * within 100 m or is told once. */
#include "base/text.h"
#include "fuzz/fuzz.h"
#include "pattern/read.h"
#include "support/at_size.h"

#include <math.h>
#include <string.h>

enum { LINE = 5 }; /* where the formula stands in the pattern */

static const char before[] =
    "{ \"chalklight\": \"pattern\", \"version\": 1, \"name\": \"P\", \"unit\": \"cm\", \"sizes\": [\"S\", \"L\"],\n"
    "\"chart\": { \"hip\": [90, 100], \"waist girth\": [70, 80] }, \"main_measurement\": \"hip\",\n"
    "\"values\": { \"ease\": [4, 5], \"half\": \"hip / 2\" }, \"pieces\": [ { \"name\": \"p\",\n"
    "\"points\": { \"o\": [0, 0], \"e\": [9, 0], \"n\": [0, 9], \"q\":\n [\"";
static const char after[] = "\", 0] },\n"
                            "\"outline\": [ { \"name\": \"low\", \"path\": [\"o\", \"e\"] }, { \"name\": \"in\", "
                            "\"path\": [\"e\", \"n\", \"o\"] } ] } ],\n"
                            "\"views\": [ { \"name\": \"A\", \"cut\": [ { \"piece\": \"p\", \"count\": 1 } ] } ] }";

/* As it stands within quotes in JSON. */
static const char *quoted(struct arena *a, const char *text)
{
    char *out = base_arena_alloc(a, 6 * strlen(text) + 1, 1), *end = out;
    for (; *text; text++) {
        unsigned char c = (unsigned char)*text;
        if (c < 0x20 || c == '"' || c == '\\')
            end += snprintf(end, 7, "\\u%04x", c);
        else
            *end++ = *text;
    }
    return out;
}

static void draft_at(const struct pattern *p, double position)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    const struct draft_sized *sized = size_at(a, p, position, PATTERN_NONE, errs);
    const struct draft_sized_piece *piece = &sized->pieces[0];
    fuzz_must(errs->count <= 1 && piece->is_sound == (errs->count == 0));
    if (piece->is_sound)
        for (size_t i = 0; i < p->pieces[0].point_count; i++)
            fuzz_must(fabs(piece->points[i].x) <= 100000 && fabs(piece->points[i].y) <= 100000);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    const char *text = base_arena_copy_bytes(a, (const char *)data, size);
    if (base_text_is_utf8(text, strlen(text))) {
        const char *json = base_arena_print(a, "%s%s%s", before, quoted(a, text), after);
        const struct pattern *p = pattern_parse(a, "fuzz", json, strlen(json), errs);
        fuzz_must((p != NULL) == (errs->count == 0) && errs->count <= 1);
        fuzz_must(!errs->count || errs->items[0].place.line == LINE);
        for (double position = 0; p && position <= 1; position += 0.5)
            draft_at(p, position);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
