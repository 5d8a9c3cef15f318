#include "scene/board.h"

#include "base/wrap.h"
#include "scene/parts.h"

#include <string.h>

#define TITLE 1.35 /* of the cap height, as all that follows */
#define TITLE_STEP 2.4
#define LINE_STEP 1.9
#define ROW_STEP 2.0
#define ROW_FOOT 0.5 /* of the room of a row below its letters */
#define COLUMN_GAP 1.6
#define SAMPLE_WIDE 9.0
#define MARGIN_MM 24.0
#define LEAST_DASH_PX 4.0
#define LEAST_NAME_PX 7.0
#define GREY 0.35
#define FRAME_LEVEL 0.7
#define MARKED_FRAME_PX 4.0
#define APART_PX 0.7 /* points of the picture's lines that lie nearer are left out */

enum { MOST_LINES = 12 };

#define LETTER_WIDE 0.72 /* of the cap height, of a sentence's capitals on average: measured */

/* The page as it fills from the top down. */
struct page {
    const struct scene_canvas *c;
    double cap, left, right, top; /* px */
    struct paint_ink lit;
};

static struct paint_ink unlit(void)
{
    return (struct paint_ink){ 0, 0 };
}

/* A line of words, smaller where it would be too long. */
static void write(const struct page *p, const char *text, double left, double up, double cap, double right,
                  struct paint_ink ink)
{
    double width = scene_words_width(p->c, text, cap);
    double fit = width > right - left ? (right - left) / width : 1;
    scene_page_words(p->c, text, SCENE_START, left, up, cap * fit, ink);
}

static void write_as_it_is(const struct page *p, const char *text)
{
    double width = scene_letters_width(p->c, text, p->cap), room = p->right - p->left;
    scene_page_letters(p->c, text, SCENE_START, p->left, p->top, p->cap * (width > room ? room / width : 1), p->lit);
}

static void write_head(struct page *p, const struct scene_board *board)
{
    p->top -= TITLE_STEP * p->cap;
    write(p, board->title, p->left, p->top, TITLE * p->cap, p->right, p->lit);
    for (const char *const *line = board->lines; line && *line; line++) {
        const char *parts[MOST_LINES];
        size_t columns = (size_t)((p->right - p->left) / (LETTER_WIDE * p->cap));
        size_t count = base_wrap(p->c->a, *line, columns, parts, 0, MOST_LINES);
        for (size_t i = 0; i < count; i++) {
            p->top -= LINE_STEP * p->cap;
            write(p, parts[i], p->left, p->top, p->cap, p->right, p->lit);
        }
    }
    for (const char *const *line = board->as_written; line && *line; line++) {
        p->top -= LINE_STEP * p->cap;
        write_as_it_is(p, *line);
    }
    p->top -= ROW_FOOT * p->cap;
}

/* Dash by dash; where they are too short for the pixels, all grow alike. */
static void draw_sample(const struct page *p, const struct scene_sample *sample, double left, double up,
                        struct paint_ink ink)
{
    double scale = p->c->page.px_per_mm, right = left + SAMPLE_WIDE * p->cap, least = LEAST_DASH_PX;
    double width = fmax(sample->width_mm * scale, SCENE_LEAST_STROKE_PX);
    if (!sample->dash_count) {
        scene_page_line(p->c, (vec2){ left, up }, (vec2){ right, up }, (struct paint_pen){ .width = width }, ink);
        return;
    }
    for (size_t i = 0; i < sample->dash_count; i++)
        if (sample->dash_mm[i] > 0)
            least = fmin(least, sample->dash_mm[i] * scale);
    scale *= LEAST_DASH_PX / least;
    size_t i = 0;
    for (double at = left; at < right; i++) {
        double on = fmax(sample->dash_mm[i % sample->dash_count] * scale, SCENE_LEAST_STROKE_PX);
        if (i % 2 == 0)
            scene_page_line(p->c, (vec2){ at, up }, (vec2){ fmin(at + on, right), up },
                            (struct paint_pen){ .width = width }, ink);
        at += on;
    }
}

