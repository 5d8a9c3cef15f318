/* Which colours of light are seen on a cloth. A projector can only add light: unlit cloth throws back what the room
 * gives it, lit cloth that and the projector's, red, green and blue each for itself in linear light,
 *
 *     unlit = reflectance · room      lit = reflectance · (room + projector · chalk)
 *
 * and what counts is the ratio of their relative luminances (WCAG 2.1's weights of ITU-R BT.709). Its 0.05 for a
 * screen's glare is left out: here the room's light is in the sum itself. Illuminances in lux. */
#ifndef SCENE_CONTRAST_H
#define SCENE_CONTRAST_H

#include "scene/look.h"

/* Under this a line is not seen for certain; own choice after trials on cloth. */
#define SCENE_LEAST_RATIO 1.5

/* White paper is 1, 1, 1. */
struct scene_reflectance {
    double channel[3];
};

struct scene_ground {
    bool is_told; /* else as good as grey, on which a ratio is the same however dark */
    struct scene_reflectance reflectance;
    double room_lux, light_lux; /* both above 0: on the cloth, by the room and by the projector's full white */
};

/* The cloth of a colour such as "#D8C8A8" as it looks beside white paper; NULL: not told. */
struct scene_ground scene_ground_of(const char *colour, double room_lux, double light_lux);

/* Lit to unlit, in full light of that chalk; 1 and more. */
double scene_ratio(const struct scene_ground *ground, uint32_t chalk);

/* Relative luminance of a reflectance: 0 to 1. */
double scene_luminance(const struct scene_reflectance *reflectance);

/* The two chalks for a cloth, with levels below which nothing is seen on it. `main` and `second` are rows of
 * scene_chalks that she wants; SCENE_CHALKS: what is seen best. On dark cloth the main one is white, on other cloth the
 * one with the most of brightness and of another hue together; the second is the brightest of the other coloured ones.
 * White and its usual second one where no cloth is told, or where none is seen. */
struct scene_chalks scene_chalks_on(const struct scene_ground *ground, int main, int second);

/* Whether any chalk is seen on it. */
bool scene_is_any_seen(const struct scene_ground *ground);

#endif
