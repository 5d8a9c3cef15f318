/* What is shown of a layout, and what is said of it, on each of its pages. */
#include "app/amount.h"
#include "app/copies.h"
#include "app/lay_words.h"
#include "app/place.h"
#include "app/place_state.h"
#include "base/text.h"
#include "base/words.h"

#include <math.h>
#include <string.h>

enum {
    MOST_NAMED = 2, /* steps in the strip, which has room for no more names in letters that can be read */
    BLOCK_LINES = 4,
    MOST_LINES = 6 + BLOCK_LINES
};

#define UP_FROM 0.3       /* of the section: the arrow of one-way cloth */
#define TAPE_FROM_END 0.1 /* of the section: where edge to edge is measured */

/* --- pieces ------------------------------------------------------------------------------------------------------ */

static const struct lay_item *item_of(const struct app_place_cloth *c, int item)
{
    return &c->lay->task->items[item];
}

/* Of a piece longer than the light, what is done or to be done in this section is what counts. False: it was cut in an
 * earlier section, and is on the table no more. */
static bool state_of(const struct app_place_cloth *c, int item, struct scene_laid *out)
{
    size_t times = 0, before = 0;
    out->state = SCENE_TO_COME;
    for (size_t i = 0; i < c->step_count; i++) {
        const struct app_step *step = &c->steps[i];
        if (step->item != item || step->kind != APP_STEP_CUT)
            continue;
        times++;
        before += step->span < c->span;
        if (step->span == c->span)
            out->state = step->done ? SCENE_IS_CUT : SCENE_TO_CUT;
    }
    out->parted = times > 1 || (c->earlier && c->earlier->cut_to_mm[item] > -INFINITY);
    return before < times || app_place_overlaps(c, item);
}

/* How often it is cut there. */
const char *app_place_copies(struct arena *a, const struct app_place_cloth *c, int item)
{
    const struct lay_item *it = item_of(c, item);
    const char *kept = lay_kept_words(c->lay, (size_t)item);
    if (kept)
        return base_arena_print(a, base_tr("Both layers, %s"), kept);
    return it->on_fold ? base_tr("On the fold") : it->copies > 1 ? base_tr("Both layers") : base_tr("One layer");
}

/* What of that stands on the piece: which of two layers is kept says that there are two. */
static const char *told_on_piece(struct arena *a, const struct app_place_cloth *c, int item)
{
    const char *kept = lay_kept_words(c->lay, (size_t)item);
    return kept ? base_text_capital(a, kept) : app_place_copies(a, c, item);
}

static bool is_in_hand(const struct app_place_cloth *c, int item)
{
    const struct app_step *step = &c->steps[c->now];
    return c->stage == APP_PLACE_CUT && step->kind == APP_STEP_CUT && step->item == item;
}

/* Under the name that tells it from its like. */
static const struct draft_piece *named(struct arena *a, const struct app_place_cloth *c, int item)
{
    struct draft_piece *piece = base_arena_alloc(a, 1, sizeof *piece);
    *piece = *item_of(c, item)->piece;
    piece->label = lay_item_name(a, c->lay->task, (size_t)item);
    return piece;
}

static void show_overlaps(const struct app *app, const struct app_place_cloth *c, struct arena *a, const size_t *nth,
                          struct scene_layout *out)
{
    struct scene_layout_overlap *overlaps = base_arena_alloc(a, c->overlap_count, sizeof *overlaps);
    for (size_t i = 0; i < c->overlap_count; i++) {
        const struct lay_finding *f = &c->overlaps[i];
        const char *amount = base_arena_print(a, base_tr("over by %s"), app_place_amount(app, a, f->amount));
        overlaps[i] = (struct scene_layout_overlap){ { nth[f->item], nth[f->other] }, amount };
    }
    out->overlaps = overlaps;
    out->overlap_count = c->overlap_count;
}

