/* The layout of a view's pieces on its cloths: searched for, told, kept in the job, drawn. */
#include "app/block.h"
#include "app/fitted.h"
#include "app/lay_report.h"
#include "app/tear_report.h"
#include "app/torn.h"
#include "base/text.h"
#include "base/words.h"
#include "cli/lay_cloth.h"
#include "cli/memory.h"
#include "export/lay_svg.h"
#include "export/tear_svg.h"
#include "job/cloth.h"
#include "job/places.h"

#include <errno.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

/* Searching ends when nothing was gained for a good while: so many rounds and a third of all. For a garment of a dozen
 * pieces that is some seconds. */
enum { PATIENCE_ROUNDS = 12, MATERIALS = PATTERN_LINING + 1, MOST_NAMED = 6 };

#define MOST_SECONDS 86400.0
#define PROGRESS_S 0.2
#define SAME_MM 0.5        /* blocks that a tape does not tell apart */
#define MOST_LEFT_OVER 0.1 /* a tenth; our own choice, no source */
#define CLEAR_LINE "\r\033[K"

static const struct err_kind held_stay = {
    "lay.held_stay", ERR_WARNING,
    BASE_TR("pieces that are held in place stay there; with --let-go all of the {0} is "
            "arranged anew")
};
static const struct err_kind held_lost = {
    "lay.held_lost", ERR_WARNING,
    BASE_TR(
        "{0} in the layout of the {1} {2} not cut like that any more; where it was held in place, that is let go")
};
static const struct err_kind off_grain = { "lay.off_grain", ERR_WARNING,
                                           BASE_TR("“{0}” stays {1}° off the grain, as it was laid by hand; "
                                                   "`chalklight arrange` turns it back if that is not meant") };
static const struct err_kind off_stripes = {
    "lay.off_stripes", ERR_WARNING,
    BASE_TR("“{0}” stays {1} off the stripes that it is matched by, as it was laid by hand")
};
static const struct err_kind left_out = {
    "lay.left_out", ERR_FAULT, BASE_TR("{0} of {1} pieces of the {2} do not fit on the cloth that is there")
};
static const struct err_kind not_this = { "lay.not_this_material", ERR_FAULT,
                                          BASE_TR("nothing of the view is cut from {0}; it has pieces of {1}") };
static const struct err_kind scrap_width = {
    "lay.scrap_width", ERR_WARNING, BASE_TR("a scrap is not bought in other widths, so --widths has none to tell")
};
static const struct err_kind other_block = { "lay.other_block", ERR_WARNING,
                                             BASE_TR("the fabric is fused in another block than its interfacing is "
                                                     "laid for: lay that anew, too, with --for interfacing") };
static const struct err_kind rests_help = { "lay.rests_help", ERR_WARNING,
                                            BASE_TR("what the torn strips leave has room for other pieces, but the "
                                                    "job leaves it alone: `{0}` has some of them cut of it") };
static const struct err_kind cut_stay = { "lay.cut_stay", ERR_WARNING,
                                          BASE_TR("what is cut of the {0} stays where it lies: {1}") };
static const struct err_kind stopped_early = { "lay.stopped", ERR_WARNING,
                                               BASE_TR("stopped as you asked; the best layout so far is kept") };
static const struct err_kind stopped_before = { "lay.stopped_before", ERR_FAULT,
                                                BASE_TR("stopped as you asked, before the {0} had a layout") };

/* Set by Ctrl-C. A signal's handler reaches nothing else than such a variable. */
static atomic_bool is_stopped;

struct lay_run {
    struct cli_run *run;
    struct cli_lay_wish wish;
    bool has_rounds, is_job;
    size_t most_rounds;
    double most_seconds; /* 0: not limited so */
    uint64_t seed;
    struct job job;
    struct draft draft;
    struct app_progress cut; /* of the job, as its journal says */
    struct base_pool *pool;
    enum units_length unit;
    double shown_s;                    /* when progress was shown last */
    bool replaces;                     /* another layout of the job */
    size_t laid, told;                 /* materials so far; told: also those all of which is torn */
    struct json_out *list, *file_list; /* of layouts, in the result and in the file of --out; or NULL */
};

