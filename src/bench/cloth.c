/* What the job is cut from: each material's cloth, how it is spread, and how it is made ready. */
#include "base/words.h"
#include "bench/inside.h"
#include "export/list.h"
#include "units/number.h"
#include "units/typed.h"

#include <math.h>
#include <string.h>

enum { MATERIAL = 1, KIND, COLOUR, WIDTH, SHRINK_WEFT, SHRINK_WARP, LENGTH, SELVEDGE, ONE_WAY, REPEAT, SPREAD, READY };

static const double label_width = 124, box_width = 212, halves_gap = 10, right_x = 440, plain_width_mm = 1500,
                    metre_mm = 1000, yard_mm = 914.4, widest_mm = 10000, most_shrink = 0.3;

static const struct form_key keys[] = { { BASE_TR_IN("key", "Tab"), BASE_TR("next") },
                                        { BASE_TR_IN("key", "Arrows"), BASE_TR("choose") },
                                        { BASE_TR_IN("key", "Space"), BASE_TR("tick, open") },
                                        { BASE_TR_IN("key", "Esc"), BASE_TR("put back") },
                                        { BASE_TR_IN("key", "Ctrl Z"), BASE_TR("undo") } };

/* --- which cloth ------------------------------------------------------------------------------------------------- */

const char *bench_material(enum pattern_cloth material)
{
    static const char *const names[JOB_MATERIALS] = { BASE_TR("Main fabric"), BASE_TR("Interfacing"),
                                                      BASE_TR("Lining") };
    return base_tr(names[material]);
}

/* The materials of the view's cutting list; only the main fabric while there is none. */
size_t bench_materials(const struct job *job, enum pattern_cloth out[JOB_MATERIALS])
{
    size_t count = 0;
    for (int m = 0; m < JOB_MATERIALS; m++)
        if (m == PATTERN_FABRIC || job_cuts_from(job, (enum pattern_cloth)m))
            out[count++] = (enum pattern_cloth)m;
    return count;
}

static enum pattern_cloth material_now(const struct bench *b)
{
    enum pattern_cloth materials[JOB_MATERIALS];
    size_t count = bench_materials(bench_now(b), materials);
    return materials[b->material < count ? b->material : 0];
}

static const struct cloth *told(const struct job *job, enum pattern_cloth material)
{
    for (size_t i = 0; i < job->cloth_count; i++)
        if (job->cloths[i].material == material)
            return &job->cloths[i].cloth;
    return NULL;
}

/* Interfacing is fusible, from edge to edge, and cut in a single layer of the widest that shops have. */
static struct cloth usual_cloth(const struct bench *b)
{
    const double *widths;
    struct cloth usual = cloth_plain(plain_width_mm);
    usual.unit = b->manner.unit;
    if (material_now(b) != PATTERN_INTERFACING)
        return usual;
    size_t count = cloth_common_widths(usual.unit, true, &widths);
    usual.width_mm = widths[count - 1];
    usual.spread = CLOTH_SINGLE;
    cloth_make_interfacing(&usual);
    return usual;
}

/* As it was told; a usual one while it was not. */
static struct cloth cloth_now(const struct bench *b)
{
    const struct cloth *is = told(bench_now(b), material_now(b));
    return is ? *is : usual_cloth(b);
}

static bool is_scrap(const struct cloth *cloth)
{
    return cloth->outline.path.count > 0;
}

void bench_show_material(struct bench *b, enum pattern_cloth material)
{
    enum pattern_cloth materials[JOB_MATERIALS];
    size_t count = bench_materials(bench_now(b), materials);
    for (size_t i = 0; i < count; i++)
        if (materials[i] == material)
            b->material = i;
}

const struct job *bench_with_cloth_of(struct bench *b, const char *path, struct err_list *errs)
{
    struct cloth cloth;
    if (!cloth_read(bench_room(b), path, &cloth, errs))
        return bench_job(b);
    if (b->page != BENCH_CLOTH)
        bench_show_material(b, cloth.kind == CLOTH_FUSIBLE ? PATTERN_INTERFACING : PATTERN_FABRIC);
    if (material_now(b) == PATTERN_INTERFACING)
        cloth_make_interfacing(&cloth);
    return job_with_cloth(bench_room(b), bench_job(b), material_now(b), &cloth, errs);
}

