#include "app/amount.h"
#include "app/arrange_look.h"
#include "app/arrange_state.h"
#include "app/block.h"
#include "app/lay_found.h"
#include "app/lay_words.h"
#include "app/sentence.h"
#include "app/torn.h"
#include "base/words.h"

#include <math.h>
#include <string.h>

#define TOUCHES_MM 0.5 /* nearer is told as none */
#define TRUE_DEG 0.05  /* less than that is on the grain, as it is told to a tenth */

enum { MOST_NAMES = 6 };

/* What the length means: pieces that are missing in it, what is left of cloth at hand, or what to buy. */
static const char *meaning_words(struct arena *a, const struct lay *lay, const struct lay_figures *f,
                                 enum units_length unit)
{
    if (lay->left_out)
        return base_arena_print(a, base_tr_count(lay->left_out, "%zu piece off the cloth", "%zu pieces off the cloth"),
                                lay->left_out);
    if (isnan(f->spare_mm))
        return base_arena_print(a, base_tr("buy %s"), app_lay_to_buy(a, f->to_buy_mm, unit));
    if (f->spare_mm >= 0)
        return base_arena_print(a, base_tr("%s left over"), app_lay_left(a, f->spare_mm, unit));
    return base_arena_print(a, base_tr("%s too little"), app_lay_length(a, -f->spare_mm, unit));
}

const char *app_arrange_title(struct app_arrange *ar, struct arena *a)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    const struct lay *lay = app_arrange_lay(cloth);
    enum units_length unit = ar->start.unit;
    struct lay_figures laid = lay_figures_of(lay, unit), f = app_torn_both(cloth->torn, &laid, unit);
    return base_arena_print(
        a,
        /* To: “Fabric, 150 cm wide, folded lengthwise: needs 1.63 m · buy 1.70 m · cloth used 84 %” */
        cloth->torn ? base_tr("%s: needs %s with its torn strips · %s · cloth used %.0f %%")
                    : base_tr("%s: needs %s · %s · cloth used %.0f %%"),
        app_lay_cloth(a, &cloth->task, unit), app_lay_length(a, f.length_mm, unit), meaning_words(a, lay, &f, unit),
        100 * f.used);
}

struct app_arrange_look app_arrange_look(struct app_arrange *ar, struct arena *a)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    struct app_arrange_look look = { .cloth = ar->cloth, .cloth_count = ar->cloth_count, .refused = cloth->refused };
    if (cloth->torn && cloth->torn->rests) {
        look.rests = cloth->torn->rests->rests;
        look.rest_count = cloth->torn->rests->count;
    }
    if (cloth->refused)
        return look;
    enum units_length unit = ar->start.unit;
    look.lay = app_arrange_lay(cloth);
    struct lay_figures laid = lay_figures_of(look.lay, unit), f = app_torn_both(cloth->torn, &laid, unit);
    look.finding_count = app_arrange_findings(cloth, &look.findings);
    look.in_hand = cloth->in_hand;
    look.cut = cloth->cut;
    look.searching = cloth->searching;
    look.needs = app_lay_length(a, f.length_mm, unit);
    if (cloth->torn)
        look.torn = base_arena_print(
            a, base_tr("%s of it are torn off first for the rectangles: this layout lies behind them, %s long."),
            app_lay_length(a, cloth->torn->length_mm, unit), app_lay_length(a, look.lay->length_mm, unit));
    look.fused = app_block_first(a, look.lay, &f.block, unit);
    look.means = meaning_words(a, look.lay, &f, unit);
    look.used = f.used;
    look.hand = app_arrange_hand_words(ar, a);
    look.wrong = app_arrange_wrong_words(ar, a);
    look.left_out = app_arrange_left_out_words(ar, a);
    look.told = ar->told;
    look.widths = cloth->other.rows;
    look.width_count = cloth->other.count;
    return look;
}

/* --- the piece in hand ------------------------------------------------------------------------------------------- */

/* An outline, and the box about it: no place of it is nearer than the box. */
struct boxed {
    struct geometry_path path;
    struct geometry_box box;
};

/* How far apart boxes are. */
static double boxes_apart(struct geometry_box a, struct geometry_box b)
{
    vec2 gap = { fmax(0, fmax(a.min.x - b.max.x, b.min.x - a.max.x)),
                 fmax(0, fmax(a.min.y - b.max.y, b.min.y - a.max.y)) };
    return vec2_length(gap);
}

/* From the corners of one outline to the sides of the other, where that is less than `least`. */
static double corners_from(const struct boxed *corners, const struct boxed *sides, double least)
{
    double along;
    for (size_t i = 0; i < corners->path.count; i++) {
        vec2 at = corners->path.points[i];
        if (boxes_apart((struct geometry_box){ at, at }, sides->box) < least)
            least = fmin(least, geometry_path_distance(sides->path, at, &along));
    }
    return least;
}

/* How far apart outlines are that do not lie over each other, where that is less than `least`: a corner of one is then
 * nearest to the other. */
static double apart(const struct boxed *p, const struct boxed *q, double least)
{
    if (boxes_apart(p->box, q->box) >= least)
        return least;
    return corners_from(q, p, corners_from(p, q, least));
}

static struct boxed outline_of(struct app_arranged *cloth, struct arena *a, size_t item)
{
    struct geometry_path path = lay_outline(a, &cloth->task, item, &app_arrange_places(cloth)[item]).path;
    return (struct boxed){ path, geometry_path_box(path) };
}