static void show_pieces(const struct app *app, const struct app_place_cloth *c, struct arena *a,
                        struct scene_layout *out)
{
    struct scene_laid *laid = base_arena_alloc(a, c->lay->task->item_count, sizeof *laid);
    size_t *nth = base_arena_alloc(a, c->lay->task->item_count, sizeof *nth); /* of an item, among those laid */
    struct geometry_mover to_table = geometry_mover_of(c->seat.to_table);
    for (size_t i = 0; i < c->lay->task->item_count; i++) {
        if (!c->lay->places[i].is_laid)
            continue;
        struct scene_laid *one = &laid[out->laid_count];
        struct geometry_mover lies = geometry_mover_of(c->lay->places[i].motion);
        *one = (struct scene_laid){ .piece = { .piece = named(a, c, (int)i),
                                               .lines = { told_on_piece(a, c, (int)i), app_size_text(a, app->job) },
                                               .must_tell = lay_kept_words(c->lay, i) != NULL,
                                               .in_hand = is_in_hand(c, (int)i) },
                                    .to_table = geometry_mover_after(&to_table, &lies) };
        nth[i] = out->laid_count;
        out->laid_count += state_of(c, (int)i, one);
    }
    out->laid = laid;
    out->one_way = lay_is_one_way(c->lay->task->cloth);
    show_overlaps(app, c, a, nth, out);
}

/* Flaws of the cloth: of a scrap its whole border is blocked, and shown as its outline. */
static void show_flaws(const struct app_place_cloth *c, struct arena *a, const struct geometry_motion *m,
                       struct scene_layout *out)
{
    const struct cloth_spread *spread = &c->lay->task->spread;
    struct table_path *flaws = base_arena_alloc(a, spread->blocked_count, sizeof *flaws);
    struct geometry_mover to_table = geometry_mover_of(*m);
    if (app_place_is_scrap(c))
        return;
    for (size_t i = 0; i < spread->blocked_count; i++) {
        flaws[i].path = geometry_path_copy(a, spread->blocked[i].path);
        for (size_t k = 0; k < flaws[i].path.count; k++)
            flaws[i].path.points[k] = geometry_move(&to_table, flaws[i].path.points[k]);
    }
    out->flaws = flaws;
    out->flaw_count = spread->blocked_count;
    out->flaw_label = base_tr("flaw");
}

/* --- lines ------------------------------------------------------------------------------------------------------- */

static void add_line(struct scene_layout *out, struct scene_layout_line *lines, enum scene_layout_line_kind kind,
                     struct table_pt from, struct table_pt to, const char *label)
{
    lines[out->line_count++] = (struct scene_layout_line){ kind, { from, to }, label };
}

static void add_cloth_line(struct scene_layout *out, struct scene_layout_line *lines, const struct geometry_motion *m,
                           enum scene_layout_line_kind kind, struct cloth_pt from, struct cloth_pt to,
                           const char *label)
{
    add_line(out, lines, kind, app_place_at(m, from), app_place_at(m, to), label);
}

/* The near edge and the cut end of the cloth, where they are to lie. Teeth point to the left of a line. */
static void show_edges(const struct app_place_cloth *c, const struct geometry_motion *m, struct scene_layout *out,
                       struct scene_layout_line *lines)
{
    struct spans_reach reach = app_place_reach(c);
    double near = app_place_near_mm(c), far = fmin(reach.across_mm, app_place_far_mm(c));
    bool fold = app_place_on_fold(c);
    add_cloth_line(out, lines, m, fold ? SCENE_EDGE_FOLD : SCENE_EDGE_TORN, (struct cloth_pt){ 0, near },
                   (struct cloth_pt){ reach.along_mm, near }, app_place_near_edge(c).label);
    add_cloth_line(out, lines, m, SCENE_EDGE_TORN, (struct cloth_pt){ 0, far }, (struct cloth_pt){ 0, near },
                   app_place_end(c).label);
}

/* Of one-way cloth, which way all pieces stand. */
static void show_way_up(const struct app_place_cloth *c, const struct geometry_motion *m, struct scene_layout *out,
                        struct scene_layout_line *lines)
{
    struct spans_reach reach = app_place_reach(c);
    double along = fmin(reach.along_mm, c->lay->length_mm);
    double across = fmin(reach.across_mm, c->lay->task->spread.width_mm) / 2;
    out->one_way = lay_is_one_way(c->lay->task->cloth);
    if (out->one_way)
        add_cloth_line(out, lines, m, SCENE_EDGE_GRAIN, (struct cloth_pt){ UP_FROM * along, across },
                       (struct cloth_pt){ (1 - UP_FROM) * along, across }, base_tr("this way up"));
}

