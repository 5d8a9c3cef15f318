/* Random tearing plans on all cloth that tears: no rectangle over another, off its strip or lost, faults left out, and
 * lengths, shares and gathers as this file's own arithmetic has them (hand-worked formulas; no source). The first
 * argument is how many plans. */
#include "geometry/random.h"
#include "pattern/read.h"
#include "support/room.h"
#include "tearing/rests.h"

#include <math.h>
#include <stdlib.h>

#define MM 1e-6
#define ALONG_MM 0.02     /* strips along are found as short as that */
#define SLIVER_MM 1.0     /* narrower rests are nobody's */
#define JOIN_CM_MM 30.0   /* two allowances of a join: 15 mm each … */
#define JOIN_IN_MM 31.75  /* … or 5/8 in */
#define EIGHTH_YARD 114.3 /* 4 1/2 in */

enum { MOST_KINDS = 12, MOST_FAULTS = 3, MOST_BOXES = 400, RESTS_EACH = 40 };

static int plan_count = 1000;

/* What is asked for: rectangles as cut, mm, and a cloth. */
struct asked {
    bool inches;
    int kinds, panels;                            /* panels: of the first kind, gathered; 0: nothing is */
    double width[MOST_KINDS], height[MOST_KINDS]; /* as cut */
    int count[MOST_KINDS];
    double allowance, band; /* of the first kind where it is gathered, and what to */
    bool others;            /* two triangles, too */
    struct cloth cloth;
    struct cloth_path faults[MOST_FAULTS];
    vec2 corners[MOST_FAULTS][3];
    double off_square, margin;
    enum tearing_way way;
};

struct planned {
    const struct asked *q;
    struct room *room;
    const struct pattern *pattern;
    struct draft draft;
    struct tearing_task task;
    struct tearing_plan plan;
    double usable; /* washed, without selvedges */
};

/* --- what is asked for ---------------------------------------------------------------------------------------------
 */

static uint64_t seed;

static double draw(double low, double high)
{
    return random_between(&seed, low, high);
}

static int draw_whole(int low, int high)
{
    return (int)floor(draw(low, high + 1));
}

/* In whole quarters of an inch or half centimetres. */
static double draw_size(const struct asked *q, double low, double high)
{
    double step = q->inches ? 25.4 / 4 : 5;
    return ceil(draw(low, high) / step) * step;
}

static void draw_cloth(struct asked *q)
{
    struct cloth *c = &q->cloth;
    *c = (struct cloth){ .kind = CLOTH_WOVEN, .width_mm = draw_size(q, 500, 1600) }; /* no other tears true */
    c->unit = q->inches ? UNITS_IN : UNITS_CM;
    c->selvedge_mm = draw(0, 1) < 0.5 ? 0 : 12.5;
    c->spread = (enum cloth_spread_kind)draw_whole(CLOTH_SINGLE, CLOTH_FOLDED_ACROSS);
    c->fold_depth_mm = 200;
    c->one_way = draw(0, 1) < 0.3;
    if (draw(0, 1) < 0.5) {
        c->shrink_warp = draw_whole(0, 8) / 100.0;
        c->shrink_weft = draw_whole(0, 5) / 100.0;
    }
    if (draw(0, 1) < 0.3)
        c->length_mm = draw(300, 4000);
    c->fault_count = draw(0, 1) < 0.7 ? 0 : (size_t)draw_whole(1, MOST_FAULTS);
    c->faults = q->faults;
    for (size_t i = 0; i < c->fault_count; i++) {
        double x = draw(0, 1500), y = draw(0, 400), to = x + draw(5, 80);
        memcpy(q->corners[i], (const vec2[]){ { x, y }, { to, y }, { x, y + 30 } }, sizeof q->corners[i]);
        q->faults[i].path = (struct geometry_path){ q->corners[i], 3, true };
    }
}

