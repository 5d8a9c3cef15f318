#include "scene/contrast.h"

#include "cloth/cloth.h"
#include "paint/image.h"

#include <math.h>

/* WCAG 2.1, “relative luminance”, after ITU-R BT.709. */
static const double weight[3] = { 0.2126, 0.7152, 0.0722 };

#define DARK 0.18           /* luminance of middle grey, half as bright as white to the eye */
#define HUE_COUNTS 3.0      /* a step of hue against one of brightness; own choice after trials on cloth */
#define EQUAL_LUMINANCE 0.5 /* at which hues are compared */

static struct scene_reflectance linear_of(uint32_t rgb)
{
    struct scene_reflectance out;
    for (int i = 0; i < 3; i++)
        out.channel[i] = paint_decode((uint8_t)(rgb >> (16 - 8 * i)));
    return out;
}

double scene_luminance(const struct scene_reflectance *r)
{
    return weight[0] * r->channel[0] + weight[1] * r->channel[1] + weight[2] * r->channel[2];
}

/* Black cloth throws back something, too: the darkest is black velvet's half a percent (common practice, no source). */
#define LEAST_REFLECTANCE 0.005

struct scene_ground scene_ground_of(const char *colour, double room_lux, double light_lux)
{
    struct scene_ground ground = { .is_told = colour != NULL, .room_lux = room_lux, .light_lux = light_lux };
    ground.reflectance = linear_of(cloth_rgb(colour, 0xffffff));
    for (int i = 0; i < 3; i++)
        ground.reflectance.channel[i] = fmax(ground.reflectance.channel[i], LEAST_REFLECTANCE);
    return ground;
}

static struct scene_reflectance lit(const struct scene_ground *g, uint32_t chalk)
{
    struct scene_reflectance out = linear_of(chalk);
    for (int i = 0; i < 3; i++)
        out.channel[i] = g->reflectance.channel[i] * (g->room_lux + g->light_lux * out.channel[i]);
    return out;
}

static struct scene_reflectance unlit(const struct scene_ground *g)
{
    return lit(g, 0);
}

double scene_ratio(const struct scene_ground *ground, uint32_t chalk)
{
    struct scene_reflectance with = lit(ground, chalk), without = unlit(ground);
    return scene_luminance(&with) / scene_luminance(&without);
}

/* --- hue --------------------------------------------------------------------------------------------------------- */

struct hue {
    double a, b;
};

/* OKLab's a and b (Björn Ottosson, “A perceptual color space for image processing”, 2020) at one luminance. */
static struct hue hue_of(struct scene_reflectance c)
{
    static const double cone[3][3] = { { 0.4122214708, 0.5363325363, 0.0514459929 },
                                       { 0.2119034982, 0.6806995451, 0.1073969566 },
                                       { 0.0883024619, 0.2817188376, 0.6299787005 } };
    double scale = EQUAL_LUMINANCE / scene_luminance(&c), root[3];
    for (int i = 0; i < 3; i++)
        root[i] = cbrt(scale * (cone[i][0] * c.channel[0] + cone[i][1] * c.channel[1] + cone[i][2] * c.channel[2]));
    return (struct hue){ 1.9779984951 * root[0] - 2.4285922050 * root[1] + 0.4505937099 * root[2],
                         0.0259040371 * root[0] + 0.7827717662 * root[1] - 0.8086757660 * root[2] };
}

static double seen(const struct scene_ground *g, uint32_t chalk)
{
    struct hue with = hue_of(lit(g, chalk)), without = hue_of(unlit(g));
    return log(scene_ratio(g, chalk)) + HUE_COUNTS * hypot(with.a - without.a, with.b - without.b);
}

/* --- the choice -------------------------------------------------------------------------------------------------- */

enum { WHITE = 0 }; /* the first row, and the brightest on any cloth */

static bool is_seen(const struct scene_ground *g, int chalk)
{
    return scene_ratio(g, scene_chalks[chalk].main) >= SCENE_LEAST_RATIO;
}

bool scene_is_any_seen(const struct scene_ground *ground)
{
    return is_seen(ground, WHITE);
}

static int best_main(const struct scene_ground *g)
{
    int best = WHITE;
    if (!g->is_told || scene_luminance(&g->reflectance) < DARK)
        return best;
    for (int i = 0; i < SCENE_CHALKS; i++)
        if (is_seen(g, i) && seen(g, scene_chalks[i].main) > seen(g, scene_chalks[best].main))
            best = i;
    return best;
}

/* Where no coloured one is seen beside the main one, that does for both: kinds of line differ without colour, too. */
static uint32_t best_second(const struct scene_ground *g, int main)
{
    int best = main;
    if (!g->is_told)
        return scene_chalks[main].second;
    for (int i = WHITE + 1; i < SCENE_CHALKS; i++)
        if (i != main && is_seen(g, i) &&
            (best == main || scene_ratio(g, scene_chalks[i].main) > scene_ratio(g, scene_chalks[best].main)))
            best = i;
    return scene_chalks[best].main;
}

/* At that level the ratio is just the least: it grows with the level in a straight line. */
static double least_level(const struct scene_ground *g, uint32_t chalk)
{
    double above = scene_ratio(g, chalk) - 1;
    return above > SCENE_LEAST_RATIO - 1 ? (SCENE_LEAST_RATIO - 1) / above : 1;
}

struct scene_chalks scene_chalks_on(const struct scene_ground *ground, int main, int second)
{
    int first = main < SCENE_CHALKS ? main : best_main(ground);
    struct scene_chalks out = { .name = scene_chalks[first].name, .main = scene_chalks[first].main };
    out.second = second < SCENE_CHALKS ? scene_chalks[second].main : best_second(ground, first);
    out.least_level = least_level(ground, out.main);
    out.least_second_level = least_level(ground, out.second);
    return out;
}
