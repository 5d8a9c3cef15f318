/* What the keys do, the usual cautions, and the way to the settings. */
#include "base/words.h"
#include "bench/inside.h"
#include "bench/keys.h"
#include "bench/laying.h"
#include "input/key.h"

enum { SETTINGS = 1, CAUTIONS };

static const struct form_key keys[] = { { BASE_TR_IN("key", "Tab"), BASE_TR("choose") },
                                        { "F5", BASE_TR("settings") },
                                        { "F1", BASE_TR("back") } };

/* Help of the layout tells its own keys: those that go through the ticket take pieces there. */
static bool is_of_layout(const struct bench *b)
{
    return b->page_before_help == BENCH_LAYOUT;
}

/* Right of the keys. */
static struct bench_box cautions_box(const struct form_picture *p)
{
    static const double below_heading = 36, above_tags = 12;
    struct bench_box content = bench_content(p);
    double left = content.x + content.width * 0.46;
    return (struct bench_box){ left, content.y + below_heading, content.x + content.width - left,
                               content.height - BENCH_TAG_HEIGHT - above_tags - below_heading };
}

/* The letters in which they have room here; false: they have none. */
static bool find_style(const struct bench_page *page, enum form_style *out)
{
    static const enum form_style styles[] = { FORM_NOTE, FORM_SMALL };
    struct bench_box box = cautions_box(page->p);
    for (size_t i = 0; i < sizeof styles / sizeof styles[0] && !is_of_layout(page->bench); i++)
        if (bench_cautions_height(page->p, box.width, styles[i]) <= box.height) {
            *out = styles[i];
            return true;
        }
    return false;
}

static void fill(struct bench_page *page)
{
    enum form_style ignored;
    const char *settings = base_tr("Settings"), *cautions = base_tr("Before you begin");
    struct bench_box content = bench_content(page->p);
    double x = content.x + content.width - bench_tag_width(page->p, settings);
    page->title = base_tr("Help");
    page->sentence = base_tr("What the keys do here, and what to take care of at the table.");
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    bench_add_tag(page, x, SETTINGS, settings);
    if (!find_style(page, &ignored)) /* the way to where they stand, then */
        bench_add_tag(page, x - BENCH_TAG_GAP - bench_tag_width(page->p, cautions), CAUTIONS, cautions);
}

/* One key and what it does, above `end`. Returns how much room that took. */
static double draw_key(struct bench_page *page, struct bench_pt at, double end, const char *key, const char *does)
{
    static const double key_room = 130, spare = 4;
    form_text_fit(page->p, at, FORM_LEFT, FORM_NOTE_STRONG, FORM_SMALL, FORM_INK, key_room - 6, key);
    return spare +
           form_line_step(FORM_NOTE) * (double)form_paragraph(page->p, (struct bench_pt){ at.x + key_room, at.y },
                                                              FORM_NOTE, FORM_INK_2, end - at.x - key_room, does);
}

static void draw_laying(struct bench_page *page, double x)
{
    struct bench_box content = bench_content(page->p);
    const struct form_key *laying;
    size_t count = bench_laying_keys(&laying);
    double y = content.y + 12;
    for (size_t i = 0; i < count; i++)
        y += draw_key(page, (struct bench_pt){ x, y }, content.x + content.width, base_tr_in("key", laying[i].key),
                      base_tr(laying[i].word));
}

static void draw_cautions(struct bench_page *page, enum form_style style)
{
    struct bench_box box = cautions_box(page->p);
    form_text(page->p, (struct bench_pt){ box.x, bench_content(page->p).y + 12 }, FORM_LEFT, FORM_HEADING, FORM_INK,
              box.width, base_tr("Before you begin"));
    bench_draw_cautions(page->p, box, style);
}

static void draw(struct bench_page *page)
{
    struct bench_box content = bench_content(page->p);
    size_t count;
    enum form_style style;
    const struct bench_key_row *rows = bench_key_rows(&count);
    double y = content.y + 12, half = content.x + content.width * 0.46;
    for (size_t i = 0; i < count; i++) {
        char name[INPUT_KEY_TEXT];
        bool pages = (rows[i].key == KEY_PAGE_DOWN || rows[i].key == KEY_PAGE_UP) && !rows[i].mods;
        if (!rows[i].help || (pages && is_of_layout(page->bench)))
            continue;
        input_key_name(name, rows[i].key, rows[i].mods);
        y += draw_key(page, (struct bench_pt){ content.x, y }, half - 20, base_arena_copy_text(page->a, name),
                      base_tr(rows[i].help));
    }
    if (is_of_layout(page->bench))
        draw_laying(page, half);
    else if (find_style(page, &style))
        draw_cautions(page, style);
}

static void answer(struct bench *b, const struct form_answer *did)
{
    if (did->did == FORM_PRESSED && did->id == SETTINGS)
        bench_go(b, BENCH_SETTINGS);
    if (did->did == FORM_PRESSED && did->id == CAUTIONS)
        b->cautions = b->effects.redraw = true;
}

const struct bench_stage bench_help = { .fill = fill, .draw = draw, .answer = answer };
