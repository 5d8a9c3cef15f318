#include "app/import.h"

#include "base/digest.h"
#include "base/text.h"
#include "base/words.h"
#include "lifting/letters.h"

#include <math.h>
#include <string.h>

static const struct err_kind no_layer = { "import.no_layer", ERR_FAULT,
                                          BASE_TR("there is no layer “{0}” here; it has {1}") };
static const struct err_kind layers_stay = {
    "import.layers_stay", ERR_WARNING,
    BASE_TR("only layers of sizes were named: those of all sizes stay in use ({0}); "
            "name one of them too to use no others")
};

struct app_import *app_import_create(const struct drawing *flat)
{
    struct arena *said = base_arena_create();
    struct app_import *im = base_arena_alloc(said, 1, sizeof *im);
    im->said = said;
    im->flat = *flat;
    for (int stage = 0; stage <= APP_IMPORT_PIECES; stage++)
        im->made[stage] = base_arena_create();
    im->unmended_in = base_arena_create();
    return im;
}

struct app_import *app_import_read(const char *path, const struct sheet_how *how, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    const struct sheet *sheet = sheet_read(a, path, how, errs);
    struct drawing flat;
    struct app_import *im = NULL;
    if (sheet && drawing_flatten(a, sheet, &flat, errs)) {
        flat = lifting_read_letters(a, &flat);
        im = app_import_create(&flat);
    }
    if (im) {
        im->sheet = sheet;
        im->read_in = a;
        return im;
    }
    sheet_close(sheet);
    base_arena_destroy(a);
    return NULL;
}

void app_import_destroy(struct app_import *im)
{
    if (!im)
        return;
    sheet_close(im->sheet);
    base_arena_destroy(im->read_in);
    for (int stage = 0; stage <= APP_IMPORT_PIECES; stage++)
        base_arena_destroy(im->made[stage]);
    base_arena_destroy(im->unmended_in);
    base_err_list_destroy(im->told_unmended);
    base_err_list_destroy(im->told_mended);
    base_arena_destroy(im->said);
}

/* --- the stages -------------------------------------------------------------------------------------------------- */

static struct drawing_truth truth_said(const struct app_import *im)
{
    const struct app_import_choices *c = &im->choices;
    if (c->scale == APP_IMPORT_BY_SQUARE && c->square < im->square_count)
        return drawing_judge_as(&im->squares[c->square], c->side_mm);
    return im->found;
}

static struct drawing_scale scale_said(const struct app_import *im)
{
    static const struct drawing_scale as_drawn = { 1, 1 };
    const struct app_import_choices *c = &im->choices;
    struct drawing_scale scale;
    switch (c->scale) {
    case APP_IMPORT_AS_DRAWN:
        return as_drawn;
    case APP_IMPORT_BY_POINTS:
        return drawing_scale_by_points(c->points[0], c->points[1], c->true_mm, &scale) ? scale : as_drawn;
    case APP_IMPORT_AS_FOUND:
    case APP_IMPORT_BY_SQUARE:
        break;
    }
    return drawing_correction(im->truth.saved);
}

static void make_truth(struct app_import *im, struct arena *a)
{
    im->square_count = drawing_find_squares(a, &im->flat, &im->squares);
    im->found = drawing_judge(im->squares, im->square_count);
    im->truth = truth_said(im);
    im->scale = scale_said(im);
}

static void make_pages(struct app_import *im, struct arena *a)
{
    drawing_find_pages(a, &im->flat, im->scale, &im->choices.pages, &im->pages);
    im->joined = drawing_join(a, &im->flat, im->scale, &im->pages);
}

