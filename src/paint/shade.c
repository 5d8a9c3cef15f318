#include "paint/shade.h"

#include "base/wide.h"

static uint32_t mix(const struct paint_shade *shade, uint32_t under, int share)
{
    return paint_light_mix(shade->light, &shade->ink, under, (uint32_t)share * (PAINT_COVERED / PAINT_WHOLE));
}

struct paint_shade *paint_shade_create(struct arena *a, const struct paint_light *light, struct paint_ink ink)
{
    struct paint_shade *shade = base_arena_alloc(a, 1, sizeof *shade);
    shade->light = light;
    shade->ink = paint_light_ink(light, ink);
    for (int share = 0; share <= PAINT_WHOLE; share++)
        shade->on_black[share] = mix(shade, 0, share);
    return shade;
}

static BASE_WITHIN void put(const struct paint_shade *shade, uint32_t *pixel, uint16_t share)
{
    if (share)
        *pixel = *pixel ? mix(shade, *pixel, share) : shade->on_black[share];
}

/* Most pixels are black before: a whole run is looked at once and then needs no question each. */
static BASE_WITHIN void put_run(const struct paint_shade *shade, uint32_t *pixels, const uint16_t *shares, int count)
{
    uint32_t under = 0;
    if (count == PAINT_RUN_MOST)
        for (int i = 0; i < PAINT_RUN_MOST; i++)
            under |= pixels[i];
    if (under || count < PAINT_RUN_MOST)
        for (int i = 0; i < count; i++)
            put(shade, &pixels[i], shares[i]);
    else
        for (int i = 0; i < PAINT_RUN_MOST; i++)
            pixels[i] = shade->on_black[shares[i]];
}

static BASE_WITHIN void put_even(const struct paint_shade *shade, uint32_t *pixels, uint16_t share, int count)
{
    if (share == PAINT_WHOLE)
        for (int i = 0; i < count; i++)
            pixels[i] = shade->ink.pixel;
    else
        for (int i = 0; i < count; i++)
            put(shade, &pixels[i], share);
}

BASE_WIDE void paint_shade_row(const struct paint_shade *shade, const struct paint_row *row, uint32_t *pixels)
{
    for (size_t i = 0; i < row->count; i++) {
        struct paint_run run = row->runs[i];
        const uint16_t *shares = row->shares + run.first;
        if (run.even)
            put_even(shade, pixels + run.first, shares[0], run.end - run.first);
        else
            put_run(shade, pixels + run.first, shares, run.end - run.first);
    }
}
