/* Moving a piece by hand. The rules of the grain, the fold and the nap hold for a hand, too: what they forbid is
 * refused with the reason. Over another piece, past the edge or off the grain it may lie on the way somewhere, and that
 * is told. */
#include "app/arrange_state.h"
#include "base/words.h"

#include <math.h>

#define REACH_MM 300.0  /* as far as a piece is put to find room: about a hand's width and a half */
#define FARTHEST_MM 1e5 /* 100 m of cloth */
#define STILL_MM 0.01   /* nearer than that it lies where it lay */

static const struct lay_item *item_of(const struct app_arranged *cloth)
{
    return &cloth->task.items[cloth->in_hand];
}

/* Of chalked lines, too, the cloth keeps what it has. */
static struct app_arrange_effects tell_begun(struct app_arrange *ar, const struct app_arranged *cloth)
{
    return app_arrange_tell(ar, cloth->cut[cloth->in_hand]
                                    ? base_tr("It is cut: it stays where it lies")
                                    : base_tr("It is begun at the table: it stays where it lies"));
}

/* Whether there is a piece in hand that may be moved; told when not. */
static bool may_move(struct app_arrange *ar, const struct app_arranged *cloth)
{
    if (cloth->refused || cloth->in_hand >= cloth->task.item_count) {
        app_arrange_tell(ar, base_tr("Take a piece first: Page Down"));
        return false;
    }
    const struct lay_place *place = &app_arrange_places(cloth)[cloth->in_hand];
    if (!place->is_laid)
        app_arrange_tell(ar, base_tr("It is off the cloth: X lays it on"));
    else if (cloth->begun[cloth->in_hand])
        tell_begun(ar, cloth);
    else if (place->is_pinned)
        app_arrange_tell(ar, base_tr("It is held in place: P lets it go"));
    return place->is_laid && !app_arrange_stays(cloth, cloth->in_hand);
}

/* Puts the piece in hand somewhere else, as a step that can be undone. */
static struct app_arrange_effects put(struct app_arrange *ar, struct app_arranged *cloth, struct lay_place place,
                                      enum app_arrange_deed deed)
{
    app_arrange_end_search(ar, cloth);
    app_arrange_step(cloth, deed)[cloth->in_hand] = place;
    return app_arrange_changed;
}

static struct geometry_path outline_of(struct arena *a, const struct app_arranged *cloth, const struct lay_place *place)
{
    return lay_outline(a, &cloth->task, cloth->in_hand, place).path;
}

/* Whether some of it would still lie on the cloth that can be seen. */
static bool stays_in_sight(struct app_arranged *cloth, const struct lay_place *place)
{
    struct arena *a = base_arena_create();
    struct geometry_box box = geometry_path_box(outline_of(a, cloth, place));
    double width = cloth->task.spread.width_mm;
    bool stays = box.max.x > 0 && box.min.x < FARTHEST_MM && box.max.y > 0 && box.min.y < width;
    base_arena_destroy(a);
    return stays;
}

struct app_arrange_effects app_arrange_move(struct app_arrange *ar, vec2 by_mm)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    if (!may_move(ar, cloth))
        return app_arrange_redraw;
    struct lay_place place = app_arrange_places(cloth)[cloth->in_hand];
    if (item_of(cloth)->on_fold && by_mm.y != 0)
        return app_arrange_tell(ar, base_tr("It lies on the fold: it moves along that only"));
    place.motion.shift = vec2_add(place.motion.shift, by_mm);
    if (!stays_in_sight(cloth, &place))
        return app_arrange_tell(ar, base_tr("That would be off the cloth: X takes it off"));
    return put(ar, cloth, place, APP_ARRANGE_MOVED);
}

struct app_arrange_effects app_arrange_slide(struct app_arrange *ar, vec2 direction)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    if (!may_move(ar, cloth))
        return app_arrange_redraw;
    if (item_of(cloth)->on_fold && direction.y != 0)
        return app_arrange_tell(ar, base_tr("It lies on the fold: it moves along that only"));
    struct lay_place before = app_arrange_places(cloth)[cloth->in_hand];
    struct lay_place place = lay_slide(app_arrange_lay(cloth), cloth->in_hand, direction);
    if (vec2_length(vec2_sub(place.motion.shift, before.motion.shift)) < STILL_MM)
        return app_arrange_tell(ar, base_tr("It lies close on that side already"));
    return put(ar, cloth, place, APP_ARRANGE_ELSE);
}

/* The place changed so that the middle of the outline stays where it was. */
static struct lay_place about_middle(const struct app_arranged *cloth, struct lay_place before, struct lay_place after)
{
    struct arena *a = base_arena_create();
    vec2 was = geometry_path_centre(outline_of(a, cloth, &before));
    vec2 is = geometry_path_centre(outline_of(a, cloth, &after));
    after.motion.shift = vec2_add(after.motion.shift, vec2_sub(was, is));
    base_arena_destroy(a);
    return after;
}

