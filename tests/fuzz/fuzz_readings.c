/* Any text as a readings file; one that is read is also solved, with a lens and without. What is solved is a map that
 * may be drawn with. */
#include "calibration/solve.h"
#include "fuzz/fuzz.h"

#include <math.h>

static void solve(struct arena *a, const struct calibration_readings *readings, enum calibration_lens lens,
                  struct err_list *errs)
{
    struct calibration_solution s;
    int before = errs->faults;
    bool solved = calibration_solve(a, "fuzz", readings, lens, &s, errs);
    fuzz_must(solved == (errs->faults == before));
    if (!solved)
        return;
    fuzz_must(geometry_map_is_valid(&s.map));
    fuzz_must(s.chi2 >= 0 && isfinite(s.chi2));
    fuzz_must(s.worst < readings->count && s.worst_mm >= s.rms_mm * (1 - 1e-12));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct calibration_readings readings;
    bool taken = calibration_readings_parse(a, "fuzz", (const char *)data, size, &readings, errs);
    fuzz_must(taken == (errs->faults == 0));
    if (taken) {
        fuzz_must(readings.count <= CALIBRATION_MOST_READINGS && readings.sigma_mm > 0);
        solve(a, &readings, CALIBRATION_LENS_WEAK, errs);
        solve(a, &readings, CALIBRATION_LENS_NONE, errs);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
