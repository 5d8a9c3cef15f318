/* Every seam walked from notch to notch, in every size. */
#include "app/check_seams.h"

#include <math.h>

static const struct err_kind seam_off = { "check.seam_off", ERR_FAULT,
                                          BASE_TR("seam “{0}” misses its intended difference by {1} in size {2}{3}") };
static const struct err_kind marks_differ = {
    "check.marks_differ", ERR_FAULT,
    BASE_TR("seam “{0}” has {1} on its first side and {2} on its second, so that they cannot be matched")
};

static const struct err_kind marks_unlike = { "check.marks_unlike", ERR_WARNING,
                                              BASE_TR("seam “{0}”: notch {1} is double on one side and single on the "
                                                      "other; make them alike, or they are taken for others") };

size_t check_shown_size(const struct pattern *p)
{
    return (p->size_count - 1) / 2;
}

struct fit_interval check_interval_at(const struct check_seam *s, size_t size, size_t interval)
{
    const struct fit_seam *m = &s->sizes[size];
    if (interval < m->interval_count)
        return m->intervals[interval];
    double difference = m->length_mm[0] - m->length_mm[1];
    return (struct fit_interval){ { m->length_mm[0], m->length_mm[1] }, difference - m->off_mm, m->off_mm };
}

size_t check_worst_size(const struct check_seam *s, size_t size_count, size_t interval)
{
    size_t worst = s->worst_size;
    double most = -1;
    for (size_t i = 0; i < size_count; i++) {
        double off = fabs(check_interval_at(s, i, interval).off_mm);
        if (!s->sizes[i].interval_count || off <= most)
            continue;
        worst = i;
        most = off;
    }
    return worst;
}

/* A piece of no cup group is cut with any of them; where its formulas do not read a bust, the first will do. */
static struct check_seam walk(const struct check_pattern *k, const struct pattern_seam *seam, size_t group)
{
    const struct pattern *p = k->p;
    struct fit_seam *sizes = base_arena_alloc(k->c->a, p->size_count, sizeof *sizes);
    struct check_seam s = { .seam = seam, .sizes = sizes, .worst_mm = -1 };
    s.cup_group = k->groups_differ ? (int)group : seam->cup_group;
    for (size_t i = 0; i < p->size_count; i++) {
        const struct draft_sized *sized = check_draft_at(k, group, i)->sized;
        if (!fit_seam_can_be_measured(sized, seam))
            continue;
        sizes[i] = fit_seam_measure(k->c->a, sized, seam);
        if (sizes[i].worst_mm <= s.worst_mm)
            continue;
        s.worst_mm = sizes[i].worst_mm;
        s.worst_size = i;
    }
    return s;
}

static const char *where_text(const struct check_pattern *k, const struct check_seam *s)
{
    const struct fit_seam *m = &s->sizes[s->worst_size];
    const char *where = "";
    if (m->interval_count > 1 && m->worst_interval == m->interval_count)
        where = base_arena_print(k->c->a, base_tr(", all %zu intervals together"), m->interval_count);
    else if (m->interval_count > 1)
        where = base_arena_print(k->c->a, base_tr(", interval %zu of %zu"), m->worst_interval + 1, m->interval_count);
    return base_arena_print(k->c->a, "%s%s", where, check_group_text(k, s->cup_group));
}

static void tell_marks_differ(const struct check_pattern *k, const struct pattern_seam *seam)
{
    const char *sides[2];
    for (int side = 0; side < 2; side++)
        sides[side] = check_count(k->c->a, pattern_seam_marks(k->p, seam, side), "%zu notch", "%zu notches");
    base_err(k->c->errs, &marks_differ, seam->place, ERR_TEXT(seam->label), ERR_TEXT(sides[0]), ERR_TEXT(sides[1]));
}

static void judge(const struct check_pattern *k, const struct check_seam *s)
{
    const struct fit_seam *m = &s->sizes[s->worst_size];
    if (!m->marks_agree)
        tell_marks_differ(k, s->seam);
    if (m->unlike_mark)
        base_err(k->c->errs, &marks_unlike, s->seam->place, ERR_TEXT(s->seam->label), ERR_NUMBER(m->unlike_mark));
    if (s->worst_mm > FIT_SEAM_TOLERANCE_MM)
        base_err(k->c->errs, &seam_off, s->seam->place, ERR_TEXT(s->seam->label), ERR_OFF_MM(s->worst_mm),
                 ERR_TEXT(k->p->sizes[s->worst_size]), ERR_TEXT(where_text(k, s)));
}

/* What is wrong with the pieces of a seam that cannot be measured has been told. */
void check_seams(struct check_pattern *k)
{
    struct check_seam *seams = base_arena_alloc(k->c->a, k->p->seam_count * k->group_count, sizeof *seams);
    size_t count = 0;
    for (size_t i = 0; i < k->p->seam_count; i++) {
        const struct pattern_seam *seam = &k->p->seams[i];
        bool in_each = k->groups_differ && seam->cup_group == PATTERN_NONE;
        size_t group = check_first_group(seam->cup_group), end = in_each ? k->group_count : group + 1;
        for (; group < end; group++) {
            seams[count] = walk(k, seam, group);
            if (seams[count].worst_mm >= 0)
                judge(k, &seams[count++]);
        }
    }
    check_print_seams(k, seams, count);
    if (k->c->json)
        check_write_seams(k, seams, count);
}