/* --- what the options say ----------------------------------------------------------------------------------------- */

static bool read_whole(struct cli_run *run, enum cli_option o, unsigned long long most, unsigned long long *out)
{
    const char *text = run->args.value[o];
    char *end = NULL;
    errno = 0;
    *out = text && *text >= '0' && *text <= '9' ? strtoull(text, &end, 10) : 0;
    if (!text || (end && !*end && errno == 0 && *out <= most))
        return true;
    const char *sentence = base_arena_print(run->a, base_tr("%s needs a whole number from 0 to %llu, not “{0}”"),
                                            cli_option_usage(run->a, o), most);
    return cli_wrong(run, sentence, text);
}

static bool read_budget(struct lay_run *l)
{
    struct cli_run *run = l->run;
    unsigned long long rounds, seed;
    const char *seconds = run->args.value[OPT_SECONDS];
    char *end = NULL;
    if (!read_whole(run, OPT_ROUNDS, 1000 * 1000, &rounds) || !read_whole(run, OPT_SEED, UINT64_MAX, &seed))
        return false;
    l->has_rounds = run->args.value[OPT_ROUNDS] != NULL;
    l->most_rounds = (size_t)rounds;
    l->seed = seed;
    l->most_seconds = seconds ? strtod(seconds, &end) : 0;
    if (seconds && (end == seconds || *end || !(l->most_seconds > 0 && l->most_seconds <= MOST_SECONDS)))
        return cli_wrong(run, "--seconds needs a number above zero, up to a day, not “{0}”", seconds);
    if (seconds && l->has_rounds)
        return cli_wrong(run, "--rounds and {0} are two ends of one search; give one of them", "--seconds");
    return true;
}

static bool read_options(struct lay_run *l)
{
    const char *out = l->run->args.value[OPT_OUT];
    if (out && !cli_ends_in(out, ".svg") && !cli_ends_in(out, ".json"))
        return cli_wrong(l->run,
                         "--out needs a name that ends in .svg for a drawing or in .json for figures, not “{0}”", out);
    return read_budget(l) && cli_lay_read_wish(l->run, &l->wish);
}

/* --- searching ---------------------------------------------------------------------------------------------------- */

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void stop(int signal_number)
{
    (void)signal_number;
    is_stopped = true;
}

/* The first Ctrl-C stops the search of a material; the next one ends the program, as it does any other. */
static void hear_stop(void)
{
    is_stopped = false;
    struct sigaction action = { .sa_handler = stop };
    action.sa_flags = (int)SA_RESETHAND;
    sigemptyset(&action.sa_mask);
    sigaction(SIGINT, &action, NULL);
}

/* On a terminal, how far it is. */
static void show_progress(struct lay_run *l, const struct lay_task *task, const struct lay_search *search)
{
    if (!isatty(STDERR_FILENO) || now_s() - l->shown_s < PROGRESS_S)
        return;
    struct arena *a = base_arena_create();
    struct lay best = lay_search_best(a, search);
    fprintf(stderr, CLEAR_LINE "%s ",
            base_arena_print(a, base_tr("Layout of the %s: %s"), base_tr(pattern_cloth_name(task->material)),
                             app_lay_short(a, &best, l->unit)));
    base_arena_destroy(a);
    l->shown_s = now_s();
}

static void clear_progress(struct lay_run *l)
{
    if (l->shown_s > 0)
        fputs(CLEAR_LINE, stderr);
    l->shown_s = 0;
}

static bool is_enough(const struct lay_run *l, const struct lay_search *search, double begun_s)
{
    size_t rounds = lay_search_rounds(search);
    if (is_stopped || !lay_search_can_gain(search))
        return true;
    if (l->has_rounds)
        return rounds >= l->most_rounds;
    if (l->most_seconds > 0)
        return now_s() - begun_s >= l->most_seconds;
    return lay_search_rounds_without_gain(search) >= PATIENCE_ROUNDS + rounds / 3;
}