/* --- texts ------------------------------------------------------------------------------------------------------- */

/* Undyed and eleven others; what a colour is called is ours. */
static const struct {
    const char *name, *rgb;
} colours[] = {
    { BASE_TR("choose"), NULL },      { BASE_TR("white"), "#F4F3EF" },  { BASE_TR("undyed"), "#D9C8A4" },
    { BASE_TR("yellow"), "#E8C547" }, { BASE_TR("orange"), "#D9822B" }, { BASE_TR("red"), "#B3261E" },
    { BASE_TR("pink"), "#E0A3B4" },   { BASE_TR("green"), "#3E7D4F" },  { BASE_TR("blue"), "#2F5D9E" },
    { BASE_TR("navy"), "#1D2A44" },   { BASE_TR("brown"), "#6B4A2F" },  { BASE_TR("grey"), "#8A8F94" },
    { BASE_TR("black"), "#1B1B1D" },
};
enum { COLOURS = sizeof colours / sizeof colours[0], KINDS = CLOTH_FUSIBLE + 1, SPREADS = CLOTH_FOLDED_ACROSS + 1 };

static int colour_of(const struct cloth *cloth)
{
    for (int i = 1; cloth->colour && i < COLOURS; i++)
        if (strcmp(colours[i].rgb, cloth->colour) == 0)
            return i;
    return 0;
}

static const char *const spread_names[SPREADS] = { BASE_TR("Single"), BASE_TR("Folded"), BASE_TR("Part folded"),
                                                   BASE_TR("Edges in"), BASE_TR("Across") };

static const char *percent(struct arena *a, double share)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_decimal(text, 100 * share, 1));
}

/* Lengths of cloth are bought by the metre or by the yard. */
static const char *long_length(struct arena *a, const struct bench *b, double mm)
{
    if (b->manner.unit == UNITS_IN) {
        double eighths = floor(8 * mm / yard_mm + 0.5), whole = floor(eighths / 8);
        int over = (int)(eighths - 8 * whole), under = 8;
        while (over && over % 2 == 0) {
            over /= 2;
            under /= 2;
        }
        return over ? base_arena_print(a, "%g %d/%d", whole, over, under) : base_arena_print(a, "%g", whole);
    }
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_decimal(text, mm / metre_mm, 2));
}

/* --- the form ---------------------------------------------------------------------------------------------------- */

struct filling {
    struct bench_page *page;
    struct bench_rows rows;
    struct cloth cloth;
    int told; /* the field whose fault is told with what mends it; 0: there is none */
};

static const char *field_name(const struct bench *b, struct arena *a, int id)
{
    return base_arena_print(a, "cloth %d %d", (int)material_now(b), id);
}

static const char *unread_in(const struct bench *b, struct arena *a, int id)
{
    return job_words_of(bench_now(b)->ticket.unread, field_name(b, a, id));
}

/* What mends it is told of one fault at a time, for which there always is room: where she is, else the first. */
static int fault_to_tell(const struct bench_page *page)
{
    const struct bench *b = page->bench;
    int first = 0;
    for (int id = REPEAT; id >= WIDTH; id--)
        first = unread_in(b, page->a, id) ? id : first;
    return unread_in(b, page->a, b->hand.focus) ? b->hand.focus : first;
}

/* Beside its box, in few words. */
static void name_fault(const struct filling *f, struct form_item *item, const char *fault)
{
    bool is_first_half = item->id == SHRINK_WEFT;
    if (is_first_half && unread_in(f->page->bench, f->page->a, SHRINK_WARP) && f->told != SHRINK_WARP)
        return; /* the other half says the same there */
    item->note = fault;
    item->note_past = is_first_half ? halves_gap + item->box.width : 0;
    item->note_room = right_x - label_width - box_width - 24;
}

/* Below its box, as far as the column goes; the rows go on after it. */
static void tell_fault(struct filling *f, struct form_item *item, const char *fault, const char *mend)
{
    const struct form_picture *p = f->page->p;
    double room = bench_content(p).x + right_x - 16 - item->box.x;
    size_t lines = form_paragraph_lines(p, FORM_NOTE, room, fault) + form_paragraph_lines(p, FORM_NOTE, room, mend);
    item->note = fault;
    item->mend = mend;
    item->below_room = room;
    f->rows.y += (double)lines * form_line_step(FORM_NOTE) - 2;
}

