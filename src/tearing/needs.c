#include "tearing/needs.h"

#include "fit/seam.h"

#include <math.h>

#define JOIN_MM 15.0              /* usual in metric patterns … */
#define JOIN_IN_MM (25.4 * 5 / 8) /* … and in inches (common practice) */

#define LEAST_MM 20.0 /* of a part between its joins (our own choice) */

enum { BOTTOM_EDGE, RIGHT_EDGE, TOP_EDGE, LEFT_EDGE }; /* of a rectangle */

static const struct err_kind pieced = {
    "tearing.pieced", ERR_WARNING,
    BASE_TR("“{0}” is cut {1} wide, and the cloth has only {2}: it is joined of {3} parts; "
            "wider cloth or a narrower piece needs no join")
};

static const struct err_kind too_narrow = {
    "tearing.too_narrow", ERR_FAULT,
    BASE_TR("“{0}” is cut {1} wide, and the cloth has only {2}, too little even for "
            "parts of it: take wider cloth")
};

static void add_need(struct arena *a, struct tearing_plan *plan, struct tearing_need *needs, int cut)
{
    const struct draft_cut *line = &plan->task->draft->cuts[cut];
    const struct draft_piece *piece = &plan->task->draft->pieces[line->piece];
    struct draft_piece whole = draft_unfold(a, piece);
    struct geometry_box box = geometry_path_box(whole.cut.path);
    needs[plan->need_count++] = (struct tearing_need){ .cut = cut,
                                                       .piece = piece,
                                                       .width_mm = box.max.x - box.min.x,
                                                       .height_mm = box.max.y - box.min.y,
                                                       .count = line->count,
                                                       .whole_mm = box.max.x - box.min.x,
                                                       .pieces = line->count,
                                                       .parts = 1 };
}

struct tearing_need *tearing_collect(struct arena *a, struct tearing_plan *plan)
{
    const struct draft *draft = plan->task->draft;
    struct tearing_need *needs = base_arena_alloc(a, 2 * draft->cut_count, sizeof *needs);
    const char **others = base_arena_alloc(a, draft->cut_count, sizeof *others);
    for (size_t i = 0; i < draft->cut_count; i++) {
        const struct draft_piece *piece = &draft->pieces[draft->cuts[i].piece];
        if (draft->cuts[i].cloth != plan->task->material)
            continue;
        if (plan->task->pattern->pieces[piece->index].is_rectangle)
            add_need(a, plan, needs, (int)i);
        else
            others[plan->other_count++] = piece->label;
    }
    plan->needs = needs;
    plan->others = others;
    return needs;
}

/* How much longer the longer of two edges is in one draft than in another. */
static double longer_by(const struct draft_sized *now, const struct draft_sized *before, int piece, int one, int other)
{
    return fmax(fit_sewn_mm(now, piece, one), fit_sewn_mm(now, piece, other)) -
           fmax(fit_sewn_mm(before, piece, one), fit_sewn_mm(before, piece, other));
}

struct tearing_need tearing_need_so(const struct tearing_task *task, const struct tearing_need *need,
                                    const struct draft_sized *sized)
{
    const struct draft_sized *before = task->draft->sized;
    int piece = need->piece->index, fold = task->pattern->pieces[piece].fold;
    double wider = longer_by(sized, before, piece, BOTTOM_EDGE, TOP_EDGE);
    double higher = longer_by(sized, before, piece, RIGHT_EDGE, LEFT_EDGE);
    struct tearing_need so = *need;
    so.whole_mm += fold == RIGHT_EDGE || fold == LEFT_EDGE ? 2 * wider : wider;
    so.height_mm += fold == BOTTOM_EDGE || fold == TOP_EDGE ? 2 * higher : higher;
    so.width_mm = so.whole_mm;
    so.count = so.pieces;
    so.parts = 1;
    return so;
}

double tearing_join_mm(const struct tearing_task *task, const struct draft_piece *piece)
{
    const double *own = task->draft->sized->pieces[piece->index].allowance_mm;
    double side = fmax(own[RIGHT_EDGE], own[LEFT_EDGE]);
    return side > 0 ? side : task->unit == UNITS_IN ? JOIN_IN_MM : JOIN_MM;
}

/* As many parts as can be across the whole cloth and a rest; where that would be nothing but its joins, all alike. */
static bool part(struct tearing_plan *plan, struct tearing_need *needs, size_t at, double most_mm)
{
    struct tearing_need *need = &needs[at];
    double join = 2 * tearing_join_mm(plan->task, need->piece), rest = need->whole_mm;
    if (join + LEAST_MM > most_mm)
        return false;
    for (; rest > most_mm + TEARING_SLACK_MM; rest += join - most_mm)
        need->parts++;
    if (rest < join + LEAST_MM) {
        need->width_mm = (need->whole_mm + join * (need->parts - 1)) / need->parts;
        need->count = need->pieces * need->parts;
        return true;
    }
    need->width_mm = most_mm;
    need->count = need->pieces * (need->parts - 1);
    needs[plan->need_count] = *need;
    needs[plan->need_count].width_mm = rest;
    needs[plan->need_count].count = need->pieces;
    needs[plan->need_count++].is_rest = true;
    return true;
}

bool tearing_piece_wide(struct tearing_plan *plan, struct tearing_need *needs, struct err_list *errs)
{
    double most = cloth_usable_width(plan->task->cloth);
    size_t count = plan->need_count;
    bool ok = true;
    for (size_t i = 0; i < count; i++) {
        if (needs[i].width_mm <= most + TEARING_SLACK_MM)
            continue;
        bool fits = part(plan, needs, i, most);
        base_err(errs, fits ? &pieced : &too_narrow, base_err_in_file(NULL), ERR_TEXT(needs[i].piece->label),
                 ERR_MM(units_on_tape(needs[i].whole_mm, plan->task->unit)),
                 ERR_MM(units_on_tape(most, plan->task->unit)), ERR_NUMBER(needs[i].parts));
        ok = ok && fits;
    }
    return ok;
}
