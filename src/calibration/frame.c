#include "calibration/frame.h"

#include "calibration/readings.h"
#include "json/want.h"

enum { LEAST_PX = 100 };

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
