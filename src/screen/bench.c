#include "screen/bench.h"

#include "base/arena.h"
#include "paint/content.h"
#include "paint/draw_list.h"
#include "paint/easel.h"
#include "paint/light.h"
#include "screen/kept.h"
#include "screen/widths.h"

#include <math.h>
#include <string.h>

enum { MOST_MEASURED = 1024, WHOLE_SHARE = 256 };

/* A font keeps the letters that it has drawn while its size stays: each style has one of its own. */
struct screen_letters {
    struct arena *arena;   /* owns this */
    struct arena *scratch; /* of one mark */
    TTF_Font *fonts[FORM_STYLES];
    struct screen_widths *widths; /* at that scale */
    double scale;
    struct form_type type;
    const struct paint_light *light;
    struct screen_kept *kept;
    struct paint_easel *easel; /* for the largest picture so far */
    int easel_width, easel_height;
    int share[256]; /* of WHOLE_SHARE, that a white of that sRGB byte covers */
};

static const struct err_kind no_letters = { "screen.no_letters", ERR_FAULT, BASE_TR("Letters cannot be drawn: {0}.") };

/* --- letters ----------------------------------------------------------------------------------------------------- */

static double measure(const void *of, enum form_style style, const char *text, size_t bytes)
{
    const struct screen_letters *letters = of;
    char part[MOST_MEASURED];
    size_t count = bytes < sizeof part ? bytes : sizeof part - 1;
    int *width = screen_widths_of(letters->widths, style, text, count);
    if (*width < 0) {
        memcpy(part, text, count);
        part[count] = 0;
        *width = 0; /* of what cannot be measured */
        TTF_SizeUTF8(letters->fonts[style], part, width, NULL);
    }
    return *width / letters->scale;
}

static void set_scale(struct screen_letters *letters, double scale)
{
    letters->scale = scale;
    screen_widths_forget(letters->widths);
    for (int style = 0; style < FORM_STYLES; style++)
        TTF_SetFontSize(letters->fonts[style], (int)lround(form_style((enum form_style)style)->size_u * scale));
}

static void close_fonts(struct screen_letters *letters)
{
    for (int style = 0; style < FORM_STYLES; style++)
        if (letters->fonts[style])
            TTF_CloseFont(letters->fonts[style]);
}

static bool open_fonts(struct screen_letters *letters, struct err_list *errs)
{
    struct screen_face faces[SCREEN_WEIGHTS];
    bool ok = screen_faces_read(letters->arena, faces, errs);
    for (int style = 0; ok && style < FORM_STYLES; style++) {
        letters->fonts[style] = screen_font_open(&faces[form_style((enum form_style)style)->semibold], errs);
        ok = letters->fonts[style] != NULL;
    }
    if (!ok)
        close_fonts(letters);
    return ok;
}

struct screen_letters *screen_letters_open(struct err_list *errs)
{
    if (TTF_Init() != 0) {
        screen_complain(errs, &no_letters);
        return NULL;
    }
    struct arena *arena = base_arena_create();
    struct screen_letters *letters = base_arena_alloc(arena, 1, sizeof *letters);
    letters->arena = arena;
    letters->light = paint_light_create(arena);
    letters->scratch = base_arena_create();
    letters->kept = screen_kept_create();
    letters->widths = screen_widths_create();
    letters->type = (struct form_type){ measure, letters };
    if (!open_fonts(letters, errs)) {
        screen_kept_destroy(letters->kept);
        screen_widths_destroy(letters->widths);
        TTF_Quit();
        base_arena_destroy(letters->scratch);
        base_arena_destroy(arena);
        return NULL;
    }
    for (int byte = 0; byte < 256; byte++)
        letters->share[byte] = (int)lround(WHOLE_SHARE * paint_decode((uint8_t)byte));
    set_scale(letters, 1);
    return letters;
}

void screen_letters_close(struct screen_letters *letters)
{
    if (!letters)
        return;
    screen_kept_destroy(letters->kept);
    screen_widths_destroy(letters->widths);
    close_fonts(letters);
    TTF_Quit();
    paint_easel_destroy(letters->easel);
    base_arena_destroy(letters->scratch);
    base_arena_destroy(letters->arena);
}

const struct form_type *screen_letters_at(struct screen_letters *letters, double scale)
{
    if (scale != letters->scale)
        set_scale(letters, scale);
    return &letters->type;
}

/* What a text looks like depends on that alone: its key. */
struct text_key {
    double scale;
    uint32_t rgb;
    int style;
    char text[]; /* with its end */
};

static SDL_Surface *render(const struct screen_letters *letters, const struct form_mark *mark, uint32_t rgb)
{
    const SDL_Color colour = { (Uint8)(rgb >> 16), (Uint8)(rgb >> 8), (Uint8)rgb, 255 };
    return TTF_RenderUTF8_Blended(letters->fonts[mark->style], mark->text, colour);
}