/* What could not be read stands there in red until it is mended. */
static struct form_item *add(struct filling *f, struct form_item item, const char *fault, const char *mend)
{
    const struct bench *b = f->page->bench;
    const char *unread = unread_in(b, f->page->a, item.id);
    if (item.box.width == 0) {
        item.label_x = f->rows.label_x;
        item.box = bench_row(&f->rows);
    }
    if (unread) {
        item.state = FORM_FAULT;
        item.text = unread;
        if (item.id == f->told)
            tell_fault(f, &item, fault, bench_two_ways(f->page->a, unread, mend));
        else
            name_fault(f, &item, fault);
    }
    return form_add(&f->page->form, item);
}

static const char *width_mend(const struct bench *b)
{
    return b->manner.unit == UNITS_IN ? base_tr("Write 60, 60 in or 150 cm.") : base_tr("Write 150, 150 cm or 60 in.");
}

static void add_kind(struct filling *f)
{
    const char **names = base_arena_alloc(f->page->a, KINDS, sizeof *names);
    for (int i = 0; i < KINDS; i++)
        names[i] = base_tr(cloth_kind_name((enum cloth_kind)i));
    struct form_item *list =
        add(f, (struct form_item){ .id = KIND, .kind = FORM_LIST, .label = base_tr("Cloth") }, NULL, NULL);
    list->choices = names;
    list->choice_count = KINDS;
    list->chosen = (int)f->cloth.kind;
    list->text = names[f->cloth.kind];
}

static void add_colour(struct filling *f)
{
    const char **names = base_arena_alloc(f->page->a, COLOURS, sizeof *names);
    for (int i = 0; i < COLOURS; i++)
        names[i] = base_tr(colours[i].name);
    struct form_item *colour =
        add(f, (struct form_item){ .id = COLOUR, .kind = FORM_LIST, .label = base_tr("Colour") }, NULL, NULL);
    uint32_t *swatches = base_arena_alloc(f->page->a, COLOURS, sizeof *swatches);
    for (int i = 0; i < COLOURS; i++)
        swatches[i] = cloth_rgb(colours[i].rgb, FORM_NO_SWATCH);
    colour->swatches = swatches;
    colour->choices = names;
    colour->choice_count = COLOURS;
    colour->chosen = colour_of(&f->cloth);
    colour->text = names[colour->chosen];
    if (!colour->chosen && f->cloth.colour) { /* a file's, none of these */
        colour->text = base_tr("own colour");
        swatches[0] = cloth_rgb(f->cloth.colour, FORM_NO_SWATCH);
    }
}

