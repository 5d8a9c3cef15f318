#include "base/file.h"
#include "base/words.h"
#include "bench/inside.h"

#include "app/sentence.h"
#include "bench/keys.h"
#include "bench/laying.h"
#include "bench/pieces.h"
#include "bench/turns.h"
#include "input/key.h"
#include "job/cloth.h"

#include <math.h>
#include <string.h>

static const struct bench_stage *const stages[BENCH_PAGES] = {
    [BENCH_MEASUREMENTS] = &bench_measurements,
    [BENCH_PATTERN] = &bench_pattern,
    [BENCH_CLOTH] = &bench_cloth,
    [BENCH_LAYOUT] = &bench_layout,
    [BENCH_TABLE] = &bench_set_up,
    [BENCH_PLACING] = &bench_placing,
    [BENCH_CUT] = &bench_cutting,
    [BENCH_FINISHED] = &bench_finished,
    [BENCH_BEGIN] = &bench_begin,
    [BENCH_ALTER] = &bench_alter,
    [BENCH_FILES] = &bench_files,
    [BENCH_TICKETS] = &bench_tickets,
    [BENCH_HELP] = &bench_help,
    [BENCH_OWN_KEYS] = &bench_own_keys,
    [BENCH_SETTINGS] = &bench_settings,
    [BENCH_CAUTIONS] = &bench_cautions,
};

/* --- what the pages ask for -------------------------------------------------------------------------------------- */

const struct job *bench_job(const struct bench *b)
{
    return b->is_open ? job_history_now(b->history) : NULL;
}

struct bench_manner bench_manner(const struct bench *b)
{
    return b->manner;
}

void bench_spoken(struct bench *b)
{
    job_history_read_anew(b->history);
    bench_changed(b);
}

struct arena *bench_room(struct bench *b)
{
    return job_history_arena(b->history);
}

const struct job *bench_copy(struct arena *a, const struct job *job)
{
    struct job_copying copying = { .a = a };
    return job_copy(&copying, job);
}

/* What faults say stands without a full stop elsewhere: after a file's name, in a line at the table. */
static bool has_end(const char *sentence)
{
    size_t count = strlen(sentence);
    return !count || strchr(".!?", sentence[count - 1]) != NULL;
}

void bench_say(struct bench *b, const char *sentence)
{
    base_arena_reset(b->told_in);
    b->told = base_arena_print(b->told_in, has_end(sentence) ? "%s" : "%s.", sentence);
    b->effects.redraw = true;
}

/* The first fault, else the first warning. */
static void tell(struct bench *b, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    const struct err *first = NULL;
    for (int i = 0; i < errs->count; i++)
        if (!first || (errs->items[i].kind->severity == ERR_FAULT && first->kind->severity != ERR_FAULT))
            first = &errs->items[i];
    if (first)
        bench_say(b, app_sentence_short(a, first, b->manner.unit));
    base_arena_destroy(a);
    base_err_list_destroy(errs);
}

bool bench_is_held(const struct bench *b)
{
    return b->at_table == BENCH_TO_ARRANGE || b->at_table == BENCH_TO_CUT;
}

static void refuse(struct bench *b)
{
    bench_say(b, base_tr("The table is working with this ticket: leave the table first, then change that."));
}

static bool same_lines(const struct job *one, const struct job *other)
{
    struct arena *a = base_arena_create();
    bool same = strcmp(job_print_choices(a, one), job_print_choices(a, other)) == 0;
    base_arena_destroy(a);
    return same;
}

/* What is written on the ticket alone may be changed at any time. */
static bool may_change(const struct bench *b, const struct job *from, const struct job *to)
{
    return !bench_is_held(b) || same_lines(from, to);
}

/* Lines on cloth that is partly cut do not move: such a change is told, and not made. */
static bool may_take(const struct bench *b, const struct job *was, const struct job *job, struct err_list **errs)
{
    struct err_list *told = base_err_list_create();
    bool may = app_progress_allows(&b->progress, was, job, told);
    if (may) {
        base_err_list_destroy(told);
        return true;
    }
    if (*errs)
        base_err_list_destroy(*errs);
    *errs = told;
    return false;
}

