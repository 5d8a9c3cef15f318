#include "calibration/frame.h"

#include "calibration/readings.h"
#include "json/want.h"

enum { LEAST_PX = 100 };

static const struct err_kind not_two = { "calibration.not_two", ERR_FAULT,
                                         BASE_TR("needs two values, and this has {0}") };
static const struct err_kind off_frame = { "calibration.off_frame", ERR_FAULT,
                                           BASE_TR("pixel {0}, {1} lies outside the picture of {2} x {3}") };

bool calibration_frame_from(const struct json_node *object, int *width_px, int *height_px, struct err_list *errs)
{
    *width_px = *height_px = 0;
    const struct json_node *frame = json_need(object, "frame", JSON_OBJECT, errs);
    if (!frame)
        return false;
    json_only(frame, (const char *const[]){ "width", "height", NULL }, errs);
    bool wide = json_need_whole(frame, "width", LEAST_PX, CALIBRATION_MOST_PX, width_px, errs);
    bool high = json_need_whole(frame, "height", LEAST_PX, CALIBRATION_MOST_PX, height_px, errs);
    return wide && high;
}

void calibration_frame_write(struct json_out *object, int width_px, int height_px)
{
    struct json_out *frame = json_out_object(object, "frame");
    json_out_number(frame, "width", width_px);
    json_out_number(frame, "height", height_px);
}

const struct json_node *calibration_pair_from(const struct json_node *node, struct err_list *errs)
{
    if (!node || !json_is(node, JSON_LIST, errs))
        return NULL;
    if (node->count == 2)
        return node;
    json_fault(errs, node, &not_two, ERR_NUMBER(node->count));
    return NULL;
}

bool calibration_pixel_from(const struct json_node *node, int width_px, int height_px, struct px_pt *out,
                            struct err_list *errs)
{
    const struct json_node *pair = calibration_pair_from(node, errs);
    if (!pair || !json_is(pair->first, JSON_NUMBER, errs) || !json_is(pair->first->next, JSON_NUMBER, errs))
        return false;
    *out = (struct px_pt){ pair->first->number, pair->first->next->number };
    bool known = width_px && height_px;
    if (!known || (out->x >= 0 && out->x <= width_px && out->y >= 0 && out->y <= height_px))
        return true;
    json_fault(errs, pair, &off_frame, ERR_NUMBER(out->x), ERR_NUMBER(out->y), ERR_NUMBER(width_px),
               ERR_NUMBER(height_px));
    return false;
}

void calibration_pixel_write(struct json_out *list, struct px_pt px)
{
    json_out_number(list, NULL, px.x);
    json_out_number(list, NULL, px.y);
}
