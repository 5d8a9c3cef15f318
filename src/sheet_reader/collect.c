#include "sheet_reader/collect.h"

#include "base/text.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { STYLE_SLOTS = 4096, CLIP_SLOTS = 1024 }; /* of the tables that find one again; more are written twice */
#define CLIP_NEAR_MM 0.001                      /* a clip that near the page's edge is at it */

struct rows {
    void *data;
    size_t count, cap;
};

struct collect {
    struct rows rows[SHEET_SECTIONS];
    uint64_t bytes; /* of all rows together */
    enum sheet_exit fault;
    int progress_fd;
    unsigned percent;

    struct sheet_item item;
    struct sheet_clip clip, item_clip; /* in force, and when the item began */
    bool clipped, item_clipped;
    struct sheet_part part;
    bool in_part;
    double start_x, start_y;           /* of the subpath, for what follows its closing */
    uint32_t style_slots[STYLE_SLOTS]; /* index + 1; 0: none */
    uint32_t clip_slots[CLIP_SLOTS];
};

struct collect *collect_create(int progress_fd)
{
    struct collect *c = calloc(1, sizeof *c);
    if (c)
        c->progress_fd = progress_fd;
    return c;
}

void collect_destroy(struct collect *c)
{
    if (!c)
        return;
    for (size_t i = 0; i < SHEET_SECTIONS; i++)
        free(c->rows[i].data);
    free(c);
}

bool collect_failed(const struct collect *c)
{
    return c->fault != SHEET_EXIT_DONE;
}

enum sheet_exit collect_exit(const struct collect *c)
{
    return c->fault;
}

static void fail(struct collect *c, enum sheet_exit why)
{
    if (!collect_failed(c))
        c->fault = why;
}

void collect_too_large(struct collect *c)
{
    fail(c, SHEET_EXIT_TOO_LARGE);
}

void collect_progress(struct collect *c, unsigned percent)
{
    if (percent > 100)
        percent = 100;
    if (c->progress_fd < 0 || percent <= c->percent)
        return;
    c->percent = percent;
    unsigned char byte = (unsigned char)percent;
    if (write(c->progress_fd, &byte, 1) != 1)
        c->progress_fd = -1; /* nobody listens any more */
}

/* ------------------------------------------------------------------------------------------------------------- rows */

static bool grow(struct rows *r, size_t need, size_t size)
{
    size_t cap = r->cap ? r->cap : 64;
    while (cap < need)
        cap += cap / 2 + 1;
    void *data = realloc(r->data, cap * size);
    if (!data)
        return false;
    r->data = data;
    r->cap = cap;
    return true;
}

/* Room for `count` more in a section, counted as there already; NULL once it has failed. */
static void *more(struct collect *c, enum sheet_section section, size_t count)
{
    struct rows *r = &c->rows[section];
    size_t size = sheet_element_bytes[section];
    if (collect_failed(c))
        return NULL;
    if (count > SHEET_RESULT_MOST || c->bytes + count * size > SHEET_RESULT_MOST ||
        (r->count + count > r->cap && !grow(r, r->count + count, size))) {
        fail(c, SHEET_EXIT_TOO_LARGE);
        return NULL;
    }
    void *at = count ? (char *)r->data + r->count * size : r->data;
    r->count += count;
    c->bytes += count * size;
    return at;
}

static uint32_t count_of(const struct collect *c, enum sheet_section section)
{
    return (uint32_t)c->rows[section].count; /* the bound of the whole keeps it far below 2^32 */
}

static bool within(struct collect *c, enum sheet_section section, size_t most)
{
    if (c->rows[section].count >= most)
        fail(c, SHEET_EXIT_TOO_LARGE);
    return !collect_failed(c);
}

static bool is_place(double mm)
{
    return fabs(mm) <= SHEET_COORDINATE_MOST;
}

