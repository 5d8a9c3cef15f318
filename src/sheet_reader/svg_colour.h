/* Colours as SVG and CSS write them. */
#ifndef SHEET_READER_SVG_COLOUR_H
#define SHEET_READER_SVG_COLOUR_H

#include <stdbool.h>
#include <stdint.h>

/* A colour as 0xRRGGBB, its opacity left aside: a name, #rgb, #rrggbb, or rgb() in numbers or per cent. False for
 * anything else. */
bool svg_colour_read(const char *text, uint32_t *rgb);

#endif