static void draw_asked(struct asked *q)
{
    *q = (struct asked){ .inches = draw(0, 1) < 0.3, .kinds = draw_whole(1, draw(0, 1) < 0.05 ? MOST_KINDS : 5) };
    draw_cloth(q);
    double usable = q->cloth.width_mm * (1 - q->cloth.shrink_weft) - 2 * q->cloth.selvedge_mm;
    for (int i = 0; i < q->kinds; i++) {
        q->width[i] = draw_size(q, 40, draw(0, 1) < 0.1 ? 2 * usable : 0.8 * usable);
        q->height[i] = draw_size(q, 40, 600);
        q->count[i] = draw_whole(1, 2);
    }
    q->off_square = draw(0, 1) < 0.5 ? 0 : draw(1, 60);
    q->margin = draw(0, 1) < 0.2 ? 0 : draw(2, 20);
    q->way = (enum tearing_way)draw_whole(TEARING_LEAST, TEARING_ALONG);
    q->others = draw(0, 1) < 0.5;
    if (draw(0, 1) < 0.5) {
        q->panels = q->count[0];
        q->allowance = q->inches ? 15.875 : 10;
        q->width[0] = draw_size(q, 100, 0.9 * usable);
        q->band = q->panels * q->width[0] / draw(1.2, 3);
    }
}

static const char *pattern_text(struct room *room, const struct asked *q)
{
    const char *pieces = "", *cuts = "", *joins = "";
    for (int i = 0; i < q->kinds; i++) {
        double less = q->panels && i == 0 ? 2 * q->allowance : 0;
        pieces = base_arena_print(room->a, "%s%s{ 'name': 'r%d', 'rectangle': { 'width': %.9g, 'height': %.9g }%s }",
                                  pieces, i ? ", " : "", i, q->width[i] - less, q->height[i] - less,
                                  less > 0 ? base_arena_print(room->a, ", 'allowance': %.9g", q->allowance) : "");
        cuts = base_arena_print(room->a, "%s%s{ 'piece': 'r%d', 'count': %d }", cuts, i ? ", " : "", i, q->count[i]);
    }
    for (int i = 0; i < q->panels; i++)
        joins = base_arena_print(room->a, "%s%s'r0.top'", joins, i ? ", " : "");
    double sewn = q->panels * (q->width[0] - 2 * q->allowance);
    const char *seam =
        q->panels ? base_arena_print(room->a, "{ 'name': 'g', 'join': [ [%s], ['band.bottom'] ], 'ratio': %.12g }",
                                     joins, sewn / q->band)
                  : "";
    return base_arena_print(
        room->a,
        "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line', 'name': 'P', 'unit': 'mm',"
        " 'sizes': ['1'], 'pieces': [ %s, { 'name': 'band', 'rectangle': { 'width': %.9g, 'height': 40 } },"
        " { 'name': 'gore', 'points': { 'a': [0, 0], 'b': [120, 0], 'c': [0, 90] },"
        "   'outline': [ { 'name': 'e', 'path': ['a', 'b', 'c', 'a'] } ] } ], 'seams': [ %s ],"
        " 'views': [ { 'name': 'A', 'cut': [ %s%s, { 'piece': 'band', 'count': 1, 'cloth': 'lining' } ] } ] }",
        pieces, q->panels ? q->band : 100, seam, cuts, q->others ? ", { 'piece': 'gore', 'count': 2 }" : "");
}

static void draft(struct planned *p, const struct draft_alteration *altered)
{
    struct room *room = p->room;
    const struct asked *q = p->q;
    const char *json = room_json(room, pattern_text(room, q));
    struct draft_figure figure = { .cup_group = PATTERN_NONE,
                                   .alterations = altered,
                                   .alteration_count = altered ? 1 : 0 };
    p->pattern = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_true(draft_make(room->a, p->pattern, &figure, 0, &p->draft, room->errs));
    p->usable = q->cloth.width_mm * (1 - q->cloth.shrink_weft) - 2 * q->cloth.selvedge_mm;
    p->task = (struct tearing_task){ .pattern = p->pattern,
                                     .draft = &p->draft,
                                     .cloth = &q->cloth,
                                     .unit = q->inches ? UNITS_IN : UNITS_CM,
                                     .way = q->way,
                                     .off_square_mm = q->off_square,
                                     .margin_mm = q->margin };
}

static bool make(struct planned *p, enum tearing_way way)
{
    p->task.way = way;
    bool ok = tearing_plan_make(p->room->a, &p->task, &p->plan, p->room->errs);
    room_forget(p->room);
    return ok;
}

/* --- what is checked -----------------------------------------------------------------------------------------------
 */

static double area(struct geometry_box b)
{
    return (b.max.x - b.min.x) * (b.max.y - b.min.y);
}

static double common(struct geometry_box a, struct geometry_box b)
{
    double x = fmin(a.max.x, b.max.x) - fmax(a.min.x, b.min.x), y = fmin(a.max.y, b.max.y) - fmax(a.min.y, b.min.y);
    return x > 0 && y > 0 ? x * y : 0;
}

