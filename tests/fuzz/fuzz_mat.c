/* Any text as a mat file; one that is read has a ruled field, and comes back from a readings file's mat as it was. */
#include "calibration/mat.h"
#include "fuzz/fuzz.h"
#include "json/want.h"

#include <math.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct calibration_mat mat = { 0 }, back = { 0 };
    const struct json_node *node = json_parse(a, "fuzz", (const char *)data, size, errs);
    if (node && calibration_mat_from(a, node, &mat, errs)) {
        fuzz_must(errs->faults == 0);
        fuzz_must(mat.width_mm > 0 && mat.height_mm > 0 && mat.ruling_mm > 0);
        struct json_out *out = json_out_create();
        calibration_mat_write(out, &mat);
        const char *text = json_out_print(a, out);
        json_out_destroy(out);
        node = json_parse(a, "again", text, strlen(text), errs);
        fuzz_must(node && calibration_mat_from(a, node, &back, errs));
        fuzz_must(strcmp(mat.name, back.name) == 0 && fabs(mat.width_mm - back.width_mm) < 1e-6);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