/* The lines and words of layers that are used, page by page. */
static struct drawing used_of(struct arena *a, const struct drawing *d, const bool *layers)
{
    struct drawing out = *d;
    struct drawing_page *pages = base_arena_alloc(a, d->page_count, sizeof *pages);
    struct drawing_line *lines = base_arena_alloc(a, d->line_count, sizeof *lines);
    struct drawing_text *texts = base_arena_alloc(a, d->text_count, sizeof *texts);
    out.line_count = out.text_count = 0;
    for (size_t p = 0; p < d->page_count; p++) {
        const struct drawing_page *page = &d->pages[p];
        pages[p] = *page;
        pages[p].first_line = out.line_count;
        pages[p].first_text = out.text_count;
        for (size_t i = page->first_line; i < page->first_line + page->line_count; i++)
            if (drawing_layer_shows(d, layers, d->lines[i].layer))
                lines[out.line_count++] = d->lines[i];
        for (size_t i = page->first_text; i < page->first_text + page->text_count; i++)
            if (drawing_layer_shows(d, layers, d->texts[i].layer))
                texts[out.text_count++] = d->texts[i];
        pages[p].line_count = out.line_count - pages[p].first_line;
        pages[p].text_count = out.text_count - pages[p].first_text;
    }
    out.pages = pages;
    out.lines = lines;
    out.texts = texts;
    return out;
}

static bool is_alike(const struct lifting_strand *a, const struct lifting_strand *b)
{
    return a->layer == b->layer && a->rgb == b->rgb && a->filled == b->filled && a->dash_count == b->dash_count;
}

/* The strand that was spoken of; strand_count when there is none any more. */
static size_t find_strand(const struct lifting_division *division, const struct app_import_say *say)
{
    struct lifting_strand like = {
        .layer = say->layer, .rgb = say->rgb, .filled = say->filled, .dash_count = say->dash_count
    };
    size_t nth = 0;
    for (size_t i = 0; i < division->strand_count; i++)
        if (is_alike(&division->strands[i], &like) && nth++ == say->nth)
            return i;
    return division->strand_count;
}

/* What was found says which strands there are; what she says of them then changes what they are for. */
static void make_sizes(struct app_import *im, struct arena *a)
{
    const struct app_import_choices *c = &im->choices;
    struct lifting_say *says = base_arena_alloc(a, c->say_count, sizeof *says);
    size_t count = 0;
    im->chosen = c->layers ? used_of(a, &im->joined, c->layers) : im->joined;
    lifting_divide(a, &im->chosen, NULL, 0, &im->division);
    im->found_sizes = im->division.sizes;
    im->found_size_count = im->division.size_count;
    for (size_t i = 0; i < c->say_count; i++) {
        const struct app_import_say *say = &c->says[i];
        size_t strand = find_strand(&im->division, say);
        if (strand < im->division.strand_count)
            says[count++] = (struct lifting_say){ strand, say->role, say->size, say->cup_group };
    }
    if (count)
        lifting_divide(a, &im->chosen, says, count, &im->division);
}

/* Its eight bytes, the lowest first, whatever the machine. */
static uint64_t mixed(uint64_t hash, uint64_t value)
{
    unsigned char bytes[8];
    for (int i = 0; i < 8; i++)
        bytes[i] = (unsigned char)(value >> (8 * i));
    return base_digest(hash, bytes, sizeof bytes);
}

static uint64_t mixed_length(uint64_t hash, double mm)
{
    return mixed(hash, (uint64_t)(int64_t)floor(mm + 0.5));
}

static uint64_t mixed_outline(uint64_t hash, const struct lifting_outline *outline)
{
    struct geometry_box box = geometry_path_box(outline->path.path);
    if (!outline->there)
        return mixed(hash, 0);
    hash = mixed_length(mixed_length(hash, box.min.x), box.min.y);
    return mixed_length(mixed_length(hash, box.max.x), box.max.y);
}

/* By how many there are and where each lies in each size, to the mm. */
static uint64_t name_of(const struct lifting *l)
{
    uint64_t hash = mixed(BASE_DIGEST_NONE, l->piece_count);
    for (size_t i = 0; i < l->piece_count; i++)
        for (size_t k = 0; k < l->division->size_count; k++)
            hash = mixed_outline(hash, &l->pieces[i].outlines[k]);
    return hash ? hash : 1;
}