/* False with the reasons when there is no layout at all. */
static bool search(struct lay_run *l, const struct lay_task *task, const struct lay_place *held, struct lay *out,
                   size_t *rounds)
{
    double begun = now_s();
    struct lay_search *s = lay_search_begin(task, held, l->seed, l->pool, &is_stopped, l->run->errs);
    if (!s && held)
        base_err(l->run->errs, &held_stay, base_err_in_file(NULL),
                 ERR_TEXT(base_tr(pattern_cloth_name(task->material))));
    if (!s)
        return false;
    while (!is_enough(l, s, begun)) {
        lay_search_round(s, &is_stopped);
        show_progress(l, task, s);
    }
    clear_progress(l);
    *out = lay_search_best(l->run->a, s);
    *rounds = lay_search_rounds(s);
    lay_search_end(s);
    return true;
}

/* --- one material ------------------------------------------------------------------------------------------------- */

/* Of what is cut through two layers, how much is left over, as the view wants one of the two alone. */
static double left_over(const struct lay_task *task)
{
    double all = 0, left = 0;
    for (size_t i = 0; i < task->item_count; i++) {
        const struct lay_item *item = &task->items[i];
        double area = geometry_path_area(item->piece->cut.path);
        all += area * item->layers;
        left += item->on_fold ? 0 : area * (item->layers - item->copies);
    }
    return all > 0 ? left / all : 0;
}

static bool leaves_nothing(const struct tearing_plan *torn)
{
    return torn && app_torn_is_all(torn);
}

/* What is only warned of means nothing where nothing is laid. */
static struct err_list *only_faults(struct err_list *told)
{
    struct err_list *faults = base_err_list_create();
    for (int i = 0; i < told->count; i++)
        if (told->items[i].kind->severity == ERR_FAULT)
            base_err_add(faults, told->items[i].kind, told->items[i].place, told->items[i].args);
    base_err_list_destroy(told);
    return faults;
}

/* What is laid on that cloth. Where nobody said how it lies and folded it does not do, or too much would be left over,
 * it lies in a single layer. */
static bool make_task(struct lay_run *l, struct cli_lay_cloth *on, const struct app_material *m, struct lay_task *out,
                      const struct tearing_plan **torn)
{
    struct cli_run *run = l->run;
    struct err_list *told = base_err_list_create();
    bool ok = app_torn_task(run->a, m, out, torn, told);
    if (on->may_be_opened && (ok ? left_over(out) > MOST_LEFT_OVER : !is_stopped)) {
        base_err_list_destroy(told);
        told = base_err_list_create();
        on->cloth.spread = CLOTH_SINGLE;
        ok = app_torn_task(run->a, m, out, torn, told);
    }
    if (!ok)
        told = only_faults(told);
    cli_lay_pass_on(run, on, m->material, told);
    base_err_list_destroy(told);
    if (!ok && is_stopped)
        base_err(run->errs, &stopped_before, base_err_in_file(NULL),
                 ERR_TEXT(base_tr(pattern_cloth_name(m->material))));
    return ok;
}

/* Whether the job holds a piece of that material in place, and it is not let go. */
static bool holds_any(const struct lay_run *l, enum pattern_cloth material)
{
    const struct job_cloth *own = job_find_cloth(&l->job, material);
    size_t i = 0;
    while (own && i < own->laid_count && !own->laid[i].is_pinned)
        i++;
    return own && i < own->laid_count && !l->run->args.value[OPT_LET_GO];
}

/* Where the job's pieces lie. Where none is held all of it is arranged anew, and what is not cut any more says nothing.
 * False: something lies there that is not cut like that any more. */
