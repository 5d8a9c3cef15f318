#include "bench/taken.h"
#include "base/text.h"
#include "base/words.h"

#include <ctype.h>
#include <string.h>

/* Where the tape goes is common practice, no source. */
static const struct bench_measure rows[] = {
    { "height", BASE_TR("Height"), -1, 0, BASE_TR("Without shoes, back to a wall"),
      BASE_TR("from the floor to the crown") },
    { "upper bust", BASE_TR("Upper bust"), 0.235, 0, BASE_TR("High under the arms"),
      BASE_TR("above the fullest part, tape level") },
    { "bust", BASE_TR("Full bust"), 0.360, 0, BASE_TR("Over the fullest part, tape level"),
      BASE_TR("all round, easy, not loose") },
    { "waist", BASE_TR("Waist"), 0.620, 0, BASE_TR("Where you bend to the side"),
      BASE_TR("tie a string there and measure on it") },
    { "hip", BASE_TR("Hip"), 0.880, 0, BASE_TR("Over the fullest part of the seat"),
      BASE_TR("feet together, tape level") },
    { "back waist length", BASE_TR("Back length"), 0.045, 0.620, BASE_TR("From the bone at the back of the neck"),
      BASE_TR("down to the string") },
    { "waist to hip", BASE_TR("Waist to hip"), 0.620, 0.880, BASE_TR("From the string, down the side"),
      BASE_TR("to where you measured the hip") },
    { "waist to knee", BASE_TR("Waist to knee"), 0.620, 1.150, BASE_TR("From the string, down the side"),
      BASE_TR("to the middle of the knee") },
    { "waist to hem", BASE_TR("Waist to hem"), 0.620, 1.150, BASE_TR("From the string, down the front"),
      BASE_TR("to where the hem is to hang") },
    { "shoulder", BASE_TR("Shoulder"), -1, 0, BASE_TR("From the neck’s edge along the top"),
      BASE_TR("to the bone of the shoulder") },
    { "neck", BASE_TR("Neck"), 0.030, 0, BASE_TR("Round the foot of the neck"), BASE_TR("the tape on edge") },
    { "upper arm", BASE_TR("Upper arm"), -1, 0, BASE_TR("Round the fullest part"), BASE_TR("the arm hanging") },
    { "arm length", BASE_TR("Arm length"), -1, 0, BASE_TR("From the shoulder over the bent elbow"),
      BASE_TR("to the wrist") },
};

const struct bench_measure *bench_measure_find(const char *name)
{
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (strcmp(rows[i].name, name) == 0)
            return &rows[i];
    return NULL;
}

/* As the pattern words it, else "waist to knee" of "waist_to_knee". */
static char *plain_name(struct arena *a, const struct pattern *pattern, const char *name)
{
    char *plain = base_arena_copy_text(a, pattern ? pattern_worded(a, pattern, name) : name);
    for (char *at = plain; *at; at++)
        *at = *at == '_' ? ' ' : *at;
    return plain;
}

const char *bench_measure_label(struct arena *a, const struct pattern *pattern, const char *name)
{
    const struct bench_measure *row = bench_measure_find(name);
    if (row)
        return base_tr(row->label);
    return base_text_capital(a, plain_name(a, pattern, name));
}

/* English writes a noun small within a sentence; other languages as the label is. */
const char *bench_measure_short(struct arena *a, const struct pattern *pattern, const char *name)
{
    const struct bench_measure *row = bench_measure_find(name);
    if (!row)
        return plain_name(a, pattern, name);
    char *label = base_arena_copy_text(a, base_tr(row->label));
    if (strcmp(base_words_language(), "en") == 0)
        label[0] = (char)tolower((unsigned char)label[0]);
    return label;
}