static double length_or_zero(double mm)
{
    return mm >= 0 && mm <= SHEET_COORDINATE_MOST ? mm : 0;
}

/* ------------------------------------------------------------------------------------------- texts, layers, pages */

/* How many bytes from there are one well-formed character; 0 when none are. */
static size_t character_bytes(const char *bytes, size_t count)
{
    for (size_t n = 1; n <= 4 && n <= count; n++)
        if (base_text_is_utf8(bytes, n))
            return bytes[0] ? n : 0;
    return 0;
}

uint32_t collect_text(struct collect *c, const char *utf8, size_t bytes)
{
    if (!utf8)
        return SHEET_NONE;
    uint32_t first = count_of(c, SHEET_BYTES);
    char *copy = bytes < SHEET_RESULT_MOST ? more(c, SHEET_BYTES, bytes + 1) : NULL;
    struct sheet_text *text = more(c, SHEET_TEXTS, 1);
    if (!copy || !text) {
        fail(c, SHEET_EXIT_TOO_LARGE);
        return SHEET_NONE;
    }
    for (size_t i = 0; i < bytes;) {
        size_t n = character_bytes(utf8 + i, bytes - i);
        if (n)
            memcpy(copy + i, utf8 + i, n);
        else
            copy[i] = '?';
        i += n ? n : 1;
    }
    copy[bytes] = 0;
    *text = (struct sheet_text){ first, (uint32_t)bytes };
    return count_of(c, SHEET_TEXTS) - 1;
}

uint32_t collect_layer(struct collect *c, uint32_t parent, const char *name, unsigned flags)
{
    uint32_t text = collect_text(c, name, strlen(name));
    struct sheet_layer *layer = within(c, SHEET_LAYERS, SHEET_LAYERS_MOST) ? more(c, SHEET_LAYERS, 1) : NULL;
    if (!layer)
        return SHEET_NONE;
    *layer = (struct sheet_layer){ parent, text, flags, 0 };
    return count_of(c, SHEET_LAYERS) - 1;
}

uint32_t collect_page(struct collect *c, double width_mm, double height_mm, const char *label)
{
    uint32_t text = label ? collect_text(c, label, strlen(label)) : SHEET_NONE;
    bool sized = width_mm > 0 && height_mm > 0 && is_place(width_mm) && is_place(height_mm);
    if (!sized)
        fail(c, SHEET_EXIT_DAMAGED);
    struct sheet_page *page = within(c, SHEET_PAGES, SHEET_PAGES_MOST) ? more(c, SHEET_PAGES, 1) : NULL;
    if (!page)
        return SHEET_NONE;
    c->clipped = false;
    *page = (struct sheet_page){ width_mm, height_mm, count_of(c, SHEET_ITEMS), 0, text, 0 };
    return count_of(c, SHEET_PAGES) - 1;
}

void collect_note(struct collect *c, enum sheet_note_code code, const char *text, uint32_t a, uint32_t b)
{
    if (c->rows[SHEET_NOTES].count >= SHEET_NOTES_MOST)
        return; /* enough has been told */
    uint32_t said = text ? collect_text(c, text, strlen(text)) : SHEET_NONE;
    struct sheet_note *note = more(c, SHEET_NOTES, 1);
    if (note)
        *note = (struct sheet_note){ (uint32_t)code, said, a, b };
}

/* ----------------------------------------------------------------------------------------------------------- styles */

static bool same_dashes(const struct collect *c, const struct sheet_style *old, const struct collect_style *new)
{
    const double *dashes = (const double *)c->rows[SHEET_NUMBERS].data + old->first_dash;
    for (size_t i = 0; i < new->dash_count; i++)
        if (dashes[i] != length_or_zero(new->dash_mm[i]))
            return false;
    return true;
}

