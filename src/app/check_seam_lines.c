/* How walked seams are shown: lines in columns, and JSON. */
#include "app/amount.h"
#include "app/check_seams.h"
#include "app/columns.h"
#include "base/text.h"

#include <math.h>

#define EQUAL_MM 0.005  /* less is not shown */
#define HALF_UP_MM 1e-6 /* a half is rounded up on both sides of a seam, whatever its last bit */

enum { NARROWEST_NAME = 20, WIDEST_NAME = 44 }; /* a longer name pushes its own line to the right */

/* Decimals that a length is shown with: a tenth or a quarter of a millimetre. */
static const int decimals[] = { [UNITS_MM] = 1, [UNITS_CM] = 2, [UNITS_IN] = 2 };

const char *check_length_text(const struct check_pattern *k, double mm)
{
    return app_fixed(k->c->a, (mm + HALF_UP_MM) / units_mm_per(k->p->unit), decimals[k->p->unit]);
}

static const char *ratio_text(struct arena *a, double ratio)
{
    if (ratio == 1)
        return base_tr_in("both sides of a seam", "equal");
    return ratio > 1 ? base_arena_print(a, base_tr("gathered or folded %s : 1"), app_figures(a, ratio, 4))
                     : base_arena_print(a, base_tr("gathered or folded 1 : %s"), app_figures(a, 1 / ratio, 4));
}

static const char *meant_text(const struct check_pattern *k, double ratio, double meant_mm)
{
    if (ratio > 0)
        return ratio_text(k->c->a, ratio);
    if (fabs(meant_mm) < EQUAL_MM)
        return base_tr_in("both sides of a seam", "equal");
    /* To: “first eased by 1.2 cm”: the first side of the seam */
    return base_arena_print(k->c->a, meant_mm > 0 ? base_tr("first eased by %s %s") : base_tr("second eased by %s %s"),
                            check_length_text(k, fabs(meant_mm)), units_shown_name(k->p->unit));
}

/* The columns of lengths and of what they are off by are as wide as their headings, and at least so wide. */
struct widths {
    int name, first, second, off, size;
};

static const char *row_text(struct arena *a, const struct widths *w, const char *name, const char *first,
                            const char *second, const char *off, const char *size, const char *meant)
{
    return base_arena_print(a, "  %s %s %s %s  %s  %s", app_columns_padded(a, name, -w->name),
                            app_columns_padded(a, first, w->first), app_columns_padded(a, second, w->second),
                            app_columns_padded(a, off, w->off), app_columns_padded(a, size, -w->size), meant);
}

/* A line of the table; `interval` past the last is the whole seam. */
static void say_line(struct check_pattern *k, const struct check_seam *s, size_t interval, const char *name,
                     const struct widths *widths)
{
    struct arena *a = k->c->a;
    size_t shown = check_shown_size(k->p), worst = check_worst_size(s, k->p->size_count, interval);
    bool is_there = s->sizes[shown].interval_count > 0;
    struct fit_interval at = check_interval_at(s, is_there ? shown : worst, interval);
    bool is_whole = interval == s->sizes[s->worst_size].interval_count;
    const char *group = is_whole ? check_group_text(k, s->cup_group) : "";
    const char *meant = meant_text(k, s->sizes[is_there ? shown : worst].ratio, at.meant_mm);
    check_say(k->c, row_text(a, widths, name, is_there ? check_length_text(k, at.length_mm[0]) : "-",
                             is_there ? check_length_text(k, at.length_mm[1]) : "-",
                             app_fixed(a, fabs(check_interval_at(s, worst, interval).off_mm), 2), k->p->sizes[worst],
                             base_arena_print(a, "%s%s", meant, group)));
}

static void say_seam(struct check_pattern *k, const struct check_seam *s, const struct widths *widths)
{
    const struct fit_seam *m = &s->sizes[s->worst_size];
    say_line(k, s, m->interval_count, s->seam->label, widths);
    if (!m->marks_agree)
        check_say(k->c, base_arena_print(
                            k->c->a, base_tr("    not walked: %s against %s"),
                            check_count(k->c->a, pattern_seam_marks(k->p, s->seam, 0), "%zu notch", "%zu notches"),
                            check_count(k->c->a, pattern_seam_marks(k->p, s->seam, 1), "%zu notch", "%zu notches")));
    for (size_t i = 0; m->interval_count > 1 && i < m->interval_count; i++)
        say_line(k, s, i, base_arena_print(k->c->a, base_tr("  %zu of %zu"), i + 1, m->interval_count), widths);
}

