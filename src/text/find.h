/* Where an installed font's file lies: by weight, the family being ours to choose. */
#ifndef TEXT_FIND_H
#define TEXT_FIND_H

#include "base/arena.h"
#include "text/faces.h"

#include <stdbool.h>

/* Weights as OpenType counts them (OS/2 table, usWeightClass, 1 to 1000). */
enum text_weight { TEXT_REGULAR = 400, TEXT_SEMIBOLD = 600, TEXT_HEAVY = 800 };

/* The file, and the face in it, of an upright sans-serif outline font: Lato, else Carlito, else DejaVu Sans, each in
 * its weight nearest to the one asked for, else what fontconfig takes for a sans-serif. The path lives in `a`. False
 * when no outline font is installed; *path and *face_index are then left alone. */
bool text_find_file(struct arena *a, enum text_weight weight, const char **path, int *face_index);

/* The same of several weights, in their order; sooner than one after the other. False when there is none. */
bool text_find_files(struct arena *a, const enum text_weight *weights, size_t count, struct text_face_file *out);

/* The same of whatever fontconfig takes for a family in its regular weight, "serif" as well. */
bool text_find_family(struct arena *a, const char *family, const char **path, int *face_index);

#endif