/* Where each column begins, for letters of that cap height: as wide as its widest text. */
static void find_columns(const struct page *p, const struct scene_board *board, double cap,
                         double at[SCENE_BOARD_COLUMNS + 1])
{
    bool samples = false;
    for (size_t i = 0; i < board->row_count; i++)
        samples = samples || board->rows[i].sample.there;
    at[0] = p->left + (samples ? (SAMPLE_WIDE + COLUMN_GAP) * p->cap : COLUMN_GAP / 2 * cap);
    for (int k = 0; k < SCENE_BOARD_COLUMNS; k++) {
        double widest = 0;
        for (size_t i = 0; i < board->row_count; i++)
            widest = fmax(widest, scene_words_width(p->c, board->rows[i].texts[k], cap));
        at[k + 1] = at[k] + widest + (widest > 0 ? COLUMN_GAP * cap : 0);
    }
}

static void draw_row(const struct page *p, const struct scene_board_row *row, double cap, double up,
                     const double at[SCENE_BOARD_COLUMNS])
{
    struct paint_ink ink = row->marked ? unlit() : p->lit;
    double whole = fmax(cap, p->cap);
    if (row->marked)
        scene_page_box(p->c, p->left, up - ROW_FOOT * whole, p->right, up + (ROW_STEP - ROW_FOOT) * whole, p->lit);
    if (row->sample.there)
        draw_sample(p, &row->sample, p->left + COLUMN_GAP / 2 * p->cap, up + cap / 2, ink);
    for (int k = 0; k < SCENE_BOARD_COLUMNS; k++)
        scene_page_words(p->c, row->texts[k], SCENE_START, at[k], up, cap, ink);
}

static size_t marked_of(const struct scene_board *board)
{
    for (size_t i = 0; i < board->row_count; i++)
        if (board->rows[i].marked)
            return i;
    return 0;
}

/* Beyond the last row that is shown: how many more there are. */
static void tell_more(struct page *p, size_t above, size_t below)
{
    const char *text = below ? base_arena_print(p->c->a, base_tr("%zu more below"), below) : "";
    const char *before = above ? base_arena_print(p->c->a, base_tr("%zu more above"), above) : "";
    if (above)
        text = below ? base_arena_print(p->c->a, "%s · %s", before, text) : before;
    p->top -= ROW_STEP * p->cap;
    write(p, text, p->left, p->top, p->cap, p->right, p->lit);
}

/* As large as a title where all rows have room so, else as other letters, and smaller where a row would be too long. */
static double row_cap(const struct page *p, const struct scene_board *board, double foot,
                      double at[SCENE_BOARD_COLUMNS + 1])
{
    double cap = TITLE * p->cap;
    if (ROW_STEP * cap * (double)board->row_count > p->top - foot)
        cap = p->cap;
    find_columns(p, board, cap, at);
    double wide = at[SCENE_BOARD_COLUMNS] - p->left, room = p->right - p->left;
    if (wide > room) {
        cap *= room / wide;
        find_columns(p, board, cap, at);
    }
    return cap;
}

static void draw_rows(struct page *p, const struct scene_board *board, double foot)
{
    double at[SCENE_BOARD_COLUMNS + 1], cap = row_cap(p, board, foot, at), step = ROW_STEP * fmax(cap, p->cap);
    size_t room = p->top > foot ? (size_t)((p->top - foot) / step) : 0, first = 0;
    bool all = board->row_count <= room;
    size_t count = all ? board->row_count : room > 1 ? room - 1 : 1;
    size_t marked = marked_of(board);
    if (!all && marked > count / 2)
        first = marked - count / 2 < board->row_count - count ? marked - count / 2 : board->row_count - count;
    for (size_t i = first; i < first + count; i++) {
        p->top -= step;
        draw_row(p, &board->rows[i], cap, p->top, at);
    }
    if (!all)
        tell_more(p, first, board->row_count - first - count);
}

/* --- the picture ------------------------------------------------------------------------------------------------- */

/* From the picture's mm to the page. */
struct shrunk {
    struct geometry_box box;
    vec2 at; /* its lower left on the page */
    double scale;
};

static vec2 shrunk(const struct shrunk *s, vec2 p)
{
    return vec2_add(s->at, vec2_scale(vec2_sub(p, s->box.min), s->scale));
}

static struct geometry_box box_of(const struct scene_board_picture *picture)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < picture->line_count; i++)
        box = geometry_box_join(box, geometry_path_box(picture->lines[i]));
    for (size_t i = 0; i < picture->frame_count; i++)
        box = geometry_box_join(box, picture->frames[i].box);
    return box;
}