/* Where its block is fused before it is laid. */
static void show_block(const struct app_place_cloth *c, struct arena *a, const struct geometry_motion *m,
                       struct scene_layout *out, struct scene_layout_line *lines)
{
    struct geometry_path path = lay_block_outline(a, c->lay).path;
    for (size_t i = 0; i < path.count && i < BLOCK_LINES; i++) {
        vec2 p = path.points[i], q = path.points[(i + 1) % path.count];
        add_cloth_line(out, lines, m, SCENE_EDGE_PART, (struct cloth_pt){ p.x, p.y }, (struct cloth_pt){ q.x, q.y },
                       i ? NULL : base_tr("block"));
    }
}

/* The outline of a scrap, teeth toward the cloth, and a line along its grain. */
static void show_scrap(const struct app_place_cloth *c, struct arena *a, const struct geometry_motion *m,
                       struct scene_layout *out, struct scene_layout_line *lines)
{
    struct geometry_path path = app_place_outline(a, c);
    struct cloth_pt grain[2] = { { 0, 0 }, { 0, 0 } };
    for (size_t i = 0; i < path.count; i++) {
        vec2 p = path.points[i], q = path.points[(i + 1) % path.count];
        add_cloth_line(out, lines, m, SCENE_EDGE_TORN, (struct cloth_pt){ p.x, p.y }, (struct cloth_pt){ q.x, q.y },
                       NULL);
    }
    if (!app_place_has_grain(c))
        return;
    app_place_grain_line(a, c, grain);
    add_cloth_line(out, lines, m, SCENE_EDGE_GRAIN, grain[0], grain[1], base_tr("grain"));
    out->one_way = lay_is_one_way(c->lay->task->cloth);
}

/* The edge through the points that are nudged onto it, and the end square to it through the third, as they are now. */
static void show_nudged_edges(const struct app_place_cloth *c, struct scene_layout *out,
                              struct scene_layout_line *lines)
{
    struct table_pt p = c->aims[0].sighting.table, q = c->aims[1].sighting.table, e = c->aims[2].sighting.table;
    vec2 along = vec2_unit((vec2){ q.x - p.x, q.y - p.y }), away = vec2_scale(vec2_right(along), -1);
    double to_end = vec2_dot((vec2){ e.x - p.x, e.y - p.y }, along);
    vec2 corner = vec2_add((vec2){ p.x, p.y }, vec2_scale(along, to_end));
    struct spans_reach reach = app_place_reach(c);
    vec2 far = vec2_add(corner, vec2_scale(along, reach.along_mm));
    double across = fmin(reach.across_mm, app_place_far_mm(c)) - app_place_near_mm(c);
    vec2 up = vec2_add(corner, vec2_scale(away, across));
    bool fold = app_place_on_fold(c);
    add_line(out, lines, fold ? SCENE_EDGE_FOLD : SCENE_EDGE_TORN, (struct table_pt){ corner.x, corner.y },
             (struct table_pt){ far.x, far.y }, app_place_near_edge(c).label);
    add_line(out, lines, SCENE_EDGE_TORN, (struct table_pt){ up.x, up.y }, (struct table_pt){ corner.x, corner.y },
             app_place_end(c).label);
}

/* "left 71.2", the one in hand with a caret and, where nothing is typed yet, with what it is told to be. */
static const char *tape_label(const struct app *app, const struct app_place_cloth *c, struct arena *a, int end)
{
    const char *name = app_place_end_name(app, c, end), *typed = c->typed[end];
    double told = app_place_far_mm(c) - app_place_near_mm(c);
    if (c->field != end)
        return *typed ? base_arena_print(a, "%s %s", name, typed) : name;
    if (*typed)
        return base_arena_print(a, "%s %s_", name, typed);
    /* To: “left _ (told: 75 cm)”: what is typed, and how wide the cloth was told to be */
    return base_arena_print(a, base_tr("%s _ (told: %s)"), name, app_place_amount(app, a, told));
}

/* From edge to edge near both ends, with what was typed. */
static void show_tapes(const struct app *app, const struct app_place_cloth *c, struct arena *a,
                       struct scene_layout *out, struct scene_layout_line *lines)
{
    double length = fmin(app_place_reach(c).along_mm, c->lay->length_mm);
    double near = app_place_near_mm(c), far = app_place_far_mm(c);
    bool turned = app_place_end_is_second(c, app->side);
    for (int i = 0; i < 2; i++) {
        double share = (i == 1) != turned ? 1 - TAPE_FROM_END : TAPE_FROM_END;
        const char *label = tape_label(app, c, a, i);
        add_cloth_line(out, lines, &c->seat.to_table, SCENE_EDGE_TAPE, (struct cloth_pt){ share * length, near },
                       (struct cloth_pt){ share * length, far }, label);
    }
}

