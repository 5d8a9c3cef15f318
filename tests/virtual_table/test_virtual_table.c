/* The virtual table judges every frame, so it is judged here first: its rays by worked values of a pinhole lens, its
 * instruments by frames painted in this file, sample by sample, with lines whose place is known. */
#include "virtual_table.h"

#include "support/cmocka_all.h"

#include <stdlib.h>
#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

static const double rad_per_deg = 3.14159265358979323846 / 180;

static void assert_falls(const struct vt_setup *setup, double px_x, double px_y, double x, double y, double tolerance)
{
    double got_x, got_y;
    assert_true(vt_px_to_mat(setup, px_x, px_y, &got_x, &got_y));
    assert_near(got_x, x, tolerance);
    assert_near(got_y, y, tolerance);
}

static struct vt_pt fall(const struct vt_setup *setup, double px_x, double px_y)
{
    struct vt_pt p;
    assert_true(vt_px_to_mat(setup, px_x, px_y, &p.x, &p.y));
    return p;
}

static double apart(struct vt_pt a, struct vt_pt b)
{
    return hypot(b.x - a.x, b.y - a.y);
}

/* --- a painter of its own ----------------------------------------------------------------------------------------- */

enum { WIDE = 960, HIGH = 540, SAMPLES = 16 };

/* A line with round ends and joins on the mat. */
struct stroke {
    struct vt_pt pts[5];
    int count;
    double half_mm;
};

static double from_segment(struct vt_pt a, struct vt_pt b, double x, double y)
{
    double ux = b.x - a.x, uy = b.y - a.y;
    double t = ((x - a.x) * ux + (y - a.y) * uy) / (ux * ux + uy * uy);
    t = fmin(fmax(t, 0), 1);
    return hypot(x - a.x - t * ux, y - a.y - t * uy);
}

/* How far a place lies outside the stroke; a stroke of one point is a ring of 100 mm about it. */
static double outside(const struct stroke *s, double x, double y)
{
    double d = INFINITY;
    if (s->count == 1)
        d = fabs(hypot(x - s->pts[0].x, y - s->pts[0].y) - 100);
    for (int i = 0; i + 1 < s->count; i++)
        d = fmin(d, from_segment(s->pts[i], s->pts[i + 1], x, y));
    return d - s->half_mm;
}

/* Share of a pixel's samples that fall inside the stroke. */
static double coverage(const struct vt_setup *setup, const struct stroke *s, int col, int row)
{
    int lit = 0;
    for (int j = 0; j < SAMPLES; j++)
        for (int i = 0; i < SAMPLES; i++) {
            struct vt_pt p = fall(setup, col + (i + 0.5) / SAMPLES, row + (j + 0.5) / SAMPLES);
            lit += outside(s, p.x, p.y) <= 0;
        }
    return (double)lit / (SAMPLES * SAMPLES);
}

/* Grey of a share of full light, by the inverse transfer curve of IEC 61966-2-1. */
static uint32_t grey(double share)
{
    double v = share <= 0.0031308 ? 12.92 * share : 1.055 * pow(share, 1 / 2.4) - 0.055;
    return (uint32_t)lround(255 * v) * 0x010101u;
}

/* Set-ups here have less than 1.6 mm a pixel, so a pixel whose middle is 1.2 mm outside is dark, and so are the next
 * ones of its row until they have come that near. */
static void paint_row(uint32_t *pixels, const struct vt_setup *setup, const struct stroke *stroke, int row)
{
    for (int col = 0; col < setup->width_px; col++) {
        struct vt_pt middle = fall(setup, col + 0.5, row + 0.5);
        double dark_mm = outside(stroke, middle.x, middle.y) - 1.2;
        if (dark_mm > 0)
            col += (int)(dark_mm / 1.6);
        else
            pixels[col] = grey(coverage(setup, stroke, col, row));
    }
}

/* A frame with a stroke on it, or a dark one for none. To be discarded. */
static struct vt_frame painted(const struct vt_setup *setup, const struct stroke *stroke)
{
    int w = setup->width_px, h = setup->height_px;
    uint32_t *xrgb = calloc((size_t)w * (size_t)h, sizeof *xrgb);
    assert_non_null(xrgb);
    for (int row = 0; stroke && row < h; row++)
        paint_row(xrgb + row * w, setup, stroke, row);
    return (struct vt_frame){ xrgb, w, h, w };
}

