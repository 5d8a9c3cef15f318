/* What the keys do, the usual cautions, the language that all is said in, how bright it is at the table, and the way to
 * keys of her own. */
#include "base/words.h"
#include "bench/inside.h"
#include "bench/keys.h"
#include "bench/laying.h"
#include "input/key.h"

enum { LANGUAGE = 1, ROOM, LIGHT, OWN_KEYS, CAUTIONS };

static const double tile_height = 32, row_step = 38, label_width = 160, tag_height = 36;

static const struct form_key keys[] = { { "← →", BASE_TR("choose") },
                                        { BASE_TR_IN("key", "Tab"), BASE_TR("next") },
                                        { "F1", BASE_TR("back") } };

/* Brightness in words. In lux: a dim room, one by lamplight, one by a window (common practice, no source); the white of
 * about 800, 2000 and 5000 lumens over 1.7 square metres, as the usual one is reckoned (app/seeing.c). */
static const struct brightness {
    const char *label, *words[3];
    int lux[3];
} room = { BASE_TR("Light in the room"),
           { BASE_TR_IN("light in the room", "dim"), BASE_TR_IN("light in the room", "usual"),
             BASE_TR_IN("light in the room", "bright") },
           { 100, 300, 1000 } },
  light = { BASE_TR("Projector’s light"),
            { BASE_TR_IN("projector’s light", "faint"), BASE_TR_IN("projector’s light", "usual"),
              BASE_TR_IN("projector’s light", "strong") },
            { 500, 1200, 3000 } };

enum { BRIGHT = 3, USUAL = 1 };

/* The word nearest to it, by how many times as bright it is. */
static int nearest(const struct brightness *of, int lux)
{
    int at = 0;
    for (int i = 1; lux > 0 && i < BRIGHT; i++)
        at += lux * (double)lux > of->lux[i - 1] * (double)of->lux[i];
    return lux > 0 ? at : USUAL;
}

static struct bench_box row_box(const struct bench_page *page, int row)
{
    struct bench_box content = bench_content(page->p);
    double y = content.y + content.height - tile_height - (LIGHT - row) * row_step;
    return (struct bench_box){ content.x + label_width, y, content.width * 0.44, tile_height };
}

static void add_brightness(struct bench_page *page, int row, const struct brightness *of, const char *context, int lux)
{
    const char **words = base_arena_alloc(page->a, BRIGHT, sizeof *words);
    for (int i = 0; i < BRIGHT; i++)
        words[i] = base_tr_in(context, of->words[i]);
    form_add(&page->form, (struct form_item){ .id = row,
                                              .kind = FORM_TILES,
                                              .box = row_box(page, row),
                                              .label_x = bench_content(page->p).x,
                                              .label = base_tr(of->label),
                                              .columns = BRIGHT,
                                              .gap = 6,
                                              .choices = words,
                                              .choice_count = BRIGHT,
                                              .chosen = nearest(of, lux) });
}

/* Each by its own name, so that whoever does not read the others finds hers. */
static void add_language(struct bench_page *page)
{
    const char **names = base_arena_alloc(page->a, BENCH_LANGUAGES, sizeof *names);
    names[BENCH_AS_DESKTOP] = base_tr("as the desktop");
    names[BENCH_ENGLISH] = "English";
    names[BENCH_GERMAN] = "Deutsch";
    form_add(&page->form, (struct form_item){ .id = LANGUAGE,
                                              .kind = FORM_TILES,
                                              .box = row_box(page, LANGUAGE),
                                              .label_x = bench_content(page->p).x,
                                              .label = base_tr("Language"),
                                              .columns = BENCH_LANGUAGES,
                                              .gap = 6,
                                              .choices = names,
                                              .choice_count = BENCH_LANGUAGES,
                                              .chosen = (int)page->bench->manner.language });
}

static void add_own_keys(struct bench_page *page)
{
    struct bench_box content = bench_content(page->p);
    const char *label = base_tr("Keys of your own");
    double width = form_width(page->p->type, FORM_STRONG, label) + 42;
    form_add(&page->form, (struct form_item){ .id = OWN_KEYS,
                                              .kind = FORM_TAG,
                                              .box = { content.x + content.width - width,
                                                       content.y + content.height - tag_height, width, tag_height },
                                              .label = label });
}

/* Help of the layout tells its own keys: those that go through the ticket take pieces there. */
static bool is_of_layout(const struct bench *b)
{
    return b->page_before_help == BENCH_LAYOUT;
}

/* Right of the keys. */
static struct bench_box cautions_box(const struct form_picture *p)
{
    static const double below_heading = 36;
    struct bench_box content = bench_content(p);
    double left = content.x + content.width * 0.46, low = content.y + content.height - tile_height - 2 * row_step;
    return (struct bench_box){ left, content.y + below_heading, content.x + content.width - left,
                               low - content.y - below_heading };
}

static bool have_room(const struct form_picture *p)
{
    struct bench_box box = cautions_box(p);
    return bench_cautions_height(p, box.width, FORM_NOTE) <= box.height;
}

/* The way to their page, where they do not stand here: above the way to her own keys. */
static void add_cautions(struct bench_page *page)
{
    static const double apart = 10;
    struct bench_box content = bench_content(page->p);
    const char *label = base_tr("Before you begin");
    double width = form_width(page->p->type, FORM_STRONG, label) + 42;
    if (have_room(page->p) && !is_of_layout(page->bench))
        return;
    form_add(&page->form,
             (struct form_item){ .id = CAUTIONS,
                                 .kind = FORM_TAG,
                                 .box = { content.x + content.width - width,
                                          content.y + content.height - 2 * tag_height - apart, width, tag_height },
                                 .label = label });
}

static void fill(struct bench_page *page)
{
    page->title = base_tr("Help");
    page->sentence = base_tr("What the keys do here, and what to take care of at the table.");
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    add_language(page);
    add_brightness(page, ROOM, &room, "light in the room", page->bench->manner.room_lux);
    add_brightness(page, LIGHT, &light, "projector’s light", page->bench->manner.light_lux);
    add_own_keys(page);
    add_cautions(page);
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

static void draw_cautions(struct bench_page *page)
{
    struct bench_box box = cautions_box(page->p);
    form_text(page->p, (struct bench_pt){ box.x, bench_content(page->p).y + 12 }, FORM_LEFT, FORM_HEADING, FORM_INK,
              box.width, base_tr("Before you begin"));
    bench_draw_cautions(page->p, box, FORM_NOTE);
}

static void draw(struct bench_page *page)
{
    struct bench_box content = bench_content(page->p);
    size_t count;
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
    else if (have_room(page->p))
        draw_cautions(page);
}

static void answer(struct bench *b, const struct form_answer *did)
{
    if (did->did == FORM_PRESSED && did->id == OWN_KEYS)
        bench_go(b, BENCH_OWN_KEYS);
    if (did->did == FORM_PRESSED && did->id == CAUTIONS)
        b->cautions = b->effects.redraw = true;
    if (did->did != FORM_CHOSE)
        return;
    if (did->id == LANGUAGE)
        b->manner.language = (enum bench_language)did->choice;
    else if (did->id == ROOM)
        b->manner.room_lux = room.lux[did->choice];
    else
        b->manner.light_lux = light.lux[did->choice];
    b->effects.settings = b->effects.redraw = true;
}

const struct bench_stage bench_help = { .fill = fill, .draw = draw, .answer = answer };