static bool same_style(const struct collect *c, uint32_t index, const struct collect_style *new)
{
    const struct sheet_style *old = (const struct sheet_style *)c->rows[SHEET_STYLES].data + index;
    return old->width_mm == length_or_zero(new->width_mm) && old->rgb == (new->rgb & 0xffffff) &&
           old->flags == (new->flags &SHEET_STYLE_FLAGS) &&
           old->dash_count == new->dash_count &&same_dashes(c, old, new);
}

/* FNV-1a. */
static uint64_t hash_of(const void *bytes, size_t count)
{
    uint64_t hash = 14695981039346656037u;
    for (size_t i = 0; i < count; i++)
        hash = (hash ^ ((const unsigned char *)bytes)[i]) * 1099511628211u;
    return hash ^ hash >> 32;
}

/* Over what tells most styles apart. */
static size_t style_slot(const struct collect_style *style)
{
    uint64_t parts[3] = { 0, style->rgb, ((uint64_t)style->flags << 32) | style->dash_count };
    memcpy(&parts[0], &style->width_mm, sizeof parts[0]);
    return hash_of(parts, sizeof parts) % STYLE_SLOTS;
}

static uint32_t add_style(struct collect *c, const struct collect_style *style)
{
    uint32_t first = count_of(c, SHEET_NUMBERS);
    double *dashes = more(c, SHEET_NUMBERS, style->dash_count);
    struct sheet_style *new = more(c, SHEET_STYLES, 1);
    if (!new)
        return SHEET_NONE;
    for (size_t i = 0; i < style->dash_count; i++)
        dashes[i] = length_or_zero(style->dash_mm[i]);
    *new = (struct sheet_style){ length_or_zero(style->width_mm),
                                 style->rgb & 0xffffff,
                                 (uint16_t)(style->flags & SHEET_STYLE_FLAGS),
                                 (uint16_t)style->dash_count,
                                 first,
                                 0 };
    return count_of(c, SHEET_STYLES) - 1;
}

static uint32_t style_index(struct collect *c, const struct collect_style *style)
{
    struct collect_style whole = *style;
    if (whole.dash_count > UINT16_MAX)
        whole.dash_count = 0;
    uint32_t *slot = &c->style_slots[style_slot(&whole)];
    if (*slot && same_style(c, *slot - 1, &whole))
        return *slot - 1;
    uint32_t index = add_style(c, &whole);
    *slot = index == SHEET_NONE ? 0 : index + 1;
    return index;
}

/* ------------------------------------------------------------------------------------------------------------ clips */

/* What is not a number becomes the bound that lets all be seen. */
static double bounded(double mm, double otherwise)
{
    double most = SHEET_COORDINATE_MOST;
    return mm > most ? most : mm < -most ? -most : isnan(mm) ? otherwise : mm + 0.0; /* no -0 */
}

static bool holds_page(const struct collect *c, const struct sheet_clip *clip)
{
    const struct sheet_page *page = c->rows[SHEET_PAGES].data;
    if (!c->rows[SHEET_PAGES].count)
        return false;
    page += c->rows[SHEET_PAGES].count - 1;
    return !clip->flags && clip->x0 <= CLIP_NEAR_MM && clip->y0 <= CLIP_NEAR_MM &&
           clip->x1 >= page->width_mm - CLIP_NEAR_MM && clip->y1 >= page->height_mm - CLIP_NEAR_MM;
}

void collect_clip(struct collect *c, const struct sheet_clip *clip)
{
    const double most = SHEET_COORDINATE_MOST;
    c->clipped = false;
    if (!clip)
        return;
    struct sheet_clip box = { bounded(clip->x0, -most), bounded(clip->y0, -most),       bounded(clip->x1, most),
                              bounded(clip->y1, most),  clip->flags & SHEET_CLIP_FLAGS, 0 };
    if (box.x1 < box.x0)
        box.x1 = box.x0;
    if (box.y1 < box.y0)
        box.y1 = box.y0;
    c->clip = box;
    c->clipped = !holds_page(c, &box);
}