static bool find_places(struct lay_run *l, const struct lay_task *task, struct lay_place **out)
{
    struct err_list *told = base_err_list_create();
    job_places(l->run->a, &l->job, task, out, told);
    if (told->count && holds_any(l, task->material))
        base_err_add(l->run->errs, &held_lost, base_err_in_file(NULL), told->items[0].args);
    bool same_list = told->count == 0;
    base_err_list_destroy(told);
    return same_list;
}

/* Which items are cut at the table; NULL: none, as far as is known. */
static const bool *cut_of(const struct lay_run *l, const struct lay_task *task, bool same_cloth)
{
    const struct app_cloth_progress *known = app_progress_find(&l->cut, task->material);
    return known && same_cloth && known->item_count == task->item_count ? known->begun : NULL;
}

static void tell_cut(struct lay_run *l, const struct lay_task *task, const bool *cut)
{
    struct arena *a = l->run->a;
    const char **names = base_arena_alloc(a, task->item_count, sizeof *names);
    size_t count = 0;
    for (size_t i = 0; i < task->item_count; i++)
        if (cut[i])
            names[count++] = lay_item_name(a, task, i);
    if (count)
        base_err(l->run->errs, &cut_stay, base_err_in_file(NULL), ERR_TEXT(base_tr(pattern_cloth_name(task->material))),
                 ERR_TEXT(base_text_list(a, names, count, MOST_NAMED)));
}

/* The places that are held, or cut; NULL where none are. Where they are let go, none is in `before` either. */
static const struct lay_place *held_of(struct lay_run *l, const struct lay_task *task, const bool *cut,
                                       struct lay_place *before)
{
    struct lay_place *held = base_arena_alloc(l->run->a, task->item_count, sizeof *held);
    size_t count = 0;
    for (size_t i = 0; i < task->item_count; i++) {
        if (l->run->args.value[OPT_LET_GO])
            before[i].is_pinned = false;
        if (before[i].is_laid && (before[i].is_pinned || (cut && cut[i]))) {
            held[i] = before[i];
            held[i].is_pinned = true;
            count++;
        }
    }
    return count ? held : NULL;
}

/* Off the grain or the stripes a piece lies on purpose: only by hand it comes there. */
static bool may_lie_so(struct arena *a, const struct lay *lay)
{
    const struct lay_finding *f;
    size_t count = lay_judge(a, lay, &f), i = 0;
    while (i < count && (f[i].fault == LAY_OFF_GRAIN || f[i].fault == LAY_OFF_REPEAT))
        i++;
    return i == count;
}

static void tell_by_hand(struct lay_run *l, const struct lay *lay)
{
    struct arena *a = l->run->a;
    const struct lay_finding *f;
    size_t count = lay_judge(a, lay, &f);
    for (size_t i = 0; i < count; i++) {
        const char *name = lay_item_name(a, lay->task, (size_t)f[i].item);
        if (f[i].fault == LAY_OFF_GRAIN)
            base_err(l->run->errs, &off_grain, base_err_in_file(NULL), ERR_TEXT(name),
                     ERR_NUMBER(round(10 * f[i].amount) / 10));
        if (f[i].fault == LAY_OFF_REPEAT)
            base_err(l->run->errs, &off_stripes, base_err_in_file(NULL), ERR_TEXT(name), ERR_OFF_MM(f[i].amount));
    }
}

/* What becomes of the layout that the job has beside the one that was found. */
static enum app_lay_before compare(struct arena *a, bool same_cloth, bool same_list, const struct lay *was,
                                   const struct lay *found)
{
    if (was->left_out == was->task->item_count)
        return APP_LAY_NONE_BEFORE;
    if (!same_cloth)
        return APP_LAY_OTHER_CLOTH;
    if (!same_list)
        return APP_LAY_OTHER_LIST;
    if (!may_lie_so(a, was))
        return APP_LAY_WAS_WRONG;
    if (was->left_out != found->left_out)
        return was->left_out < found->left_out ? APP_LAY_STAYS : APP_LAY_LACKED;
    return was->length_mm <= found->length_mm ? APP_LAY_STAYS : APP_LAY_WAS_LONGER;
}

