#include "bench/pace.h"

#include "bench/clock.h"
#include "bench/figure.h"
#include "paint/easel.h"
#include "paint/stroke.h"

#include <cairo.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#define PI 3.14159265358979323846
#define WIDTH_PX 3.0

enum { PAIRS = 15 };

struct task {
    const char *name;
    int width, height;
    int rings, chords; /* chords of each ring */
    double reach_px;   /* of the largest ring */
    bool fill;         /* cairo fills our outlines */
    bool apart;        /* ring by ring: quicker for cairo, but rings no longer are one layer */
};

static const struct task tasks[] = {
    { "paint.vs_cairo_4k_100k", 3840, 2160, 500, 200, 150, false, false },
    { "paint.vs_cairo_fhd_10k", 1920, 1080, 100, 100, 75, false, false },
    { "paint.vs_cairo_fill_4k_100k", 3840, 2160, 500, 200, 150, true, false },
    { "paint.vs_cairo_apart_4k_100k", 3840, 2160, 500, 200, 150, false, true },
    { "paint.vs_cairo_fill_apart_4k_100k", 3840, 2160, 500, 200, 150, true, true },
};

/* One task's scene, as both painters take it. */
struct bench {
    struct arena *a;
    struct geometry_map map;
    double mm_per_px; /* at the frame's middle */
    const struct paint_content *content;
    struct paint_easel *easel;
    struct paint_image image;
    struct paint_outlines *shapes; /* in px: for each ring itself, or its outlines */
    cairo_surface_t *surface;
    cairo_t *cairo;
};

/* A linear congruential generator with Knuth's constants for MMIX; its upper bits. */
static double random_up_to(uint64_t *seed, double most)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return most * (double)(*seed >> 11) / 9007199254740992.0;
}

/* About 0.5 mm a pixel at 3840 x 2160, a little tilted, the lens bent by some pixels at the corners. */
static struct geometry_map tilted(int width, int height)
{
    return (struct geometry_map){ width, height, { 1100, 20, 900, 15, -1100, 520, 0.02, 0.03, 0.01, 0.001, -0.001 } };
}

static struct geometry_path ring(struct bench *b, const struct task *task, uint64_t *seed)
{
    struct geometry_path path = { base_arena_alloc(b->a, (size_t)task->chords, sizeof(vec2)), (size_t)task->chords,
                                  true };
    double reach = task->reach_px, radius = reach * (0.4 + random_up_to(seed, 0.5));
    double x = reach + random_up_to(seed, task->width - 2 * reach);
    double y = reach + random_up_to(seed, task->height - 2 * reach);
    double waves = floor(3 + random_up_to(seed, 4)), phase = random_up_to(seed, 2 * PI);
    for (int i = 0; i < task->chords; i++) {
        double angle = 2 * PI * i / task->chords, r = radius * (1 + 0.1 * sin(waves * angle + phase));
        struct px_pt px = { x + r * cos(angle), y + r * sin(angle) };
        struct table_pt at = geometry_map_to_table(&b->map, px);
        path.points[i] = (vec2){ at.x, at.y };
    }
    return path;
}

static struct geometry_path to_px(struct bench *b, struct geometry_path path)
{
    struct geometry_path out = geometry_path_copy(b->a, path);
    for (size_t i = 0; i < out.count; i++) {
        struct px_pt px;
        geometry_map_to_px(&b->map, (struct table_pt){ out.points[i].x, out.points[i].y }, &px);
        out.points[i] = (vec2){ px.x, px.y };
    }
    return out;
}

static void add_shape(struct bench *b, const struct task *task, struct geometry_path path, struct paint_pen pen,
                      struct paint_outlines *shape)
{
    if (task->fill) {
        paint_stroke_outline(b->a, path, pen, shape);
    } else {
        shape->paths = base_arena_alloc(b->a, 1, sizeof path);
        shape->paths[0] = path;
        shape->count = 1;
    }
    for (size_t i = 0; i < shape->count; i++)
        shape->paths[i] = to_px(b, shape->paths[i]);
}

static bool set_up(struct bench *b, const struct task *task)
{
    uint64_t seed = 4;
    struct paint_scene scene = { 0 };
    *b = (struct bench){ .a = base_arena_create(), .map = tilted(task->width, task->height) };
    struct px_pt middle = { task->width / 2.0, task->height / 2.0 };
    struct geometry_jacobian j = geometry_map_jacobian(&b->map, middle);
    b->mm_per_px = sqrt(fabs(j.xu * j.yv - j.xv * j.yu));
    scene = paint_scene_create(b->a);
    b->shapes = base_arena_alloc(b->a, (size_t)task->rings, sizeof *b->shapes);
    struct paint_pen pen = { .width = WIDTH_PX * b->mm_per_px };
    for (int i = 0; i < task->rings; i++) {
        struct geometry_path path = ring(b, task, &seed);
        paint_table_stroke(&scene.table, (struct table_path){ path }, pen, (struct paint_ink){ 0xffffff, 1 });
        add_shape(b, task, path, pen, &b->shapes[i]);
    }
    b->content = paint_prepare(b->a, &scene);
    b->easel = paint_easel_create(NULL, task->width, task->height);
    b->image = paint_image_create(b->a, task->width, task->height);
    b->surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, task->width, task->height);
    b->cairo = cairo_create(b->surface);
    cairo_set_line_width(b->cairo, WIDTH_PX);
    cairo_set_miter_limit(b->cairo, 4);
    return geometry_map_is_valid(&b->map);
}