static void make_unmended(struct app_import *im)
{
    if (im->unmended_made)
        return;
    base_arena_reset(im->unmended_in);
    base_err_list_destroy(im->told_unmended);
    im->told_unmended = base_err_list_create();
    im->unmended_pieces = lifting_lift(im->unmended_in, &im->chosen, &im->division, NULL, 0, im->told_unmended);
    im->unmended = name_of(&im->unmended_pieces);
    im->unmended_made = true;
}

static void make_pieces(struct app_import *im, struct arena *a)
{
    const struct app_import_choices *c = &im->choices;
    make_unmended(im);
    im->mended = c->mend_count && (!c->mends_of || c->mends_of == im->unmended);
    im->lifting = im->unmended_pieces;
    im->told = im->told_unmended;
    if (!im->mended)
        return;
    base_err_list_destroy(im->told_mended);
    im->told = im->told_mended = base_err_list_create();
    im->lifting = lifting_lift(a, &im->chosen, &im->division, c->mends, c->mend_count, im->told_mended);
}

void app_import_changed(struct app_import *im, enum app_import_stage stage)
{
    if ((int)stage < im->stages)
        im->stages = (int)stage;
}

void app_import_make(struct app_import *im, enum app_import_stage stage)
{
    static void (*const makers[])(struct app_import *, struct arena *) = { make_truth, make_pages, make_sizes,
                                                                           make_pieces };
    for (; im->stages <= (int)stage; im->stages++) {
        base_arena_reset(im->made[im->stages]);
        im->unmended_made = im->unmended_made && im->stages == APP_IMPORT_PIECES;
        makers[im->stages](im, im->made[im->stages]);
    }
}

/* --- saying ------------------------------------------------------------------------------------------------------ */

static struct app_import_say look_of(const struct lifting_division *division, size_t strand)
{
    const struct lifting_strand *s = &division->strands[strand];
    struct app_import_say say = { s->layer, s->rgb, s->filled, s->dash_count, 0, s->role, NULL, NULL };
    for (size_t i = 0; i < strand; i++)
        say.nth += is_alike(&division->strands[i], s);
    return say;
}

static bool is_of_one_strand(const struct app_import_say *a, const struct app_import_say *b)
{
    return a->layer == b->layer && a->rgb == b->rgb && a->filled == b->filled && a->dash_count == b->dash_count &&
           a->nth == b->nth;
}

static const char *kept(struct app_import *im, const char *text)
{
    return text ? base_arena_copy_text(im->said, text) : NULL;
}

void app_import_say(struct app_import *im, size_t strand, enum lifting_role role, const char *size,
                    const char *cup_group)
{
    struct app_import_choices *c = &im->choices;
    struct app_import_say say = look_of(&im->division, strand);
    struct app_import_say *says = base_arena_alloc(im->said, c->say_count + 1, sizeof *says);
    size_t count = 0;
    say.role = role;
    say.size = kept(im, size);
    say.cup_group = kept(im, cup_group);
    for (size_t i = 0; i < c->say_count; i++)
        if (!is_of_one_strand(&c->says[i], &say))
            says[count++] = c->says[i];
    says[count++] = say;
    c->says = says;
    c->say_count = count;
    app_import_changed(im, APP_IMPORT_SIZES);
}

void app_import_mend(struct app_import *im, const struct lifting_mend *mend)
{
    struct app_import_choices *c = &im->choices;
    app_import_make(im, APP_IMPORT_PIECES);
    size_t before = im->mended ? c->mend_count : 0;
    struct lifting_mend *mends = base_arena_alloc(im->said, before + 1, sizeof *mends);
    if (before)
        memcpy(mends, c->mends, before * sizeof *mends);
    mends[before] = *mend;
    mends[before].text = kept(im, mend->text);
    c->mends = mends;
    c->mend_count = before + 1;
    c->mends_of = im->unmended;
    app_import_changed(im, APP_IMPORT_PIECES);
}

