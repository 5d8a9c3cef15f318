/* What the keys do, the usual cautions, and the language that all is said in. */
#include "app/app.h"
#include "base/words.h"
#include "bench/inside.h"
#include "bench/keys.h"
#include "input/key.h"

enum { LANGUAGE = 1 };

static const double tile_height = 32, label_width = 130;

static const struct form_key keys[] = { { "← →", BASE_TR("choose a language") }, { "F1", BASE_TR("back") } };

/* Each by its own name, so that whoever does not read the others finds hers. */
static void add_language(struct bench_page *page)
{
    struct bench_box content = bench_content(page->p);
    const char **names = base_arena_alloc(page->a, BENCH_LANGUAGES, sizeof *names);
    names[BENCH_AS_DESKTOP] = base_tr("as the desktop");
    names[BENCH_ENGLISH] = "English";
    names[BENCH_GERMAN] = "Deutsch";
    form_add(&page->form,
             (struct form_item){ .id = LANGUAGE,
                                 .kind = FORM_TILES,
                                 .box = { content.x + label_width, content.y + content.height - tile_height,
                                          content.width * 0.6, tile_height },
                                 .label_x = content.x,
                                 .label = base_tr("Language"),
                                 .columns = BENCH_LANGUAGES,
                                 .gap = 6,
                                 .choices = names,
                                 .choice_count = BENCH_LANGUAGES,
                                 .chosen = (int)page->bench->manner.language });
}

static void fill(struct bench_page *page)
{
    page->title = base_tr("Help");
    page->sentence = base_tr("What the keys do here, and what to take care of at the table.");
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    add_language(page);
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
        form_text_fit(page->p, (struct bench_pt){ content.x, y }, FORM_LEFT, FORM_NOTE_STRONG, FORM_SMALL, FORM_INK,
                      key_room - 6, base_arena_copy_text(page->a, name));
        double lines = (double)form_paragraph(page->p, (struct bench_pt){ content.x + key_room, y }, FORM_NOTE,
                                              FORM_INK_2, half - content.x - key_room - 20, base_tr(rows[i].help));
        y += step + (lines - 1) * form_line_step(FORM_NOTE);
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
    if (did->did != FORM_CHOSE)
        return;
    b->manner.language = (enum bench_language)did->choice;
    b->effects.settings = b->effects.redraw = true;
}

const struct bench_stage bench_help = { .fill = fill, .draw = draw, .answer = answer };