static struct app_lay_width on_width(struct lay_run *l, const struct lay_task *task, const struct tearing_plan *torn,
                                     double width_mm)
{
    const struct lay_effort effort = { APP_LAY_WIDTH_ROUNDS, l->pool, &is_stopped };
    if (isatty(STDERR_FILENO))
        fprintf(stderr, CLEAR_LINE "%s ",
                base_arena_print(l->run->a, base_tr("Layout of the %s, other widths …"),
                                 base_tr(pattern_cloth_name(task->material))));
    struct app_lay_width row = app_lay_on_width(l->run->a, task, torn, width_mm, &effort, l->unit);
    if (isatty(STDERR_FILENO))
        fputs(CLEAR_LINE, stderr);
    return row;
}

static void add_widths(struct lay_run *l, const struct lay_task *task, struct app_layout *layout)
{
    double widths[APP_LAY_WIDTHS];
    size_t count = app_lay_other_widths(task, layout->torn, l->unit, widths);
    struct app_lay_width *rows = base_arena_alloc(l->run->a, count + 1, sizeof *rows);
    if (!l->run->args.value[OPT_WIDTHS])
        return;
    if (task->cloth->outline.path.count) {
        base_err(l->run->errs, &scrap_width, base_err_in_file(NULL), ERR_NONE);
        return;
    }
    for (size_t i = 0; i < count && !is_stopped; i++) {
        rows[layout->width_count] = on_width(l, task, layout->torn, widths[i]);
        if (is_stopped) /* its figures would be worse than that width's are */
            break;
        layout->width_count++;
    }
    layout->widths = rows;
}

/* A plan that was kept while all had a place leaves its rests alone. */
static void tell_rests(struct lay_run *l, const struct tearing_plan *torn)
{
    struct tearing_rests rests;
    if (torn && !torn->rests && tearing_rests_find(l->run->a, torn, &rests) && rests.count)
        base_err(l->run->errs, &rests_help, base_err_in_file(NULL),
                 ERR_TEXT(base_arena_print(l->run->a, "chalklight tear %s --keep", l->run->args.operand)));
}

/* What all of it would need where some of it has no place. */
static void add_needed(struct lay_run *l, const struct lay_task *task, struct app_layout *layout)
{
    const struct lay *lay = layout->lay;
    size_t rounds = l->has_rounds || layout->rounds > APP_LAY_WIDTH_ROUNDS ? layout->rounds : APP_LAY_WIDTH_ROUNDS;
    const struct lay_effort effort = { rounds, l->pool, &is_stopped };
    if (!lay->left_out)
        return;
    base_err(l->run->errs, &left_out, base_err_in_file(NULL), ERR_NUMBER(lay->left_out), ERR_NUMBER(task->item_count),
             ERR_TEXT(base_tr(pattern_cloth_name(task->material))));
    tell_rests(l, layout->torn);
    layout->fits_on_more = !is_stopped && lay_on_enough(l->run->a, task, &effort, &layout->on_more, l->unit);
}

static bool is_wanted(const struct lay_run *l, enum pattern_cloth material)
{
    return lay_is_cut(&l->draft, material) && (l->wish.all || material == l->wish.material);
}

/* "lay-lining.svg" of "lay.svg" where there are several. */
static const char *drawing_path(const struct lay_run *l, enum pattern_cloth material)
{
    const char *out = l->run->args.value[OPT_OUT], *ending = strrchr(out, '.');
    int count = 0;
    for (int m = 0; m < MATERIALS; m++)
        count += is_wanted(l, (enum pattern_cloth)m);
    if (count == 1)
        return out;
    return base_arena_print(l->run->a, "%.*s-%s%s", (int)(ending - out), out, pattern_cloth_name(material), ending);
}

