#include "bench/lack.h"

#include "base/words.h"
#include "bench/inside.h"

static const struct form_key keys[] = { { BASE_TR_IN("key", "Enter"), BASE_TR("go there") },
                                        { BASE_TR_IN("key", "Page Up Down"), BASE_TR("another line of the ticket") } };

bool bench_first_lack(const struct job *job, bool wants_cloth, struct bench_lack *out)
{
    if (!job->pattern)
        /* To: on the work ticket, at most 154 u */
        *out = (struct bench_lack){ BENCH_PATTERN, base_tr("Choose a pattern first."), base_tr("pattern first") };
    else if (!job_is_finished(job))
        *out = (struct bench_lack){ BENCH_PATTERN, base_tr("Choose the view and the size first."),
                                    /* To: on the work ticket, at most 154 u */
                                    base_tr("view and size first") };
    else if (wants_cloth && !job->cloth_count)
        *out = (struct bench_lack){ BENCH_CLOTH, base_tr("Tell first what cloth there is, and how wide it is."),
                                    /* To: on the work ticket, at most 154 u */
                                    base_tr("cloth first") };
    else
        return false;
    return true;
}

void bench_tell_lack(struct bench_page *page, const struct bench_lack *lack)
{
    static const double indent = 26, top = 14, height = 68;
    struct bench_box content = bench_content(page->p);
    bool cloth = lack->page == BENCH_CLOTH;
    page->sentence = lack->sentence;
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    page->lack = lack->page;
    form_add(&page->form,
             (struct form_item){ .id = BENCH_TO_LACK,
                                 .kind = FORM_CARD,
                                 .box = { content.x + indent, content.y + top, content.width - indent, height },
                                 .label = cloth ? base_tr("Cloth") : base_tr("Pattern and size"),
                                 .note = cloth ? base_tr("how wide it is, how it is spread, what it shrinks")
                                               : base_tr("open a pattern, choose view and size") });
}
