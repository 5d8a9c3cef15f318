/* Linear light of sRGB, by channel. Private to the virtual table. */
#ifndef VT_LIGHT_H
#define VT_LIGHT_H

#include <stdint.h>

/* Shift is 16 for red, 8 for green, 0 for blue. */
double vt_linear(uint32_t xrgb, int shift);
uint32_t vt_encoded(double linear, int shift);

#endif
