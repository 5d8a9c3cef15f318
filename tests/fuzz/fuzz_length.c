/* Any text as a length and as an angle: within bounds or refused, and what is printed is read back. The first byte
 * picks the unit shown. */
#include "fuzz/fuzz.h"
#include "units/angle.h"
#include "units/length.h"

#include <math.h>
#include <string.h>

static void print_and_read_back(double mm)
{
    for (int unit = UNITS_MM; unit <= UNITS_IN; unit++) {
        char out[UNITS_TEXT];
        double back, half_a_place = unit == UNITS_IN ? 0.005 * UNITS_MM_PER_IN : 0.05;
        units_print_length(out, mm, (enum units_length)unit);
        fuzz_must(strlen(out) < UNITS_TEXT - 1);
        if (fabs(mm) > UNITS_FARTHEST_MM - 1)
            continue; /* rounding may print what is too far */
        fuzz_must(units_parse_length(out, UNITS_MM, &back));
        fuzz_must(fabs(back - mm) <= half_a_place + 1e-9);
    }
}

static void read_angle(const char *text)
{
    double deg = 1e9;
    bool taken = units_parse_degrees(text, &deg);
    fuzz_must(taken ? fabs(deg) <= 36000 : deg == 1e9);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    if (!text)
        abort();
    if (size)
        memcpy(text, data, size);
    text[size] = '\0';
    double mm = 1e9;
    enum units_length shown = (enum units_length)(size ? data[0] % 3 : 0);
    bool taken = units_parse_length(text + (size ? 1 : 0), shown, &mm);
    fuzz_must(taken ? fabs(mm) <= UNITS_FARTHEST_MM : mm == 1e9);
    if (taken)
        print_and_read_back(mm);
    read_angle(text);
    free(text);
    return 0;
}
