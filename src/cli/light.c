#include "cli/light.h"

#include "base/pool.h"
#include "cli/bench.h"
#include "input/key.h"
#include "paint/easel.h"
#include "screen/window.h"

#include <string.h>
#include <time.h>

enum { THREADS = 2 };

struct cli_light {
    struct screen_window *window;
    struct base_pool *pool;
    struct arena *content; /* what is shown: the scene and what is made of it */
    struct arena *frame;   /* the picture and its easel, of the window's size; NULL before the first */
    struct paint_image image;
    struct paint_easel *easel;
    bool away;               /* the picture shown last was not the table's */
    struct cli_bench *bench; /* its window is waited for, too; NULL: there is none */
};

/* The bench makes room where it can, and the keys are the table's. */
static void go_beside(struct cli_light *light, int display)
{
    screen_keep_off(cli_bench_window(light->bench), display);
    screen_come_forward(light->window);
}

struct cli_light *cli_light_open(struct cli_run *run, int display)
{
    struct screen_window *window = screen_open(display, "Chalklight", run->errs);
    if (!window)
        return NULL;
    struct cli_light *light = base_arena_alloc(run->a, 1, sizeof *light);
    *light = (struct cli_light){
        .window = window, .pool = base_pool_create(THREADS), .content = base_arena_create(), .bench = run->bench
    };
    if (run->bench)
        go_beside(light, display);
    return light;
}

static void clear_frame(struct cli_light *light)
{
    paint_easel_destroy(light->easel);
    base_arena_destroy(light->frame);
    light->easel = NULL;
    light->frame = NULL;
}

void cli_light_close(struct cli_light *light)
{
    if (!light)
        return;
    clear_frame(light);
    base_arena_destroy(light->content);
    base_pool_destroy(light->pool);
    screen_close(light->window);
}

void cli_light_size(const struct cli_light *light, int *width, int *height)
{
    screen_size(light->window, width, height);
}

bool cli_light_is_home(struct cli_light *light)
{
    return screen_is_home(light->window);
}

bool cli_light_is_the_tables(struct cli_light *light, int width, int height)
{
    int window_width, window_height;
    bool home = cli_light_is_home(light);
    cli_light_size(light, &window_width, &window_height);
    light->away = !home || window_width != width || window_height != height;
    return !light->away;
}

bool cli_light_is_for_table(const struct cli_light *light, struct input_event event)
{
    bool leaves = event.key == KEY_CHAR + 'q' && event.mods == MOD_CTRL;
    return event.type != INPUT_KEY || leaves || !light->away;
}

const char *cli_light_display(const struct cli_light *light)
{
    return screen_display_name(light->window);
}

/* --- beside the bench -------------------------------------------------------------------------------------------- */

static const struct input_event nothing = { .type = INPUT_NONE };
static const struct input_event leaving = { .type = INPUT_KEY, .key = KEY_CHAR + 'q', .mods = MOD_CTRL };

static bool goes_between(struct input_event e)
{
    return e.type == INPUT_KEY && e.key == KEY_F12 && !e.mods;
}

/* What an event is to the table: F12 leaves it where both windows share a display, else it goes to the other window. */
static struct input_event of_both(struct cli_light *light, struct input_event event)
{
    struct screen_window *bench = cli_bench_window(light->bench);
    if (event.window == 0 && goes_between(event)) {
        if (screen_share_a_display(light->window, bench))
            return leaving;
        screen_come_forward(bench);
        return nothing;
    }
    if (event.window == 0)
        return event;
    enum cli_bench_took took = cli_bench_take(light->bench, event);
    if (took == CLI_BENCH_TO_TABLE)
        screen_come_forward(light->window);
    return took == CLI_BENCH_LEAVES ? leaving : took == CLI_BENCH_PASSES ? event : nothing;
}

