/* Any text as a table file; one that is read has a map that may be drawn with, and comes back as it was written. */
#include "calibration/table.h"
#include "fuzz/fuzz.h"

#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct calibration_table table, back;
    bool taken = calibration_table_parse(a, "fuzz", (const char *)data, size, &table, errs);
    fuzz_must(taken == (errs->faults == 0));
    if (taken) {
        fuzz_must(geometry_map_is_valid(&table.map));
        const char *text = calibration_table_print(a, &table);
        fuzz_must(calibration_table_parse(a, "again", text, strlen(text), &back, errs));
        for (int t = 0; t < GEOMETRY_MAP_TERMS; t++)
            fuzz_must(back.map.term[t] == table.map.term[t]);
        fuzz_must(!calibration_lens_is_known(&table.lens) || calibration_lens_is_valid(&table.lens));
        fuzz_must(calibration_lens_is_known(&back.lens) == calibration_lens_is_known(&table.lens));
        fuzz_must(strcmp(back.name, table.name) == 0 && back.sample == table.sample);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