/* A line across pieces that are cut as far as it, or from it on. */
struct part_line {
    double x, from, to; /* across from … to; from > to: none is cut so */
};

#define PART_BEYOND_MM 15.0 /* so far beyond the pieces the line reaches */

static void join_item(const struct app_place_cloth *c, struct arena *a, struct part_line *line, int item)
{
    struct geometry_box box = geometry_path_box(lay_outline(a, c->lay->task, (size_t)item, &c->lay->places[item]).path);
    line->from = fmin(line->from, box.min.y - PART_BEYOND_MM);
    line->to = fmax(line->to, box.max.y + PART_BEYOND_MM);
}

/* How far along the cloth an item was cut before this section; -INFINITY: it was not begun. */
static double cut_before(const struct app_place_cloth *c, int item)
{
    double to = c->earlier ? c->earlier->cut_to_mm[item] : -INFINITY;
    for (size_t k = 0; k < c->step_count; k++)
        if (c->steps[k].item == item && c->steps[k].kind == APP_STEP_CUT && c->steps[k].span < c->span)
            to = fmax(to, c->plan.spans[c->steps[k].span].to_mm);
    return to;
}

/* What is still to be cut here and was begun before. */
static struct part_line go_on_line(const struct app_place_cloth *c, struct arena *a)
{
    struct part_line line = { -INFINITY, INFINITY, -INFINITY };
    double begin = c->plan.spans[c->span].from_mm;
    for (size_t i = 0; i < c->step_count; i++) {
        const struct app_step *step = &c->steps[i];
        if (step->span != c->span || step->kind != APP_STEP_CUT || step->done || !(cut_before(c, step->item) > begin))
            continue;
        line.x = fmax(line.x, cut_before(c, step->item));
        join_item(c, a, &line, step->item);
    }
    return line;
}

/* What is cut here as far as the light shows it. */
static struct part_line cut_to_line(const struct app_place_cloth *c, struct arena *a)
{
    const struct spans_span *span = &c->plan.spans[c->span];
    struct part_line line = { span->to_mm, INFINITY, -INFINITY };
    for (size_t i = 0; i < span->part_count && c->span + 1 < c->plan.count; i++) {
        struct geometry_box box = geometry_path_box(
            lay_outline(a, c->lay->task, (size_t)span->parts[i], &c->lay->places[span->parts[i]]).path);
        if (box.max.x > span->to_mm)
            join_item(c, a, &line, span->parts[i]);
    }
    return line;
}

static void show_part(const struct app_place_cloth *c, struct part_line line, const char *label,
                      struct scene_layout *out, struct scene_layout_line *lines)
{
    double from = fmax(line.from, 0), to = fmin(line.to, c->lay->task->spread.width_mm);
    if (from < to)
        add_cloth_line(out, lines, &c->seat.to_table, SCENE_EDGE_PART, (struct cloth_pt){ line.x, from },
                       (struct cloth_pt){ line.x, to }, label);
}

/* How far pieces longer than the light are cut here. */
static void show_parts(const struct app_place_cloth *c, struct arena *a, struct scene_layout *out,
                       struct scene_layout_line *lines)
{
    show_part(c, go_on_line(c, a), base_tr("go on from here"), out, lines);
    show_part(c, cut_to_line(c, a), base_tr("cut as far as here"), out, lines);
}

/* --- marks ------------------------------------------------------------------------------------------------------- */

static vec2 direction(const struct geometry_motion *m, vec2 d)
{
    struct geometry_mover mover = geometry_mover_of(*m);
    return vec2_sub(geometry_move(&mover, d), mover.shift);
}

/* What is chalked in this section. */
static void show_marks(const struct app_place_cloth *c, struct arena *a, struct scene_layout *out)
{
    static const enum app_step_kind kinds[] = { APP_STEP_WITNESSES, APP_STEP_MARKS };
    struct scene_layout_mark *marks = base_arena_alloc(a, 2 * APP_PLACE_CHALK, sizeof *marks);
    struct app_chalk chalk[APP_PLACE_CHALK];
    for (int k = 0; k < 2; k++) {
        int count = app_place_marks(a, c, c->span, kinds[k], chalk);
        for (int i = 0; i < count; i++)
            marks[out->mark_count++] =
                (struct scene_layout_mark){ .kind = SCENE_MARK_CHALK,
                                            .name = chalk[i].name,
                                            .at = app_place_at(&c->seat.to_table, chalk[i].at),
                                            .along = direction(&c->seat.to_table, (vec2){ 1, 0 }) };
    }
    out->marks = marks;
}