/* Looked at each time: another pattern may lie where the one before lay. */
static void look_at_nest(struct bench *b)
{
    if (b->nest->pattern && b->nest->pattern != bench_job(b)->pattern)
        bench_nest_forget(b->nest);
}

void bench_changed(struct bench *b)
{
    b->changes++;
    look_at_nest(b);
}

void bench_take(struct bench *b, const struct job *job, const char *done, struct err_list *errs)
{
    if (!may_change(b, bench_job(b), job)) {
        refuse(b);
        if (errs)
            base_err_list_destroy(errs);
        return;
    }
    if (job != bench_job(b) && may_take(b, bench_job(b), job, &errs)) {
        b->laid_at_table = false;
        job_history_step(b->history, job, done);
        bench_changed(b);
        b->effects.keep = b->effects.redraw = true;
    }
    if (errs)
        tell(b, errs);
}

void bench_replace(struct bench *b, const struct job *job)
{
    job_history_replace(b->history, job);
    bench_changed(b);
    b->effects.keep = b->effects.redraw = true;
}

/* After a step from the job as it `was`: cloth that is partly cut, and what lies on it, stays as it was. False, told,
 * where its pieces would be others. */
static bool keep_begun(struct bench *b, const struct job *was)
{
    struct err_list *told = NULL;
    struct job now = *bench_job(b);
    bool any = false;
    for (size_t i = 0; i < b->progress.cloth_count; i++) {
        const struct job_cloth *begun = job_find_cloth(was, b->progress.cloths[i].material);
        if (!begun || !b->progress.cloths[i].cut)
            continue;
        job_put_cloth(bench_room(b), &now, begun);
        any = true;
    }
    if (any && !may_take(b, was, &now, &told)) {
        tell(b, told);
        return false;
    }
    if (any)
        bench_replace(b, bench_copy(bench_room(b), &now));
    return true;
}

bool bench_step(struct bench *b, bool (*step)(struct job_history *h), bool (*back)(struct job_history *h))
{
    struct arena *a = base_arena_create();
    const struct job *before = bench_copy(a, bench_job(b));
    bool stepped = step(b->history), held = stepped && !may_change(b, before, bench_job(b));
    bool may = stepped && !held && keep_begun(b, before);
    if (stepped && !may)
        back(b->history);
    if (held)
        refuse(b);
    base_arena_destroy(a);
    if (!may)
        return false;
    b->laid_at_table = false;
    b->effects.keep = true;
    bench_changed(b);
    return true;
}

bool bench_is_aside(int page)
{
    return page == BENCH_HELP || page == BENCH_SETTINGS || page == BENCH_OWN_KEYS;
}

void bench_go(struct bench *b, int page)
{
    if (page < 0 || page >= BENCH_PAGES || !stages[page])
        return;
    if (page == BENCH_FILES && b->page != BENCH_FILES && !bench_is_aside(b->page))
        b->files.from = b->page;
    b->page = page;
    b->hand = (struct form_hand){ 0 };
    b->effects.redraw = true;
    if (stages[page]->open)
        stages[page]->open(b);
}

const struct job *bench_blank(struct bench *b)
{
    return job_with_way(bench_room(b), job_begin(bench_room(b)), b->manner.way);
}

bool bench_open(struct bench *b, const struct job *job)
{
    if (bench_is_held(b)) {
        refuse(b);
        return false;
    }
    bench_end_laying(b);
    job_history_restart(b->history, job);
    b->is_open = true;
    bench_changed(b);
    b->effects.keep = true;
    b->effects.opened = "";
    bench_go(b, BENCH_MEASUREMENTS);
    bench_set_progress(b, NULL); /* what was cut is another ticket's */
    return true;
}

const char *bench_job_name(struct arena *a, const struct job *job)
{
    if (job->ticket.name && *job->ticket.name)
        return job->ticket.name;
    return job->pattern ? base_arena_copy_text(a, job->pattern->name) : base_tr("New ticket");
}

