/* The grammar of path data and the basic shapes. Expected outlines are hand-worked by SVG 1.1, chapters 8 and 9; curves
 * of a circle by 4/3 tan(11.25°) = 0.265216 for an eighth of it. */
#include "sheet_reader/read_svg.h"

struct row {
    const char *what, *drawn;
};

static const struct row paths[] = {
    { "M1 2L3 4", "M 1 2 L 3 4" },
    { "M1,2 3,4 5,6", "M 1 2 L 3 4 L 5 6" },
    { "m1,2 3,4 5,6", "M 1 2 L 4 6 L 9 12" },
    { "M1.5.5-3e2+4", "M 1.5 0.5 L -300 4" },
    { "M 10 20 l.5-.5.25.25", "M 10 20 L 10.5 19.5 L 10.75 19.75" },
    { "M0 0H5h5V7v-2z", "M 0 0 L 5 0 L 10 0 L 10 7 L 10 5 Z" },
    { "M0 0H1 2 3V4 5", "M 0 0 L 1 0 L 2 0 L 3 0 L 3 4 L 3 5" },
    { "M0 0C1 1 2 1 3 0S5-1 6 0", "M 0 0 C 1 1 2 1 3 0 C 4 -1 5 -1 6 0" },
    { "m1 1c1 1 2 1 3 0s2-1 3 0", "M 1 1 C 2 2 3 2 4 1 C 5 0 6 0 7 1" },
    { "M0 0S1 2 3 0", "M 0 0 C 0 0 1 2 3 0" },
    { "M0 0Q3 3 6 0T12 0", "M 0 0 C 2 2 4 2 6 0 C 8 -2 10 -2 12 0" },
    { "M0 0q3 3 6 0t6 0 6 0", "M 0 0 C 2 2 4 2 6 0 C 8 -2 10 -2 12 0 C 14 2 16 2 18 0" },
    { "M0 0T3 3", "M 0 0 C 0 0 1 1 3 3" },
    { "M0 0Q3 3 6 0S9 3 12 0", "M 0 0 C 2 2 4 2 6 0 C 6 0 9 3 12 0" },
    /* a half circle of radius 10 in four eighths, with flags run together */
    { "M0 0a10 10 0 0120 0", "M 0 0 C 0 -2.6522 1.0536 -5.1957 2.9289 -7.0711 C 4.8043 -8.9464 7.3478 -10 10 -10 "
                             "C 12.6522 -10 15.1957 -8.9464 17.0711 -7.0711 C 18.9464 -5.1957 20 -2.6522 20 0" },
    /* the other way round */
    { "M0 0a10 10 0 0020 0", "M 0 0 C 0 2.6522 1.0536 5.1957 2.9289 7.0711 C 4.8043 8.9464 7.3478 10 10 10 "
                             "C 12.6522 10 15.1957 8.9464 17.0711 7.0711 C 18.9464 5.1957 20 2.6522 20 0" },
    /* radii that do not reach grow to 10 */
    { "M0 0A1 1 0 01 20 0", "M 0 0 C 0 -2.6522 1.0536 -5.1957 2.9289 -7.0711 C 4.8043 -8.9464 7.3478 -10 10 -10 "
                            "C 12.6522 -10 15.1957 -8.9464 17.0711 -7.0711 C 18.9464 -5.1957 20 -2.6522 20 0" },
    { "M0 0A0 5 0 0 1 20 0", "M 0 0 L 20 0" },
    { "M5 5A3 3 0 1 1 5 5L6 6", "M 5 5 L 6 6" },
    { "M1 1L2 2ZL5 5", "M 1 1 L 2 2 Z M 1 1 L 5 5" },
    { "M1 1l1 1zm2 2l1 0", "M 1 1 L 2 2 Z M 3 3 L 4 3" },
    { "M1 1L2 2M3 3M4 4L5 5", "M 1 1 L 2 2 M 4 4 L 5 5" },
    { "M3 3Z", "M 3 3 Z" },
    { "\t\nM 1 , 2\r\nL 3 4 ", "M 1 2 L 3 4" },
    { "M1e2 2E-1L1.e1 0", "M 100 0.2 L 10 0" },
    { "M100000000000000000000e-19 0.00000000000000000012e20L1 1", "M 10 12 L 1 1" },
};

/* As far as they can be read. */
static const struct row broken[] = {
    { "M1 1L2 2L3", "M 1 1 L 2 2" },      { "M1 1L2 2X3 3", "M 1 1 L 2 2" },
    { "M1 1L2 2,,3 3", "M 1 1 L 2 2" },   { "M1 1L2 2A1 1 0 2 0 3 3", "M 1 1 L 2 2" },
    { "M1 1L2 2L1e99 0", "M 1 1 L 2 2" }, { "M1 1L2 2 3", "M 1 1 L 2 2" },
};