static bool same_clip(const struct sheet_clip *a, const struct sheet_clip *b)
{
    return a->x0 == b->x0 && a->y0 == b->y0 && a->x1 == b->x1 && a->y1 == b->y1 && a->flags == b->flags;
}

/* Its index; a new one is the last. */
static uint32_t clip_index(struct collect *c, const struct sheet_clip *clip)
{
    uint32_t *slot = &c->clip_slots[hash_of(clip, sizeof *clip) % CLIP_SLOTS];
    const struct sheet_clip *rows = c->rows[SHEET_CLIPS].data;
    if (*slot && same_clip(&rows[*slot - 1], clip))
        return *slot - 1;
    struct sheet_clip *new = more(c, SHEET_CLIPS, 1);
    if (!new)
        return SHEET_NONE;
    *new = *clip;
    *slot = count_of(c, SHEET_CLIPS);
    return *slot - 1;
}

/* ------------------------------------------------------------------------------------------------------------ items */

static void begin(struct collect *c, enum sheet_kind kind, uint32_t layer, const struct collect_style *style)
{
    c->item = (struct sheet_item){ (uint32_t)kind,
                                   style_index(c, style),
                                   layer,
                                   count_of(c, SHEET_PAGES) - 1,
                                   count_of(c, SHEET_PARTS),
                                   0,
                                   SHEET_NONE,
                                   SHEET_NONE,
                                   SHEET_NONE };
    c->item_clipped = c->clipped;
    c->item_clip = c->clip;
    c->in_part = false;
    c->start_x = c->start_y = 0;
}

void collect_begin(struct collect *c, uint32_t layer, const struct collect_style *style)
{
    begin(c, SHEET_PATH, layer, style);
}

static void point(struct collect *c, double x, double y)
{
    if (!is_place(x) || !is_place(y))
        fail(c, SHEET_EXIT_DAMAGED);
    struct sheet_point *p = more(c, SHEET_POINTS, 1);
    if (p)
        *p = (struct sheet_point){ x, y };
}

static void segment(struct collect *c, uint8_t kind)
{
    if (!c->in_part)
        collect_move(c, c->start_x, c->start_y);
    uint8_t *k = more(c, SHEET_KINDS, 1);
    if (k)
        *k = kind;
}

static void take_back(struct collect *c, enum sheet_section section, size_t to)
{
    c->bytes -= (c->rows[section].count - to) * sheet_element_bytes[section];
    c->rows[section].count = to;
}

static void finish_part(struct collect *c, bool closed)
{
    if (!c->in_part)
        return;
    c->in_part = false;
    c->part.closed = closed;
    c->part.segment_count = count_of(c, SHEET_KINDS) - c->part.first_kind;
    if (!c->part.segment_count && !closed) {
        take_back(c, SHEET_POINTS, c->part.first_point);
        return;
    }
    struct sheet_part *part = more(c, SHEET_PARTS, 1);
    if (part)
        *part = c->part;
}

void collect_move(struct collect *c, double x, double y)
{
    finish_part(c, false);
    c->part = (struct sheet_part){ count_of(c, SHEET_POINTS), 0, count_of(c, SHEET_KINDS), 0 };
    c->in_part = true;
    c->start_x = x;
    c->start_y = y;
    point(c, x, y);
}

void collect_line(struct collect *c, double x, double y)
{
    segment(c, SHEET_LINE);
    point(c, x, y);
}

void collect_cubic(struct collect *c, double x1, double y1, double x2, double y2, double x, double y)
{
    segment(c, SHEET_CUBIC);
    point(c, x1, y1);
    point(c, x2, y2);
    point(c, x, y);
}

void collect_close(struct collect *c)
{
    finish_part(c, true);
}