static void show_aims(const struct app_place_cloth *c, struct arena *a, struct scene_layout *out)
{
    struct scene_layout_mark *marks = base_arena_alloc(a, APP_PLACE_AIMS, sizeof *marks);
    struct geometry_motion lies = c->stage == APP_PLACE_EDGE ? app_place_straight(c, 0) : c->seat.to_table;
    for (int i = 0; i < c->aim_count; i++) {
        const struct spans_sighting *s = &c->aims[i].sighting;
        marks[i] = (struct scene_layout_mark){ .kind = s->sign == SPANS_MARK ? SCENE_MARK_CHALK : SCENE_MARK_LINE,
                                               .name = c->aims[i].name,
                                               .at = s->table,
                                               .along = direction(&lies, s->sign == SPANS_ACROSS_LINE ? (vec2){ 0, 1 }
                                                                                                      : (vec2){ 1, 0 }),
                                               .in_hand = i == c->in_hand };
    }
    out->marks = marks;
    out->mark_count = (size_t)c->aim_count;
}

const struct scene_layout *app_place_scene(const struct app *app, struct arena *frame)
{
    const struct app_place_cloth *c = app_place_now(app);
    struct scene_layout *out = base_arena_alloc(frame, 1, sizeof *out);
    size_t most = MOST_LINES + c->lay->task->cloth->outline.path.count;
    struct scene_layout_line *lines = base_arena_alloc(frame, most, sizeof *lines);
    struct geometry_motion straight = app_place_straight(c, 0);
    bool scrap = app_place_is_scrap(c);
    out->lines = lines;
    if (c->trouble) /* nothing is laid along them */
        return out;
    switch (c->stage) {
    case APP_PLACE_LINES:
        if (scrap) {
            show_scrap(c, frame, &straight, out, lines);
        } else {
            show_edges(c, &straight, out, lines);
            show_way_up(c, &straight, out, lines);
        }
        show_block(c, frame, &straight, out, lines);
        show_flaws(c, frame, &straight, out);
        break;
    case APP_PLACE_EDGE:
        straight = scrap ? app_place_by_corners(c) : straight;
        if (scrap)
            show_scrap(c, frame, &straight, out, lines);
        else
            show_nudged_edges(c, out, lines);
        show_aims(c, frame, out);
        break;
    case APP_PLACE_GRAIN:
        if (scrap) {
            show_scrap(c, frame, &c->seat.to_table, out, lines);
            break;
        }
        show_edges(c, &c->seat.to_table, out, lines);
        show_flaws(c, frame, &c->seat.to_table, out);
        show_tapes(app, c, frame, out, lines);
        break;
    case APP_PLACE_SLIDE:
    case APP_PLACE_MOVED:
        show_aims(c, frame, out);
        break;
    case APP_PLACE_CUT:
        show_pieces(app, c, frame, out);
        show_parts(c, frame, out, lines);
        show_flaws(c, frame, &c->seat.to_table, out);
        show_marks(c, frame, out);
        break;
    case APP_PLACE_DONE: /* no mark is of use any more */
        show_pieces(app, c, frame, out);
        break;
    case APP_PLACE_LAMP: /* nothing is cut along */
    case APP_PLACE_STAGES:
        break;
    }
    return out;
}

/* --- words ------------------------------------------------------------------------------------------------------- */

/* "A, B and C", "W1 and W2": what is chalked in a step. */
static const char *mark_list(struct arena *a, const struct app_place_cloth *c, const struct app_step *step)
{
    struct app_chalk marks[APP_PLACE_CHALK];
    int count = app_place_chalk(a, c, step->span, step->kind, marks);
    const char *names[APP_PLACE_CHALK];
    for (int i = 0; i < count; i++)
        names[i] = marks[i].name;
    return base_text_list(a, names, (size_t)count, APP_PLACE_CHALK);
}

