/* A cutting mat by its rulings: the ruled field and the plain margin around it. */
#ifndef CALIBRATION_MAT_H
#define CALIBRATION_MAT_H

#include "base/arena.h"
#include "base/err_list.h"
#include "units/length.h"
#include "json/tree.h"
#include "json/write.h"

struct calibration_mat {
    const char *name; /* NULL: no mat is named */
    enum units_length unit;
    double width_mm, height_mm; /* of the ruled field; its near left corner is the table's origin */
    double margin_mm[4];        /* left, right, near, far */
    double ruling_mm;           /* from one line to the next */
};

enum { CALIBRATION_MAT_VERSION = 1 };

/* Reads a mat from its own file. */
bool calibration_mat_read(struct arena *a, const char *path, struct calibration_mat *out, struct err_list *errs);

/* The same from an object inside another file, and into one. */
bool calibration_mat_from(struct arena *a, const struct json_node *node, struct calibration_mat *out,
                          struct err_list *errs);
void calibration_mat_write(struct json_out *to, const struct calibration_mat *mat);

#endif
