#include "vt_light.h"
#include "vt_trace.h"

#include <assert.h>

/* The colour the frame sends to a place on the mat; outside its light, none. */
static uint32_t cast_on(const struct vt_aim *aim, const struct vt_frame *frame, double x, double y)
{
    double px_x, px_y;
    if (!vt_aim_find(aim, x, y, &px_x, &px_y) || !(px_x >= 0 && px_x < frame->width) ||
        !(px_y >= 0 && px_y < frame->height))
        return 0;
    return frame->xrgb[(size_t)px_y * (size_t)frame->stride + (size_t)px_x];
}

static uint32_t reflected(const struct vt_cloth *cloth, uint32_t cast)
{
    uint32_t seen = 0;
    for (int shift = 0; shift <= 16; shift += 8)
        seen |=
            vt_encoded(vt_linear(cloth->colour, shift) * (cloth->room + cloth->lamp * vt_linear(cast, shift)), shift);
    return seen;
}

void vt_picture(const struct vt_setup *setup, const struct vt_frame *frame, const struct vt_cloth *cloth,
                const struct vt_photo *photo)
{
    assert(frame->width == setup->width_px && frame->height == setup->height_px && photo->mm_per_px > 0);
    struct vt_aim aim = vt_aim_at(setup);
    for (int row = 0; row < photo->height; row++)
        for (int col = 0; col < photo->width; col++) {
            double x = photo->far_left.x + (col + 0.5) * photo->mm_per_px;
            double y = photo->far_left.y - (row + 0.5) * photo->mm_per_px;
            photo->xrgb[(size_t)row * (size_t)photo->stride + (size_t)col] =
                reflected(cloth, cast_on(&aim, frame, x, y));
        }
}
