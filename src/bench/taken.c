#include "bench/taken.h"

#include <ctype.h>
#include <string.h>

/* Where the tape goes is common practice, no source. */
static const struct bench_measure rows[] = {
    { "height", "Height", -1, 0, "Without shoes, back to a wall", "from the floor to the crown" },
    { "upper bust", "Upper bust", 0.235, 0, "High under the arms", "above the fullest part, tape level" },
    { "bust", "Full bust", 0.360, 0, "Over the fullest part, tape level", "all round, easy, not loose" },
    { "waist", "Waist", 0.620, 0, "Where you bend to the side", "tie a string there and measure on it" },
    { "hip", "Hip", 0.880, 0, "Over the fullest part of the seat", "feet together, tape level" },
    { "back waist length", "Back length", 0.045, 0.620, "From the bone at the back of the neck", "down to the string" },
    { "waist to hip", "Waist to hip", 0.620, 0.880, "From the string, down the side", "to where you measured the hip" },
    { "waist to knee", "Waist to knee", 0.620, 1.150, "From the string, down the side", "to the middle of the knee" },
    { "waist to hem", "Waist to hem", 0.620, 1.150, "From the string, down the front", "to where the hem is to hang" },
    { "shoulder", "Shoulder", -1, 0, "From the neck’s edge along the top", "to the bone of the shoulder" },
    { "neck", "Neck", 0.030, 0, "Round the foot of the neck", "the tape on edge" },
    { "upper arm", "Upper arm", -1, 0, "Round the fullest part", "the arm hanging" },
    { "arm length", "Arm length", -1, 0, "From the shoulder over the bent elbow", "to the wrist" },
};

const struct bench_measure *bench_measure_find(const char *name)
{
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (strcmp(rows[i].name, name) == 0)
            return &rows[i];
    return NULL;
}

const char *bench_measure_label(struct arena *a, const char *name)
{
    const struct bench_measure *row = bench_measure_find(name);
    if (row)
        return row->label;
    char *label = base_arena_copy_text(a, name);
    label[0] = (char)toupper((unsigned char)label[0]);
    for (char *at = label; *at; at++)
        *at = *at == '_' ? ' ' : *at;
    return label;
}

const char *bench_measure_short(struct arena *a, const char *name)
{
    char *label = base_arena_copy_text(a, bench_measure_label(a, name));
    if (*label >= 'A' && *label <= 'Z')
        *label = (char)(*label - 'A' + 'a');
    return label;
}