/* An event of the bench ends a wait as one of the table does: whoever waits looks about, and waits again. */
struct input_event cli_light_wait(struct cli_light *light, int wait_ms)
{
    if (!light->bench)
        return screen_wait(light->window, wait_ms);
    struct screen_window *const windows[] = { light->window, cli_bench_window(light->bench) };
    struct input_event event = screen_wait_any(windows, 2, 0);
    if (event.type == INPUT_NONE && (cli_bench_draw(light->bench) || wait_ms))
        event = screen_wait_any(windows, 2, cli_bench_patience(light->bench, wait_ms));
    return event.type == INPUT_NONE ? event : of_both(light, event);
}

struct input_event cli_light_wait_any(struct cli_light *const *lights, int count)
{
    struct screen_window *windows[SCREEN_MOST_DISPLAYS];
    for (int i = 0; i < count; i++)
        windows[i] = lights[i]->window;
    return screen_wait_any(windows, count, -1);
}

struct arena *cli_light_begin(struct cli_light *light)
{
    base_arena_reset(light->content);
    return light->content;
}

static void fit_to_window(struct cli_light *light)
{
    int width, height;
    screen_size(light->window, &width, &height);
    if (light->frame && width == light->image.width && height == light->image.height)
        return;
    clear_frame(light);
    light->frame = base_arena_create();
    light->image = paint_image_create(light->frame, width, height);
    light->easel = paint_easel_create(light->pool, width, height);
}

bool cli_light_show(struct cli_light *light, struct cli_run *run, const struct paint_scene *scene,
                    const struct geometry_map *map)
{
    fit_to_window(light);
    if (light->bench)
        cli_bench_follow(light->bench, scene, map, light->image.width, light->image.height);
    paint_draw(light->easel, paint_prepare(light->content, scene), map, &light->image);
    return screen_show(light->window, &light->image, run->errs);
}

bool cli_light_again(struct cli_light *light, struct cli_run *run)
{
    return !light->frame || screen_show(light->window, &light->image, run->errs);
}

/* --- the table's light ------------------------------------------------------------------------------------------- */

static const struct err_kind other_frame = {
    "cut.other_frame", ERR_FAULT,
    BASE_TR("was set up for a frame of {0} × {1} pixels, and the display shows {2} × {3}. "
            "Choose the projector with --display, or set up the table again")
};

/* The same, told in the bench. */
static const struct err_kind other_frame_in_window = {
    "cut.other_frame_in_window", ERR_FAULT,
    BASE_TR("was set up for a frame of {0} × {1} pixels, and the display shows {2} × {3}. Connect the projector it was "
            "set up with, or set up the table again")
};

bool cli_light_fit(struct cli_run *run, struct cli_light *light, struct calibration_table *table)
{
    int width, height;
    cli_light_size(light, &width, &height);
    if (table->sample) {
        table->map.width_px = width;
        table->map.height_px = height;
        return true;
    }
    if (table->map.width_px == width && table->map.height_px == height)
        return true;
    base_err(run->errs, run->bench ? &other_frame_in_window : &other_frame, base_err_in_file(table->name),
             ERR_NUMBER(table->map.width_px), ERR_NUMBER(table->map.height_px), ERR_NUMBER(width), ERR_NUMBER(height));
    return false;
}

static const struct err_kind other_display = {
    "cut.other_display", ERR_WARNING,
    BASE_TR(
        "was set up on the display “{0}”, and this one is “{1}”. Measure the test square, or set up the table again")
};

enum app_doubt cli_light_doubt(struct cli_run *run, struct cli_light *light, const struct calibration_table *table)
{
    const char *here = cli_light_display(light);
    if (table->sample)
        return APP_DOUBT_NONE;
    if (!table->display || !*table->display || !*here || strcmp(table->display, here) == 0)
        return APP_DOUBT_START;
    base_err(run->errs, &other_display, base_err_in_file(table->name), ERR_TEXT(table->display), ERR_TEXT(here));
    return APP_DOUBT_DISPLAY;
}

static double seconds(clockid_t clock)
{
    struct timespec now;
    clock_gettime(clock, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* Linux' CLOCK_MONOTONIC stands still while the computer sleeps, CLOCK_BOOTTIME does not. */
void cli_light_time(double *with_sleep_s, double *awake_s)
{
    *with_sleep_s = seconds(CLOCK_BOOTTIME);
    *awake_s = seconds(CLOCK_MONOTONIC);
}