/* --- the page as it is now --------------------------------------------------------------------------------------- */

/* How far a form that is longer than the page is scrolled: so that she sees where she is, and one row more. */
static double scrolled_by(const struct form *form, int focus, double low)
{
    static const double more = 44;
    double lowest = 0, here = 0;
    for (size_t i = 0; i < form->count; i++) {
        double end = form->items[i].box.y + form->items[i].box.height;
        lowest = fmax(lowest, end);
        if (form->items[i].id == focus)
            here = end;
    }
    return fmax(0, fmin(here + more, lowest) - low);
}

static void scroll(struct bench_page *page, int focus)
{
    struct bench_box content = bench_content(page->p);
    double low = content.y + content.height, by = scrolled_by(&page->form, focus, low);
    for (size_t i = 0; i < page->form.count; i++) {
        struct form_item *item = &page->form.items[i];
        item->box.y -= by;
        item->hidden = item->box.y < content.y || item->box.y + item->box.height > low;
    }
}

/* Arrows where the form goes on above and below. */
static void draw_scrolled(const struct bench_page *page)
{
    struct bench_box content = bench_content(page->p);
    double x = content.x + 8, low = content.y + content.height;
    bool above = false, below = false;
    for (size_t i = 0; i < page->form.count; i++) {
        above = above || (page->form.items[i].hidden && page->form.items[i].box.y < content.y);
        below = below || (page->form.items[i].hidden && page->form.items[i].box.y > content.y);
    }
    if (above)
        form_chevron_up(page->p, (struct bench_pt){ x, content.y - 6 }, FORM_INK_2);
    if (below)
        form_chevron(page->p, (struct bench_pt){ x, low + 1 }, FORM_INK_2);
}

static const struct bench_stage *shown(const struct bench *b)
{
    return stages[b->cautions ? BENCH_CAUTIONS : b->page];
}

/* Open lists end above the foot. */
static double list_end(const struct form_picture *p)
{
    static const double below = 8;
    struct bench_box content = bench_content(p);
    return content.y + content.height + below;
}

static void make_page(struct bench *b)
{
    base_arena_reset(b->frame);
    struct form_picture *p = base_arena_alloc(b->frame, 1, sizeof *p);
    *p = form_picture_create(b->frame, b->type, b->width, b->height, bench_scale(b, b->width, b->height),
                             b->manner.night);
    b->made =
        (struct bench_page){ .a = b->frame, .bench = b, .p = p, .form = { .a = b->frame, .height = list_end(p) } };
    shown(b)->fill(&b->made);
    if (b->made.scrolls)
        scroll(&b->made, b->hand.focus);
    if (b->made.next)
        form_add(&b->made.form, (struct form_item){ .id = BENCH_NEXT,
                                                    .kind = FORM_TAG,
                                                    .box = bench_tag_box(p, b->made.next),
                                                    .label = b->made.next,
                                                    .on = true });
    form_settle(&b->made.form, &b->hand);
}

static int ticket_line(const struct bench *b)
{
    int page = bench_is_aside(b->page) ? b->page_before_help : b->page;
    return page < BENCH_STAGES ? page : page == BENCH_ALTER ? BENCH_PATTERN : -1;
}

static const char *const stage_names[BENCH_STAGES] = {
    BASE_TR("Measurements"), BASE_TR("Pattern and size"), BASE_TR("Cloth"),        BASE_TR("Layout"),
    BASE_TR("Table set-up"), BASE_TR("Placing"),          BASE_TR("Cut and mark"), BASE_TR("Done"),
};

static void look_for_lacks(struct bench *b)
{
    if (!bench_job(b) || b->lacks.of == b->changes)
        return;
    base_arena_reset(b->lacks.a);
    b->lacks.count = app_lacks(b->lacks.a, bench_job(b), &b->lacks.items);
    b->lacks.of = b->changes;
}