/* A rectangle on the cloth, x from the squared end: heights run along the cloth whichever way the strips run. */
static struct geometry_box box_of(const struct planned *p, const struct tearing_strip *s, const struct tearing_spot *t)
{
    const struct tearing_need *need = &p->plan.needs[t->kind];
    double margin = p->q->margin, x = s->from_mm + margin + t->along_mm, y = t->across_mm;
    if (p->plan.along) {
        x = p->plan.start_mm + margin + t->across_mm;
        y = s->from_mm + margin + t->along_mm;
    }
    return (struct geometry_box){ { x, y }, { x + need->height_mm, y + need->width_mm } };
}

/* A strip without its torn edges, as far as it goes. */
static struct geometry_box trimmed(const struct planned *p, const struct tearing_strip *s)
{
    double margin = p->q->margin, begin = p->plan.start_mm + margin;
    if (!p->plan.along)
        return (struct geometry_box){ { s->from_mm + margin, 0 }, { s->to_mm - margin, p->usable } };
    return (struct geometry_box){ { begin, s->from_mm + margin },
                                  { begin + p->plan.strip_length_mm, s->to_mm - margin } };
}

static bool lies_within(struct geometry_box inner, struct geometry_box outer)
{
    return inner.min.x >= outer.min.x - MM && inner.min.y >= outer.min.y - MM && inner.max.x <= outer.max.x + MM &&
           inner.max.y <= outer.max.y + MM;
}

/* Whether one lies in that much of the washed length, from the squared end. */
static bool meets_fault(const struct planned *p, double from, double to)
{
    const struct asked *q = p->q;
    double washed = 1 - q->cloth.shrink_warp;
    bool any = false;
    for (size_t i = 0; i < q->cloth.fault_count; i++)
        any = any || (q->corners[i][0].x * washed - q->off_square < to - MM &&
                      q->corners[i][1].x * washed - q->off_square > from + MM);
    return any;
}

/* Strips one after the other, each as high as its highest rectangle, the highest first unless a fault is in the way. */
static void check_strips(const struct planned *p)
{
    const struct tearing_plan *plan = &p->plan;
    double at = 0, most = INFINITY;
    for (size_t i = 0; i < plan->strip_count; i++) {
        const struct tearing_strip *s = &plan->strips[i];
        double high = 0;
        assert_true(s->from_mm >= at - MM);
        assert_near(s->to_mm - s->from_mm, s->size_mm + 2 * p->q->margin, MM);
        for (size_t k = 0; k < s->spot_count; k++) {
            const struct tearing_need *need = &plan->needs[s->spots[k].kind];
            high = fmax(high, plan->along ? need->width_mm : need->height_mm);
            assert_true(lies_within(box_of(p, s, &s->spots[k]), trimmed(p, s)));
        }
        assert_near(s->size_mm, high, MM);
        assert_true(p->q->cloth.fault_count || s->size_mm <= most + MM);
        assert_false(!plan->along && meets_fault(p, s->from_mm, s->to_mm));
        most = s->size_mm;
        at = s->to_mm;
    }
    double end = plan->along ? plan->start_mm + plan->strip_length_mm + 2 * p->q->margin : at;
    assert_false(plan->along && meets_fault(p, plan->start_mm, end));
    assert_true(!plan->along || at <= p->usable + MM);
    assert_near(plan->length_mm, p->q->off_square + end, MM);
}

/* All of the list, each as large as it was asked for, or in parts that come to that and their joins. */
static void check_needs(const struct planned *p)
{
    const struct tearing_plan *plan = &p->plan;
    double join = p->q->inches ? JOIN_IN_MM : JOIN_CM_MM;
    int found[2 * MOST_KINDS + 2] = { 0 }, first[MOST_KINDS] = { 0 };
    double wide[MOST_KINDS] = { 0 };
    for (size_t i = 0; i < plan->strip_count; i++)
        for (size_t k = 0; k < plan->strips[i].spot_count; k++)
            found[plan->strips[i].spots[k].kind]++;
    for (size_t i = 0; i < plan->need_count; i++) {
        const struct tearing_need *need = &plan->needs[i];
        assert_int_equal(found[i], need->count);
        assert_near(need->height_mm, p->q->height[need->cut], MM);
        assert_true(need->width_mm <= p->usable + MM);
        wide[need->cut] += need->count * need->width_mm;
        first[need->cut] = need->parts;
    }
    for (int c = 0; c < p->q->kinds; c++) {
        double own = c == 0 && p->q->panels ? 2 * p->q->allowance : join;
        assert_near(wide[c], p->q->count[c] * (p->q->width[c] + own * (first[c] - 1)), 1e-5);
    }
}