/* Where one of two layers is wanted, that is told here, too: small pieces have no room for it. */
static const char *piece_text(struct arena *a, const struct app_place_cloth *c, int item)
{
    const char *name = lay_item_name(a, c->lay->task, (size_t)item), *kept = lay_kept_words(c->lay, (size_t)item);
    /* “waistband front (keep one)”: among others a comma would make it a step of its own */
    return kept ? base_arena_print(a, "%s (%s)", name, kept) : name;
}

/* The verb only where the step before had another. */
static const char *step_text(struct arena *a, const struct app_place_cloth *c, const struct app_step *step,
                             const struct app_step *before)
{
    bool cuts = step->kind == APP_STEP_CUT, same = before && (c->chalks_all || (before->kind == APP_STEP_CUT) == cuts);
    const char *what = cuts ? piece_text(a, c, step->item) : mark_list(a, c, step);
    if (same)
        return what;
    /* To: “cut bib front, then pocket, then chalk A and B” is made of these */
    return base_arena_print(a, cuts && !c->chalks_all ? base_tr("cut %s") : base_tr("chalk %s"), what);
}

/* Where it is cut, before what is done there: "Rest of strip 2 · Section 1 of 3 · …"; the section where there are
 * several. */
static const char *placed_text(struct arena *a, const struct app_place_cloth *c, size_t span, const char *deed)
{
    const char *text = deed;
    if (c->plan.count > 1)
        text = base_arena_print(a, base_tr("Section %zu of %zu · %s"), span + 1, c->plan.count, text);
    if (!c->rest)
        return text;
    if (c->rest->strip == TEARING_BESIDE)
        return base_arena_print(a, base_tr("Beside the strips · %s"), text);
    return base_arena_print(a, base_tr("Rest of strip %d · %s"), c->rest->strip + 1, text);
}

/* Marks that are chalked now, and what they are for; NULL of a piece. */
static const char *chalk_text(struct arena *a, const struct app_place_cloth *c)
{
    const struct app_step *step = &c->steps[c->now];
    if (step->kind == APP_STEP_WITNESSES)
        return base_arena_print(a, base_tr("chalk %s, to find the cloth again should it move"), mark_list(a, c, step));
    return step->kind == APP_STEP_MARKS
               ? base_arena_print(a, base_tr("chalk %s, to line up the next section"), mark_list(a, c, step))
               : NULL;
}

/* "cut bib front, then pocket, then chalk A and B": from the step in hand on. */
static const char *steps_text(struct arena *a, const struct app_place_cloth *c, int most)
{
    const char *chalk = chalk_text(a, c), *text = chalk ? chalk : app_place_part_text(c, &c->steps[c->now], a);
    const struct app_step *before = NULL;
    int named = 0, more = 0;
    if (text)
        return text;
    text = "";
    for (size_t k = 0; k < c->step_count; k++) { /* what was put off comes after the last */
        const struct app_step *step = &c->steps[(c->now + k) % c->step_count];
        if (step->span != c->span || step->done)
            continue;
        if (named == most) {
            more++;
            continue;
        }
        const char *what = step_text(a, c, step, before);
        text = named++ ? base_arena_print(a, base_tr("%s, then %s"), text, what) : what;
        before = step;
    }
    return more ? base_arena_print(a, base_tr("%s and %d more"), text, more) : text;
}

/* "By lamp: cut bib front". */
static const char *lamp_text(struct arena *a, const struct app_place_cloth *c)
{
    const struct app_step *step = &c->steps[c->now];
    const char *part = app_place_part_text(c, step, a);
    return part ? part : base_arena_print(a, base_tr("By the lamp: cut %s"), piece_text(a, c, step->item));
}

/* Which edge a point is for: "the selvedge", or "the other selvedge" where both have one name. */
static const char *edge_text(const struct app_place_cloth *c, const struct spans_sighting *point)
{
    struct app_edge near = app_place_near_edge(c), far = app_place_far_edge(c);
    if (point->sign == SPANS_ACROSS_LINE)
        return app_place_end(c).the;
    if (!app_place_is_far_edge(point))
        return near.the;
    return strcmp(near.label, far.label) == 0 ? far.the_other : far.the;
}

