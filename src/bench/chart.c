#include "bench/chart.h"

#include "base/words.h"
#include "bench/lengths.h"
#include "bench/taken.h"
#include "sizing/body.h"
#include "sizing/row.h"

#include <math.h>
#include <string.h>

static const double row_height = 26, least_name = 104, most_name = 160, own_width = 74;

enum { MOST_COLUMNS = 12 };

/* A row that is as long in all sizes says nothing of a size. */
static bool tells_sizes(const struct pattern *pattern, size_t row)
{
    struct pattern_value value = pattern->chart[row].value;
    return pattern_value_at(value, 0) < pattern_value_at(value, (double)(pattern->size_count - 1));
}

double bench_chart_height(const struct pattern *pattern)
{
    size_t rows = 0;
    for (size_t i = 0; i < pattern->row_count; i++)
        rows += tells_sizes(pattern, i);
    return rows ? row_height * (double)(rows + 1) : 0;
}

/* Which sizes are shown: all, or those about the person's. */
struct columns {
    size_t first, count;
    double name_width, left, step; /* u */
};

static const char *heading(struct arena *a, enum units_length unit)
{
    return base_arena_print(a, base_tr("Chart, %s"), units_shown_name(unit));
}

/* As wide as the longest of them wants. */
static double name_width_of(struct form_picture *p, const struct job *job, enum units_length unit)
{
    double width = fmax(least_name, form_width(p->type, FORM_HEADING, heading(p->a, unit)) + 14);
    for (size_t row = 0; row < job->pattern->row_count; row++)
        if (tells_sizes(job->pattern, row)) {
            const char *label = bench_measure_label(p->a, job->pattern, job->pattern->chart[row].name);
            width = fmax(width, form_width(p->type, FORM_NOTE, label) + 14);
        }
    return fmin(width, most_name);
}

static struct columns columns_of(struct form_picture *p, struct bench_box box, const struct job *job,
                                 enum units_length unit)
{
    size_t sizes = job->pattern->size_count, count = sizes < MOST_COLUMNS ? sizes : MOST_COLUMNS;
    size_t at = job->position > 0 ? (size_t)job->position : 0, first = at > count / 2 ? at - count / 2 : 0;
    if (first + count > sizes)
        first = sizes - count;
    double name_width = name_width_of(p, job, unit), room = box.width - name_width - own_width;
    return (struct columns){ first, count, name_width, box.x + name_width + room / (double)count / 2,
                             room / (double)count };
}

static void draw_head(struct form_picture *p, struct bench_box box, const struct job *job, const struct columns *c,
                      enum units_length unit)
{
    double y = box.y + row_height / 2 + form_drop(FORM_HEADING);
    form_fill_box(p, (struct bench_box){ box.x, box.y, box.width, row_height }, FORM_MANILA);
    form_text_fit(p, (struct bench_pt){ box.x + 10, y }, FORM_LEFT, FORM_HEADING, FORM_NOTE_STRONG, FORM_INK,
                  c->name_width - 12, heading(p->a, unit));
    for (size_t i = 0; i < c->count; i++)
        form_text(p, (struct bench_pt){ c->left + (double)i * c->step, y }, FORM_MIDDLE, FORM_HEADING, FORM_INK,
                  c->step, job->pattern->sizes[c->first + i]);
    form_text(p, (struct bench_pt){ box.x + box.width - 10, y }, FORM_RIGHT, FORM_HEADING, FORM_INK, own_width,
              base_tr_in("your measurements", "You"));
}

/* Where she lies on the row's rule, between two sizes. */
static void draw_dot(struct form_picture *p, double y, const struct columns *c, double position)
{
    double column = position - (double)c->first, lower = floor(column), upper = ceil(column);
    if (column < 0 || column > (double)(c->count - 1))
        return;
    struct bench_pt from = { c->left + lower * c->step, y }, to = { c->left + upper * c->step, y };
    if (from.x < to.x)
        form_line(p, from, to, 2, FORM_BLUE);
    form_dot(p, (struct bench_pt){ c->left + column * c->step, y }, 4, FORM_BLUE);
}

static void draw_row(struct form_picture *p, struct bench_box box, const struct job *job, const struct columns *c,
                     size_t row, double top, enum units_length unit)
{
    const struct pattern_row *r = &job->pattern->chart[row];
    const struct sizing_measurement *own = job->body ? sizing_body_find(job->body, r->name) : NULL;
    double rule = top + row_height, y = rule - row_height / 2 + form_drop(FORM_NOTE);
    double position = own ? sizing_row_position(r->value, own->mm) : PATTERN_NONE;
    form_text_fit(p, (struct bench_pt){ box.x + 10, y }, FORM_LEFT, FORM_NOTE, FORM_SMALL, FORM_INK, c->name_width - 12,
                  bench_measure_label(p->a, job->pattern, r->name));
    for (size_t i = 0; i < c->count; i++) {
        double size = (double)(c->first + i);
        bool near = position >= 0 && fabs(size - position) < 1;
        form_text(p, (struct bench_pt){ c->left + (double)i * c->step, y }, FORM_MIDDLE,
                  near ? FORM_NOTE_STRONG : FORM_NOTE, near ? FORM_INK : FORM_INK_2, c->step,
                  bench_number(p->a, pattern_value_at(r->value, size), unit));
    }
    form_line(p, (struct bench_pt){ box.x, rule }, (struct bench_pt){ box.x + box.width, rule }, 1, FORM_HAIR);
    if (!own)
        return;
    form_text(p, (struct bench_pt){ box.x + box.width - 10, y }, FORM_RIGHT, FORM_NOTE_STRONG, FORM_BLUE, own_width,
              bench_number(p->a, own->mm, unit));
    draw_dot(p, rule, c, position);
}

void bench_draw_chart(struct form_picture *p, struct bench_box box, const struct job *job, enum units_length unit)
{
    if (bench_chart_height(job->pattern) <= 0)
        return;
    struct columns c = columns_of(p, box, job, unit);
    double top = box.y + row_height;
    draw_head(p, box, job, &c, unit);
    for (size_t row = 0; row < job->pattern->row_count; row++)
        if (tells_sizes(job->pattern, row)) {
            draw_row(p, box, job, &c, row, top, unit);
            top += row_height;
        }
}
