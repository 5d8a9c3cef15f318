/* Any text as a body; one that is read gets a size of a small chart, or is told what is missing. */
#include "fuzz/fuzz.h"
#include "pattern/read.h"
#include "sizing/choose.h"

#include <math.h>
#include <string.h>

static const char chart[] =
    "{ \"chalklight\": \"pattern\", \"version\": 1, \"name\": \"P\", \"unit\": \"cm\","
    "  \"sizes\": [\"S\", \"M\", \"L\"],"
    "  \"chart\": { \"upper bust\": [80, 84, 88], \"hip\": [90, 90, 104] },"
    "  \"main_measurement\": \"upper bust\","
    "  \"cup_groups\": [ { \"name\": \"A\", \"bust\": [84, 88, 92] }, { \"name\": \"B\", \"bust\": 95 } ],"
    "  \"pieces\": [ { \"name\": \"p\", \"rectangle\": { \"width\": 1, \"height\": 1 } } ],"
    "  \"views\": [ { \"name\": \"A\", \"cut\": [ { \"piece\": \"p\", \"count\": 1 } ] } ] }";

static void check_choice(const struct pattern *p, const struct sizing_body *body, const struct sizing_choice *c)
{
    double last = (double)(p->size_count - 1);
    fuzz_must(c->size < p->size_count && c->position == (double)c->size);
    fuzz_must(!c->other || (c->other->size < p->size_count && c->other->size != c->size && !c->other->other));
    fuzz_must(c->cup_group >= 0 && c->cup_group < (int)p->cup_group_count);
    fuzz_must(!(c->below && c->above));
    fuzz_must(c->reason_count <= body->count);
    for (size_t i = 0; i < c->reason_count; i++) {
        fuzz_must(c->reasons[i].position >= 0 && c->reasons[i].position <= last);
        fuzz_must(c->reasons[i].nearest < p->size_count && c->reasons[i].other < p->size_count);
    }
}

static void choose(struct arena *a, const struct sizing_body *body, struct err_list *errs)
{
    struct sizing_choice choice;
    const struct pattern *p = pattern_parse(a, "chart", chart, strlen(chart), errs);
    fuzz_must(p != NULL && body->count > 0);
    for (size_t i = 0; i < body->count; i++)
        fuzz_must(isfinite(body->items[i].mm) && body->items[i].mm > 0);
    bool ok = sizing_choose(a, p, body, &choice, errs);
    fuzz_must(ok == (errs->faults == 0));
    if (ok)
        check_choice(p, body, &choice);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    const struct sizing_body *body = sizing_body_parse(a, "fuzz", (const char *)data, size, errs);
    fuzz_must((body != NULL) == (errs->faults == 0));
    if (body)
        choose(a, body, errs);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
