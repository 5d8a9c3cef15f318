#include "app/report.h"

#include <math.h>

static const char *length_text(struct arena *a, double mm, enum units_length unit)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_length(text, mm, unit));
}

static const char *size_line(struct arena *a, const struct pattern *p, const struct sizing_body *body,
                             const struct sizing_choice *c)
{
    const struct pattern_row *row = &p->chart[p->main_row];
    const struct sizing_measurement *m = sizing_body_find(body, row->name);
    const char *line = base_arena_print(a, "Size %s", p->sizes[c->size]);
    if (m)
        line = base_arena_print(a, "%s: %s %s, the chart has %s\n", line, row->name, length_text(a, m->mm, body->unit),
                                length_text(a, row->value.mm[c->size], body->unit));
    else
        line = base_arena_print(a, "%s, as you chose\n", line);
    if (c->tie != c->size)
        line =
            base_arena_print(a,
                             "%s  Size %s lies equally near. The larger was taken, as it can be taken in; to cut the "
                             "other: --size \"%s\"\n",
                             line, p->sizes[c->tie], p->sizes[c->tie]);
    if (c->below || c->above)
        line = base_arena_print(a, "%s  You lie %s the chart: sew a trial garment first\n", line,
                                c->below ? "below" : "above");
    return line;
}

static const char *cup_line(struct arena *a, const struct pattern *p, const struct sizing_body *body,
                            const struct sizing_choice *c)
{
    if (c->cup_group == PATTERN_NONE)
        return "";
    const char *name = p->cup_groups[c->cup_group].name;
    if (c->cup_body_mm <= 0)
        return base_arena_print(a, "Cup group %s, as you chose\n", name);
    const char *line = base_arena_print(a, "Cup group %s: full bust %s, this group is drawn for %s in size %s\n", name,
                                        length_text(a, c->cup_body_mm, body->unit),
                                        length_text(a, c->cup_chart_mm, body->unit), p->sizes[c->size]);
    if (c->cup_tie != c->cup_group)
        line = base_arena_print(a, "%s  Cup group %s lies equally near; to cut it: --cup \"%s\"\n", line,
                                p->cup_groups[c->cup_tie].name, p->cup_groups[c->cup_tie].name);
    return line;
}

static const char *reason_line(struct arena *a, const struct pattern *p, const struct sizing_body *body,
                               const struct sizing_reason *r)
{
    double difference = r->body_mm - r->chart_mm;
    return base_arena_print(a, "  %-14s %10s  chart %10s  %s%s  alone: size %s\n", r->name,
                            length_text(a, r->body_mm, body->unit), length_text(a, r->chart_mm, body->unit),
                            difference < 0 ? "-" : "+", length_text(a, fabs(difference), body->unit),
                            p->sizes[r->nearest]);
}

const char *app_size_report(struct arena *a, const struct pattern *pattern, const struct sizing_body *body,
                            const struct sizing_choice *choice)
{
    const char *text =
        base_arena_print(a, "%s%s", size_line(a, pattern, body, choice), cup_line(a, pattern, body, choice));
    for (size_t i = 0; i < choice->reason_count; i++)
        text = base_arena_print(a, "%s%s", text, reason_line(a, pattern, body, &choice->reasons[i]));
    return text;
}

void app_size_json(struct json_out *to, const struct pattern *pattern, const struct sizing_choice *choice)
{
    json_out_text(to, "size", pattern->sizes[choice->size]);
    json_out_number(to, "size_position", choice->position);
    json_out_text(to, "equally_near", choice->tie != choice->size ? pattern->sizes[choice->tie] : NULL);
    json_out_bool(to, "outside_chart", choice->below || choice->above);
    if (choice->cup_group != PATTERN_NONE) {
        json_out_text(to, "cup_group", pattern->cup_groups[choice->cup_group].name);
        json_out_text(to, "cup_group_equally_near",
                      choice->cup_tie != choice->cup_group ? pattern->cup_groups[choice->cup_tie].name : NULL);
    }
    struct json_out *rows = json_out_list(to, "measurements");
    for (size_t i = 0; i < choice->reason_count; i++) {
        const struct sizing_reason *r = &choice->reasons[i];
        struct json_out *row = json_out_object(rows, NULL);
        json_out_text(row, "name", r->name);
        json_out_number(row, "body_mm", r->body_mm);
        json_out_number(row, "chart_mm", r->chart_mm);
        json_out_number(row, "size_position", r->position);
        json_out_text(row, "size_alone", pattern->sizes[r->nearest]);
    }
}

const char *app_calibration_report(struct arena *a, const struct calibration_readings *readings,
                                   const struct calibration_solution *solution)
{
    const char *text = "";
    for (size_t i = 0; i < readings->count; i++)
        text = base_arena_print(a, "%s  cross %-4d out by %.2f mm\n", text, readings->items[i].cross,
                                solution->residual_mm[i]);
    return base_arena_print(
        a,
        "%sThe readings lie %.2f mm from the table on average, cross %d the farthest with %.2f mm.\n"
        "One pixel is at most %.2f mm.\n",
        text, solution->rms_mm, readings->items[solution->worst].cross, solution->worst_mm,
        geometry_map_mm_per_px(&solution->map));
}

void app_calibration_json(struct json_out *to, const struct calibration_readings *readings,
                          const struct calibration_solution *solution)
{
    json_out_number(to, "rms_mm", solution->rms_mm);
    json_out_number(to, "worst_mm", solution->worst_mm);
    json_out_number(to, "mm_per_px", geometry_map_mm_per_px(&solution->map));
    struct json_out *rows = json_out_list(to, "readings");
    for (size_t i = 0; i < readings->count; i++) {
        struct json_out *row = json_out_object(rows, NULL);
        json_out_number(row, "cross", readings->items[i].cross);
        json_out_number(row, "out_by_mm", solution->residual_mm[i]);
    }
}