/* Rectangles and what is left of a strip lie side by side, and fill it but for slivers, and what columns of unlike
 * rectangles leave beside the narrower ones. */
static void check_strip_is_filled(const struct planned *p, size_t strip, const struct tearing_rest *left, size_t count)
{
    const struct tearing_strip *s = &p->plan.strips[strip];
    struct geometry_box whole = trimmed(p, s), boxes[MOST_BOXES];
    size_t n = 0;
    double filled = 0, beside = 0;
    for (size_t k = 0; k < s->spot_count && n < MOST_BOXES; k++) {
        boxes[n++] = box_of(p, s, &s->spots[k]);
        double column = 0, own;
        for (size_t m = 0; m < s->spot_count; m++) {
            const struct tearing_need *need = &p->plan.needs[s->spots[m].kind];
            if (fabs(s->spots[m].across_mm - s->spots[k].across_mm) < MM)
                column = fmax(column, p->plan.along ? need->height_mm : need->width_mm);
        }
        const struct tearing_need *need = &p->plan.needs[s->spots[k].kind];
        own = p->plan.along ? need->height_mm : need->width_mm;
        beside += (column - own) * (p->plan.along ? need->width_mm : need->height_mm);
    }
    for (size_t i = 0; i < count && n < MOST_BOXES; i++)
        if (left[i].strip == (int)strip)
            boxes[n++] = left[i].at;
    for (size_t i = 0; i < n; i++) {
        filled += area(boxes[i]);
        assert_true(lies_within(boxes[i], whole));
        for (size_t k = 0; k < i; k++)
            assert_true(common(boxes[i], boxes[k]) < 1e-3);
    }
    double slivers = SLIVER_MM * (whole.max.x - whole.min.x + whole.max.y - whole.min.y) +
                     SLIVER_MM * (double)s->spot_count * s->size_mm;
    assert_true(filled + beside <= area(whole) + 1e-3 && filled + beside >= area(whole) - slivers);
}

static void check_left(const struct planned *p)
{
    struct tearing_rest *left;
    size_t count = tearing_left(p->room->a, &p->plan, &left);
    for (size_t i = 0; i < p->plan.strip_count; i++)
        check_strip_is_filled(p, i, left, count);
    for (size_t i = 0; i < count; i++) {
        assert_near(left[i].cloth.length_mm, left[i].at.max.x - left[i].at.min.x, MM);
        assert_near(left[i].cloth.width_mm, left[i].at.max.y - left[i].at.min.y, MM);
        assert_true(left[i].at.max.y <= p->usable + MM);
    }
}

/* Area of what was asked for over area of the cloth; what is bought, in whole steps; what is over or lacking. */
static void check_figures(const struct planned *p)
{
    const struct tearing_plan *plan = &p->plan;
    double rectangles = 0, lower = 0, washed = 1 - p->q->cloth.shrink_warp;
    for (size_t i = 0; i < plan->need_count; i++) {
        rectangles += plan->needs[i].count * plan->needs[i].width_mm * plan->needs[i].height_mm;
        lower = fmax(lower, plan->needs[i].height_mm);
    }
    double step = p->q->inches ? EIGHTH_YARD : 100, steps = plan->to_buy_mm / step;
    assert_near(plan->used, rectangles / (p->usable * plan->length_mm), 1e-9);
    assert_true(plan->used <= 1 && plan->length_mm >= lower + 2 * p->q->margin + p->q->off_square - MM);
    assert_near(steps, floor(steps + 0.5), 1e-6);
    assert_true(plan->to_buy_mm >= plan->length_mm / washed - 1e-3);
    assert_true(plan->to_buy_mm < plan->length_mm / washed + step);
    if (p->q->cloth.length_mm > 0)
        assert_near(plan->spare_mm, p->q->cloth.length_mm * washed - plan->length_mm, MM);
}

/* The other way is as long as it is told to be; the one that wastes least is taken, and the same again. */
static void check_ways(struct planned *p, enum tearing_way way)
{
    struct tearing_plan plan = p->plan;
    if (make(p, plan.along ? TEARING_ACROSS : TEARING_ALONG))
        assert_near(p->plan.length_mm, plan.other_mm, MM);
    else
        assert_true(isnan(plan.other_mm));
    if (way == TEARING_LEAST && !isnan(plan.other_mm))
        assert_true(plan.to_buy_mm <= p->plan.to_buy_mm);
    assert_true(make(p, way));
    assert_int_equal(p->plan.strip_count, plan.strip_count);
    assert_true(p->plan.length_mm == plan.length_mm);
    for (size_t i = 0; i < plan.strip_count; i++)
        assert_true(p->plan.strips[i].from_mm == plan.strips[i].from_mm &&
                    p->plan.strips[i].to_mm == plan.strips[i].to_mm);
}