static void discard(struct vt_frame frame)
{
    free((void *)frame.xrgb);
}

/* A small frame at the pitch of a 1920 wide one, its light around (375, 210). */
static struct vt_setup small(double tilt_deg)
{
    return (struct vt_setup){ .name = "small",
                              .width_px = WIDE,
                              .height_px = HIGH,
                              .throw_ratio = 1.2,
                              .height_mm = 900,
                              .tilt_deg = tilt_deg,
                              .foot_x_mm = 375,
                              .foot_y_mm = 210 - 900 * tan(tilt_deg * rad_per_deg) };
}

/* A line of 300 mm through (375, 210) at an angle, moved sideways to its left. */
static struct stroke stripe(double angle_deg, double moved_mm)
{
    double c = cos(angle_deg * rad_per_deg), s = sin(angle_deg * rad_per_deg);
    double x = 375 - moved_mm * s, y = 210 + moved_mm * c;
    return (struct stroke){
        {{ x - 150 * c, y - 150 * s }, { x + 150 * c, y + 150 * s }},
        2, 1.5
    };
}

static bool measure_stripe(const struct vt_setup *setup, const struct stroke *painted_stroke,
                           const struct stroke *expected, struct vt_line *line)
{
    struct vt_frame frame = painted(setup, painted_stroke);
    const struct vt_pt *e = expected->pts;
    bool ok = vt_measure_line(setup, &frame, e[0].x, e[0].y, e[1].x, e[1].y, 4, line);
    discard(frame);
    return ok;
}

/* --- rays --------------------------------------------------------------------------------------------------------- */

/* Derived from pinhole geometry: width = distance / throw ratio, height by the shape of the panel. The first is also a
 * common worked example of a throw ratio (12 ft for 10 ft of picture at 1.2: 3657.6 and 3048 mm). */
static void a_square_picture_is_as_wide_as_its_throw_ratio_says(void **state)
{
    (void)state;
    static const struct {
        double throw_ratio, height_mm;
        int w, h;
        double wide_mm, high_mm, pitch_mm;
    } rows[] = {
        {1.2,  3657.6, 1920, 1080, 3048, 1714.5, 1.5875  },
        { 1.2, 1800,   1280, 720,  1500, 843.75, 1.171875},
        { 1.2, 1800,   1920, 1080, 1500, 843.75, 0.78125 },
        { 1.2, 1800,   3840, 2160, 1500, 843.75, 0.390625},
        { 1.2, 1800,   1280, 800,  1500, 937.5,  1.171875},
        { 1.5, 1800,   1920, 1080, 1200, 675,    0.625   },
        { 0.5, 900,    1920, 1080, 1800, 1012.5, 0.9375  },
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct vt_setup s = { .width_px = rows[i].w,
                              .height_px = rows[i].h,
                              .throw_ratio = rows[i].throw_ratio,
                              .height_mm = rows[i].height_mm };
        assert_falls(&s, 0, 0, -rows[i].wide_mm / 2, rows[i].high_mm / 2, 1e-9);
        assert_falls(&s, rows[i].w, rows[i].h, rows[i].wide_mm / 2, -rows[i].high_mm / 2, 1e-9);
        assert_near(vt_mm_per_px(&s, 100, 100), rows[i].pitch_mm, 1e-9);
    }
}

/* Derived from pinhole geometry: x = D X / (cos a - Y sin a), y = D (Y cos a + sin a) / (cos a - Y sin a), worked with
 * T 1.2 and D 1800 mm; figures to three decimals. */