static const struct row shapes[] = {
    { "<line x1='1' y1='2' x2='3cm' y2='4'/>", "M 1 2 L 113.386 4" },
    { "<polyline points='1,2 3,4 5'/>", "M 1 2 L 3 4" },
    { "<polygon points='1 2-3-4,5,6'/>", "M 1 2 L -3 -4 L 5 6 Z" },
    { "<rect x='1' y='2' width='10' height='20'/>", "M 1 2 L 11 2 L 11 22 L 1 22 Z" },
    { "<rect width='10%' height='5%'/>", "M 0 0 L 100 0 L 100 50 L 0 50 Z" },
    { "<rect width='20' height='20' rx='10'/>",
      "M 10 0 C 12.6522 0 15.1957 1.0536 17.0711 2.9289 C 18.9464 4.8043 20 7.3478 20 10 "
      "C 20 12.6522 18.9464 15.1957 17.0711 17.0711 C 15.1957 18.9464 12.6522 20 10 20 "
      "C 7.3478 20 4.8043 18.9464 2.9289 17.0711 C 1.0536 15.1957 0 12.6522 0 10 "
      "C 0 7.3478 1.0536 4.8043 2.9289 2.9289 C 4.8043 1.0536 7.3478 0 10 0 Z" },
    { "<circle cx='10' cy='10' r='10'/>",
      "M 20 10 C 20 12.6522 18.9464 15.1957 17.0711 17.0711 C 15.1957 18.9464 12.6522 20 10 20 "
      "C 7.3478 20 4.8043 18.9464 2.9289 17.0711 C 1.0536 15.1957 0 12.6522 0 10 "
      "C 0 7.3478 1.0536 4.8043 2.9289 2.9289 C 4.8043 1.0536 7.3478 0 10 0 "
      "C 12.6522 0 15.1957 1.0536 17.0711 2.9289 C 18.9464 4.8043 20 7.3478 20 10 Z" },
};

/* Transforms of the line from (1, 2) to (3, 4), by hand: tan 45° = 1, sin 30° = 1/2. */
static const struct row transforms[] = {
    { "translate(10)", "M 11 2 L 13 4" },
    { "translate(10 20)", "M 11 22 L 13 24" },
    { "scale(2)", "M 2 4 L 6 8" },
    { "scale(2,-1)", "M 2 -2 L 6 -4" },
    { "rotate(90)", "M -2 1 L -4 3" },
    { "rotate(90deg)", "M -2 1 L -4 3" },
    { "rotate(90,1,2)", "M 1 2 L -1 4" },
    { "skewX(45)", "M 3 2 L 7 4" },
    { "skewY(45)", "M 1 3 L 3 7" },
    { "matrix(1 2 3 4 5 6)", "M 12 16 L 20 28" },
    { "translate(10,0) scale(2)", "M 12 4 L 16 8" },
    { "scale(2),translate(10,0)", "M 22 4 L 26 8" },
    { "none", "M 1 2 L 3 4" },
};

static size_t check(struct arena *a, const char *format, const struct row *row, uint32_t notes)
{
    struct read_svg r = read_svg(base_arena_print(a, format, row->what));
    const char *got =
        r.exit == SHEET_EXIT_DONE && r.s.counts[SHEET_ITEMS] == 1 ? drawn_text(a, &r.s, &r.s.items[0]) : "not one item";
    bool right = strcmp(got, row->drawn) == 0 && r.s.counts[SHEET_NOTES] == notes;
    if (!right)
        print_error("%s\n  want %s\n  got  %s, %zu notes\n", row->what, row->drawn, got, r.s.counts[SHEET_NOTES]);
    read_svg_close(&r);
    return !right;
}

#define check_all(rows, format, notes)                                                                                 \
    do {                                                                                                               \
        size_t wrong = 0;                                                                                              \
        for (size_t i = 0; i < sizeof(rows) / sizeof(rows)[0]; i++)                                                    \
            wrong += check(*state, format, &(rows)[i], notes);                                                         \
        assert_int_equal(wrong, 0);                                                                                    \
    } while (0)

static void path_data_is_read(void **state)
{
    check_all(paths, MM_SVG "<path d='%s'/></svg>", 0);
}

static void broken_path_data_is_drawn_as_far_as_it_goes(void **state)
{
    check_all(broken, MM_SVG "<path d='%s'/></svg>", 1);
}

static void shapes_are_drawn(void **state)
{
    check_all(shapes, MM_SVG "%s</svg>", 0);
}

static void transforms_are_applied(void **state)
{
    check_all(transforms, MM_SVG "<g transform='%s'><path d='M1 2L3 4'/></g></svg>", 0);
}

/* How far a point of a cubic lies from a circle about the origin. */
static double off_circle(const struct sheet_point *p, double radius)
{
    double worst = 0;
    for (int i = 0; i <= 100; i++) {
        double t = i / 100.0, u = 1 - t;
        double b[4] = { u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t }, x = 0, y = 0;
        for (int k = 0; k < 4; k++) {
            x += b[k] * p[k].x;
            y += b[k] * (p[k].y - 1000);
        }
        worst = fmax(worst, fabs(sqrt(x * x + y * y) - radius));
    }
    return worst;
}

/* A circle of 1 m within 0.005 mm. */
static void circles_are_round(void **state)
{
    (void)state;
    struct read_svg r = read_svg(MM_SVG "<circle r='1000'/></svg>");
    assert_int_equal(r.s.parts[0].segment_count, 8);
    for (uint32_t i = 0; i < 8; i++)
        assert_near(off_circle(&r.s.points[3 * i], 1000), 0, 0.005);
    read_svg_close(&r);
}

static void shapes_without_size_draw_nothing(void **state)
{
    (void)state;
    struct read_svg r =
        read_svg(MM_SVG "<rect width='5'/><rect width='-5' height='5'/><circle/><ellipse rx='3' ry='0'/>"
                        "<path/><path d=''/><polygon/><path d='M3 3'/></svg>");
    assert_int_equal(r.s.counts[SHEET_ITEMS], 0);
    assert_int_equal(r.s.counts[SHEET_NOTES], 0);
    read_svg_close(&r);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(path_data_is_read), room_arena_test(broken_path_data_is_drawn_as_far_as_it_goes),
        room_arena_test(shapes_are_drawn),  room_arena_test(transforms_are_applied),
        room_arena_test(circles_are_round), room_arena_test(shapes_without_size_draw_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
