/* Any text as a readings file; one that is read is also solved, with a lens and without. What is solved is a map that
 * may be drawn with. */
#include "calibration/solve.h"
#include "fuzz/fuzz.h"

#include <math.h>

typedef bool (*solver)(struct arena *, const char *, const struct calibration_readings *, enum calibration_lens,
                       struct calibration_solution *, struct err_list *);

static void solve(struct arena *a, solver by, const struct calibration_readings *readings, enum calibration_lens lens,
                  struct err_list *errs)
{
    struct calibration_solution s;
    int before = errs->faults;
    bool solved = by(a, "fuzz", readings, lens, &s, errs);
    fuzz_must(solved == (errs->faults == before));
    if (!solved)
        return;
    fuzz_must(geometry_map_is_valid(&s.map));
    fuzz_must(s.chi2 >= 0 && isfinite(s.chi2));
    fuzz_must(calibration_doubt_worst_mm(&s.map, &s.doubt, NULL) >= 0);
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
        struct calibration_repair repair;
        solve(a, calibration_solve, &readings, CALIBRATION_LENS_NONE, errs);
        solve(a, calibration_solve_without_mistakes, &readings, CALIBRATION_LENS_WEAK, errs);
        calibration_last_is_doubtful(&readings, &repair);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