bool app_import_take_back(struct app_import *im)
{
    app_import_make(im, APP_IMPORT_PIECES);
    if (!im->mended)
        return false;
    im->choices.mend_count--;
    app_import_changed(im, APP_IMPORT_PIECES);
    return true;
}

bool app_import_draws(const struct app_import *im, const char *size)
{
    for (size_t i = 0; i < im->choices.size_count; i++)
        if (strcmp(im->choices.sizes[i], size) == 0)
            return true;
    return false;
}

void app_import_draw(struct app_import *im, const char *size, bool on)
{
    struct app_import_choices *c = &im->choices;
    const char **sizes = base_arena_alloc(im->said, c->size_count + 1, sizeof *sizes);
    size_t count = 0;
    for (size_t i = 0; i < c->size_count; i++)
        if (strcmp(c->sizes[i], size) != 0)
            sizes[count++] = c->sizes[i];
    if (on)
        sizes[count++] = kept(im, size);
    c->sizes = sizes;
    c->size_count = count;
}

/* --- layers ------------------------------------------------------------------------------------------------------ */

/* Of all layers, or of those alone. */
static const char *layer_names(struct arena *a, const struct drawing *d, const bool *those)
{
    const char *list = "";
    for (size_t i = 0; i < d->layer_count; i++)
        if (!those || those[i])
            list = base_arena_print(a, "%s%s%s", list, *list ? ", " : "",
                                    base_arena_print(a, base_tr("“%s”"), d->layers[i].name));
    return *list ? base_text_cut(a, list, 400) : base_tr_in("nothing in a list", "none");
}

/* Layers as they are named, one after the other. */
struct naming {
    const struct drawing *d;
    const enum lifting_role *roles; /* of its layers, by their names */
    bool *used;
    bool sizes_alone; /* all named so far are of sizes */
};

/* Takes the layers of that name, what they lie in and what lies in them. How many it has. */
static size_t use_layer(struct naming *n, const char *name)
{
    const struct drawing *d = n->d;
    bool *used = n->used;
    size_t found = 0;
    for (size_t i = 0; i < d->layer_count; i++) {
        if (strcmp(d->layers[i].name, name) != 0)
            continue;
        found++;
        n->sizes_alone = n->sizes_alone && n->roles[i] == LIFTING_SIZE;
        for (size_t k = 0; k < d->layer_count; k++)
            used[k] = used[k] || drawing_layer_within(d, (int)k, (int)i) || drawing_layer_within(d, (int)i, (int)k);
    }
    return found;
}

/* Who names sizes wants them whole: with the words, marks and pieces that all sizes share. */
static void keep_common(struct naming *n, struct err_list *errs)
{
    bool *stay = base_arena_alloc(errs->arena, n->d->layer_count, sizeof *stay), any = false;
    for (size_t i = 0; i < n->d->layer_count; i++) {
        stay[i] = !n->used[i] && n->roles[i] == LIFTING_COMMON;
        n->used[i] = n->used[i] || stay[i];
        any = any || stay[i];
    }
    if (any)
        base_err(errs, &layers_stay, base_err_in_file(NULL), ERR_TEXT(layer_names(errs->arena, n->d, stay)));
}

bool app_import_use_layers(struct app_import *im, const char *names, struct err_list *errs)
{
    struct naming n = { &im->flat, lifting_layer_roles(im->said, &im->flat),
                        base_arena_alloc(im->said, im->flat.layer_count, sizeof *n.used), true };
    bool all = true, any = false;
    while (*names) {
        size_t length = strcspn(names, ",");
        const char *name = base_arena_copy_bytes(im->said, names, length);
        any = any || *name;
        if (*name && !use_layer(&n, name)) {
            base_err(errs, &no_layer, base_err_in_file(NULL), ERR_TEXT(name),
                     ERR_TEXT(layer_names(errs->arena, n.d, NULL)));
            all = false;
        }
        names += length + (names[length] == ',');
    }
    if (all && any && n.sizes_alone)
        keep_common(&n, errs);
    im->choices.layers = n.used;
    app_import_changed(im, APP_IMPORT_SIZES);
    return all;
}
