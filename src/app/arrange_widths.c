/* Other widths of the cloth that is shown, one after the other in a thread of low priority, once its own layout has
 * settled. */
#include "app/arrange_state.h"

#include <string.h>

#define SETTLED_S 3.0 /* a search that long without gain leaves time for other widths; our own choice */

/* What the thread works on; nothing else looks at it meanwhile. */
struct app_widths_question {
    struct arena *a; /* owns this */
    const struct lay_task *task;
    const struct tearing_plan *torn;
    enum units_length unit;
    double mm[APP_LAY_WIDTHS];
    size_t all;
    struct app_widths_answer answer; /* so far */
};

static enum base_background_news reckon_one(void *user, const struct base_background_turn *turn)
{
    struct app_widths_question *q = user;
    const struct lay_effort effort = { APP_LAY_WIDTH_ROUNDS, turn->pool, turn->stop };
    size_t done = q->answer.count;
    if (done < q->all) {
        struct app_lay_width row = app_lay_on_width(q->a, q->task, q->torn, q->mm[done], &effort, q->unit);
        if (atomic_load(turn->stop))
            return BASE_NO_NEWS;
        q->answer.rows[q->answer.count++] = row;
    }
    *(struct app_widths_answer *)turn->answer = q->answer;
    return q->answer.count < q->all ? BASE_NEWS : BASE_LAST_NEWS;
}

static void end(void *question)
{
    (void)question; /* its arena is the cloth's */
}

void app_arrange_begin_widths(struct app_arrange *ar)
{
    const struct base_background_work work = {
        reckon_one, end, ar->start.wake, ar->start.wake_user, sizeof(struct app_widths_answer), 1
    };
    if (ar->start.wake && ar->start.widths)
        ar->widths = base_background_create(&work);
}

void app_arrange_end_widths(struct app_arrange *ar)
{
    base_background_destroy(ar->widths);
    ar->widths = NULL;
    for (size_t i = 0; i < ar->cloth_count; i++)
        if (ar->cloths[i].question)
            base_arena_destroy(ar->cloths[i].question->a);
}

/* Interfacing of a block follows its fabric: what is asked of it now may not be so in a moment. */
static bool may_ask(const struct app_arrange *ar, const struct app_arranged *cloth)
{
    return ar->widths && !ar->rests && !cloth->refused && !cloth->task.fabric_block.count &&
           (!cloth->searching || cloth->settled);
}

static void make_question(struct app_arrange *ar, struct app_arranged *cloth)
{
    struct arena *a = base_arena_create();
    struct app_widths_question *q = base_arena_alloc(a, 1, sizeof *q);
    *q = (struct app_widths_question){ .a = a, .task = &cloth->task, .torn = cloth->torn, .unit = ar->start.unit };
    q->all = app_lay_other_widths(q->task, q->torn, q->unit, q->mm);
    q->answer.of = q;
    cloth->question = q;
}

bool app_arrange_reckons(const struct app_arrange *ar)
{
    const struct app_arranged *cloth = &ar->cloths[ar->cloth];
    return may_ask(ar, cloth) && (!cloth->question || cloth->other.count < cloth->question->all);
}

void app_arrange_attend_widths(struct app_arrange *ar)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    if (!ar->widths)
        return;
    if (may_ask(ar, cloth) && !cloth->question)
        make_question(ar, cloth);
    base_background_ask(ar->widths, app_arrange_reckons(ar) ? cloth->question : NULL);
}

bool app_arrange_take_widths(struct app_arrange *ar, double now_s)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    bool settled = cloth->searching && cloth->gained_s >= 0 && now_s - cloth->gained_s > SETTLED_S;
    bool begins = settled && !cloth->settled;
    cloth->settled = cloth->settled || settled;
    struct app_widths_answer answer;
    bool news = ar->widths && base_background_take(ar->widths, &answer) && answer.of == cloth->question;
    if (news)
        cloth->other = answer;
    if (news || begins)
        app_arrange_attend_widths(ar);
    return news;
}