/* "3 mm from “Back”"; NULL: there is no other piece on the cloth. */
static const char *neighbour_words(struct app_arranged *cloth, struct arena *a)
{
    const struct lay_place *places = app_arrange_places(cloth);
    struct boxed own = outline_of(cloth, a, cloth->in_hand);
    double least = INFINITY;
    size_t nearest = cloth->task.item_count;
    for (size_t i = 0; i < cloth->task.item_count; i++) {
        if (i == cloth->in_hand || !places[i].is_laid)
            continue;
        struct boxed other = outline_of(cloth, a, i);
        double mm = apart(&own, &other, least);
        if (mm < least) {
            least = mm;
            nearest = i;
        }
    }
    if (nearest == cloth->task.item_count)
        return NULL;
    const char *name = lay_item_name(a, &cloth->task, nearest);
    if (least < TOUCHES_MM)
        return base_arena_print(a, base_tr("touches “%s”"), name);
    return base_arena_print(a, base_tr("%s from “%s”"), app_lay_off(a, least), name);
}

/* Whether an item lies over another; then what is told of both is not how far they are apart. */
static bool is_over(struct app_arranged *cloth, size_t item)
{
    const struct lay_finding *findings;
    size_t count = app_arrange_findings(cloth, &findings);
    for (size_t i = 0; i < count; i++)
        if (findings[i].fault == LAY_OVERLAP && (findings[i].item == (int)item || findings[i].other == (int)item))
            return true;
    return false;
}

static const char *layers_words(struct arena *a, const struct lay *lay, size_t i)
{
    const struct lay_item *item = &lay->task->items[i];
    const char *kept = lay_kept_words(lay, i);
    if (item->on_fold)
        return item->layers > 1 ? base_tr("2 layers, on the fold") : base_tr("1 layer, on the fold");
    if (kept) /* To: “2 layers, keep the upper” */
        return base_arena_print(a, base_tr("2 layers, %s"), kept);
    return item->layers > 1 ? base_tr("2 layers") : base_tr("1 layer");
}

const char *app_arrange_hand_words(struct app_arrange *ar, struct arena *a)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    if (cloth->in_hand >= cloth->task.item_count)
        return NULL;
    const struct lay_item *item = &cloth->task.items[cloth->in_hand];
    const struct lay_place *place = &app_arrange_places(cloth)[cloth->in_hand];
    const char *name = lay_item_name(a, &cloth->task, cloth->in_hand);
    if (!place->is_laid)
        return base_arena_print(a, base_tr("%s: off the cloth"), name);
    const char *near = is_over(cloth, cloth->in_hand) ? NULL : neighbour_words(cloth, a);
    double off = lay_off_grain(place, item);
    const char *text = off < TRUE_DEG
                           ? base_arena_print(a, base_tr("%s: true to the grain"), name)
                           : base_arena_print(a, base_tr("%s: %s° off the grain"), name, app_decimal(a, off, 1));
    if (near)
        text = base_arena_print(a, "%s · %s", text, near);
    text = base_arena_print(a, "%s · %s", text, layers_words(a, app_arrange_lay(cloth), cloth->in_hand));
    if (cloth->begun[cloth->in_hand])
        return base_arena_print(a, "%s · %s", text,
                                cloth->cut[cloth->in_hand] ? base_tr_in("a piece", "cut")
                                                           : base_tr_in("a piece", "begun at the table"));
    return place->is_pinned ? base_arena_print(a, "%s · %s", text, base_tr("held in place")) : text;
}

/* --- what is wrong ----------------------------------------------------------------------------------------------- */

/* What is wrong with the piece in hand is told before all else; else the worst. */
static struct lay_finding first_of(const struct app_arranged *cloth, const struct lay_finding *findings, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (findings[i].item == (int)cloth->in_hand || findings[i].other == (int)cloth->in_hand)
            return findings[i];
    return findings[0];
}

/* Of two that lie over each other the one in hand is spoken of. */
static struct lay_finding of_in_hand(const struct app_arranged *cloth, struct lay_finding f)
{
    if (f.other == (int)cloth->in_hand) {
        f.other = f.item;
        f.item = (int)cloth->in_hand;
    }
    return f;
}

const char *app_arrange_wrong_words(struct app_arrange *ar, struct arena *a)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    const struct lay_finding *findings;
    size_t count = app_arrange_findings(cloth, &findings);
    if (!count)
        return NULL;
    const struct lay_finding first = of_in_hand(cloth, first_of(cloth, findings, count));
    const struct err found = app_lay_found(a, app_arrange_lay(cloth), &first, "");
    const char *words = app_sentence(a, &found, ar->start.unit);
    return count == 1 ? words : base_arena_print(a, base_tr("%s · %zu more to put right"), words, count - 1);
}

const char *app_arrange_left_out_words(struct app_arrange *ar, struct arena *a)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    const char *names = "";
    size_t count = 0;
    for (size_t i = 0; i < cloth->task.item_count; i++) {
        if (app_arrange_places(cloth)[i].is_laid)
            continue;
        if (count++ < MOST_NAMES)
            names = base_arena_print(a, "%s%s%s", names, *names ? ", " : "", lay_item_name(a, &cloth->task, i));
    }
    if (count > MOST_NAMES)
        names = base_arena_print(a, base_tr("%s and %zu more"), names, count - MOST_NAMES);
    return count ? base_arena_print(a, base_tr("Off the cloth: %s"), names) : NULL;
}

const char *app_arrange_piece_name(struct app_arranged *cloth, struct arena *a, size_t item)
{
    const char *name = lay_item_name(a, &cloth->task, item);
    double off = lay_off_grain(&app_arrange_places(cloth)[item], &cloth->task.items[item]);
    return off < TRUE_DEG ? name : base_arena_print(a, "%s %s°", name, app_decimal(a, off, 1));
}