static void write_ticket(struct bench *b, struct bench_frame *frame)
{
    look_for_lacks(b);
    const struct job *job = bench_job(b);
    struct arena *a = b->frame;
    frame->job = job ? bench_job_name(a, job) : base_tr("Blank ticket");
    frame->whose = job && job->body && *job->body->name ? base_arena_print(a, base_tr("for %s"), job->body->name)
                   : job                                ? base_tr("no name written yet")
                                                        : base_tr("nothing written yet");
    for (int i = 0; i < BENCH_LINES; i++) {
        frame->lines[i] = (struct bench_line){ .name = base_tr(stage_names[i]) };
        if (job && stages[i] && stages[i]->says)
            stages[i]->says(b, a, &frame->lines[i]);
    }
    frame->here = ticket_line(b);
}

/* Beside the page's marks, from that one on. Returns its box; no height: there is none. */
static struct bench_box draw_slip(const struct bench *b, size_t from)
{
    const char *sentence = b->trouble ? b->trouble : b->told;
    if (!sentence)
        return (struct bench_box){ 0 };
    const char *strong = b->trouble ? base_tr("Nothing is kept.") : NULL;
    struct bench_box box = bench_slip_box(b->made.p, from, strong, sentence);
    form_slip(b->made.p, box, strong, sentence);
    return box;
}

/* A fault's thread hangs in the selvedge beside it. */
static void draw_knots(const struct bench *b)
{
    for (size_t i = 0; i < b->made.form.count; i++) {
        const struct form_item *item = &b->made.form.items[i];
        if (item->state == FORM_FAULT && !item->hidden)
            bench_draw_knot(b->made.p, item->box.y + item->box.height / 2);
    }
}

const struct form_picture *bench_picture(struct bench *b)
{
    make_page(b);
    struct bench_frame frame = { .title = b->made.title,
                                 .sentence = b->made.sentence,
                                 .keys = b->made.keys,
                                 .key_count = b->made.key_count,
                                 .tag = b->made.next };
    write_ticket(b, &frame);
    frame.window_key_count = bench_window_keys(b, b->frame, &frame.window_keys);
    bench_draw_frame(b->made.p, &frame);
    draw_knots(b);
    size_t first = b->made.p->count;
    if (shown(b)->draw)
        shown(b)->draw(&b->made);
    form_draw(b->made.p, &b->made.form, &b->hand);
    draw_scrolled(&b->made);
    frame.slip = draw_slip(b, first);
    bench_draw_title(b->made.p, &frame);
    return b->made.p;
}

/* --- events ------------------------------------------------------------------------------------------------------ */

static void answer(struct bench *b, const struct form_answer *did)
{
    b->effects.redraw = b->effects.redraw || did->did != FORM_NOT_MINE;
    if (did->did == FORM_NOT_MINE || did->did == FORM_LOOKED)
        return;
    if (did->id == BENCH_NEXT) {
        if (!stages[b->page]->next || stages[b->page]->next(b))
            bench_go(b, b->page + 1);
    } else if (did->id == BENCH_TO_LACK)
        bench_go(b, b->made.lack);
    else
        stages[b->page]->answer(b, did);
}

/* What she was writing counts before anything else is done. */
static void leave_form(struct bench *b)
{
    struct form_answer did = form_leave(&b->made.form, &b->hand);
    answer(b, &did);
    make_page(b);
}

static void point(struct bench *b, struct input_event e)
{
    double scale = b->made.p->scale;
    struct bench_pt at = { (e.x + 0.5) / scale, (e.y + 0.5) / scale };
    if (!b->hand.open)
        leave_form(b);
    int line = bench_line_at(b->made.p, at);
    if (line >= 0 && bench_job(b)) {
        bench_go(b, line);
        return;
    }
    struct form_answer did = form_point(&b->made.form, &b->hand, at);
    answer(b, &did);
}

static void press(struct bench *b, struct input_event e)
{
    if (stages[b->page]->press && stages[b->page]->press(b, e))
        return;
    struct form_answer did = form_press(&b->made.form, &b->hand, e);
    if (did.did != FORM_NOT_MINE) {
        answer(b, &did);
        return;
    }
    const struct bench_key_row *row = bench_find_key(e.key, e.mods);
    b->effects.not_mine = !row;
    if (!row)
        return;
    leave_form(b);
    row->run(b, row->amount);
}

