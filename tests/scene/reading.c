#include "scene/reading.h"

#include "text/run.h"

int here_set_up(void **state)
{
    static struct here h;
    h.a = base_arena_create();
    h.errs = base_err_list_create();
    h.font = text_font_open(h.errs);
    *state = &h;
    return h.font ? 0 : -1;
}

int here_tear_down(void **state)
{
    struct here *h = *state;
    text_font_close(h->font);
    base_err_list_destroy(h->errs);
    base_arena_destroy(h->a);
    return 0;
}

const struct hanging hangings[HANGINGS] = { { "upright", 1, -1 }, { "upside down", -1, 1 } };

struct geometry_map map_of(const struct hanging *hung)
{
    double rho = 0.5 * sqrt((double)WIDTH * WIDTH + (double)HEIGHT * HEIGHT);
    return (struct geometry_map){ WIDTH, HEIGHT, { hung->xu * rho, 0, 0, 0, hung->yv * rho, 0 } };
}

const vec2 rights[SCENE_SIDES] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
const vec2 aways[SCENE_SIDES] = { { 0, 1 }, { -1, 0 }, { 0, -1 }, { 1, 0 } };

struct paint_items on_table(struct here *h, const struct paint_scene *scene, const struct hanging *hung)
{
    struct paint_items in = scene->px.in;
    struct geometry_path *paths = base_arena_alloc(h->a, in.path_count, sizeof *paths);
    for (size_t i = 0; i < in.path_count; i++) {
        paths[i] = geometry_path_copy(h->a, in.paths[i]);
        for (size_t p = 0; p < paths[i].count; p++) {
            vec2 px = paths[i].points[p];
            paths[i].points[p] = (vec2){ hung->xu * (px.x - WIDTH / 2.0), hung->yv * (px.y - HEIGHT / 2.0) };
        }
    }
    in.paths = paths;
    return in;
}

bool is_at(vec2 got, vec2 want)
{
    return vec2_length(vec2_sub(got, want)) <= EXACT_MM;
}

/* Whether the contours from `first` on are those of the run, carried so that it reads along `right` and rises to the
 * left of that: never mirrored, never stretched. */
static bool contours_are(const struct paint_items *in, size_t first, const struct text_run *run, vec2 right,
                         vec2 *start)
{
    vec2 up = vec2_scale(vec2_right(right), -1), v = run->contours[0].points[0];
    *start = vec2_sub(in->paths[first].points[0], vec2_add(vec2_scale(right, v.x), vec2_scale(up, v.y)));
    for (size_t i = 0; i < run->count; i++) {
        if (in->paths[first + i].count != run->contours[i].count)
            return false;
        for (size_t p = 0; p < run->contours[i].count; p++) {
            v = run->contours[i].points[p];
            vec2 want = vec2_add(*start, vec2_add(vec2_scale(right, v.x), vec2_scale(up, v.y)));
            if (!is_at(in->paths[first + i].points[p], want))
                return false;
        }
    }
    return true;
}

/* The outlines of words without what cannot be filled: fonts have contours of single points. */
static struct text_run outline_of(struct here *h, const char *capitals, double cap)
{
    struct text_run run = text_run_outline(h->a, h->font, capitals, cap);
    size_t kept = 0;
    for (size_t i = 0; i < run.count; i++)
        if (run.contours[i].count >= 3)
            run.contours[kept++] = run.contours[i];
    run.count = kept;
    return run;
}

struct found_words find_words(struct here *h, const struct paint_items *in, const char *capitals, double cap,
                              vec2 right)
{
    struct text_run run = outline_of(h, capitals, cap);
    struct found_words found = { 0 };
    vec2 up = vec2_scale(vec2_right(right), -1), start;
    for (size_t i = 0; i < in->count; i++) {
        const struct paint_item *item = &in->items[i];
        if (item->kind != PAINT_FILL || item->paths != run.count ||
            !contours_are(in, item->first_path, &run, right, &start))
            continue;
        found.count++;
        found.middle = vec2_add(start, vec2_add(vec2_scale(right, run.width / 2), vec2_scale(up, cap / 2)));
        found.level = item->ink.level;
        found.item = i;
    }
    return found;
}

struct geometry_box box_seen(const struct paint_items *in, const struct found_words *words, vec2 right, vec2 away)
{
    struct geometry_box box = geometry_box_empty();
    const struct paint_item *item = &in->items[words->item];
    for (size_t i = 0; i < item->paths; i++) {
        struct geometry_path path = in->paths[item->first_path + i];
        for (size_t p = 0; p < path.count; p++) {
            vec2 seen = { vec2_dot(path.points[p], right), vec2_dot(path.points[p], away) };
            box = geometry_box_join(box, (struct geometry_box){ seen, seen });
        }
    }
    return box;
}

bool runs_over(struct geometry_box box, vec2 from, vec2 to, vec2 right, vec2 away)
{
    int steps = (int)vec2_length(vec2_sub(to, from)) + 1;
    for (int i = 0; i <= steps; i++) {
        vec2 at = vec2_lerp(from, to, (double)i / steps);
        double across = vec2_dot(at, right), up = vec2_dot(at, away);
        if (across >= box.min.x && across <= box.max.x && up >= box.min.y && up <= box.max.y)
            return true;
    }
    return false;
}
