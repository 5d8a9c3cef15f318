/* Words along a marked line of a piece. */
#include "scene/label.h"

#include <math.h>

#define AIR_MM 6.0      /* between a line and its words */
#define CLEAR_MM 1.5    /* about words, of anything else */
#define UPRIGHT 1e-6    /* cosine by which a line that is upright leans */
#define OVER_HEIGHT 1.4 /* of the dark ground under words, to their capitals */

/* Her reading direction along a line: to her right, or away from her along one that is upright (ISO 129: read from
 * below or from the right). */
static vec2 reading(const struct scene_canvas *c, const vec2 ends[2])
{
    vec2 along = vec2_unit(vec2_sub(ends[1], ends[0])), away = scene_side_away(c->view->side);
    double right = vec2_dot(along, scene_side_right(c->view->side));
    bool turned = fabs(right) > UPRIGHT ? right < 0 : vec2_dot(along, away) < 0;
    return turned ? vec2_scale(along, -1) : along;
}

/* The place nearest to the middle of a lane of that length where words have room; longer ones may reach past both its
 * ends. */
static bool middle_of_room(const struct scene_canvas *c, const struct scene_lane *lane,
                           const struct scene_obstacles *drawn, double length, double width, double *middle)
{
    struct scene_gap *gaps;
    double half = width / 2 + CLEAR_MM, past = fmax(0, half - length / 2 + CLEAR_MM);
    size_t count = scene_lane_gaps(c->a, lane, drawn, -past, length + past, &gaps);
    bool found = false;
    for (size_t i = 0; i < count; i++) {
        if (gaps[i].to - gaps[i].from < 2 * half)
            continue;
        double at = fmin(fmax(length / 2, gaps[i].from + half), gaps[i].to - half);
        if (!found || fabs(at - length / 2) < fabs(*middle - length / 2))
            *middle = at;
        found = true;
    }
    return found;
}

/* On one side of the line; its place is then the label's middle. */
static bool find_beside(const struct scene_canvas *c, const vec2 ends[2], double side, struct geometry_path within,
                        const struct scene_obstacles *drawn, struct scene_label *l)
{
    double half = l->cap[0] / 2, length = vec2_length(vec2_sub(ends[1], ends[0])), middle = 0;
    vec2 start = vec2_dot(vec2_sub(ends[1], ends[0]), l->right) < 0 ? ends[1] : ends[0];
    vec2 at = vec2_sub(start, vec2_scale(l->down, side * (AIR_MM + half)));
    struct scene_lane lane = { at, l->right, half + CLEAR_MM, half + CLEAR_MM, 0 };
    if (!middle_of_room(c, &lane, drawn, length, l->width, &middle))
        return false;
    l->middle = vec2_add(at, vec2_scale(l->right, middle));
    return geometry_path_holds(within, l->middle);
}

void scene_write_along(const struct scene_canvas *c, const char *text, const vec2 ends[2], struct geometry_path within,
                       const struct scene_obstacles *drawn)
{
    double cap = scene_cap_height(&c->view->look);
    vec2 right = reading(c, ends);
    struct scene_label l = { .text = { text },
                             .cap = { cap },
                             .count = 1,
                             .step = OVER_HEIGHT,
                             .right = right,
                             .down = vec2_right(right),
                             .width = scene_words_width(c, text, cap),
                             .height = OVER_HEIGHT * cap };
    if (!find_beside(c, ends, 1, within, drawn, &l) && !find_beside(c, ends, -1, within, drawn, &l)) {
        l.middle = vec2_lerp(ends[0], ends[1], 0.5);
        scene_label_darken(c, &l);
    }
    scene_label_write(c, &l);
}
