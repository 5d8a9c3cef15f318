/* Any text as a cloth; one that is read comes back as it was written, and is spread or told why not. */
#include "cloth/cloth.h"
#include "fuzz/fuzz.h"
#include "json/want.h"

#include <math.h>
#include <string.h>

static void must_lie(struct arena *a, const struct cloth *cloth, struct err_list *errs)
{
    struct cloth_spread spread;
    double layered = 0;
    if (!cloth_spread(a, cloth, &spread, errs)) {
        fuzz_must(errs->faults > 0);
        return;
    }
    for (int i = 0; i < spread.band_count; i++)
        layered += spread.bands[i].layers * (spread.bands[i].to_mm - spread.bands[i].from_mm);
    fuzz_must(fabs(layered - spread.layers_long * spread.usable_mm) < 1e-6 * (1 + layered));
    for (size_t i = 0; i < spread.blocked_count; i++)
        fuzz_must(geometry_path_area(spread.blocked[i].path) > 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct cloth cloth, back;
    const struct json_node *node = json_parse(a, "fuzz", (const char *)data, size, errs);
    if (node && cloth_from(a, node, UNITS_CM, &cloth, errs)) {
        fuzz_must(errs->faults == 0);
        struct json_out *out = json_out_create();
        cloth_write(out, &cloth);
        const char *text = json_out_print(a, out);
        json_out_destroy(out);
        node = json_parse(a, "again", text, strlen(text), errs);
        fuzz_must(node && cloth_from(a, node, UNITS_CM, &back, errs));
        fuzz_must(back.width_mm == cloth.width_mm && back.fault_count == cloth.fault_count);
        fuzz_must(fabs(back.shrink_warp - cloth.shrink_warp) < 1e-15);
        must_lie(a, &back, errs);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