static void add_lengths(struct filling *f)
{
    const struct bench *b = f->page->bench;
    struct arena *a = f->page->a;
    bool is_told = told(bench_now(b), material_now(b)) != NULL;
    const char *unit = units_shown_name(b->manner.unit);
    struct form_item *width =
        add(f,
            (struct form_item){ .id = WIDTH,
                                .kind = FORM_FIELD,
                                .label = base_tr("Width bought"),
                                .unit = is_scrap(&f->cloth) ? NULL : unit,
                                .state = is_told ? FORM_PLAIN : FORM_TO_DO,
                                .text = !is_told              ? base_tr("to measure")
                                        : is_scrap(&f->cloth) ? base_tr("a scrap")
                                                              : bench_number(a, f->cloth.width_mm, b->manner.unit) },
            base_tr("That is not a width."), width_mend(b));
    (void)width;
    struct bench_box row = bench_row(&f->rows), half = { row.x, row.y, (row.width - halves_gap) / 2, row.height };
    add(f,
        (struct form_item){ .id = SHRINK_WEFT,
                            .kind = FORM_FIELD,
                            .label = base_tr("Shrinks"),
                            .label_x = f->rows.label_x,
                            .box = half,
                            .unit = base_tr(/* xgettext:no-c-format */ "% wide"),
                            .text = percent(a, f->cloth.shrink_weft) },
        base_tr("That is not a percentage."), base_tr("Write 5 for 5 in a hundred."));
    half.x += half.width + halves_gap;
    add(f,
        (struct form_item){ .id = SHRINK_WARP,
                            .kind = FORM_FIELD,
                            .box = half,
                            .unit = base_tr(/* xgettext:no-c-format */ "% long"),
                            .text = percent(a, f->cloth.shrink_warp) },
        base_tr("That is not a percentage."), base_tr("Write 5 for 5 in a hundred."));
    if (is_scrap(&f->cloth)) /* as long as its outline, and without a selvedge */
        return;
    add(f,
        (struct form_item){ .id = LENGTH,
                            .kind = FORM_FIELD,
                            .label = base_tr("Length at hand"),
                            .unit = b->manner.unit == UNITS_IN ? base_tr("yd") : "m",
                            .text = f->cloth.length_mm > 0 ? long_length(a, b, f->cloth.length_mm)
                                                           : base_tr("to be bought") },
        base_tr("That is not a length."), base_tr("Write 3 m, 300 cm or 3 1/4 yd."));
    add(f,
        (struct form_item){ .id = SELVEDGE,
                            .kind = FORM_FIELD,
                            .label = base_tr("Selvedges off"),
                            .unit = base_arena_print(a, base_tr("%s each"), unit),
                            .text = bench_number(a, f->cloth.selvedge_mm, b->manner.unit) },
        base_tr("That is not a width."), base_tr("Write 1 cm or 3/8 in."));
    add(f,
        (struct form_item){ .id = REPEAT,
                            .kind = FORM_FIELD,
                            .label = base_tr("Pattern repeat"),
                            .unit = unit,
                            .text = f->cloth.repeat.along_mm > 0
                                        ? bench_number(a, f->cloth.repeat.along_mm, b->manner.unit)
                                        : base_tr_in("pattern repeat", "none") },
        base_tr("That is not a length."), base_tr("Write how far it is from one stripe to the next along the cloth."));
}

/* A picture of how the cloth lies, seen on its end. */
static void draw_spread(struct form_picture *p, const struct form_item *item, struct bench_box box, size_t choice,
                        bool bold)
{
    (void)item;
    double left = box.x + 12, right = box.x + box.width - 12, y = box.y + box.height * 0.4, up = 5;
    enum form_colour colour = bold ? FORM_INK : FORM_INK_2;
    const struct bench_pt folded[] = { { right, y - up }, { left + up, y - up },        { left + 1.5, y - up + 1.5 },
                                       { left, y },       { left + 1.5, y + up - 1.5 }, { left + up, y + up },
                                       { right, y + up } };
    const struct bench_pt part[] = {
        { right - 18, y - up }, { left + up, y - up }, { left, y }, { left + up, y + up }, { right, y + up }
    };
    const struct bench_pt edges[] = { { (left + right) / 2 - 2, y - up },
                                      { left + up, y - up },
                                      { left, y },
                                      { left + up, y + up },
                                      { right - up, y + up },
                                      { right, y },
                                      { right - up, y - up },
                                      { (left + right) / 2 + 2, y - up } };
    const struct bench_pt across[] = {
        { left, y - up }, { right - up, y - up }, { right, y }, { right - up, y + up }, { left, y + up }
    };
    const struct {
        const struct bench_pt *points;
        size_t count;
    } ways[SPREADS] = { { NULL, 0 }, { folded, 7 }, { part, 5 }, { edges, 8 }, { across, 5 } };
    if (ways[choice].count)
        form_stroke(p, ways[choice].points, ways[choice].count, false, 2, colour);
    else
        form_line(p, (struct bench_pt){ left, y }, (struct bench_pt){ right, y }, 2, colour);
    form_text_fit(p, (struct bench_pt){ box.x + box.width / 2, box.y + box.height - 9 }, FORM_MIDDLE,
                  bold ? FORM_NOTE_STRONG : FORM_SMALL, FORM_SMALL, FORM_INK, box.width - 2,
                  base_tr(spread_names[choice]));
}