static int wide(const char *heading, int least)
{
    int letters = (int)base_text_letters(heading);
    return letters > least ? letters : least;
}

void check_print_seams(struct check_pattern *k, const struct check_seam *seams, size_t count)
{
    struct arena *a = k->c->a;
    int width = NARROWEST_NAME;
    for (size_t i = 0; i < count; i++) {
        int name = (int)base_text_letters(seams[i].seam->label);
        width = name > width && name <= WIDEST_NAME ? name : width;
    }
    if (!count)
        return;
    check_say(k->c, base_arena_print(a,
                                     base_tr("Seams on the stitching line: lengths of size %s (%s), the worst miss "
                                             "of all sizes in mm, what is meant"),
                                     k->p->sizes[check_shown_size(k->p)], units_shown_name(k->p->unit)));
    const char *first = base_tr_in("side of a seam", "first"), *second = base_tr_in("side of a seam", "second");
    const char *off = base_tr_in("heading", "off"), *size = base_tr_in("heading", "size");
    const struct widths widths = { width, wide(first, 8), wide(second, 8), wide(off, 7), wide(size, 4) };
    check_say(k->c, row_text(a, &widths, "", first, second, off, size, base_tr_in("heading", "meant")));
    for (size_t i = 0; i < count; i++)
        say_seam(k, &seams[i], &widths);
}

/* One list with a number for each size in which the seam can be measured; null elsewhere. */
static void write_list(const struct check_pattern *k, const struct check_seam *s, struct json_out *to, size_t interval,
                       const char *key, double (*number)(const struct fit_interval *))
{
    struct json_out *list = json_out_list(to, key);
    for (size_t i = 0; i < k->p->size_count; i++) {
        struct fit_interval at = check_interval_at(s, i, interval);
        if (s->sizes[i].interval_count)
            json_out_number(list, NULL, number(&at));
        else
            json_out_text(list, NULL, NULL);
    }
}

static double first_of(const struct fit_interval *at)
{
    return at->length_mm[0];
}

static double second_of(const struct fit_interval *at)
{
    return at->length_mm[1];
}

static double meant_of(const struct fit_interval *at)
{
    return at->meant_mm;
}

static double off_of(const struct fit_interval *at)
{
    return at->off_mm;
}

static void write_interval(const struct check_pattern *k, const struct check_seam *s, struct json_out *to,
                           size_t interval)
{
    static const struct {
        const char *key;
        double (*number)(const struct fit_interval *);
    } rows[] = {
        { "first_mm", first_of }, { "second_mm", second_of }, { "meant_mm", meant_of }, { "off_mm_by_size", off_of }
    };
    size_t worst = check_worst_size(s, k->p->size_count, interval);
    json_out_text(to, "size", k->p->sizes[worst]);
    json_out_number(to, "off_mm", fabs(check_interval_at(s, worst, interval).off_mm));
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        write_list(k, s, to, interval, rows[i].key, rows[i].number);
}

static void write_seam(const struct check_pattern *k, const struct check_seam *s, struct json_out *row)
{
    const struct fit_seam *m = &s->sizes[s->worst_size];
    json_out_text(row, "seam", s->seam->name);
    json_out_text(row, "cup_group", s->cup_group == PATTERN_NONE ? NULL : k->p->cup_groups[s->cup_group].name);
    json_out_bool(row, "notches_match", m->marks_agree);
    if (m->ratio > 0)
        json_out_number(row, "ratio", m->ratio);
    json_out_number(row, "worst_mm", s->worst_mm);
    write_interval(k, s, row, m->interval_count);
    struct json_out *intervals = json_out_list(row, "intervals");
    for (size_t i = 0; i < m->interval_count; i++)
        write_interval(k, s, json_out_object(intervals, NULL), i);
}

void check_write_seams(const struct check_pattern *k, const struct check_seam *seams, size_t count)
{
    struct json_out *list = json_out_list(k->c->json, "seams");
    for (size_t i = 0; i < count; i++)
        write_seam(k, &seams[i], json_out_object(list, NULL));
}