/* Any key goes on, and so does a click; the key that leaves does that, too. */
static bool read_cautions(struct bench *b, struct input_event e)
{
    bool leaves = e.type == INPUT_KEY && e.key == KEY_CHAR + 'q' && e.mods == MOD_CTRL;
    if (!b->cautions || (e.type != INPUT_KEY && e.type != INPUT_POINT))
        return false;
    b->cautions = false;
    b->effects.cautioned = b->effects.redraw = true;
    return !leaves;
}

/* A better layout is looked for while its page is before her. */
static void attend(struct bench *b)
{
    if (b->laying.arrange)
        app_arrange_rest(b->laying.arrange, !bench_is_working(b) || b->effects.to != BENCH_STAY);
}

_Static_assert((int)BENCH_STAGES == JOB_PAGES - JOB_PAGE_MEASUREMENTS, "the ticket's lines, in the same order");

/* The ticket remembers the page that she goes to, which is no step to be undone. */
static void note_page(struct bench *b, int before)
{
    enum job_page page = (enum job_page)(b->page + JOB_PAGE_MEASUREMENTS);
    if (!b->is_open || b->at_table || b->effects.opened || b->page == before || b->page >= BENCH_STAGES ||
        bench_job(b)->ticket.page == page)
        return;
    job_history_replace(b->history, job_with_page(bench_room(b), bench_job(b), page));
    look_at_nest(b);
    b->effects.keep = true;
}

struct bench_effects bench_handle(struct bench *b, struct input_event e)
{
    int before = b->page;
    b->effects = (struct bench_effects){ 0 };
    if (e.type == INPUT_KEY || e.type == INPUT_POINT || e.type == INPUT_DROP) {
        b->effects.redraw = b->told != NULL;
        b->told = NULL;
        make_page(b);
    }
    if (read_cautions(b, e))
        return b->effects;
    if (e.type == INPUT_KEY)
        press(b, e);
    else if (e.type == INPUT_POINT)
        point(b, e);
    else if (e.type == INPUT_DROP)
        bench_open_file(b, e.path);
    else
        b->effects.quit = e.type == INPUT_QUIT;
    note_page(b, before);
    attend(b);
    return b->effects;
}

bool bench_is_working(const struct bench *b)
{
    return !b->at_table && b->page == BENCH_LAYOUT && b->laying.arrange && b->laying.of == b->changes &&
           app_arrange_is_searching(b->laying.arrange);
}

struct bench_effects bench_work(struct bench *b, double now_s)
{
    b->effects = (struct bench_effects){ 0 };
    struct app_arrange_effects found = app_arrange_search(b->laying.arrange, now_s);
    if (found.keep)
        bench_keep_laying(b);
    b->effects.redraw = b->effects.redraw || found.redraw;
    return b->effects;
}

/* --- the whole --------------------------------------------------------------------------------------------------- */

/* Until the window is known: letters half an em wide. */
static double half_an_em(const void *of, enum form_style style, const char *text, size_t bytes)
{
    (void)of;
    (void)text;
    return 0.5 * form_style(style)->size_u * (double)bytes;
}

static const struct form_type no_type = { half_an_em, NULL };

/* One that cannot be read any more is not offered. */
static void find_recent(struct bench *b, const char *path)
{
    struct arena *a = base_arena_create();
    struct err_list *ignored = base_err_list_create();
    struct job job;
    if (path && job_read_begun(a, path, &job, ignored)) {
        b->recent = base_arena_copy_text(b->a, path);
        b->recent_name = base_arena_copy_text(b->a, bench_job_name(a, &job));
    }
    base_err_list_destroy(ignored);
    base_arena_destroy(a);
}

