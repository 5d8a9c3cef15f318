/* A PDF read without the jail and the program around it, and what of it is printed as JSON. */
#ifndef TESTS_LIFTING_READ_PDF_H
#define TESTS_LIFTING_READ_PDF_H

#include "base/arena.h"
#include "sheet/sheet.h"

#include <stdbool.h>

/* False when it cannot be read. The sheet lives in `a`. */
bool read_pdf(struct arena *a, const char *path, struct sheet *s);

/* Processor time so far. */
double read_pdf_seconds(void);

#endif
