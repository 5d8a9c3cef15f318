/* What was found on a drawn sheet, for the terminal and as JSON. */
#ifndef APP_SHEET_REPORT_H
#define APP_SHEET_REPORT_H

#include "app/import.h"
#include "units/length.h"
#include "json/write.h"

/* app_sheet_truth_text; of a sheet without a line that there is none. */
const char *app_sheet_told_text(struct arena *a, const struct app_import *im, const struct drawing_truth *truth,
                                enum units_length unit);

/* The whole report; in `a`. */
const char *app_sheet_report(struct arena *a, const struct app_import *im, enum units_length unit);

/* The same with exact lengths in mm. */
void app_sheet_json(struct json_out *to, struct arena *a, const struct app_import *im);

/* "between pages 2 and 3", of where lines break off; in `a`. */
const char *app_break_text(struct arena *a, const struct drawing_break *b);

/* The colour a person would call it by: the nearest of a few. */
const char *app_colour_name(uint32_t rgb);

/* ", 0.5 mm" of a line that other lines are like in all but how wide they are; else "". In `a`. */
const char *app_strand_width(struct arena *a, const struct lifting_division *d, const struct lifting_strand *s);

/* "size 12"; "one size" and names that say so themselves as they are. In `a`. */
const char *app_size_said(struct arena *a, const char *size);

/* "size 12, cup group B", "all sizes", "not used"; in `a`. */
const char *app_strand_role(struct arena *a, const struct lifting_division *d, const struct lifting_strand *s);

/* What the reader tells beside the drawing, as a sentence; in `a`. */
const char *app_sheet_note(struct arena *a, const struct sheet *s, const struct sheet_note *note);

/* "no grain, no name" of doubts, at the table with the keys that mend them; "" of none. In `a`. */
const char *app_lifting_doubts(struct arena *a, unsigned doubts, bool with_keys);

/* "2 pairs, 1 on the fold of lining"; "?" where nothing was found. In `a`. */
const char *app_lifting_count(struct arena *a, const struct lifting_words *words);

#endif