/* The last ways do not fit beside the others on the page: told apart by a second row. */
static void add_right_side(struct filling *f)
{
    static const double tile_high = 56, tick_step = 27;
    struct bench_box content = bench_content(f->page->p);
    const struct bench *b = f->page->bench;
    double x = content.x + right_x, width = content.width - right_x, y = content.y + 92;
    form_add(&f->page->form, (struct form_item){ .id = SPREAD,
                                                 .kind = FORM_TILES,
                                                 .box = { x, y, width, 2 * tile_high + 6 },
                                                 .columns = 3,
                                                 .gap = 6,
                                                 .choices = spread_names,
                                                 .choice_count = SPREADS,
                                                 .chosen = (int)f->cloth.spread,
                                                 .draw_tile = draw_spread });
    y += 2 * tile_high + 6 + 30;
    const struct cloth_ready *steps;
    size_t count = cloth_ready_list(f->page->a, &f->cloth, b->manner.unit, &steps);
    for (size_t i = 0; i < count; i++, y += tick_step)
        form_add(&f->page->form, (struct form_item){ .id = READY + (int)steps[i].step,
                                                     .kind = FORM_TICK,
                                                     .box = { x, y, 20, 20 },
                                                     .label = base_tr(cloth_step_name(steps[i].step)),
                                                     .on = bench_now(b)->ticket.ready[material_now(b)][steps[i].step],
                                                     .note_room = width - 20 });
}

static void add_materials(struct filling *f)
{
    enum pattern_cloth materials[JOB_MATERIALS];
    const struct bench *b = f->page->bench;
    size_t count = bench_materials(bench_now(b), materials);
    if (count < 2)
        return;
    const char **names = base_arena_alloc(f->page->a, count, sizeof *names);
    for (size_t i = 0; i < count; i++)
        names[i] = bench_material(materials[i]);
    struct bench_box box = { f->rows.label_x, f->rows.y + 2, label_width + box_width, 32 };
    form_add(&f->page->form, (struct form_item){ .id = MATERIAL,
                                                 .kind = FORM_TILES,
                                                 .box = box,
                                                 .columns = count,
                                                 .gap = 6,
                                                 .choices = names,
                                                 .choice_count = count,
                                                 .chosen = (int)b->material });
    f->rows.y += f->rows.step;
}

static void fill(struct bench_page *page)
{
    struct bench_box content = bench_content(page->p);
    struct filling f = { page, bench_rows(page->p, content.x, content.x + label_width, box_width, 0),
                         cloth_now(page->bench), fault_to_tell(page) };
    page->title = base_tr("Cloth");
    page->sentence =
        base_tr("What lies on the table: as bought and as washed. The layout works with the washed width.");
    page->keys = keys;
    page->key_count = sizeof keys / sizeof keys[0];
    page->next = base_tr("Next: layout");
    add_materials(&f);
    add_kind(&f);
    add_colour(&f);
    add_lengths(&f);
    struct bench_box row = bench_row(&f.rows);
    form_add(&page->form, (struct form_item){ .id = ONE_WAY,
                                              .kind = FORM_TICK,
                                              .box = { row.x, row.y + 6, 22, 22 },
                                              .label = base_tr("Nap or one-way print"),
                                              .on = f.cloth.one_way,
                                              .note_room = 270 });
    add_right_side(&f);
}

/* As it is spread; of cloth that cannot be spread so, opened out. */
static double width_to_lay_on(struct arena *a, const struct cloth *cloth)
{
    struct err_list *untold = base_err_list_create();
    struct cloth_spread spread;
    bool spreads = cloth_spread(a, cloth, &spread, untold);
    base_err_list_destroy(untold);
    return spreads && !is_scrap(cloth) ? spread.width_mm : cloth_usable_width(cloth);
}

/* "150 cm washed, 73.75 cm to lay on" where it is folded; of a scrap what its outline has. */
static const char *width_text(struct arena *a, const struct bench *b, const struct cloth *cloth)
{
    const char *clear = bench_length(a, width_to_lay_on(a, cloth), b->manner.unit);
    if (is_scrap(cloth))
        return base_arena_print(a, base_tr("a scrap, up to %s wide"), clear);
    return base_arena_print(a, base_tr("%s washed, %s to lay on"),
                            bench_length(a, cloth_washed_width(cloth), b->manner.unit), clear);
}

static const char *heading_text(struct arena *a, const struct cloth *cloth)
{
    if (!cloth->fault_count)
        return base_tr("Width to lay on");
    return base_arena_print(
        a, base_tr_count(cloth->fault_count, "Width to lay on, round %zu flaw", "Width to lay on, round %zu flaws"),
        cloth->fault_count);
}

