/* What the keys do, and the usual cautions. */
#include "app/app.h"
#include "base/words.h"
#include "bench/inside.h"
#include "bench/keys.h"
#include "input/key.h"

static const struct form_key keys[] = { { "F1", BASE_TR("back") } };

static void fill(struct bench_page *page)
{
    page->title = base_tr("Help");
    page->sentence = base_tr("What the keys do here, and what to take care of at the table.");
    page->keys = keys;
    page->key_count = 1;
}

static void draw(struct bench_page *page)
{
    static const double key_room = 130, step = 24;
    struct bench_box content = bench_content(page->p);
    size_t count;
    const struct bench_key_row *rows = bench_key_rows(&count);
    double y = content.y + 12, half = content.x + content.width * 0.46;
    for (size_t i = 0; i < count; i++) {
        char name[INPUT_KEY_TEXT];
        if (!rows[i].help)
            continue;
        input_key_name(name, rows[i].key, rows[i].mods);
        form_text(page->p, (struct bench_pt){ content.x, y }, FORM_LEFT, FORM_NOTE_STRONG, FORM_INK, key_room,
                  base_arena_copy_text(page->a, name));
        form_text(page->p, (struct bench_pt){ content.x + key_room, y }, FORM_LEFT, FORM_NOTE, FORM_INK_2,
                  half - content.x - key_room - 20, base_tr(rows[i].help));
        y += step;
    }
    const char *const *cautions;
    size_t lines = app_cautions(&cautions);
    y = content.y + 12;
    for (size_t i = 0; i < lines; i++)
        y += 4 + form_line_step(FORM_NOTE) *
                     (double)form_paragraph(page->p, (struct bench_pt){ half, y }, i ? FORM_NOTE : FORM_HEADING,
                                            FORM_INK, content.x + content.width - half, base_tr(cautions[i]));
}

static void answer(struct bench *b, const struct form_answer *did)
{
    (void)b;
    (void)did;
}

const struct bench_stage bench_help = { .fill = fill, .draw = draw, .answer = answer };