static struct shrunk shrink(const struct page *p, const struct scene_board_picture *picture, double foot)
{
    struct shrunk s = { .box = box_of(picture) };
    double width = s.box.max.x - s.box.min.x, height = s.box.max.y - s.box.min.y;
    if (!(width > 0) || !(height > 0))
        return s;
    s.scale = fmin((p->right - p->left) / width, (p->top - foot) / height);
    s.at = (vec2){ (p->left + p->right - s.scale * width) / 2, foot };
    return s;
}

/* Points that fall on the pixel of the one before are left out. */
static void draw_thin(const struct scene_canvas *c, const struct shrunk *s, struct geometry_path line)
{
    struct px_path path = { { base_arena_alloc(c->a, line.count, sizeof(vec2)), 0, line.closed } };
    for (size_t i = 0; i < line.count; i++) {
        vec2 at = shrunk(s, line.points[i]);
        struct px_pt px = scene_page_px(&c->page, at.x, at.y);
        vec2 here = { px.x, px.y };
        bool last = i + 1 == line.count;
        if (path.path.count && !last && vec2_length(vec2_sub(here, path.path.points[path.path.count - 1])) < APART_PX)
            continue;
        path.path.points[path.path.count++] = here;
    }
    paint_px_stroke(&c->out->px, path, (struct paint_pen){ .width = SCENE_LEAST_STROKE_PX },
                    (struct paint_ink){ c->view->look.chalks->main, GREY });
}

static void draw_frame(const struct page *p, const struct shrunk *s, const struct scene_board_frame *frame)
{
    vec2 a = shrunk(s, frame->box.min), b = shrunk(s, frame->box.max), middle = vec2_lerp(a, b, 0.5);
    const vec2 corners[] = { a, { b.x, a.y }, b, { a.x, b.y } };
    struct paint_ink ink = { p->c->view->look.chalks->main, frame->marked ? 1 : FRAME_LEVEL };
    for (int i = 0; i < 4; i++)
        scene_page_line(p->c, corners[i], corners[(i + 1) % 4],
                        (struct paint_pen){ .width = frame->marked ? MARKED_FRAME_PX : SCENE_LEAST_STROKE_PX }, ink);
    for (int i = 0; i < 2 && frame->missing; i++)
        scene_page_line(p->c, corners[i], corners[i + 2], (struct paint_pen){ .width = SCENE_LEAST_STROKE_PX }, ink);
    double width = scene_words_width(p->c, frame->name, 1), room = 0.8 * (b.x - a.x);
    double cap = fmin(p->cap, fmin(0.5 * (b.y - a.y), width > 0 ? room / width : p->cap));
    if (!frame->name || cap < LEAST_NAME_PX)
        return;
    scene_page_box(p->c, middle.x - 0.55 * width * cap, middle.y - 0.8 * cap, middle.x + 0.55 * width * cap,
                   middle.y + 0.8 * cap, frame->marked ? p->lit : unlit());
    scene_page_words(p->c, frame->name, SCENE_MIDDLE, middle.x, middle.y - cap / 2, cap,
                     frame->marked ? unlit() : p->lit);
}

static void draw_picture(const struct page *p, const struct scene_board_picture *picture, double foot)
{
    struct shrunk s = shrink(p, picture, foot);
    if (!(s.scale > 0))
        return;
    for (size_t i = 0; i < picture->line_count; i++)
        draw_thin(p->c, &s, picture->lines[i]);
    for (int marked = 0; marked < 2; marked++)
        for (size_t i = 0; i < picture->frame_count; i++)
            if (picture->frames[i].marked == (marked != 0))
                draw_frame(p, &s, &picture->frames[i]);
}

struct paint_scene scene_board(struct arena *a, const struct scene_view *view, const struct scene_board *board)
{
    struct paint_scene scene = paint_scene_create(a);
    struct scene_canvas c = scene_canvas_of(a, view, scene_page_of(view->map, view->side), &scene);
    double margin = MARGIN_MM * c.page.px_per_mm, cap = scene_page_cap(&c);
    struct page p = { &c,
                      cap,
                      margin,
                      c.page.width - margin,
                      c.page.height - scene_notice_depth(&c) - 0.3 * cap,
                      scene_letter_ink(&view->look) };
    double foot = c.strip.top_px + cap;
    write_head(&p, board);
    if (board->picture)
        draw_picture(&p, board->picture, foot);
    else
        draw_rows(&p, board, foot);
    scene_draw_strip(&c);
    scene_draw_notice(&c);
    return scene;
}