static bool tear_down(struct bench *b)
{
    bool ok = cairo_status(b->cairo) == CAIRO_STATUS_SUCCESS;
    cairo_destroy(b->cairo);
    cairo_surface_destroy(b->surface);
    paint_easel_destroy(b->easel);
    base_arena_destroy(b->a);
    return ok;
}

/* Draws the path so far; nothing without one. */
static void light(cairo_t *cairo, const struct task *task)
{
    if (task->fill)
        cairo_fill(cairo);
    else
        cairo_stroke(cairo);
}

static void paint_with_cairo(struct bench *b, const struct task *task)
{
    cairo_set_operator(b->cairo, CAIRO_OPERATOR_SOURCE);
    cairo_set_source_rgb(b->cairo, 0, 0, 0);
    cairo_paint(b->cairo);
    cairo_set_operator(b->cairo, CAIRO_OPERATOR_OVER);
    cairo_set_source_rgb(b->cairo, 1, 1, 1);
    for (int i = 0; i < task->rings; i++) {
        for (size_t j = 0; j < b->shapes[i].count; j++) {
            struct geometry_path path = b->shapes[i].paths[j];
            cairo_move_to(b->cairo, path.points[0].x, path.points[0].y);
            for (size_t k = 1; k < path.count; k++)
                cairo_line_to(b->cairo, path.points[k].x, path.points[k].y);
            cairo_close_path(b->cairo);
        }
        if (task->apart)
            light(b->cairo, task);
    }
    light(b->cairo, task);
    cairo_surface_flush(b->surface);
}

static double time_ours(struct bench *b)
{
    double start = cpu_ms();
    paint_draw(b->easel, b->content, &b->map, &b->image);
    return cpu_ms() - start;
}

static double time_cairo(struct bench *b, const struct task *task)
{
    double start = cpu_ms();
    paint_with_cairo(b, task);
    return cpu_ms() - start;
}

/* Both lit about as many pixels by half and more. The two differ in filter, in light (cairo mixes bytes as they are)
 * and, along the frame, in width: a stroke in px is as wide everywhere. */
static bool same_picture(const struct bench *b)
{
    const unsigned char *data = cairo_image_surface_get_data(b->surface);
    size_t stride = (size_t)cairo_image_surface_get_stride(b->surface), ours = 0, both = 0, theirs = 0;
    for (int y = 0; y < b->image.height; y++) {
        for (int x = 0; x < b->image.width; x++) {
            bool a = (b->image.pixels[(size_t)y * b->image.stride + (size_t)x] & 0xff) >= 188; /* half the light */
            bool c = data[(size_t)y * stride + 4 * (size_t)x] >= 128;
            ours += a;
            theirs += c;
            both += a && c;
        }
    }
    return ours && (double)both > 0.9 * (double)ours && (double)both > 0.9 * (double)theirs;
}

static void ratio_figures(const char *name, const double *sorted)
{
    char part[64];
    figure(name, sorted[PAIRS / 2], "times");
    snprintf(part, sizeof part, "%s_low", name);
    figure(part, sorted[0], "times");
    snprintf(part, sizeof part, "%s_high", name);
    figure(part, sorted[PAIRS - 1], "times");
}

static bool run(const struct task *task, double *ours_ms)
{
    struct bench b;
    double ours[PAIRS], ratio[PAIRS];
    bool ok = set_up(&b, task);
    time_ours(&b);
    time_cairo(&b, task);
    ok = ok && same_picture(&b);
    for (int i = 0; i < PAIRS; i++) {
        ours[i] = time_ours(&b);
        ratio[i] = time_cairo(&b, task) / ours[i];
    }
    qsort(ours, PAIRS, sizeof ours[0], by_size);
    qsort(ratio, PAIRS, sizeof ratio[0], by_size);
    ratio_figures(task->name, ratio);
    *ours_ms = ours[PAIRS / 2];
    return tear_down(&b) && ok;
}

bool pace_figures(void)
{
    double first_ms = 0;
    for (size_t i = 0; i < sizeof tasks / sizeof tasks[0]; i++) {
        double ms;
        if (!run(&tasks[i], &ms))
            return false;
        first_ms = i ? first_ms : ms;
    }
    figure("paint.cpu_ms_4k_100k", first_ms, "ms");
    return true;
}