/* A file that is there already, or cannot be made, is told of before anything is searched for. */
static bool may_write(struct lay_run *l)
{
    const char *out = l->run->args.value[OPT_OUT];
    bool ok = !out || (cli_has_folder(l->run, out) && (!cli_ends_in(out, ".json") || cli_may_save(l->run, out)));
    for (int m = 0; out && cli_ends_in(out, ".svg") && m < MATERIALS; m++)
        if (is_wanted(l, (enum pattern_cloth)m))
            ok = cli_may_save(l->run, drawing_path(l, (enum pattern_cloth)m)) && ok;
    return ok;
}

/* Where a drawing is asked for. */
static bool draw(struct lay_run *l, enum pattern_cloth material, const char *text, struct json_out *told)
{
    struct cli_run *run = l->run;
    const char *path = drawing_path(l, material);
    if (cli_save_text(run, path, text) != CLI_OK)
        return false;
    if (told)
        json_out_text(told, "drawing", path);
    cli_say(run, "\n  %s", base_arena_print(run->a, base_tr("Drawn at true scale: %s"), path));
    return true;
}

static bool is_drawn(const struct lay_run *l)
{
    const char *out = l->run->args.value[OPT_OUT];
    return out && cli_ends_in(out, ".svg");
}

static bool tell(struct lay_run *l, const struct app_layout *layout)
{
    struct cli_run *run = l->run;
    struct json_out *told = l->list ? json_out_object(l->list, NULL) : NULL;
    if (told)
        app_lay_json(run->a, told, layout, l->unit);
    if (l->file_list)
        app_lay_json(run->a, json_out_object(l->file_list, NULL), layout, l->unit);
    const char *report = app_lay_report(run->a, layout, l->unit);
    cli_say(run, "%s%.*s", l->told++ ? "\n" : "", (int)strlen(report) - 1, report); /* without its last line end */
    l->laid++;
    return !is_drawn(l) || draw(l, layout->lay->task->material,
                                export_lay_svg(run->a, layout->lay, app_lay_title(run->a, layout, l->unit)), told);
}

/* The tearing plan is the drawing where there is nothing else. */
static bool tell_torn(struct lay_run *l, const struct tearing_plan *torn, bool is_usual)
{
    struct cli_run *run = l->run;
    enum pattern_cloth material = torn->task->material;
    const struct export_words w = { .a = run->a, .unit = l->unit, .fraction = 8 };
    const struct app_tearing tearing = { .plan = torn, .title = l->job.pattern->name };
    struct json_out *told = l->list ? json_out_object(l->list, NULL) : NULL;
    if (told)
        app_lay_torn_json(run->a, told, torn, is_usual);
    if (l->file_list)
        app_lay_torn_json(run->a, json_out_object(l->file_list, NULL), torn, is_usual);
    const char *says = torn->rests ? base_tr("All that is cut of the %s is torn or cut of what strips leave; "
                                             "`chalklight tear` says how.")
                                   : base_tr("All that is cut of the %s is torn; `chalklight tear` says how.");
    cli_say(run, "%s%s", l->told++ ? "\n" : "", base_arena_print(run->a, says, base_tr(pattern_cloth_name(material))));
    return !is_drawn(l) || draw(l, material, export_tear_svg(&w, torn, app_tear_title(&w, &tearing)), told);
}

static void keep(struct lay_run *l, const struct cli_lay_cloth *on, const struct lay *lay)
{
    const struct job_cloth *before = job_find_cloth(&l->job, lay->task->material);
    l->replaces = l->replaces || (before && before->laid_count);
    if (!on->is_jobs)
        job_set_cloth(l->run->a, &l->job, lay->task->material, &on->cloth);
    job_keep_places(l->run->a, &l->job, lay->task, lay->places);
}

/* Another cloth is only tried where the job's is partly cut. */
static bool may_change(const struct lay_run *l, enum pattern_cloth material, const struct cli_lay_cloth *on)
{
    struct job other = l->job;
    if (on->is_jobs || l->run->args.value[OPT_TRY])
        return true;
    job_set_cloth(l->run->a, &other, material, &on->cloth);
    return app_progress_allows(&l->cut, &l->job, &other, l->run->errs);
}