/* Degrees in [-180, 180), without what many small turns leave behind. */
static double tidy(double deg)
{
    double tidied = round(deg * 1e9) / 1e9;
    return tidied - 360 * floor((tidied + 180) / 360);
}

struct app_arrange_effects app_arrange_turn(struct app_arrange *ar, double deg)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    if (!may_move(ar, cloth))
        return app_arrange_redraw;
    if (item_of(cloth)->on_fold)
        return app_arrange_tell(ar, base_tr("It lies on the fold, and cannot be turned off it"));
    struct lay_place before = app_arrange_places(cloth)[cloth->in_hand], after = before;
    after.motion.turn_deg = tidy(after.motion.turn_deg + deg);
    return put(ar, cloth, about_middle(cloth, before, after), APP_ARRANGE_TURNED);
}

/* The mirror image of how it lies: in a line across the cloth, so that its ends change places and a fold stays on the
 * fold, or in one along it. What is mirrored first and turned then is, mirrored in a line across, turned the other way.
 */
static struct lay_place mirrored(struct lay_place place, bool across)
{
    struct geometry_motion *m = &place.motion;
    m->mirror = !m->mirror;
    m->turn_deg = tidy(across ? -m->turn_deg : 180 - m->turn_deg);
    m->shift = across ? (vec2){ -m->shift.x, m->shift.y } : (vec2){ m->shift.x, -m->shift.y };
    return place;
}

struct app_arrange_effects app_arrange_end_for_end(struct app_arrange *ar)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    if (!may_move(ar, cloth))
        return app_arrange_redraw;
    if (lay_is_one_way(cloth->task.cloth))
        return app_arrange_tell(ar, base_tr("This cloth is one way: all pieces lie the same way up on it"));
    struct lay_place before = app_arrange_places(cloth)[cloth->in_hand], after = before;
    if (item_of(cloth)->on_fold)
        after = mirrored(before, true);
    else
        after.motion.turn_deg = tidy(before.motion.turn_deg + 180);
    return put(ar, cloth, about_middle(cloth, before, after), APP_ARRANGE_ELSE);
}

struct app_arrange_effects app_arrange_turn_over(struct app_arrange *ar)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    if (!may_move(ar, cloth))
        return app_arrange_redraw;
    if (item_of(cloth)->on_fold)
        return app_arrange_tell(ar, base_tr("It lies on the fold: opened out it is the same either way"));
    if (!item_of(cloth)->either_hand)
        return app_arrange_tell(ar, base_tr("Turned over it would be cut for the other side"));
    struct lay_place before = app_arrange_places(cloth)[cloth->in_hand];
    return put(ar, cloth, about_middle(cloth, before, mirrored(before, false)), APP_ARRANGE_ELSE);
}

/* A piece that lies free is pushed on to the piece, or edge, before it. */
struct app_arrange_effects app_arrange_butt(struct app_arrange *ar)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    if (!may_move(ar, cloth))
        return app_arrange_redraw;
    const struct lay *lay = app_arrange_lay(cloth);
    struct lay_place before = app_arrange_places(cloth)[cloth->in_hand], place = before;
    if (!lay_butt(lay, cloth->in_hand, REACH_MM, &place))
        return app_arrange_tell(ar, base_tr("There is no room for it near here"));
    if (vec2_length(vec2_sub(place.motion.shift, before.motion.shift)) < STILL_MM)
        return app_arrange_slide(ar, (vec2){ -1, 0 });
    return put(ar, cloth, place, APP_ARRANGE_ELSE);
}

struct app_arrange_effects app_arrange_hold(struct app_arrange *ar)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    if (cloth->refused || cloth->in_hand >= cloth->task.item_count)
        return app_arrange_tell(ar, base_tr("Take a piece first: Page Down"));
    struct lay_place place = app_arrange_places(cloth)[cloth->in_hand];
    if (!place.is_laid)
        return app_arrange_tell(ar, base_tr("It is off the cloth: X lays it on"));
    if (cloth->begun[cloth->in_hand])
        return tell_begun(ar, cloth);
    place.is_pinned = !place.is_pinned;
    return put(ar, cloth, place, APP_ARRANGE_ELSE);
}

struct app_arrange_effects app_arrange_take_off(struct app_arrange *ar)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    if (cloth->refused || cloth->in_hand >= cloth->task.item_count)
        return app_arrange_tell(ar, base_tr("Take a piece first: Page Down"));
    struct lay_place place = app_arrange_places(cloth)[cloth->in_hand];
    if (place.is_laid)
        return may_move(ar, cloth) ? put(ar, cloth, (struct lay_place){ .is_laid = false }, APP_ARRANGE_ELSE)
                                   : app_arrange_redraw;
    if (!app_arrange_find_room(ar, cloth, cloth->in_hand, &place))
        return app_arrange_redraw;
    return put(ar, cloth, place, APP_ARRANGE_ELSE);
}
