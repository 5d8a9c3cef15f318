/* Pictures out as PNG (ISO/IEC 15948). */
#ifndef EXPORT_PNG_H
#define EXPORT_PNG_H

#include "base/err_list.h"
#include "paint/image.h"

/* Saves the picture in one step, eight bits a channel, sRGB. False, with the reason, when it cannot. */
bool export_png(const char *path, const struct paint_image *image, struct err_list *errs);

/* Whether the file at that path begins as a PNG does. */
bool export_is_png(const char *path);

#endif
