/* Is a piece its own mirror image? Then both of two copies may be cut at once through two layers, face to face. */
#include "lay/items.h"

#define SAME_MM 0.1 /* thinner than a chalk line: outlines and marks this near are the same */
#define ROUNDING_MM 1e-6

static struct geometry_box moved_box(struct geometry_path p, const struct geometry_mover *m)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < p.count; i++) {
        vec2 at = geometry_move(m, p.points[i]);
        box = geometry_box_join(box, (struct geometry_box){ at, at });
    }
    return box;
}

/* The motion with the shift that puts the image into the outline's own box: the only one in which they can be one. */
static struct geometry_mover image_of(struct geometry_path p, struct geometry_motion how)
{
    struct geometry_mover m = geometry_mover_of(how);
    struct geometry_box was = geometry_path_box(p), is = moved_box(p, &m);
    vec2 off = vec2_sub(vec2_add(was.min, was.max), vec2_add(is.min, is.max));
    m.shift = vec2_scale(off, 0.5);
    return m;
}

/* Mirror images and half turns are their own inverse, so that asking one outline's points is enough. */
static bool lies_on_itself(struct geometry_path p, const struct geometry_mover *image, double tolerance)
{
    double along;
    for (size_t i = 0; i < p.count; i++)
        if (geometry_path_distance(p, geometry_move(image, p.points[i]), &along) > tolerance)
            return false;
    return true;
}

static bool has_notch(const struct draft_piece *piece, vec2 at)
{
    for (size_t i = 0; i < piece->notch_count; i++)
        for (size_t k = 0; k < piece->notches[i].place_count; k++) {
            struct piece_pt p = piece->notches[i].places[k].at;
            if (vec2_length(vec2_sub((vec2){ p.x, p.y }, at)) <= SAME_MM)
                return true;
        }
    return false;
}

static bool has_drill_mark(const struct draft_piece *piece, vec2 at)
{
    for (size_t i = 0; i < piece->drill_mark_count; i++)
        if (vec2_length(vec2_sub((vec2){ piece->drill_marks[i].x, piece->drill_marks[i].y }, at)) <= SAME_MM)
            return true;
    return false;
}

static bool marks_lie_on_themselves(const struct draft_piece *piece, const struct geometry_mover *image)
{
    for (size_t i = 0; i < piece->notch_count; i++)
        for (size_t k = 0; k < piece->notches[i].place_count; k++) {
            struct piece_pt p = piece->notches[i].places[k].at;
            if (!has_notch(piece, geometry_move(image, (vec2){ p.x, p.y })))
                return false;
        }
    for (size_t i = 0; i < piece->drill_mark_count; i++)
        if (!has_drill_mark(piece, geometry_move(image, (vec2){ piece->drill_marks[i].x, piece->drill_marks[i].y })))
            return false;
    return true;
}

/* The mirror image across the grain's direction: mirrored in x, then turned until the grain points as before. */
static bool is_image(const struct draft_piece *piece, double more_turn)
{
    vec2 grain = lay_lengthwise(piece, false);
    double direction = geometry_direction(grain.y, grain.x), mirrored = geometry_direction(grain.y, -grain.x);
    struct geometry_motion how = { .mirror = true, .turn_deg = direction - mirrored + more_turn };
    struct geometry_mover image = image_of(piece->cut.path, how);
    return lies_on_itself(piece->cut.path, &image, SAME_MM) && marks_lie_on_themselves(piece, &image);
}

bool lay_is_own_image(const struct draft_piece *piece, bool two_way)
{
    return is_image(piece, 0) || (two_way && is_image(piece, 180));
}

bool lay_is_own_half_turn(struct geometry_path outline)
{
    struct geometry_mover image = image_of(outline, (struct geometry_motion){ .turn_deg = 180 });
    return lies_on_itself(outline, &image, ROUNDING_MM);
}
