#include "virtual_table.h"

/* Panels, throw ratios and heights are those of common projectors over a table; the angles go beyond what a careful
 * person leaves, up to the 25 degrees of a projector that stands on a shelf beside the table. */
/* clang-format off */
static const struct vt_setup setups[] = {
    /* name                          w     h     throw  height  tilt  roll  turn  foot x  foot y  shift  k1 */
    { "square, 1920x1080",           1920, 1080, 1.2,   1800,   0,    0,    0,    760,    430,    0,     0      },
    { "square, 1280x720",            1280, 720,  1.2,   1800,   0,    0,    0,    760,    430,    0,     0      },
    { "square, 1280x800",            1280, 800,  1.2,   1800,   0,    0,    0,    760,    480,    0,     0      },
    { "square, 3840x2160",           3840, 2160, 1.2,   1800,   0,    0,    0,    760,    430,    0,     0      },
    { "tilt 10",                     1920, 1080, 1.2,   1800,   10,   0,    0,    760,    120,    0,     0      },
    { "tilt 20",                     1920, 1080, 1.2,   1700,   20,   0,    0,    760,    -180,   0,     0      },
    { "tilt 25",                     1920, 1080, 1.2,   1600,   25,   0,    0,    760,    -300,   0,     0      },
    { "tilt 25, 1280x800",           1280, 800,  1.4,   1400,   25,   0,    0,    560,    -260,   0,     0      },
    { "tilt -20, from the far side", 1920, 1080, 1.2,   1700,   -20,  0,    0,    760,    1040,   0,     0      },
    { "tilt 10, roll 6",             1920, 1080, 1.2,   1800,   10,   6,    0,    950,    120,    0,     0      },
    { "turn 3",                      1920, 1080, 1.2,   1800,   0,    0,    3,    760,    430,    0,     0      },
    { "turn 90",                     1280, 800,  1.2,   1600,   5,    0,    90,   560,    700,    0,     0      },
    { "turn 180, tilt 10",           1920, 1080, 1.2,   1800,   10,   0,    180,  760,    740,    0,     0      },
    { "off centre",                  1920, 1080, 1.5,   1800,   4,    -7,   -2,   -310,   1250,   0,     0      },
    { "lens barrel",                 1920, 1080, 1.2,   1800,   0,    0,    0,    760,    430,    0,     -0.008 },
    { "lens pincushion, tilt 20",    3840, 2160, 1.2,   1700,   20,   2,    3,    760,    -180,   0,     0.005  },
    { "axis at the edge",            1920, 1080, 0.5,   900,    0,    0,    0,    920,    10,     1,     0      },
    { "axis at the edge, lens",      1920, 1080, 1.2,   1800,   0,    0,    0,    760,    10,     1,     -0.004 },
    { "axis at the edge, tilt -20",  1920, 1080, 1.2,   1700,   -20,  1,    -3,   760,    640,    1,     0.003  },
    { "axis at the edge, 25, 4k",    3840, 2160, 1.2,   1300,   25,   -3,   3,    700,    -620,   1,     -0.002 },
    { "axis at the edge, 180",       1280, 800,  1.2,   1500,   10,   0,    180,  640,    1150,   1,     -0.004 },
};
/* clang-format on */

const struct vt_setup *vt_standard_setups(size_t *count)
{
    *count = sizeof setups / sizeof setups[0];
    return setups;
}