static void a_tilted_picture_is_the_keystone_worked_by_hand(void **state)
{
    (void)state;
    static const struct {
        double tilt_deg, near_mm, far_mm, apart_mm;
    } rows[] = {
        {5,   1475.475, 1537.251, 850.566},
        { 10, 1462.692, 1588.800, 871.472},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct vt_setup s = {
            .width_px = 1920, .height_px = 1080, .throw_ratio = 1.2, .height_mm = 1800, .tilt_deg = rows[i].tilt_deg
        };
        struct vt_pt near = fall(&s, 960, 1080), far = fall(&s, 960, 0);
        assert_near(apart(fall(&s, 0, 1080), fall(&s, 1920, 1080)), rows[i].near_mm, 6e-4);
        assert_near(apart(fall(&s, 0, 0), fall(&s, 1920, 0)), rows[i].far_mm, 6e-4);
        assert_near(far.y - near.y, rows[i].apart_mm, 6e-4);
    }
}

/* Derived from pinhole geometry: the axis of a lens swung by an angle a meets the table height x tan a from the foot.
 */
static void the_angles_swing_the_light_as_the_header_says(void **state)
{
    (void)state;
    static const double height_mm = 1000;
    double t8 = height_mm * tan(8 * rad_per_deg);
    struct vt_setup s = { .width_px = 1920,
                          .height_px = 1080,
                          .throw_ratio = 1,
                          .height_mm = height_mm,
                          .foot_x_mm = 500,
                          .foot_y_mm = 300 };
    s.tilt_deg = 8;
    assert_falls(&s, 960, 540, 500, 300 + t8, 1e-9);
    s.turn_deg = 90; /* far becomes left */
    assert_falls(&s, 960, 540, 500 - t8, 300, 1e-9);
    s.turn_deg = 180;
    assert_falls(&s, 960, 540, 500, 300 - t8, 1e-9);
    s.tilt_deg = s.turn_deg = 0;
    s.roll_deg = 8;
    assert_falls(&s, 960, 540, 500 - t8, 300, 1e-9);
    s.roll_deg = 0;
    s.turn_deg = 90; /* the picture's right, 500 mm away, points to far */
    assert_falls(&s, 1920, 540, 500, 800, 1e-9);
}

static void a_shifted_lens_has_its_axis_at_the_edge_of_the_picture(void **state)
{
    (void)state;
    struct vt_setup s = { .width_px = 1920, .height_px = 1080, .throw_ratio = 0.5, .height_mm = 900, .shift = 1 };
    assert_falls(&s, 960, 1080, 0, 0, 1e-9);
    assert_falls(&s, 960, 0, 0, 1012.5, 1e-9); /* the whole picture lies beyond the foot */
    s.shift = -1;
    assert_falls(&s, 960, 0, 0, 0, 1e-9);
}

/* By the definition of the lens term: at half a frame diagonal from the axis the light moves by the share k1. */
static void the_lens_term_moves_light_along_rays_from_the_axis(void **state)
{
    (void)state;
    struct vt_setup s = { .width_px = 1600, .height_px = 1200, .throw_ratio = 1, .height_mm = 1000, .k1 = 0.01 };
    assert_falls(&s, 800, 600, 0, 0, 1e-9);
    assert_falls(&s, 1600, 0, 500 * 1.01, 375 * 1.01, 1e-9);
    assert_falls(&s, 1600, 600, 500 * (1 + 0.01 * 0.64), 0, 1e-9); /* r = 800 of 1000 px */
    s.shift = 1; /* the axis now at the middle of the near edge, (0, 0) on the mat */
    assert_falls(&s, 800, 1200, 0, 0, 1e-9);
    assert_falls(&s, 1600, 1200, 500 * (1 + 0.01 * 0.64), 0, 1e-9);
    assert_falls(&s, 800, 0, 0, 750 * (1 + 0.01 * 1.44), 1e-9); /* r = 1200 of 1000 px */
}

static void light_above_the_horizon_misses_the_table(void **state)
{
    (void)state;
    double x, y;
    struct vt_setup s = { .width_px = 1920, .height_px = 1080, .throw_ratio = 1.2, .height_mm = 1800, .tilt_deg = 80 };
    assert_true(vt_px_to_mat(&s, 960, 1080, &x, &y)); /* half the picture is 13.2 degrees high */
    assert_false(vt_px_to_mat(&s, 960, 0, &x, &y));
    assert_true(isinf(vt_mm_per_px(&s, 960, 0)));
    s.tilt_deg = 100;
    assert_false(vt_mat_to_px(&s, 0, 1000, &x, &y));
}