static const char *onto_text(struct arena *a, const struct app_place_cloth *c)
{
    const struct app_aim *aim = &c->aims[c->in_hand];
    if (aim->sighting.sign == SPANS_MARK)
        return base_arena_print(a,
                                c->stage == APP_PLACE_EDGE ? base_tr("nudge %s onto its corner")
                                                           : base_tr("nudge %s onto its chalk mark"),
                                aim->name);
    /* To: “nudge A onto the other selvedge”; stands behind “The cloth has moved:” and “slide the cloth …, then” */
    return base_arena_print(a, base_tr("nudge %s onto %s"), aim->name, edge_text(c, &aim->sighting));
}

static const char *slide_text(const struct app *app, const struct app_place_cloth *c, struct arena *a)
{
    /* To: “slide the cloth 120 mm to your left, then nudge A onto its chalk mark” */
    const char *deed = base_arena_print(a, base_tr("slide the cloth %s, then %s"),
                                        app_place_way_text(app, app_place_slide_by(c), a), onto_text(a, c));
    return placed_text(a, c, c->span + 1, deed);
}

/* "fabric, right sides together": what is laid, and how. */
static const char *laid_text(struct arena *a, const struct app_place_cloth *c)
{
    const char *side = cloth_side_up(c->lay->task->cloth);
    return side ? base_arena_print(a, "%s, %s", app_place_name(a, c), side) : app_place_name(a, c);
}

/* Of cloth that lies by its outline. */
static const char *scrap_text(struct arena *a, const struct app_place_cloth *c)
{
    bool grain = app_place_has_grain(c), lies = c->stage == APP_PLACE_GRAIN;
    if (lies)
        return grain ? base_tr("Does the grain run along the line “grain”? Look along its threads or ribs")
                     : base_tr("Does it lie within its outline all round?");
    return base_arena_print(a,
                            grain ? base_tr("%s: lay it over its outline, its grain along the line “grain”")
                                  : base_tr("%s: lay it over its outline"),
                            laid_text(a, c));
}

/* "Enter: done · 3 left · within 0.6 mm". */
static const char *also(struct arena *a, const char *text, const char *more)
{
    return base_arena_print(a, "%s · %s", text, more);
}

/* The one that N leads to, or those behind it; NULL: nothing is left to be cut. */
static const struct app_place_cloth *next_to_cut(const struct app_place *place)
{
    for (size_t i = 1; i < place->count; i++) {
        const struct app_place_cloth *c = &place->cloths[(place->now + i) % place->count];
        if (c->stage != APP_PLACE_DONE)
            return c;
    }
    return NULL;
}

static const char *done_text(struct arena *a, const struct app *app, const struct app_place_cloth *c)
{
    /* To: once of a cloth (“fabric”), once of “the rest of strip 2”. */
    const char *all = c->rest ? base_tr("All of %s is cut") : base_tr("All of the %s is cut");
    const char *some = c->rest ? base_tr("Not all of %s is cut") : base_tr("Not all of the %s is cut");
    const char *text = base_arena_print(a, app_place_is_whole(c) ? all : some, app_place_name(a, c));
    const struct app_place_cloth *next = next_to_cut(app->place);
    /* To: behind “All of the fabric is cut”; “interfacing”, or “the rest of strip 2” */
    if (next)
        return also(a, text, base_arena_print(a, base_tr("next comes %s (N)"), app_place_name(a, next)));
    const char *lacks = app_place_not_laid_out(app);
    /* To: likewise; “interfacing” */
    return lacks ? also(a, text, base_arena_print(a, base_tr("%s has no layout yet (N)"), lacks)) : text;
}

const char *app_place_strip_left(const struct app *app, struct arena *frame)
{
    const struct app_place_cloth *c = app_place_now(app);
    struct app_edge near = app_place_near_edge(c), far = app_place_far_edge(c);
    if (c->trouble)
        return c->trouble;
    if (app_place_is_scrap(c) && (c->stage == APP_PLACE_LINES || c->stage == APP_PLACE_GRAIN))
        return scrap_text(frame, c);
    switch (c->stage) {
    case APP_PLACE_LINES:
        /* To: “fabric, right side up: lay the fold and the cut end along their lines” */
        return base_arena_print(frame, base_tr("%s: lay %s and %s along their lines"), laid_text(frame, c), near.the,
                                app_place_end(c).the);
    case APP_PLACE_EDGE:
        return base_arena_print(frame, base_tr("The cloth stays: %s"), onto_text(frame, c));
    case APP_PLACE_GRAIN:
        /* To: “Measure from fold to selvedge at your left, and type it in cm” */
        return base_arena_print(frame, base_tr("Measure from %s to %s %s, and type it in %s"), near.label, far.label,
                                app_place_end_text(app, c, c->field),
                                app->unit == UNITS_IN ? base_tr("inches") : units_shown_name(app->unit));
    case APP_PLACE_CUT:
        return placed_text(frame, c, c->span, steps_text(frame, c, MOST_NAMED));
    case APP_PLACE_SLIDE:
        return slide_text(app, c, frame);
    case APP_PLACE_MOVED:
        return base_arena_print(frame, base_tr("The cloth has moved: %s"), onto_text(frame, c));
    case APP_PLACE_LAMP:
        return lamp_text(frame, c);
    case APP_PLACE_DONE:
    case APP_PLACE_STAGES:
        break;
    }
    return done_text(frame, app, c);
}

