#include "e2e/desk.h"

const struct vt_setup desk = { .name = "desk",
                               .width_px = 1280,
                               .height_px = 800,
                               .throw_ratio = 1.4,
                               .height_mm = 1000,
                               .tilt_deg = 3,
                               .turn_deg = 1,
                               .foot_x_mm = 400,
                               .foot_y_mm = 250 };