static void a_place_found_from_the_mat_is_the_pixel_that_lit_it(void **state)
{
    (void)state;
    size_t count;
    const struct vt_setup *s = vt_standard_setups(&count);
    for (size_t i = 0; i < count; i++)
        for (int row = -1; row <= 11; row++) /* a tenth of the frame beyond each edge too */
            for (int col = -1; col <= 11; col++) {
                double px_x = s[i].width_px * col / 10.0, px_y = s[i].height_px * row / 10.0, x, y, u, v;
                assert_true(vt_px_to_mat(&s[i], px_x, px_y, &x, &y));
                assert_true(vt_mat_to_px(&s[i], x, y, &u, &v));
                assert_near(u, px_x, 1e-6);
                assert_near(v, px_y, 1e-6);
            }
}

static void the_standard_setups_light_the_table_finely_enough(void **state)
{
    (void)state;
    size_t count;
    const struct vt_setup *s = vt_standard_setups(&count);
    assert_true(count >= 12);
    for (size_t i = 0; i < count; i++) {
        assert_true(vt_setup_is_valid(&s[i]));
        assert_non_null(s[i].name);
        for (int corner = 0; corner < 4; corner++) {
            double pitch = vt_mm_per_px(&s[i], corner & 1 ? s[i].width_px : 0, corner & 2 ? s[i].height_px : 0);
            if (!(pitch < 1.6))
                fail_msg("%s: %g mm a pixel", s[i].name, pitch);
        }
    }
}

/* --- light -------------------------------------------------------------------------------------------------------- */

/* WCAG 2.2, relative luminance; 767676 worked by its formula. */
static void luminance_is_that_of_linear_light(void **state)
{
    (void)state;
    assert_near(vt_luminance(0x000000), 0, 0);
    assert_near(vt_luminance(0xffffff), 1, 1e-12);
    assert_near(vt_luminance(0x767676), 0.181164, 5e-7);
    assert_near(vt_luminance(0xff0000), 0.2126, 1e-12);
    assert_near(vt_luminance(0x00ff00), 0.7152, 1e-12);
    assert_near(vt_luminance(0x0000ff), 0.0722, 1e-12);
    assert_near(vt_luminance(0xff000000), 0, 0); /* the top byte is not colour */
}

/* One white pixel under a square projector: its light is its own area, in the middle of it. */
static void one_pixel_lights_its_own_patch_of_the_mat(void **state)
{
    (void)state;
    struct vt_setup s = { .width_px = 64, .height_px = 36, .throw_ratio = 1, .height_mm = 64 }; /* 1 mm a pixel */
    struct vt_frame frame = painted(&s, NULL);
    ((uint32_t *)frame.xrgb)[18 * 64 + 34] = 0xffffff; /* centre (2.5, -0.5) */
    struct vt_probe probe = {
        {2, -0.5},
        1, 0, 4, 50
    };
    struct vt_glow glow;
    bool seen = vt_probe_light(&s, &frame, &probe, &glow);
    assert_near(glow.offset_mm, 0.5, 1e-9);
    assert_near(glow.peak, 1, 1e-12);
    assert_near(glow.light, 1.0 / 50, 1e-3 / 50 * 5); /* 1 mm^2 over half of 100 mm, less up to 0.5 % at its side */
    assert_false(seen);                               /* far too little for a line across 100 mm */
    discard(frame);
}

/* --- lines -------------------------------------------------------------------------------------------------------- */

static void a_stripe_is_measured_where_it_is(void **state)
{
    (void)state;
    static const double tilts[] = { 0, 10, 20, 25 }, angles[] = { 17, 58, 140 };
    for (size_t t = 0; t < COUNT(tilts); t++)
        for (size_t a = 0; a < COUNT(angles); a++) {
            struct vt_setup s = small(tilts[t]);
            struct stroke line = stripe(angles[a], 0);
            struct vt_line got;
            assert_true(measure_stripe(&s, &line, &line, &got));
            assert_near(apart(got.a, line.pts[0]), 0, 0.02);
            assert_near(apart(got.b, line.pts[1]), 0, 0.02);
            assert_near(got.max_off_expected_mm, 0, 0.05); /* a single probe sees the pixels' steps */
            assert_near(got.max_off_fit_mm, 0, 0.05);
            assert_near(got.width_mm, 3, 0.1);
            assert_int_equal(got.missed, 0);
        }
}