static SDL_Surface *text_of(struct screen_letters *letters, const struct form_mark *mark, uint32_t rgb)
{
    size_t end = strlen(mark->text) + 1, bytes = sizeof(struct text_key) + end;
    struct text_key *key = base_arena_alloc(letters->scratch, 1, bytes);
    *key = (struct text_key){ letters->scale, rgb, (int)mark->style };
    memcpy(key->text, mark->text, end);
    const struct screen_drawn *kept = screen_kept_find(letters->kept, key, bytes);
    if (kept)
        return kept->text;
    const struct screen_drawn drawn = { .key = key, .bytes = bytes, .text = render(letters, mark, rgb) };
    return screen_kept_add(letters->kept, &drawn)->text;
}

static void draw_text(struct screen_letters *letters, const struct form_mark *mark, uint32_t rgb, SDL_Surface *to)
{
    SDL_Surface *text = text_of(letters, mark, rgb);
    if (!text)
        return;
    int left = mark->align == FORM_LEFT ? 0 : mark->align == FORM_RIGHT ? text->w : text->w / 2;
    SDL_Rect at = { (int)mark->at.x - left, (int)mark->at.y - TTF_FontAscent(letters->fonts[mark->style]), 0, 0 };
    SDL_BlitSurface(text, NULL, to, &at);
}

/* --- shapes ------------------------------------------------------------------------------------------------------ */

static struct form_px_box inside(struct form_px_box b, const struct paint_image *image)
{
    return (struct form_px_box){ SDL_max(b.left, 0), SDL_max(b.top, 0), SDL_min(b.right, image->width),
                                 SDL_min(b.bottom, image->height) };
}

static void fill_box(struct form_px_box box, uint32_t rgb, struct paint_image *image)
{
    struct form_px_box b = inside(box, image);
    for (int y = b.top; y < b.bottom; y++)
        for (int x = b.left; x < b.right; x++)
            image->pixels[(size_t)y * image->stride + (size_t)x] = rgb;
}

/* The pixels that a path and its line may touch. */
static struct form_px_box touched(const struct form_mark *mark)
{
    static const double fade = 2, mitre = 4; /* a pointed corner stands out by up to that many half widths */
    struct geometry_box b = geometry_path_box(mark->path);
    double out = fade + mitre * mark->width_px / 2;
    return (struct form_px_box){ (int)floor(b.min.x - out), (int)floor(b.min.y - out), (int)ceil(b.max.x + out),
                                 (int)ceil(b.max.y + out) };
}

static struct form_px_box joined(struct form_px_box a, struct form_px_box b)
{
    return (struct form_px_box){ SDL_min(a.left, b.left), SDL_min(a.top, b.top), SDL_max(a.right, b.right),
                                 SDL_max(a.bottom, b.bottom) };
}

static struct px_path moved(struct arena *a, struct geometry_path path, vec2 by)
{
    struct geometry_path copy = geometry_path_copy(a, path);
    for (size_t i = 0; i < copy.count; i++)
        copy.points[i] = vec2_add(copy.points[i], by);
    return (struct px_path){ copy };
}

static void add_shape(struct arena *a, struct paint_px_list *list, const struct form_mark *mark, vec2 by)
{
    const struct paint_ink white = { 0xffffff, 1 };
    struct px_path path = moved(a, mark->path, by);
    if (mark->shape == FORM_STROKE)
        paint_px_stroke(list, path, (struct paint_pen){ .width = mark->width_px }, white);
    else
        paint_px_fill(list, &path, 1, white);
}

static uint32_t mixed(uint32_t under, uint32_t over, int share)
{
    uint32_t out = 0;
    for (int shift = 0; shift <= 16; shift += 8) {
        int from = (int)(under >> shift & 0xff), to = (int)(over >> shift & 0xff);
        out |= (uint32_t)((from * (WHOLE_SHARE - share) + to * share + WHOLE_SHARE / 2) / WHOLE_SHARE) << shift;
    }
    return out;
}

/* The pixels that a white picture of shapes covers, and how far. */
static size_t dabs_of(struct arena *a, const struct screen_letters *letters, const struct paint_image *mask,
                      struct form_px_box b, const struct paint_image *image, struct screen_dab **out)
{
    size_t count = 0, cap = 0;
    *out = NULL;
    for (int y = 0; y < mask->height; y++) {
        const uint32_t *row = &mask->pixels[(size_t)y * mask->stride];
        size_t from = (size_t)(y + b.top) * image->stride + (size_t)b.left;
        *out = base_arena_grow(a, *out, &cap, count + (size_t)mask->width, sizeof **out);
        for (int x = 0; x < mask->width; x++)
            if (row[x])
                (*out)[count++] =
                    (struct screen_dab){ (uint32_t)(from + (size_t)x), (uint32_t)letters->share[row[x] & 0xff] };
    }
    return count;
}