struct bench *bench_create(const struct bench_start *start)
{
    struct arena *a = base_arena_create();
    struct bench *b = base_arena_alloc(a, 1, sizeof *b);
    *b = (struct bench){ .a = a,
                         .told_in = base_arena_create(),
                         .frame = base_arena_create(),
                         .progress_in = base_arena_create(),
                         .glance_in = base_arena_create(),
                         .changes = 1,
                         .lacks = { .a = base_arena_create() },
                         .manner = start->manner,
                         .pool = start->pool,
                         .wake = start->wake,
                         .wake_user = start->wake_user,
                         .example_pattern = start->example_pattern,
                         .example_body = start->example_body,
                         .own_table = start->own_table,
                         .tickets = { .a = base_arena_create(), .folder = start->tickets },
                         .claim = start->claim,
                         .cautions = start->cautions,
                         .claims_of = start->claims_of,
                         .width = 1024,
                         .height = 600,
                         .type = &no_type,
                         .page = BENCH_BEGIN,
                         .progress.in_hand = APP_NO_LINE,
                         .history = job_history_create(JOB_HISTORY_BYTES) };
    b->nest = base_arena_alloc(a, 1, sizeof *b->nest);
    b->nest->a = base_arena_create();
    b->turns = bench_turns_create(a);
    b->to_place = BENCH_FIRST_OPEN;
    find_recent(b, start->recent);
    bench_set_given_keys(b, start->given_keys, start->given_key_count);
    bench_look_into(b, ".");
    return b;
}

void bench_destroy(struct bench *b)
{
    if (!b)
        return;
    bench_end_laying(b);
    job_history_destroy(b->history);
    base_arena_destroy(b->frame);
    base_arena_destroy(b->progress_in);
    base_arena_destroy(b->glance_in);
    base_arena_destroy(b->lacks.a);
    bench_turns_destroy(b->turns);
    base_arena_destroy(b->tickets.a);
    base_arena_destroy(b->nest->a);
    base_arena_destroy(b->told_in);
    base_arena_destroy(b->given.in);
    base_arena_destroy(b->a);
}

double bench_scale(const struct bench *b, int width, int height)
{
    return form_scale(width, height, b->manner.steps);
}

void bench_fit(struct bench *b, int width, int height, const struct form_type *type)
{
    b->width = width;
    b->height = height;
    b->type = type;
}

/* --- the table --------------------------------------------------------------------------------------------------- */

void bench_set_at_table(struct bench *b, enum bench_way way)
{
    static const int pages[] = { [BENCH_TO_SET_UP] = BENCH_TABLE,
                                 [BENCH_TO_ARRANGE] = BENCH_LAYOUT,
                                 [BENCH_TO_CUT] = BENCH_CUT,
                                 [BENCH_TO_LIFT] = BENCH_PATTERN };
    if (way != BENCH_STAY)
        b->page_before_table = b->page;
    b->at_table = way;
    b->glance = (struct bench_glance){ .height = 0 };
    b->laid_at_table = false;
    if (way != BENCH_STAY && b->page != pages[way])
        bench_go(b, pages[way]);
    else if (stages[b->page]->open)
        stages[b->page]->open(b);
}

void bench_take_layouts(struct bench *b, const struct job *from)
{
    struct job laid = *bench_job(b);
    laid.cloths = from->cloths;
    laid.cloth_count = from->cloth_count;
    const struct job *job = bench_copy(bench_room(b), &laid);
    if (b->laid_at_table)
        job_history_replace(b->history, job);
    else
        job_history_step(b->history, job, base_tr("What was done at the table"));
    b->laid_at_table = true;
    bench_changed(b);
    if (b->page == BENCH_LAYOUT)
        bench_need_laying(b);
    attend(b);
}

void bench_come_back(struct bench *b, const struct job *job, const char *sentence)
{
    if (job)
        bench_take(b, bench_copy(bench_room(b), job), base_tr("What was done at the table"), NULL);
    if (sentence && b->page == BENCH_CUT && b->page_before_table == BENCH_PLACING && !b->progress.is_placed)
        bench_go(b, BENCH_PLACING); /* nothing came of it */
    if (sentence)
        bench_say(b, sentence);
    b->effects.to = BENCH_STAY;
    attend(b);
}