static void draw(struct bench_page *page)
{
    struct bench_box content = bench_content(page->p);
    const struct bench *b = page->bench;
    struct cloth cloth = cloth_now(b);
    double x = content.x + right_x, width = content.width - right_x;
    form_fill_box(page->p, (struct bench_box){ x, content.y, width, 54 }, FORM_SELVEDGE);
    form_text(page->p, (struct bench_pt){ x + 14, content.y + 21 }, FORM_LEFT, FORM_NOTE, FORM_INK_2, width - 20,
              heading_text(page->a, &cloth));
    bool known = told(bench_now(b), material_now(b)) && !unread_in(b, page->a, WIDTH);
    form_text_fit(page->p, (struct bench_pt){ x + 14, content.y + 43 }, FORM_LEFT, FORM_HEADING, FORM_NOTE_STRONG,
                  known ? FORM_INK : FORM_AMBER, width - 20,
                  known ? width_text(page->a, b, &cloth) : base_tr("to measure"));
    form_text(page->p, (struct bench_pt){ x, content.y + 82 }, FORM_LEFT, FORM_HEADING, FORM_INK, width,
              base_tr("Spread"));
    form_text(page->p, (struct bench_pt){ x, content.y + 92 + 2 * 56 + 6 + 21 }, FORM_LEFT, FORM_HEADING, FORM_INK,
              width, base_tr("Make it ready"));
}

/* --- what she did ------------------------------------------------------------------------------------------------ */

static bool read_share(const char *text, double *out)
{
    double percent_of;
    units_skip_space(&text);
    if (!units_read_decimal(&text, &percent_of))
        return false;
    while (*text == ' ' || *text == '%')
        text++;
    if (*text || percent_of > 100 * most_shrink)
        return false;
    *out = percent_of / 100;
    return true;
}

static bool read_length(const struct bench *b, const char *text, double bare_mm, double least, double most, double *out)
{
    double mm, bare;
    if (units_typed_number(text, &bare))
        mm = bare * bare_mm;
    else if (!units_typed_length(text, b->manner.unit, &mm))
        return false;
    if (!(mm >= least && mm <= most))
        return false;
    *out = mm;
    return true;
}

static bool is_none(const char *text)
{
    return !text[strspn(text, " ")] || strcmp(text, "none") == 0 ||
           strcmp(text, base_tr_in("pattern repeat", "none")) == 0;
}

/* Puts what she wrote into the cloth; false when it cannot be read. */
static bool put(const struct bench *b, int id, const char *text, struct cloth *cloth)
{
    double unit_mm = units_mm_per(b->manner.unit), long_mm = b->manner.unit == UNITS_IN ? yard_mm : metre_mm;
    switch (id) {
    case WIDTH:
        if (is_scrap(cloth)) /* other cloth, then */
            *cloth = usual_cloth(b);
        return read_length(b, text, unit_mm, 10, widest_mm, &cloth->width_mm);
    case SHRINK_WEFT:
        return read_share(text, &cloth->shrink_weft);
    case SHRINK_WARP:
        return read_share(text, &cloth->shrink_warp);
    case LENGTH:
        if (is_none(text))
            cloth->length_mm = 0;
        return is_none(text) || read_length(b, text, long_mm, 1, UNITS_FARTHEST_MM, &cloth->length_mm);
    case SELVEDGE:
        cloth->is_selvedge_told = read_length(b, text, unit_mm, 0, cloth->width_mm / 2, &cloth->selvedge_mm);
        return cloth->is_selvedge_told;
    case REPEAT:
        if (is_none(text))
            cloth->repeat.along_mm = 0;
        return is_none(text) || read_length(b, text, unit_mm, 1, widest_mm, &cloth->repeat.along_mm);
    default:
        return false;
    }
}

static void take(struct bench *b, const struct cloth *cloth, const char *done)
{
    struct err_list *errs = base_err_list_create();
    const struct job *job = job_with_cloth(bench_room(b), bench_job(b), material_now(b), cloth, errs);
    bench_take(b, job, done, errs);
}

static void take_text(struct bench *b, int id, const char *text)
{
    struct arena *a = bench_room(b);
    struct cloth cloth = cloth_now(b);
    struct err_list *errs = base_err_list_create();
    const char *field = field_name(b, a, id);
    bool good = put(b, id, text, &cloth);
    const struct job *job = job_with_unread(a, bench_job(b), field, good ? NULL : base_arena_copy_text(a, text));
    if (good)
        job = job_with_cloth(a, job, material_now(b), &cloth, errs);
    bench_take(b, job, base_tr("The cloth"), errs);
}