void collect_end(struct collect *c)
{
    finish_part(c, false);
    c->item.part_count = count_of(c, SHEET_PARTS) - c->item.first_part;
    if (c->item.kind == SHEET_PATH && !c->item.part_count)
        return;
    if (!c->rows[SHEET_PAGES].count) {
        fail(c, SHEET_EXIT_DAMAGED);
        return;
    }
    if (c->item_clipped)
        c->item.clip = clip_index(c, &c->item_clip);
    struct sheet_item *item = more(c, SHEET_ITEMS, 1);
    if (!item)
        return;
    *item = c->item;
    ((struct sheet_page *)c->rows[SHEET_PAGES].data)[c->item.page].item_count++;
}

static bool run_is_sound(const struct sheet_run *r)
{
    return is_place(r->x) && is_place(r->y) && is_place(r->dx) && is_place(r->dy);
}

void collect_begin_run(struct collect *c, uint32_t layer, const struct collect_style *style, const char *utf8,
                       size_t bytes, const struct sheet_run *run)
{
    struct collect_style lettered = *style;
    lettered.flags |= SHEET_TEXT;
    begin(c, SHEET_RUN, layer, &lettered);
    c->item.text = collect_text(c, utf8, bytes);
    if (!run_is_sound(run))
        fail(c, SHEET_EXIT_DAMAGED);
    struct sheet_run *kept = more(c, SHEET_RUNS, 1);
    if (!kept)
        return;
    double length = sqrt(run->dx * run->dx + run->dy * run->dy);
    bool has_way = length > 1e-100;
    *kept = (struct sheet_run){ run->x, run->y, has_way ? run->dx / length : 1, has_way ? run->dy / length : 0,
                                length_or_zero(run->size_mm) };
    c->item.extra = count_of(c, SHEET_RUNS) - 1;
}

void collect_image(struct collect *c, uint32_t layer, const struct sheet_image *image, const uint8_t *grey)
{
    struct collect_style plain = { 0 };
    begin(c, SHEET_IMAGE, layer, &plain);
    for (size_t k = 0; k < 2; k++)
        if (!is_place(image->across[k]) || !is_place(image->up[k]) || !is_place(image->origin[k]))
            fail(c, SHEET_EXIT_DAMAGED);
    if (image->width > SHEET_IMAGE_SIDE_MOST || image->height > SHEET_IMAGE_SIDE_MOST)
        fail(c, SHEET_EXIT_TOO_LARGE);
    uint64_t first = c->rows[SHEET_PIXELS].count;
    size_t size = (size_t)image->width * image->height;
    void *pixels = more(c, SHEET_PIXELS, size);
    struct sheet_image *kept = more(c, SHEET_IMAGES, 1);
    if (!kept)
        return;
    if (size)
        memcpy(pixels, grey, size);
    *kept = *image;
    kept->first_byte = first;
    c->item.extra = count_of(c, SHEET_IMAGES) - 1;
    collect_end(c);
}

/* ---------------------------------------------------------------------------------------------------------- extent */

struct extent {
    struct sheet_clip box;
    bool any;
};

static void reach(struct extent *e, double x0, double y0, double x1, double y1)
{
    struct sheet_clip *b = &e->box;
    *b = (struct sheet_clip){ e->any ? fmin(b->x0, x0) : x0,
                              e->any ? fmin(b->y0, y0) : y0,
                              e->any ? fmax(b->x1, x1) : x1,
                              e->any ? fmax(b->y1, y1) : y1,
                              0,
                              0 };
    e->any = true;
}

static void reach_image(struct extent *e, const struct sheet_image *image)
{
    for (int corner = 0; corner < 4; corner++) {
        double s = corner & 1, t = corner >> 1;
        double x = image->origin[0] + s * image->across[0] + t * image->up[0];
        double y = image->origin[1] + s * image->across[1] + t * image->up[1];
        reach(e, x, y, x, y);
    }
}