static bool lay_material(struct lay_run *l, enum pattern_cloth material)
{
    struct arena *a = l->run->a;
    struct cli_lay_cloth *on = base_arena_alloc(a, 1, sizeof *on);
    struct lay_task *task = base_arena_alloc(a, 1, sizeof *task);
    struct lay_place *before;
    struct lay found, was;
    struct app_layout layout = { .lay = &found };
    struct app_material m = { &l->job, &l->draft, &on->cloth, material, l->unit, &is_stopped };
    if (!cli_lay_choose(l->run, &l->wish, &l->job, material, on) || !may_change(l, material, on))
        return false;
    if (!make_task(l, on, &m, task, &layout.torn))
        return leaves_nothing(layout.torn) && tell_torn(l, layout.torn, on->is_usual);
    bool same_list = find_places(l, task, &before);
    const bool *cut = cut_of(l, task, on->is_jobs);
    if (cut)
        tell_cut(l, task, cut);
    if (!search(l, task, held_of(l, task, cut, before), &found, &layout.rounds))
        return false;
    for (size_t i = 0; cut && i < task->item_count; i++)
        if (cut[i])
            found.places[i] = before[i];
    was = lay_of(a, task, before);
    layout.is_usual = on->is_usual;
    layout.is_tried = l->run->args.value[OPT_TRY] != NULL;
    layout.before = compare(a, on->is_jobs, same_list, &was, &found);
    if (layout.before == APP_LAY_STAYS)
        layout.lay = &was;
    layout.figures = lay_figures_of(layout.lay, l->unit);
    tell_by_hand(l, layout.lay);
    add_needed(l, task, &layout);
    add_widths(l, task, &layout);
    keep(l, on, layout.lay);
    return tell(l, &layout) && !layout.lay->left_out;
}

/* --- all of them -------------------------------------------------------------------------------------------------- */

static const char *materials_of(struct arena *a, const struct draft *draft)
{
    const char *names = "";
    for (int m = 0; m < MATERIALS; m++)
        if (lay_is_cut(draft, (enum pattern_cloth)m))
            names = *names ? base_arena_print(a, base_tr_in("a list", "%s and %s"), names,
                                              base_tr(pattern_cloth_name((enum pattern_cloth)m)))
                           : base_tr(pattern_cloth_name((enum pattern_cloth)m));
    return names;
}

/* Whether the job has a layout of interfacing that stays. */
static bool keeps_interfacing(const struct lay_run *l)
{
    const struct job_cloth *own = job_find_cloth(&l->job, PATTERN_INTERFACING);
    return own && own->laid_count && !is_wanted(l, PATTERN_INTERFACING) && lay_is_cut(&l->draft, PATTERN_INTERFACING);
}

/* The block that such a layout is for, as the job has the fabric now. */
static struct app_block block_for(struct lay_run *l)
{
    struct app_material m = { &l->job, &l->draft, NULL, PATTERN_INTERFACING, l->unit, NULL };
    struct err_list *told = base_err_list_create();
    struct app_block block = { .within = NULL };
    if (keeps_interfacing(l))
        block = app_block_of(l->run->a, &m, told);
    base_err_list_destroy(told);
    return block;
}

static bool is_same_block(const struct lay_run *l, const struct app_block *a, const struct app_block *b)
{
    bool same = a->block.count == b->block.count && fabs(a->block.length_mm - b->block.length_mm) < SAME_MM &&
                fabs(a->block.width_mm - b->block.width_mm) < SAME_MM && !a->within == !b->within;
    for (size_t i = 0; same && a->within && i < l->draft.cut_count; i++)
        same = a->within[i].right == b->within[i].right && a->within[i].left == b->within[i].left;
    return same;
}

