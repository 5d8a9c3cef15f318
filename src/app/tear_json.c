#include "app/tear_report.h"

#include "app/lay_report.h"
#include "tearing/rests.h"

#include <math.h>

static void strip_json(struct json_out *list, const struct tearing_plan *p, const struct tearing_strip *s)
{
    struct json_out *row = json_out_object(list, NULL);
    json_out_number(row, "from_mm", s->from_mm);
    json_out_number(row, "to_mm", s->to_mm);
    json_out_number(row, "trimmed_mm", s->size_mm);
    json_out_number(row, "used_mm", s->used_mm);
    struct json_out *pieces = json_out_list(row, "pieces");
    for (size_t i = 0; i < s->spot_count; i++) {
        const struct tearing_need *need = &p->needs[s->spots[i].kind];
        struct json_out *piece = json_out_object(pieces, NULL);
        json_out_text(piece, "piece", need->piece->name);
        json_out_number(piece, "from_mm", s->spots[i].across_mm);
        json_out_number(piece, "up_mm", s->spots[i].along_mm);
        json_out_number(piece, "width_mm", need->width_mm);
        json_out_number(piece, "height_mm", need->height_mm);
        json_out_number(piece, "parts", need->parts);
    }
}

static void gathers_json(struct json_out *to, const char *name, struct tearing_gathers g)
{
    struct json_out *object = json_out_object(to, name);
    json_out_number(object, "from_mm", g.from_mm);
    json_out_number(object, "to_mm", g.to_mm);
    json_out_number(object, "ratio", g.from_mm / g.to_mm);
    json_out_number(object, "hem_mm", g.hem_mm);
}

static void choice_json(struct json_out *list, const struct tearing_plan *p, const struct tearing_choice *c)
{
    static const char *const names[] = {
        [TEARING_TRIM] = "trim", [TEARING_FULLER] = "fuller", [TEARING_SPARER] = "sparer", [TEARING_PIECE] = "join"
    };
    struct json_out *row = json_out_object(list, NULL);
    json_out_text(row, "choice", names[c->kind]);
    json_out_number(row, "strips", c->strips);
    json_out_number(row, "left_mm", c->left_mm);
    json_out_number(row, "length_mm", c->length_mm);
    json_out_bool(row, "along", c->along);
    json_out_number(row, "joins", c->joins);
    struct json_out *changes = json_out_list(row, "widths");
    for (size_t i = 0; i < c->change_count; i++) {
        struct json_out *change = json_out_object(changes, NULL);
        json_out_text(change, "piece", p->needs[c->changes[i].need].piece->name);
        json_out_text(change, "seam", c->changes[i].was.seam);
        json_out_number(change, "width_mm", c->changes[i].width_mm);
        gathers_json(change, "was", c->changes[i].was);
        gathers_json(change, "is", c->changes[i].is);
    }
}

static void maybe_json(struct json_out *to, const char *name, double mm)
{
    if (!isnan(mm))
        json_out_number(to, name, mm);
}

void app_tear_rest_json(struct arena *a, struct json_out *list, const struct tearing_rest *rest)
{
    struct json_out *row = json_out_object(list, NULL);
    if (rest->strip == TEARING_BESIDE)
        json_out_bool(row, "beside", true);
    else
        json_out_number(row, "strip", rest->strip + 1);
    if (rest->above)
        json_out_text(row, "above", rest->above);
    json_out_number(row, "from_end_mm", rest->at.min.x);
    json_out_number(row, "from_edge_mm", rest->at.min.y);
    json_out_number(row, "long_mm", rest->cloth.length_mm);
    json_out_number(row, "wide_mm", rest->cloth.width_mm);
    struct json_out *pieces = json_out_list(row, "pieces");
    for (size_t i = 0; i < rest->lay->task->item_count; i++) {
        struct json_out *piece = json_out_object(pieces, NULL);
        json_out_text(piece, "name", lay_item_name(a, rest->lay->task, i));
        json_out_text(piece, "piece", rest->lay->task->items[i].piece->name);
        app_json_path(piece, "outline_mm", lay_outline(a, rest->lay->task, i, &rest->lay->places[i]).path);
    }
}

static void rests_json(struct arena *a, struct json_out *plan, const struct app_tearing *t)
{
    json_out_bool(plan, "rests_used", t->plan->rests != NULL);
    struct json_out *list = t->rests ? json_out_list(plan, "rests") : NULL;
    for (size_t i = 0; list && i < t->rests->count; i++)
        app_tear_rest_json(a, list, &t->rests->rests[i]);
    if (list)
        json_out_number(plan, "spared_mm", t->spared_mm);
}

void app_tear_json(struct arena *a, struct json_out *to, const struct app_tearing *t)
{
    const struct tearing_plan *p = t->plan;
    struct json_out *plan = json_out_object(to, "tearing_plan");
    json_out_text(plan, "material", pattern_cloth_name(p->task->material));
    json_out_bool(plan, "kept", t->is_kept);
    json_out_bool(plan, "along", p->along);
    json_out_number(plan, "usable_width_mm", cloth_usable_width(p->task->cloth));
    json_out_number(plan, "off_square_mm", p->task->off_square_mm);
    json_out_number(plan, "margin_mm", p->task->margin_mm);
    json_out_number(plan, "start_mm", p->start_mm);
    json_out_number(plan, "strip_length_mm", p->strip_length_mm);
    json_out_number(plan, "length_mm", p->length_mm);
    json_out_number(plan, "to_buy_mm", p->to_buy_mm);
    maybe_json(plan, "left_mm", p->spare_mm);
    maybe_json(plan, "other_way_mm", p->other_mm);
    json_out_number(plan, "used", p->used);
    json_out_bool(plan, "least", p->is_least);
    struct json_out *strips = json_out_list(plan, "strips");
    for (size_t i = 0; i < p->strip_count; i++)
        strip_json(strips, p, &p->strips[i]);
    rests_json(a, plan, t);
    struct json_out *choices = json_out_list(plan, "choices");
    for (size_t i = 0; i < t->choice_count; i++)
        choice_json(choices, p, &t->choices[i]);
    struct json_out *others = json_out_list(plan, "others");
    for (size_t i = 0; i < p->other_count; i++)
        json_out_text(others, NULL, p->others[i]);
}
