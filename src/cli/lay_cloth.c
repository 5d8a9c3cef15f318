#include "cli/lay_cloth.h"

#include "base/text.h"
#include "job/cloth.h"

#include <string.h>

#define LEAST_WIDTH_MM 10.0
#define MOST_WIDTH_MM 10000.0

enum { MATERIALS = PATTERN_LINING + 1 };

static const struct spread_row {
    const char *word;
    enum cloth_spread_kind kind;
} spread_rows[] = {
    { "single", CLOTH_SINGLE },
    { "folded", CLOTH_FOLDED },
    { "to the middle", CLOTH_TO_MIDDLE },
    { "across", CLOTH_FOLDED_ACROSS },
};

static bool read_material(struct cli_run *run, struct cli_lay_wish *out)
{
    const char *text = run->args.value[OPT_FOR];
    int m = 0;
    out->all = !text;
    out->material = PATTERN_FABRIC;
    while (text && m < MATERIALS && strcmp(text, pattern_cloth_name((enum pattern_cloth)m)) != 0)
        m++;
    if (m == MATERIALS)
        return cli_wrong(run, "--for is fabric, lining or interfacing, not “{0}”", text);
    out->material = (enum pattern_cloth)m;
    return true;
}

static bool read_width(struct cli_run *run, struct cli_lay_wish *out)
{
    const char *text = run->args.value[OPT_WIDTH];
    out->says_width = text != NULL;
    if (!text || (units_parse_length(text, run->unit, &out->width_mm) && out->width_mm >= LEAST_WIDTH_MM &&
                  out->width_mm <= MOST_WIDTH_MM))
        return true;
    return cli_wrong(run, "--width needs the width of the cloth, from 1 cm to 10 m, such as \"150 cm\", not “{0}”",
                     text);
}

static bool read_spread(struct cli_run *run, struct cli_lay_wish *out)
{
    const char *text = run->args.value[OPT_SPREAD], *depth = base_text_behind(text, "folded to ");
    out->says_spread = text != NULL;
    if (depth && units_parse_length(depth, run->unit, &out->fold_depth_mm) && out->fold_depth_mm > 0) {
        out->spread = CLOTH_FOLDED_TO;
        return true;
    }
    for (size_t i = 0; text && i < sizeof spread_rows / sizeof spread_rows[0]; i++)
        if (strcmp(text, spread_rows[i].word) == 0) {
            out->spread = spread_rows[i].kind;
            return true;
        }
    return !text ||
           cli_wrong(run, "--spread is single, folded, \"folded to 40 cm\", \"to the middle\" or across, not “{0}”",
                     text);
}

bool cli_lay_read_wish(struct cli_run *run, struct cli_lay_wish *out)
{
    *out = (struct cli_lay_wish){ .says_cloth = run->args.value[OPT_ON] != NULL };
    return read_material(run, out) && read_width(run, out) && read_spread(run, out);
}

void cli_lay_settle(struct cli_lay_wish *wish, const struct draft *draft)
{
    int count = 0, last = PATTERN_FABRIC;
    for (int m = 0; m < MATERIALS; m++)
        if (lay_is_cut(draft, (enum pattern_cloth)m)) {
            count++;
            last = m;
        }
    if (wish->all && count == 1)
        wish->material = (enum pattern_cloth)last;
}

/* The widest that shops have; interfacing is fusible, and cut by the piece, so in a single layer. */
static struct cloth usual_cloth(enum units_length unit, enum pattern_cloth material)
{
    const double *widths;
    size_t count = cloth_common_widths(unit, material == PATTERN_INTERFACING, &widths);
    struct cloth cloth = cloth_plain(widths[count - 1]);
    cloth.spread = material == PATTERN_INTERFACING ? CLOTH_SINGLE : CLOTH_FOLDED;
    return cloth;
}

/* A scrap is as wide as its outline. The job's own gives way to other cloth where that is told wholly. */
static bool leave_scrap(struct cli_run *run, const struct cli_lay_wish *wish, enum pattern_cloth material,
                        struct cli_lay_cloth *out)
{
    if (!out->is_jobs)
        return cli_wrong(run, "a scrap is as wide as its outline; leave {0} out", "--width");
    if (!wish->says_spread)
        return cli_wrong(run,
                         "the job's cloth is a scrap, as wide as its outline; for other cloth say how that is spread, "
                         "too: add {0}",
                         "--spread");
    struct cloth plain = cloth_plain(wish->width_mm);
    plain.unit = out->cloth.unit;
    out->cloth = plain;
    if (material == PATTERN_INTERFACING)
        cloth_make_interfacing(&out->cloth);
    return true;
}

static bool apply_width(struct cli_run *run, const struct cli_lay_wish *wish, enum pattern_cloth material,
                        struct cli_lay_cloth *out)
{
    if (out->cloth.outline.path.count && !leave_scrap(run, wish, material, out))
        return false;
    out->cloth.width_mm = wish->width_mm;
    out->cloth.washed_width_mm = 0;
    out->file = NULL;
    out->is_usual = out->is_jobs = false;
    return true;
}

static void apply_spread(const struct cli_lay_wish *wish, struct cli_lay_cloth *out)
{
    out->cloth.spread = wish->spread;
    if (wish->spread == CLOTH_FOLDED_TO)
        out->cloth.fold_depth_mm = wish->fold_depth_mm;
    out->file = NULL;
    out->may_be_opened = out->is_jobs = false;
}

/* The very cloth that the job has already, told anew. */
static bool is_same(const struct cloth *a, const struct cloth *b)
{
    struct arena *scratch = base_arena_create();
    struct json_out *one = json_out_create(), *other = json_out_create();
    cloth_write(one, a);
    cloth_write(other, b);
    bool same = strcmp(json_out_print(scratch, one), json_out_print(scratch, other)) == 0;
    json_out_destroy(one);
    json_out_destroy(other);
    base_arena_destroy(scratch);
    return same;
}

bool cli_lay_choose(struct cli_run *run, const struct cli_lay_wish *wish, const struct job *job,
                    enum pattern_cloth material, struct cli_lay_cloth *out)
{
    const struct job_cloth *own = job_find_cloth(job, material);
    bool is_meant = material == wish->material;
    if (is_meant && wish->says_cloth)
        *out = (struct cli_lay_cloth){ .cloth = wish->cloth, .file = run->args.value[OPT_ON] };
    else if (own)
        *out = (struct cli_lay_cloth){ .cloth = own->cloth, .file = run->args.operand, .is_jobs = true };
    else
        *out = (struct cli_lay_cloth){ .cloth = usual_cloth(cli_person_unit(run, job), material),
                                       .is_usual = true,
                                       .may_be_opened = true };
    if (material == PATTERN_INTERFACING)
        cloth_make_interfacing(&out->cloth);
    if (is_meant && wish->says_width && !apply_width(run, wish, material, out))
        return false;
    if (is_meant && wish->says_spread)
        apply_spread(wish, out);
    out->is_jobs = out->is_jobs || (own && is_same(&own->cloth, &out->cloth));
    return true;
}

void cli_lay_pass_on(struct cli_run *run, const struct cli_lay_cloth *of, enum pattern_cloth material,
                     const struct err_list *told)
{
    const struct err_place place = { .file = of->file, .path = of->file ? NULL : base_tr(pattern_cloth_name(material)) };
    for (int i = 0; i < told->count; i++) {
        const struct err *e = &told->items[i];
        bool of_cloth = base_text_behind(e->kind->code, "cloth.") && !e->place.file; /* found by that folder */
        base_err_add(run->errs, e->kind, of_cloth ? place : e->place, e->args);
    }
}