static void tell_other_block(struct lay_run *l, const struct app_block *before)
{
    struct app_block now = block_for(l);
    if (!is_same_block(l, before, &now))
        base_err(l->run->errs, &other_block, base_err_in_file(NULL), ERR_NONE);
}

/* What could be laid is kept, whether the others could or not. */
static bool lay_all(struct lay_run *l)
{
    bool ok = true, any_stopped = false;
    if (!lay_is_cut(&l->draft, l->wish.material) && !l->wish.all) {
        base_err(l->run->errs, &not_this, base_err_in_file(NULL),
                 ERR_TEXT(base_tr(pattern_cloth_name(l->wish.material))), ERR_TEXT(materials_of(l->run->a, &l->draft)));
        return false;
    }
    struct app_block block = block_for(l);
    for (int m = 0; m < MATERIALS; m++) {
        if (!is_wanted(l, (enum pattern_cloth)m))
            continue;
        size_t laid = l->laid;
        hear_stop();
        ok = lay_material(l, (enum pattern_cloth)m) && ok;
        any_stopped = any_stopped || (is_stopped && l->laid > laid);
    }
    tell_other_block(l, &block);
    if (any_stopped)
        base_err(l->run->errs, &stopped_early, base_err_in_file(NULL), ERR_NONE);
    return ok;
}

/* A job that would stay as it is is not written. */
static bool save_job(struct lay_run *l)
{
    struct cli_run *run = l->run;
    const char *text = job_print(run->a, &l->job);
    struct job now;
    if (!l->is_job || !l->laid || run->args.value[OPT_TRY])
        return true;
    if (!job_read(run->a, run->args.operand, &now, run->errs))
        return false;
    if (strcmp(job_print(run->a, &now), text) == 0)
        return true;
    return (l->replaces ? cli_save_over : cli_save_more)(run, run->args.operand, text) == CLI_OK;
}

static int lay_and_keep(struct lay_run *l)
{
    struct cli_run *run = l->run;
    const char *out = run->args.value[OPT_OUT];
    struct json_out *file = out && cli_ends_in(out, ".json") ? json_out_create() : NULL;
    l->list = run->json ? json_out_list(run->json, "layouts") : NULL;
    l->file_list = file ? json_out_list(file, "layouts") : NULL;
    bool ok = lay_all(l);
    ok = save_job(l) && ok;
    if (file && l->told && cli_save_text(run, out, json_out_print(run->a, file)) != CLI_OK)
        ok = false;
    json_out_destroy(file);
    cli_say_fitted(run, &l->job);
    return ok ? CLI_OK : CLI_FAULT;
}

static int threads(void)
{
    long count = sysconf(_SC_NPROCESSORS_ONLN);
    return count < 1 ? 1 : count > BASE_POOL_MOST ? BASE_POOL_MOST : (int)count;
}

int cli_run_lay(struct cli_run *run)
{
    struct lay_run l = { .run = run };
    if (!read_options(&l))
        return CLI_WRONG_USE;
    l.is_job = cli_is_job(run);
    int code = cli_job(run, false, &l.job);
    if (code != CLI_OK)
        return code;
    if (l.wish.says_cloth && !cloth_read(run->a, run->args.value[OPT_ON], &l.wish.cloth, run->errs))
        return CLI_FAULT;
    if (!app_draft(run->a, &l.job, &l.draft, run->errs))
        return CLI_FAULT;
    cli_lay_settle(&l.wish, &l.draft);
    bool changes = l.is_job && !run->args.value[OPT_TRY];
    if (!may_write(&l) || (changes && !cli_is_free(run, run->args.operand)))
        return CLI_FAULT;
    if (l.is_job)
        cli_memory_progress(run, run->a, run->args.operand, &l.job, &l.cut);
    l.unit = cli_person_unit(run, &l.job);
    l.pool = base_pool_create(threads());
    code = lay_and_keep(&l);
    base_pool_destroy(l.pool);
    return code;
}