static void a_stripe_is_measured_under_a_turned_and_bent_light(void **state)
{
    (void)state;
    struct vt_setup s = small(12);
    s.roll_deg = -5;
    s.turn_deg = 33;
    s.k1 = 0.01;
    s.shift = 0.4;
    s.foot_x_mm = 420;
    s.foot_y_mm = 20;
    struct stroke line = stripe(17, 0);
    struct vt_line got;
    assert_true(measure_stripe(&s, &line, &line, &got));
    assert_near(apart(got.a, line.pts[0]), 0, 0.02);
    assert_near(apart(got.b, line.pts[1]), 0, 0.02);
    assert_int_equal(got.missed, 0);
}

static void a_stripe_moved_by_half_a_millimetre_is_seen_to_move(void **state)
{
    (void)state;
    struct vt_setup s = small(20);
    struct stroke line = stripe(17, 0), moved = stripe(17, 0.5);
    struct vt_line got;
    assert_true(measure_stripe(&s, &moved, &line, &got));
    assert_near(apart(got.a, moved.pts[0]), 0, 0.02);
    assert_near(apart(got.b, moved.pts[1]), 0, 0.02);
    assert_near(got.rms_off_expected_mm, 0.5, 0.02);
    assert_near(got.rms_off_fit_mm, 0, 0.02);
}

static void a_missing_line_is_reported_as_missing(void **state)
{
    (void)state;
    struct vt_setup s = small(10);
    struct stroke line = stripe(17, 0), far_off = stripe(17, 40);
    struct vt_line got;
    assert_false(measure_stripe(&s, &far_off, &line, &got));
    assert_int_equal(got.found, 0);
    assert_true(got.missed >= 8);
    assert_false(measure_stripe(&s, NULL, &line, &got));
    assert_int_equal(got.found, 0);
}

static void a_line_that_leaves_the_window_is_not_read(void **state)
{
    (void)state;
    struct vt_setup s = small(10);
    struct stroke line = stripe(17, 0);
    for (double moved = 3; moved <= 5; moved += 0.5) { /* reach 4, and the line is 3 wide: part of it stays inside */
        struct stroke off = stripe(17, moved);
        struct vt_line got;
        assert_false(measure_stripe(&s, &off, &line, &got));
        assert_int_equal(got.found, 0);
    }
}

static struct stroke cut_short(struct stroke line, double share)
{
    line.pts[1].x = line.pts[0].x + share * (line.pts[1].x - line.pts[0].x);
    line.pts[1].y = line.pts[0].y + share * (line.pts[1].y - line.pts[0].y);
    return line;
}

/* 300 mm less 13 at each end hold 28 probes, 10.15 mm apart from 13 mm on. */
static void a_line_partly_missing_is_counted(void **state)
{
    (void)state;
    struct vt_setup s = small(10);
    struct stroke line = stripe(17, 0), most = cut_short(line, 0.7), little = cut_short(line, 0.3);
    struct vt_line got;
    assert_true(measure_stripe(&s, &most, &line, &got)); /* up to 210 mm */
    assert_int_equal(got.found, 20);
    assert_int_equal(got.missed, 8);
    assert_false(measure_stripe(&s, &little, &line, &got)); /* up to 90 mm */
    assert_int_equal(got.found, 8);
    assert_int_equal(got.missed, 20);
}

static void dim(struct vt_frame frame, double level)
{
    uint32_t *xrgb = (uint32_t *)frame.xrgb;
    for (int i = 0; i < frame.stride * frame.height; i++)
        xrgb[i] = grey(level * vt_luminance(xrgb[i]));
}