static struct paint_easel *easel_for(struct screen_letters *letters, const struct paint_image *picture)
{
    if (picture->width > letters->easel_width || picture->height > letters->easel_height) {
        paint_easel_destroy(letters->easel);
        letters->easel_width = SDL_max(letters->easel_width, picture->width);
        letters->easel_height = SDL_max(letters->easel_height, picture->height);
        letters->easel = paint_easel_create(NULL, letters->easel_width, letters->easel_height);
    }
    return letters->easel;
}

/* What shapes cover depends on that and on their points: their key, one after the other. */
struct shape_key {
    int width, height, stride, shape, closed;
    double line;
    size_t points;
};

static void *key_of(struct arena *a, const struct form_mark *marks, size_t count, const struct paint_image *image,
                    size_t *bytes)
{
    *bytes = 0;
    for (size_t i = 0; i < count; i++)
        *bytes += sizeof(struct shape_key) + marks[i].path.count * sizeof(vec2);
    unsigned char *key = base_arena_alloc(a, 1, *bytes), *end = key;
    for (size_t i = 0; i < count; i++) {
        struct shape_key one;
        memset(&one, 0, sizeof one); /* what lies between its fields, too */
        one.width = image->width;
        one.height = image->height;
        one.stride = (int)image->stride;
        one.shape = (int)marks[i].shape;
        one.closed = marks[i].path.closed;
        one.line = marks[i].width_px;
        one.points = marks[i].path.count;
        memcpy(end, &one, sizeof one);
        end += sizeof one;
        if (one.points)
            memcpy(end, marks[i].path.points, one.points * sizeof(vec2));
        end += one.points * sizeof(vec2);
    }
    return key;
}

/* Paints them white, and takes what that covers. */
static size_t paint_shapes(struct screen_letters *letters, struct arena *a, const struct form_mark *marks, size_t count,
                           const struct paint_image *image, struct screen_dab **out)
{
    struct form_px_box b = touched(&marks[0]);
    for (size_t i = 1; i < count; i++)
        b = joined(b, touched(&marks[i]));
    b = inside(b, image);
    *out = NULL;
    if (b.left >= b.right || b.top >= b.bottom)
        return 0;
    struct paint_scene scene = paint_scene_create(a);
    for (size_t i = 0; i < count; i++)
        add_shape(a, &scene.px, &marks[i], (vec2){ -b.left, -b.top });
    struct paint_image mask = paint_image_create(a, b.right - b.left, b.bottom - b.top);
    paint_draw(easel_for(letters, &mask), paint_prepare_in(a, &scene, letters->light), NULL, &mask);
    return dabs_of(a, letters, &mask, b, image, out);
}

/* Marks of one colour, one after the other, are one shape. */
static void draw_shapes(struct screen_letters *letters, const struct form_mark *marks, size_t count, uint32_t rgb,
                        struct paint_image *image)
{
    struct arena *a = letters->scratch;
    size_t bytes;
    const void *key = key_of(a, marks, count, image, &bytes);
    const struct screen_drawn *kept = screen_kept_find(letters->kept, key, bytes);
    if (!kept) {
        struct screen_dab *dabs;
        size_t dab_count = paint_shapes(letters, a, marks, count, image, &dabs);
        const struct screen_drawn drawn = { .key = key, .bytes = bytes, .dabs = dabs, .dab_count = dab_count };
        kept = screen_kept_add(letters->kept, &drawn);
    }
    for (size_t i = 0; i < kept->dab_count; i++) {
        uint32_t *to = &image->pixels[kept->dabs[i].at];
        *to = mixed(*to, rgb, (int)kept->dabs[i].share);
    }
}

static bool is_shape(const struct form_mark *mark)
{
    return mark->shape == FORM_FILL || mark->shape == FORM_STROKE;
}

static size_t alike(const struct form_picture *p, size_t first)
{
    size_t end = first + 1;
    while (end < p->count && is_shape(&p->marks[end]) && p->marks[end].colour == p->marks[first].colour)
        end++;
    return end - first;
}

void screen_draw_bench(struct screen_letters *letters, const struct form_picture *p, struct paint_image *image)
{
    SDL_Surface *to =
        SDL_CreateRGBSurfaceWithFormatFrom(image->pixels, image->width, image->height, 32,
                                           (int)(image->stride * sizeof *image->pixels), SDL_PIXELFORMAT_XRGB8888);
    screen_kept_begin(letters->kept);
    for (size_t i = 0; to && i < p->count; i++) {
        const struct form_mark *mark = &p->marks[i];
        base_arena_reset(letters->scratch);
        uint32_t rgb = mark->colour == FORM_OWN ? mark->own : form_rgb(mark->colour, p->night);
        if (mark->shape == FORM_BOX) {
            fill_box(mark->box, rgb, image);
        } else if (mark->shape == FORM_TEXT) {
            draw_text(letters, mark, rgb, to);
        } else {
            size_t count = alike(p, i);
            draw_shapes(letters, mark, count, rgb, image);
            i += count - 1;
        }
    }
    SDL_FreeSurface(to);
}