/* Of panels sewn into a ring two allowances each are lost; nothing but their width changes, which lies on a mark of the
 * tape; and the plan with that width is as long as it was told to be. */
static void check_gathers(struct planned *p)
{
    const struct asked *q = p->q;
    const struct tearing_choice *choices;
    struct tearing_plan plan = p->plan;
    size_t count = q->panels ? tearing_choices(p->room->a, &plan, &choices) : 0;
    for (size_t i = 0; i < count; i++) {
        const struct tearing_change *change = &choices[i].changes[0];
        bool changes = choices[i].kind == TEARING_FULLER || choices[i].kind == TEARING_SPARER;
        if (choices[i].change_count != 1 || plan.needs[change->need].cut != 0 || !changes)
            continue;
        double mark = q->inches ? 25.4 / 8 : 1, marks = change->width_mm / mark;
        assert_near(change->was.from_mm, q->panels * (q->width[0] - 2 * q->allowance), 1e-4);
        assert_near(change->is.from_mm, q->panels * (change->width_mm - 2 * q->allowance), 1e-4);
        assert_near(change->was.to_mm, q->band, 1e-4);
        assert_near(change->is.to_mm, q->band, 1e-4);
        assert_near(marks, floor(marks + 0.5), 1e-6);
        assert_true(change->width_mm <= p->usable + MM);
        assert_true(choices[i].kind == TEARING_FULLER ? change->width_mm > q->width[0]
                                                      : change->width_mm < q->width[0]);
        struct draft_alteration taken = { DRAFT_WIDTH, "r0", PATTERN_NONE, change->width_mm };
        struct planned then = { .q = q, .room = p->room };
        draft(&then, &taken);
        assert_true(make(&then, q->way));
        assert_near(then.plan.length_mm, choices[i].length_mm, ALONG_MM);
    }
}

/* What is cut of rests lies in them, and is no more than there is to cut. */
static void check_rests(const struct planned *p)
{
    struct tearing_rests rests;
    int cut = 0;
    assert_true(tearing_rests_find(p->room->a, &p->plan, &rests));
    for (size_t i = 0; i < rests.count; i++) {
        const struct lay *lay = rests.rests[i].lay;
        assert_int_equal(lay->left_out, 0);
        for (size_t k = 0; k < lay->task->item_count; k++) {
            struct geometry_box box = geometry_path_box(lay_outline(p->room->a, lay->task, k, &lay->places[k]).path);
            struct geometry_box room = { { 0, 0 }, { rests.rests[i].cloth.length_mm, rests.rests[i].cloth.width_mm } };
            assert_string_equal(lay->task->items[k].piece->name, "gore");
            assert_true(box.min.x >= room.min.x - 1e-3 && box.min.y >= room.min.y - 1e-3 &&
                        box.max.x <= room.max.x + 1e-3 && box.max.y <= room.max.y + 1e-3);
            cut += lay->task->items[k].copies;
        }
    }
    assert_true(cut <= 2);
}

/* --- all of it -----------------------------------------------------------------------------------------------------
 */

static void random_plans_tear_as_told(void **state)
{
    struct room *room = *state;
    int made = 0, along = 0, gathered = 0;
    for (int i = 0; i < plan_count; i++) {
        struct asked q;
        seed = (uint64_t)i + 1;
        draw_asked(&q);
        struct planned p = { .q = &q, .room = room };
        draft(&p, NULL);
        if (!make(&p, q.way))
            continue;
        made++;
        along += p.plan.along;
        gathered += q.panels > 0;
        check_strips(&p);
        check_needs(&p);
        check_left(&p);
        check_figures(&p);
        check_ways(&p, q.way);
        check_gathers(&p);
        if (q.others && i % RESTS_EACH == 0)
            check_rests(&p);
    }
    /* most can be planned; of all kinds there are many */
    assert_true(made > plan_count * 8 / 10 && along > plan_count / 10 && gathered > plan_count / 4);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = { room_test(random_plans_tear_as_told) };
    if (argc > 1)
        plan_count = atoi(argv[1]);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