static void a_dim_line_is_read_and_a_glimmer_is_not(void **state)
{
    (void)state;
    struct vt_setup s = small(10);
    struct stroke line = stripe(17, 0);
    const struct vt_pt *e = line.pts;
    struct vt_frame frame = painted(&s, &line);
    struct vt_line got;
    dim(frame, 0.35);
    assert_true(vt_measure_line(&s, &frame, e[0].x, e[0].y, e[1].x, e[1].y, 4, &got));
    assert_near(apart(got.a, e[0]), 0, 0.02);
    assert_near(apart(got.b, e[1]), 0, 0.02);
    assert_near(got.width_mm, 3, 0.1);
    dim(frame, 0.02); /* 0.7 % of full light */
    assert_false(vt_measure_line(&s, &frame, e[0].x, e[0].y, e[1].x, e[1].y, 4, &got));
    assert_int_equal(got.found, 0);
    discard(frame);
}

/* A rectangle of 320 x 180 mm about (375, 210), turned by 11 degrees; diagonals by Pythagoras. */
static const struct stroke turned_rectangle = {
    {{ 235.11246, 91.12411 },
     { 549.23316, 152.18299 },
     { 514.88754, 328.87589 },
     { 200.76684, 267.81701 },
     { 235.11246, 91.12411 }},
    5,
    1.5,
};

static void a_rectangle_is_measured_side_by_side(void **state)
{
    (void)state;
    struct vt_setup s = small(20);
    struct vt_frame frame = painted(&s, &turned_rectangle);
    struct vt_quad got;
    assert_true(vt_measure_quad(&s, &frame, turned_rectangle.pts, 4, &got));
    for (int i = 0; i < 4; i++) {
        assert_near(apart(got.corner[i], turned_rectangle.pts[i]), 0, 0.03);
        assert_near(got.side_mm[i], i % 2 ? 180 : 320, 0.04);
        assert_int_equal(got.side[i].missed, 0);
    }
    assert_near(got.diagonal_mm[0], 367.1512, 0.04);
    assert_near(got.diagonal_mm[1], 367.1512, 0.04);

    struct stroke open = turned_rectangle;
    open.count = 4; /* the last side is not drawn */
    discard(frame);
    frame = painted(&s, &open);
    assert_false(vt_measure_quad(&s, &frame, turned_rectangle.pts, 4, &got));
    assert_int_equal(got.side[3].found, 0);
    discard(frame);
}

static void the_sharp_corners_of_a_path_are_left_out(void **state)
{
    (void)state;
    struct vt_setup s = small(20);
    struct vt_frame frame = painted(&s, &turned_rectangle);
    struct vt_path path = { turned_rectangle.pts, 4, true };
    struct vt_walk walk = { .step_mm = 10, .search_mm = 4, .corner_mm = 12 };
    struct vt_path_report got;
    assert_true(vt_measure_path(&s, &frame, &path, &walk, &got));
    /* 320 mm: places at 5, 15, … 315 less one at each end; 180 mm: 5, 15, … 175 less two. */
    assert_int_equal(got.found, 2 * 30 + 2 * 16);
    assert_int_equal(got.missed, 0);
    assert_near(got.max_off_mm, 0, 0.05);

    path.closed = false; /* three sides, and open ends count as corners */
    assert_true(vt_measure_path(&s, &frame, &path, &walk, &got));
    assert_int_equal(got.found, 2 * 30 + 16);
    discard(frame);
}

enum { RING_POINTS = 180 };

static void ring(struct vt_pt *pts, double radius_mm)
{
    for (int i = 0; i < RING_POINTS; i++) {
        double a = 2 * rad_per_deg * i;
        pts[i] = (struct vt_pt){ 375 + radius_mm * cos(a), 210 + radius_mm * sin(a) };
    }
}