static void answer(struct bench *b, const struct form_answer *did)
{
    struct cloth cloth = cloth_now(b);
    if (did->did == FORM_WROTE) {
        take_text(b, did->id, did->text);
    } else if (did->id == MATERIAL) {
        b->material = (size_t)did->choice;
    } else if (did->id == KIND) {
        cloth.kind = (enum cloth_kind)did->choice;
        cloth.is_kind_told = true;
        take(b, &cloth, base_tr("The kind of cloth"));
    } else if (did->id == COLOUR) {
        cloth.colour = colours[did->choice].rgb;
        take(b, &cloth, base_tr("The colour"));
    } else if (did->id == ONE_WAY) {
        cloth.one_way = !cloth.one_way;
        take(b, &cloth, base_tr("Nap or one-way print"));
    } else if (did->id == SPREAD) {
        cloth.spread = (enum cloth_spread_kind)did->choice;
        take(b, &cloth, base_tr("How the cloth is spread"));
    } else if (did->id >= READY) {
        enum cloth_step step = (enum cloth_step)(did->id - READY);
        const struct job *job = bench_job(b);
        bool done = !job->ticket.ready[material_now(b)][step];
        bench_take(b, job_with_ready(bench_room(b), job, material_now(b), step, done),
                   base_tr("Making the cloth ready"), NULL);
    }
}

/* --- on the ticket ----------------------------------------------------------------------------------------------- */

static const char *lack_text(const struct job_lacking *lack)
{
    /* To: on the work ticket, at most 154 u */
    static const char *const widths[JOB_MATERIALS] = { BASE_TR("width of the cloth?"),
                                                       BASE_TR("width of the interfacing?"),
                                                       BASE_TR("width of the lining?") };
    /* To: on the work ticket, at most 154 u */
    static const char *const to_ready[JOB_MATERIALS] = { BASE_TR("cloth to make ready"),
                                                         BASE_TR("interfacing to make ready"),
                                                         BASE_TR("lining to make ready") };
    return base_tr((lack->kind == JOB_LACKS_CLOTH ? widths : to_ready)[lack->material]);
}

/* What is cut of need not be made ready any more. */
static bool is_open(const struct bench *b, const struct job_lacking *lack)
{
    bool is_cut = app_progress_find(&b->progress, lack->material) != NULL;
    return lack->stage == JOB_STAGE_CLOTH && !(is_cut && lack->kind == JOB_LACKS_READY);
}

static bool is_unread(const struct job *job)
{
    for (size_t i = 0; i < job->ticket.unread.count; i++)
        if (strncmp(job->ticket.unread.items[i].of, "cloth ", 6) == 0)
            return true;
    return false;
}

static void says(const struct bench *b, struct arena *a, struct bench_line *line)
{
    const struct job *job = bench_now(b);
    const struct job_lacking *lacks;
    size_t count = bench_lacks(b, &lacks);
    bool no_width = false; /* a width is asked for before anything is made ready */
    line->stand = job->cloth_count ? BENCH_TO_DO : BENCH_NOT_BEGUN;
    if (is_unread(job)) {
        *line = (struct bench_line){ line->name, base_tr("to mend"), BENCH_TO_DO, FORM_FAULT };
        return;
    }
    for (size_t i = 0; i < count; i++)
        if (is_open(b, &lacks[i]) && (!line->says || (lacks[i].kind == JOB_LACKS_CLOTH && !no_width))) {
            line->says = lack_text(&lacks[i]);
            no_width = lacks[i].kind == JOB_LACKS_CLOTH;
        }
    if (!line->says && !job->cloth_count)
        line->says = base_tr("width of the cloth?");
    line->mood = line->says ? FORM_TO_DO : FORM_PLAIN;
    const struct cloth *main = told(job, PATTERN_FABRIC);
    if (line->says || !main)
        return;
    line->says = base_arena_print(a, base_tr("%s wide"), bench_length(a, main->width_mm, b->manner.unit));
    line->stand = BENCH_DONE;
}

const struct bench_stage bench_cloth = { .says = says, .fill = fill, .draw = draw, .answer = answer };
