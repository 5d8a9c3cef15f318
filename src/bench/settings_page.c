/* The page of settings: how she likes the program to be, kept from day to day by the caller. */
#include "base/words.h"
#include "bench/inside.h"
#include "units/length.h"

enum { ROWS = 1, PROJECTOR = 100, OWN_KEYS, MOST_CHOICES = 4 };

static const double row_step = 40, tile_height = 32, label_width = 190, choices_width = 400;

static const struct form_key keys[] = { { "← →", BASE_TR("choose") },
                                        { BASE_TR_IN("key", "Tab"), BASE_TR("next") },
                                        { BASE_TR_IN("key", "Esc"), BASE_TR("back") } };

/* --- the rows ---------------------------------------------------------------------------------------------------- */

/* Brightness in lux: a dim room, one by lamplight, one by a window (common practice, no source); the white of about
 * 800, 2000 and 5000 lumens over 1.7 square metres, as the usual one is reckoned (app/seeing.c). */
static const int room_lux[] = { 100, 300, 1000 }, light_lux[] = { 500, 1200, 3000 };

enum { BRIGHT = 3, USUAL = 1 };

/* The one nearest to it, by how many times as bright it is. */
static int nearest(const int of[BRIGHT], int lux)
{
    int at = 0;
    for (int i = 1; lux > 0 && i < BRIGHT; i++)
        at += lux * (double)lux > of[i - 1] * (double)of[i];
    return lux > 0 ? at : USUAL;
}

static int language_now(const struct bench_manner *m)
{
    return (int)m->language;
}

static void take_language(struct bench_manner *m, int choice)
{
    m->language = (enum bench_language)choice;
}

static int unit_now(const struct bench_manner *m)
{
    return m->unit == UNITS_IN;
}

static void take_unit(struct bench_manner *m, int choice)
{
    m->unit = choice ? UNITS_IN : UNITS_CM;
}

static int hand_now(const struct bench_manner *m)
{
    return m->left_handed;
}

static void take_hand(struct bench_manner *m, int choice)
{
    m->left_handed = choice == 1;
}

static int side_now(const struct bench_manner *m)
{
    return m->side;
}

static void take_side(struct bench_manner *m, int choice)
{
    m->side = choice;
}

static int strip_now(const struct bench_manner *m)
{
    return m->strip;
}

static void take_strip(struct bench_manner *m, int choice)
{
    m->strip = choice;
}

static int way_now(const struct bench_manner *m)
{
    return (int)m->way;
}

static void take_way(struct bench_manner *m, int choice)
{
    m->way = (enum job_way)choice;
}

static int room_now(const struct bench_manner *m)
{
    return nearest(room_lux, m->room_lux);
}

static void take_room(struct bench_manner *m, int choice)
{
    m->room_lux = room_lux[choice];
}

static int light_now(const struct bench_manner *m)
{
    return nearest(light_lux, m->light_lux);
}

static void take_light(struct bench_manner *m, int choice)
{
    m->light_lux = light_lux[choice];
}

/* A language stands by its own name, so that whoever does not read the others finds hers: these are not translated. */
static const struct row {
    const char *label, *context;
    const char *words[MOST_CHOICES];
    int (*now)(const struct bench_manner *m);
    void (*take)(struct bench_manner *m, int choice);
} rows[] = {
    { BASE_TR("Language"),
      "setting",
      { BASE_TR_IN("setting", "as the desktop"), "English", "Deutsch" },
      language_now,
      take_language },
    { BASE_TR("Lengths in"),
      "setting",
      { BASE_TR_IN("setting", "centimetres"), BASE_TR_IN("setting", "inches") },
      unit_now,
      take_unit },
    { BASE_TR("Hand that cuts"),
      "hand",
      { BASE_TR_IN("hand", "right"), BASE_TR_IN("hand", "left") },
      hand_now,
      take_hand },
    { BASE_TR("You stand at first"),
      "side of the table",
      { BASE_TR_IN("side of the table", "near"), BASE_TR_IN("side of the table", "right"),
        BASE_TR_IN("side of the table", "far"), BASE_TR_IN("side of the table", "left") },
      side_now,
      take_side },
    { BASE_TR("Large words stand"),
      "side of the table",
      { BASE_TR_IN("side of the table", "near"), BASE_TR_IN("side of the table", "right"),
        BASE_TR_IN("side of the table", "far"), BASE_TR_IN("side of the table", "left") },
      strip_now,
      take_strip },
    { BASE_TR("New tickets"),
      "way of working",
      { [JOB_CUT_ON_LIGHT] = BASE_TR_IN("way of working", "cut on the light"),
        [JOB_CHALK_ALL] = BASE_TR_IN("way of working", "chalk all, cut by lamp") },
      way_now,
      take_way },
    { BASE_TR("Light in the room"),
      "light in the room",
      { BASE_TR_IN("light in the room", "dim"), BASE_TR_IN("light in the room", "usual"),
        BASE_TR_IN("light in the room", "bright") },
      room_now,
      take_room },
    { BASE_TR("Projector’s light"),
      "projector’s light",
      { BASE_TR_IN("projector’s light", "faint"), BASE_TR_IN("projector’s light", "usual"),
        BASE_TR_IN("projector’s light", "strong") },
      light_now,
      take_light },
};

enum { ROW_COUNT = sizeof rows / sizeof rows[0] };

/* --- the page ---------------------------------------------------------------------------------------------------- */

static void add_row(struct bench_page *page, int i)
{
    struct bench_box content = bench_content(page->p);
    const char **words = base_arena_alloc(page->a, MOST_CHOICES, sizeof *words);
    size_t count = 0;
    for (; count < MOST_CHOICES && rows[i].words[count]; count++)
        words[count] = base_tr_in(rows[i].context, rows[i].words[count]);
    form_add(&page->form, (struct form_item){
                              .id = ROWS + i,
                              .kind = FORM_TILES,
                              .box = { content.x + label_width, content.y + i * row_step, choices_width, tile_height },
                              .label_x = content.x,
                              .label = base_tr(rows[i].label),
                              .columns = count,
                              .gap = 6,
                              .choices = words,
                              .choice_count = count,
                              .chosen = rows[i].now(&page->bench->manner) });
}

static void fill(struct bench_page *page)
{
    double x = bench_content(page->p).x;
    page->title = base_tr("Settings");
    page->sentence = base_tr("They are kept, and hold for every ticket from now on.");
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    for (int i = 0; i < ROW_COUNT; i++)
        add_row(page, i);
    x = bench_add_tag(page, x, PROJECTOR, base_tr("Choose the projector anew"));
    bench_add_tag(page, x, OWN_KEYS, base_tr("Keys of your own"));
}

static void answer(struct bench *b, const struct form_answer *did)
{
    if (did->did == FORM_PRESSED && did->id == OWN_KEYS) {
        bench_go(b, BENCH_OWN_KEYS);
    } else if (did->did == FORM_PRESSED && did->id == PROJECTOR && b->at_table) {
        bench_say(b, base_tr("The light is in use: leave the table first."));
    } else if (did->did == FORM_PRESSED && did->id == PROJECTOR) {
        b->effects.asks_projector = true;
    } else if (did->did == FORM_CHOSE) {
        rows[did->id - ROWS].take(&b->manner, did->choice);
        b->effects.settings = b->effects.redraw = true;
    }
}

const struct bench_stage bench_settings = { .fill = fill, .answer = answer };