static void a_curve_is_measured_all_round(void **state)
{
    (void)state;
    struct vt_setup s = small(10);
    struct stroke circle = { { { 375, 210 } }, 1, 1.5 };
    struct vt_frame frame = painted(&s, &circle);
    struct vt_pt pts[RING_POINTS];
    struct vt_path path = { pts, RING_POINTS, true };
    struct vt_walk walk = { .step_mm = 5, .search_mm = 4, .corner_mm = 10 };
    struct vt_path_report got;
    ring(pts, 100);
    assert_true(vt_measure_path(&s, &frame, &path, &walk, &got));
    assert_int_equal(got.found, 126); /* 628.3 mm: places at 2.5, 7.5, … 627.5 */
    assert_int_equal(got.missed, 0);
    assert_near(got.max_off_mm, 0, 0.06);
    assert_near(got.mean_off_mm, 0, 0.02);

    ring(pts, 99.5); /* the light now lies 0.5 mm outside: to the right of an anticlockwise path */
    assert_true(vt_measure_path(&s, &frame, &path, &walk, &got));
    assert_near(got.mean_off_mm, -0.5, 0.02);
    assert_near(got.rms_off_mm, 0.5, 0.02);
    assert_near(apart(got.worst, circle.pts[0]), 99.5, 0.05);

    path.closed = false; /* 179 legs of 3.473 mm, 621.7: places at 2.5, … 617.5 less two at each end */
    assert_true(vt_measure_path(&s, &frame, &path, &walk, &got));
    assert_int_equal(got.found, 120);
    discard(frame);
}

static void a_path_half_dark_is_counted(void **state)
{
    (void)state;
    struct vt_setup s = small(10);
    struct stroke circle = { { { 375, 210 } }, 1, 1.5 };
    struct vt_frame frame = painted(&s, &circle);
    memset((void *)frame.xrgb, 0, sizeof(uint32_t) * WIDE * (HIGH / 2)); /* the axis falls on the circle's centre */
    struct vt_pt pts[RING_POINTS];
    struct vt_path path = { pts, RING_POINTS, true };
    struct vt_walk walk = { .step_mm = 5, .search_mm = 4, .corner_mm = 10 };
    struct vt_path_report got;
    ring(pts, 100);
    vt_measure_path(&s, &frame, &path, &walk, &got);
    assert_near(got.missed, 62.5, 2);
    assert_near(got.found, 62.5, 2);
    discard(frame);
}

/* --- readings ----------------------------------------------------------------------------------------------------- */

/* The mean of n draws has the standard error sigma / sqrt n, their deviation sigma / sqrt(2 n): the bounds are four of
 * each. */
static void readings_have_the_stated_noise(void **state)
{
    (void)state;
    enum { DRAWS = 10000 };
    static const double sigma = 0.3;
    struct vt_setup s = small(20);
    struct vt_pt true_place = fall(&s, 100, 80);
    struct vt_noise noise = { 7 };
    double sx = 0, sy = 0, sxx = 0, syy = 0, sxy = 0;
    for (int i = 0; i < DRAWS; i++) {
        double x, y;
        assert_true(vt_reading(&s, 100, 80, sigma, &noise, &x, &y));
        x -= true_place.x;
        y -= true_place.y;
        sx += x;
        sy += y;
        sxx += x * x;
        syy += y * y;
        sxy += x * y;
    }
    assert_near(sx / DRAWS, 0, 4 * sigma / sqrt(DRAWS));
    assert_near(sy / DRAWS, 0, 4 * sigma / sqrt(DRAWS));
    assert_near(sqrt(sxx / DRAWS), sigma, 4 * sigma / sqrt(2.0 * DRAWS));
    assert_near(sqrt(syy / DRAWS), sigma, 4 * sigma / sqrt(2.0 * DRAWS));
    assert_near(sxy / DRAWS / (sigma * sigma), 0, 4 / sqrt(DRAWS)); /* no correlation */
}

/* Shares of a normal distribution within 1, 2 and 3 sigma: 0.6827, 0.9545, 0.9973 (any table of it). */
static void the_noise_is_shaped_like_a_bell(void **state)
{
    (void)state;
    enum { DRAWS = 10000 };
    static const double shares[] = { 0.6827, 0.9545, 0.9973 };
    struct vt_noise noise = { 11 };
    int within[3] = { 0 };
    for (int i = 0; i < DRAWS; i++) {
        double d = fabs(vt_noise_draw(&noise));
        for (int k = 0; k < 3; k++)
            within[k] += d < k + 1;
    }
    for (int k = 0; k < 3; k++)
        assert_near((double)within[k] / DRAWS, shares[k], 4 * sqrt(shares[k] * (1 - shares[k]) / DRAWS));
}