/* What is needed of it while it is done: the rest she reads before. */
const char *app_place_strip_less(const struct app *app, struct arena *frame)
{
    const struct app_place_cloth *c = app_place_now(app);
    if (c->trouble || app_place_is_scrap(c))
        return NULL;
    switch (c->stage) {
    case APP_PLACE_LINES:
        return base_arena_print(frame, base_tr("%s: lay it along the lines"), laid_text(frame, c));
    case APP_PLACE_GRAIN:
        /* To: “Measure at your left, in cm” */
        return base_arena_print(frame, base_tr("Measure %s, in %s"), app_place_end_text(app, c, c->field),
                                app->unit == UNITS_IN ? base_tr("inches") : units_shown_name(app->unit));
    case APP_PLACE_CUT:
        return placed_text(frame, c, c->span, steps_text(frame, c, 1));
    case APP_PLACE_EDGE:
    case APP_PLACE_SLIDE:
    case APP_PLACE_MOVED:
    case APP_PLACE_LAMP:
    case APP_PLACE_DONE:
    case APP_PLACE_STAGES:
        break;
    }
    return NULL;
}

static const char *left_text(struct arena *a, const struct app_place_cloth *c)
{
    size_t all = app_place_pieces_left(c, 0, c->plan.count - 1), here = app_place_pieces_left(c, c->span, c->span);
    if (c->span + 1 == c->plan.count)
        return base_arena_print(a, base_tr("%zu left"), all);
    return base_arena_print(a, base_tr("%zu left here, %zu in all"), here, all);
}

const char *app_place_strip_right(const struct app *app, struct arena *frame)
{
    static const char *const rows[APP_PLACE_STAGES] = {
        [APP_PLACE_LINES] = BASE_TR("Enter: it lies there · F: bring the light to the cloth"),
        [APP_PLACE_EDGE] = BASE_TR("Arrows: nudge · Enter: it lies there"),
        [APP_PLACE_GRAIN] = BASE_TR("Enter: take it · nothing typed: not measured"),
        [APP_PLACE_CUT] = BASE_TR("Enter: done"),
        [APP_PLACE_SLIDE] = BASE_TR("Arrows: nudge · Enter: it lies there"),
        [APP_PLACE_MOVED] = BASE_TR("Arrows: nudge · Enter: it lies there"),
        [APP_PLACE_LAMP] = BASE_TR("Enter: done"),
        [APP_PLACE_DONE] = BASE_TR("Backspace: not done after all"),
    };
    const struct app_place_cloth *c = app_place_now(app);
    if (c->trouble)
        return app->place->count > 1 ? base_tr("N: other cloth · L: pieces one by one · F1: keys")
                                     : base_tr("L: pieces one by one · F1: keys");
    bool looks = c->stage == APP_PLACE_GRAIN && app_place_is_scrap(c);
    const char *text = looks ? base_tr("Enter: yes · Esc: lay it anew") : base_tr(rows[c->stage]);
    if (c->stage == APP_PLACE_LINES && app->place->count > 1)
        text = also(frame, text, base_tr("N: other cloth"));
    if (c->stage == APP_PLACE_DONE && !next_to_cut(app->place))
        text = also(frame, text, base_tr("Ctrl Q: leave"));
    if (c->stage == APP_PLACE_CUT)
        text = also(frame, left_text(frame, c), text);
    if (c->stage == APP_PLACE_LAMP)
        text = also(
            frame, base_arena_print(frame, base_tr("%zu left"), app_place_pieces_left(c, c->plan.count, c->plan.count)),
            text);
    return also(frame, text, base_tr("F1: keys"));
}