/* Whether the same pieces are cut. */
static bool is_same_begun(const struct app_progress *p, const struct app_progress *q)
{
    bool same = true;
    for (int m = 0; m < JOB_MATERIALS; m++) {
        const struct app_cloth_progress *one = app_progress_find(p, (enum pattern_cloth)m),
                                        *other = app_progress_find(q, (enum pattern_cloth)m);
        same = same && !one == !other &&
               (!one || (one->cut == other->cut && one->item_count == other->item_count &&
                         memcmp(one->begun, other->begun, one->item_count * sizeof *one->begun) == 0 &&
                         memcmp(one->done, other->done, one->item_count * sizeof *one->done) == 0));
    }
    return same;
}

bool bench_set_glance(struct bench *b, const struct paint_scene *scene, const struct geometry_map *map, int width_px,
                      int height_px)
{
    struct arena *a = base_arena_create();
    struct bench_glance now = bench_glance_of(a, scene, map, width_px, height_px, b->progress.outline);
    if (bench_glance_same(&b->glance, &now)) {
        base_arena_destroy(a);
        return false;
    }
    base_arena_destroy(b->glance_in);
    b->glance_in = a;
    b->glance = now;
    return true;
}

static bool same_cloth(const struct app_cloth_progress *x, const struct app_cloth_progress *y)
{
    return x->material == y->material && x->is_placed == y->is_placed && x->is_cut == y->is_cut && x->turn == y->turn;
}

static bool same_progress(const struct app_progress *x, const struct app_progress *y)
{
    bool same = x->line_count == y->line_count && x->is_placed == y->is_placed && x->in_hand == y->in_hand &&
                x->part == y->part && x->chalks == y->chalks;
    for (size_t i = 0; same && i < x->line_count; i++)
        same = x->lines[i].laid == y->lines[i].laid && x->lines[i].cut == y->lines[i].cut;
    same = same && x->cloth_count == y->cloth_count;
    for (size_t i = 0; same && i < x->cloth_count; i++)
        same = same_cloth(&x->cloths[i], &y->cloths[i]);
    return same;
}

/* The page of cutting goes with the table; a layout that was begun before knows nothing of what is cut since. */
bool bench_set_progress(struct bench *b, const struct app_progress *progress)
{
    const struct app_progress none = { .in_hand = APP_NO_LINE, .part = APP_PARTS }, *now = progress ? progress : &none;
    bool same_begun = is_same_begun(&b->progress, now);
    if (same_begun && same_progress(&b->progress, now))
        return false;
    if (b->at_table == BENCH_TO_CUT && now->in_hand != APP_NO_LINE && now->in_hand != b->progress.in_hand)
        b->piece = (size_t)now->in_hand;
    base_arena_reset(b->progress_in);
    b->progress = app_progress_copy(b->progress_in, now);
    if (!same_begun)
        bench_end_laying(b);
    if (!same_begun && b->page == BENCH_LAYOUT && b->is_open && !b->at_table)
        bench_need_laying(b);
    return true;
}

void bench_set_path(struct bench *b, const char *path)
{
    b->tickets.open_here = path ? base_file_whole_path(b->a, path) : NULL;
}

void bench_tell(struct bench *b, const char *sentence)
{
    bench_say(b, sentence);
}

void bench_look_again(struct bench *b, const char *sentence)
{
    bench_read_tickets(b);
    bench_say(b, sentence);
}

bool bench_set_lamp(struct bench *b, const struct bench_lamp *lamp)
{
    const struct bench_lamp *was = &b->lamp;
    bool same_since = !was->since == !lamp->since && (!lamp->since || strcmp(was->since, lamp->since) == 0);
    if (same_since && was->left_min == lamp->left_min && was->read == lamp->read && was->of == lamp->of)
        return false;
    const char *since = same_since ? was->since : lamp->since ? base_arena_copy_text(b->a, lamp->since) : NULL;
    b->lamp = *lamp;
    b->lamp.since = since;
    return true;
}

void bench_set_trouble(struct bench *b, const char *sentence)
{
    b->trouble = sentence ? base_arena_copy_text(b->a, sentence) : NULL;
}