static void the_same_seed_reads_the_same(void **state)
{
    (void)state;
    struct vt_setup s = small(0);
    struct vt_noise one = { 3 }, same = { 3 }, other = { 4 };
    double x1, y1, x2, y2, x3, y3;
    assert_true(vt_reading(&s, 10, 10, 0.3, &one, &x1, &y1));
    assert_true(vt_reading(&s, 10, 10, 0.3, &same, &x2, &y2));
    assert_true(vt_reading(&s, 10, 10, 0.3, &other, &x3, &y3));
    assert_true(x1 == x2 && y1 == y2);
    assert_true(x1 != x3 && y1 != y3);
}

/* --- a look ------------------------------------------------------------------------------------------------------- */

static void a_photo_shows_cloth_by_room_light_and_the_line_on_it(void **state)
{
    (void)state;
    enum { W = 60, H = 40 };
    struct vt_setup s = small(10);
    struct stroke line = stripe(0, 5); /* along y = 215, up to x = 525 */
    struct vt_frame frame = painted(&s, &line);
    struct vt_cloth white = { .colour = 0xffffff, .room = 0.2, .lamp = 0.8 };
    uint32_t xrgb[W * H];
    struct vt_photo photo = {
        xrgb, W, H, W, {495, 230},
            1
    };
    vt_picture(&s, &frame, &white, &photo);
    assert_int_equal(xrgb[14 * W + 10], 0xffffff);  /* (505.5, 215.5) */
    assert_int_equal(xrgb[14 * W + 50], grey(0.2)); /* (545.5, 215.5) */
    assert_int_equal(xrgb[25 * W + 10], grey(0.2)); /* (505.5, 204.5) */

    struct vt_cloth red = { .colour = 0xff0000, .room = 0.2, .lamp = 0.8 };
    vt_picture(&s, &frame, &red, &photo);
    assert_int_equal(xrgb[14 * W + 10], 0xff0000);

    photo.far_left = (struct vt_pt){ 5000, 5000 }; /* beyond the light */
    vt_picture(&s, &frame, &white, &photo);
    assert_int_equal(xrgb[0], grey(0.2));
    discard(frame);
}

int main(void)
{
    static const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_square_picture_is_as_wide_as_its_throw_ratio_says),
        cmocka_unit_test(a_tilted_picture_is_the_keystone_worked_by_hand),
        cmocka_unit_test(the_angles_swing_the_light_as_the_header_says),
        cmocka_unit_test(a_shifted_lens_has_its_axis_at_the_edge_of_the_picture),
        cmocka_unit_test(the_lens_term_moves_light_along_rays_from_the_axis),
        cmocka_unit_test(light_above_the_horizon_misses_the_table),
        cmocka_unit_test(a_place_found_from_the_mat_is_the_pixel_that_lit_it),
        cmocka_unit_test(the_standard_setups_light_the_table_finely_enough),
        cmocka_unit_test(luminance_is_that_of_linear_light),
        cmocka_unit_test(one_pixel_lights_its_own_patch_of_the_mat),
        cmocka_unit_test(a_stripe_is_measured_where_it_is),
        cmocka_unit_test(a_stripe_is_measured_under_a_turned_and_bent_light),
        cmocka_unit_test(a_stripe_moved_by_half_a_millimetre_is_seen_to_move),
        cmocka_unit_test(a_missing_line_is_reported_as_missing),
        cmocka_unit_test(a_line_that_leaves_the_window_is_not_read),
        cmocka_unit_test(a_line_partly_missing_is_counted),
        cmocka_unit_test(a_dim_line_is_read_and_a_glimmer_is_not),
        cmocka_unit_test(a_rectangle_is_measured_side_by_side),
        cmocka_unit_test(the_sharp_corners_of_a_path_are_left_out),
        cmocka_unit_test(a_curve_is_measured_all_round),
        cmocka_unit_test(a_path_half_dark_is_counted),
        cmocka_unit_test(readings_have_the_stated_noise),
        cmocka_unit_test(the_noise_is_shaped_like_a_bell),
        cmocka_unit_test(the_same_seed_reads_the_same),
        cmocka_unit_test(a_photo_shows_cloth_by_room_light_and_the_line_on_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
