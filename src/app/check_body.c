/* What is drafted to a body alone: read in the body that is given with the pattern, else noted. */
#include "app/check_state.h"
#include "fit/mismatch.h"
#include "job/job.h"

#include <string.h>

static const struct err_kind body_alone = {
    "check.body_alone", ERR_WARNING, BASE_TR("piece “{0}” is drafted to a body alone; give --body to have it read")
};
static const struct err_kind formula_alone = {
    "check.formula_alone", ERR_WARNING,
    BASE_TR("the formula “{0}” reads “{1}” of a body alone; give --body to have it read")
};

static bool begins_with(const char *path, const char *word)
{
    return path && strncmp(path, word, strlen(word)) == 0;
}

void check_sift_body_alone(struct check_pattern *k, struct err_list *found, int *drafted)
{
    int kept = 0, kept_drafted = 0;
    for (int i = 0; i < found->count; i++) {
        const struct err *e = &found->items[i];
        if (strcmp(e->kind->code, "draft.no_figure") != 0) {
            kept_drafted += i < *drafted;
            found->items[kept++] = *e;
            continue;
        }
        base_err(k->body_alone, &formula_alone, e->place, e->args[0], e->args[2]);
    }
    found->count = kept;
    *drafted = kept_drafted;
}

/* The pieces that lean on such a formula could not be worked out in any size. */
static bool note_pieces(const struct check_pattern *k)
{
    bool noted = false;
    for (size_t i = 0; i < k->p->piece_count; i++) {
        const struct draft *draft = check_draft_at(k, check_first_group(k->p->pieces[i].cup_group), 0);
        if (!draft->sized || draft->sized->pieces[i].is_sound)
            continue;
        base_err(k->c->errs, &body_alone, k->p->pieces[i].place, ERR_TEXT(k->p->pieces[i].name));
        noted = true;
    }
    return noted;
}

/* A value that a piece reads is noted with the piece. */
static void note_body_alone(struct check_pattern *k)
{
    bool noted = k->body_alone->count && note_pieces(k);
    struct err_list *others = base_err_list_create();
    for (int i = 0; i < k->body_alone->count; i++) {
        const struct err *e = &k->body_alone->items[i];
        bool is_counted = begins_with(e->place.path, "views") || begins_with(e->place.path, "notions");
        if (is_counted || !noted)
            base_err_add(others, e->kind, e->place, e->args);
    }
    check_tell_new(k->c, others, 0);
    base_err_list_destroy(others);
}

/* The pattern for the body, by the measurements and by the size and cup group nearest to them; NULL, told, when there
 * is none. */
static const struct job *make_job(struct check *c, const struct pattern *p)
{
    struct job_choices choices = { .pattern = c->path, .body = c->body, .all_pieces = true, .made_to = "body" };
    if (!pattern_has_chart(p)) /* a size only stands in for what she has not measured */
        choices.size = p->sizes[0];
    if (p->cup_group_count && !pattern_has_group_busts(p))
        choices.cup_group = p->cup_groups[0].name;
    struct job *job = base_arena_alloc(c->a, 1, sizeof *job);
    return job_make(c->a, &choices, job, NULL, c->errs) ? job : NULL;
}

static void check_in_body(struct check_pattern *k)
{
    const struct job *job = make_job(k->c, k->p);
    struct draft draft;
    if (!job)
        return;
    struct draft_figure figure = job_figure(job);
    struct pattern with = check_with_all(k, figure.cup_group);
    struct err_list *found = base_err_list_create();
    bool ok = draft_make(k->c->a, &with, &figure, 0, &draft, found);
    int drafted = found->count;
    check_drafted(k->p, &draft, pattern_size_shown(k->c->a, k->p, figure.position), found);
    if (ok)
        fit_tell_mismatches(draft.sized, NULL, found);
    check_tell_new(k->c, found, drafted);
    base_err_list_destroy(found);
    check_say(k->c, base_arena_print(k->c->a, base_tr("Drafted to the measurements of “%s”, too"), job->body->name));
}

void check_to_body(struct check_pattern *k)
{
    if (k->c->body)
        check_in_body(k);
    else
        note_body_alone(k);
    base_err_list_destroy(k->body_alone);
}