/* Points lie in the order of their parts: an item's from `first` up to `end`. */
static struct extent extent_of(const struct collect *c, const struct sheet_item *item, uint32_t first, uint32_t end)
{
    struct extent e = { 0 };
    const struct sheet_point *points = c->rows[SHEET_POINTS].data;
    for (uint32_t i = first; i < end; i++)
        reach(&e, points[i].x, points[i].y, points[i].x, points[i].y);
    if (item->kind == SHEET_RUN) {
        const struct sheet_run *run = (const struct sheet_run *)c->rows[SHEET_RUNS].data + item->extra;
        reach(&e, run->x, run->y, run->x, run->y);
    } else if (item->kind == SHEET_IMAGE) {
        reach_image(&e, (const struct sheet_image *)c->rows[SHEET_IMAGES].data + item->extra);
    }
    return e;
}

static uint32_t first_point(const struct collect *c, uint32_t part)
{
    const struct sheet_part *parts = c->rows[SHEET_PARTS].data;
    return part < c->rows[SHEET_PARTS].count ? parts[part].first_point : count_of(c, SHEET_POINTS);
}

bool collect_extent(const struct collect *c, struct sheet_clip *box)
{
    struct extent all = { 0 };
    const struct sheet_item *items = c->rows[SHEET_ITEMS].data;
    const struct sheet_clip *clips = c->rows[SHEET_CLIPS].data;
    for (size_t i = 0; i < c->rows[SHEET_ITEMS].count && !collect_failed(c); i++) {
        const struct sheet_item *item = &items[i];
        struct extent e =
            extent_of(c, item, first_point(c, item->first_part), first_point(c, item->first_part + item->part_count));
        struct sheet_clip seen = e.box;
        if (item->clip != SHEET_NONE) {
            const struct sheet_clip *clip = &clips[item->clip];
            seen = (struct sheet_clip){
                fmax(seen.x0, clip->x0), fmax(seen.y0, clip->y0), fmin(seen.x1, clip->x1), fmin(seen.y1, clip->y1), 0, 0
            };
        }
        if (e.any && seen.x0 <= seen.x1 && seen.y0 <= seen.y1)
            reach(&all, seen.x0, seen.y0, seen.x1, seen.y1);
    }
    if (all.any)
        *box = all.box;
    return all.any;
}

/* ----------------------------------------------------------------------------------------------------------- writing
 */

static bool write_all(int fd, const void *data, uint64_t count)
{
    const char *at = data;
    while (count) {
        ssize_t put = write(fd, at, (size_t)count);
        if (put < 0 && errno == EINTR)
            continue;
        if (put <= 0)
            return false;
        at += put;
        count -= (uint64_t)put;
    }
    return true;
}

static struct sheet_head head_of(const struct collect *c)
{
    struct sheet_head head = { .version = SHEET_VERSION, .head_bytes = sizeof head };
    memcpy(head.magic, SHEET_MAGIC, sizeof head.magic);
    sheet_build_id(head.build_id);
    uint64_t at = sizeof head;
    for (size_t i = 0; i < SHEET_SECTIONS; i++) {
        at = sheet_aligned(at);
        head.sections[i] = (struct sheet_span){ at, c->rows[i].count };
        at += (uint64_t)c->rows[i].count * sheet_element_bytes[i];
    }
    head.total_bytes = at;
    return head;
}

bool collect_write(struct collect *c, int fd)
{
    static const char gap[8] = { 0 };
    struct sheet_head head = head_of(c);
    if (head.total_bytes > SHEET_RESULT_MOST)
        fail(c, SHEET_EXIT_TOO_LARGE);
    if (collect_failed(c) || !write_all(fd, &head, sizeof head))
        return false;
    uint64_t at = sizeof head;
    for (size_t i = 0; i < SHEET_SECTIONS; i++) {
        uint64_t bytes = head.sections[i].count * sheet_element_bytes[i];
        if (!write_all(fd, gap, head.sections[i].offset - at) || !write_all(fd, c->rows[i].data, bytes))
            return false;
        at = head.sections[i].offset + bytes;
    }
    return true;
}
