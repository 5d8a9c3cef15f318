#include "base/arena.h"
#include "screen/inside.h"

#include <math.h>

/* Lengths are in u, made px by the page's scale. Colours: the sheet by day. */
enum { MOST_COLUMNS = 3 };

static const double margin_u = 28, column_gap_u = 36, keys_gap_u = 18, bar_u = 4, bar_gap_u = 10, rule_u = 1,
                    across_below_u = 18;

static const SDL_Color sheet = { 0xfb, 0xfa, 0xf6, 0xff };
static const SDL_Color ink = { 0x1b, 0x27, 0x30, 0xff };
static const SDL_Color ink_2 = { 0x4b, 0x58, 0x62, 0xff };
static const SDL_Color red = { 0xa2, 0x22, 0x27, 0xff };

static const struct style {
    double size_u, above_u; /* the letters' em; the air over the line, but at the top of a column */
    bool semibold, bar, rule;
    const SDL_Color *colour;
} styles[] = {
    [SCREEN_NOTE_LINE] = { .size_u = 17, .above_u = 6, .colour = &ink },
    [SCREEN_NOTE_HEADING] = { .size_u = 17, .above_u = 22, .semibold = true, .rule = true, .colour = &ink_2 },
    [SCREEN_NOTE_TITLE] = { .size_u = 28, .above_u = 12, .semibold = true, .colour = &ink },
    [SCREEN_NOTE_WARNING] = { .size_u = 17, .above_u = 12, .semibold = true, .bar = true, .colour = &red },
};

struct page {
    SDL_Surface *to;
    const struct screen_page_fonts *fonts;
    double scale;
    int columns, column_width, keys_width; /* px */
};

/* One line set in type, before it has a place. */
struct block {
    const struct style *style;
    SDL_Surface *text, *second; /* NULL: nothing to print */
    int height, above;          /* px */
    bool across;                /* over the whole width, before the columns begin */
};

double screen_page_scale(int width, int height)
{
    double s = fmin((double)width / SCREEN_PAGE_WIDTH, (double)height / SCREEN_PAGE_HEIGHT);
    return fmax(1, floor(4 * s) / 4);
}

static int px(const struct page *page, double u)
{
    return (int)lround(u * page->scale);
}

static TTF_Font *font_at(const struct page *page, bool semibold, double size_u)
{
    TTF_Font *font = semibold ? page->fonts->semibold : page->fonts->regular;
    TTF_SetFontSize(font, px(page, size_u));
    return font;
}

static bool has_second(const struct screen_note_line *line)
{
    return line->style == SCREEN_NOTE_LINE && line->second;
}

/* The keys' share of a column: as wide as the longest, but at most two fifths. */
static int widest_keys(const struct page *page, const struct screen_note_line *lines, int count)
{
    int widest = 0, most = page->column_width * 2 / 5;
    TTF_Font *font = font_at(page, true, styles[SCREEN_NOTE_LINE].size_u);
    for (int i = 0; i < count; i++) {
        int width = 0;
        if (has_second(&lines[i]) && lines[i].text && TTF_SizeUTF8(font, lines[i].text, &width, NULL) == 0)
            widest = width > widest ? width : widest;
    }
    return widest < most ? widest : most;
}

static struct page page_of_columns(SDL_Surface *to, const struct screen_page_fonts *fonts, int columns)
{
    struct page page = { .to = to, .fonts = fonts, .scale = screen_page_scale(to->w, to->h), .columns = columns };
    int gaps = (columns - 1) * px(&page, column_gap_u);
    page.column_width = (to->w - 2 * px(&page, margin_u) - gaps) / columns;
    return page;
}

static SDL_Surface *print(TTF_Font *font, const char *text, SDL_Color colour, int width)
{
    if (!text || !*text || width <= 0)
        return NULL;
    return TTF_RenderUTF8_Blended_Wrapped(font, text, colour, (Uint32)width);
}

static int height_of(const SDL_Surface *text)
{
    return text ? text->h : 0;
}

static struct block typeset(const struct page *page, const struct screen_note_line *line, bool across)
{
    const struct style *style = &styles[line->style];
    struct block block = { .style = style, .across = across, .above = px(page, style->above_u) };
    int width = across ? page->to->w - 2 * px(page, margin_u) : page->column_width;
    int indent = style->bar ? px(page, bar_u + bar_gap_u) : 0;
    if (has_second(line)) {
        int keys = page->keys_width, gap = px(page, keys_gap_u);
        block.text = print(font_at(page, true, style->size_u), line->text, *style->colour, keys + 1);
        block.second = print(font_at(page, false, style->size_u), line->second, *style->colour, width - keys - gap);
    } else {
        block.text = print(font_at(page, style->semibold, style->size_u), line->text, *style->colour, width - indent);
    }
    block.height = TTF_FontLineSkip(font_at(page, style->semibold, style->size_u));
    block.height = SDL_max(block.height, SDL_max(height_of(block.text), height_of(block.second)));
    return block;
}

static Uint32 mapped(const SDL_Surface *to, SDL_Color c)
{
    return SDL_MapRGB(to->format, c.r, c.g, c.b);
}

static void blit(SDL_Surface *text, SDL_Surface *to, int x, int y)
{
    if (text)
        SDL_BlitSurface(text, NULL, to, &(SDL_Rect){ x, y, 0, 0 });
}

static void draw_block(const struct page *page, const struct block *block, int x, int y)
{
    SDL_Surface *to = page->to;
    int indent = 0;
    if (block->style->bar) {
        SDL_Rect bar = { x, y, px(page, bar_u), block->height };
        SDL_FillRect(to, &bar, mapped(to, red));
        indent = px(page, bar_u + bar_gap_u);
    }
    if (block->style->rule) {
        SDL_Rect rule = { x, y + block->height, page->column_width, px(page, rule_u) };
        SDL_FillRect(to, &rule, mapped(to, ink_2));
    }
    blit(block->text, to, x + indent, y);
    blit(block->second, to, x + page->keys_width + px(page, keys_gap_u), y);
}

/* What must find room below a line's top: a heading does not stand alone at the foot. */
static int needed_height(const struct block *blocks, int i, int count)
{
    int height = blocks[i].height;
    if (blocks[i].style->rule && i + 1 < count)
        height += blocks[i + 1].above + blocks[i + 1].height;
    return height;
}

/* Places the blocks one below the other, column by column, and draws them if asked; returns how many found room. */
static int place(const struct page *page, const struct block *blocks, int count, bool draw)
{
    int left = px(page, margin_u), top = left, bottom = page->to->h - left, y = top, column = 0;
    for (int i = 0; i < count; i++) {
        const struct block *block = &blocks[i];
        int start = y == top ? y : y + block->above;
        if (start + needed_height(blocks, i, count) > bottom) {
            start = top;
            if (block->across || ++column == page->columns || start + block->height > bottom)
                return i;
        }
        if (draw)
            draw_block(page, block, left + column * (page->column_width + px(page, column_gap_u)), start);
        y = start + block->height;
        if (block->across && i + 1 < count && !blocks[i + 1].across)
            top = y += px(page, across_below_u);
    }
    return count;
}

/* How many lines at the start are titles and warnings. */
static int lines_across(const struct screen_note_line *lines, int count)
{
    int across = 0;
    while (across < count && (lines[across].style == SCREEN_NOTE_TITLE || lines[across].style == SCREEN_NOTE_WARNING))
        across++;
    return across;
}

static void free_blocks(struct block *blocks, int count)
{
    for (int i = 0; i < count; i++) {
        SDL_FreeSurface(blocks[i].text);
        SDL_FreeSurface(blocks[i].second);
    }
}

int screen_page_draw(SDL_Surface *to, const struct screen_page_fonts *fonts, const struct screen_note_line *lines,
                     int count)
{
    struct arena *a = base_arena_create();
    struct block *blocks = base_arena_alloc(a, (size_t)count, sizeof *blocks);
    int across = lines_across(lines, count), placed = 0;
    SDL_FillRect(to, NULL, mapped(to, sheet));
    for (int columns = 1; columns <= MOST_COLUMNS; columns++) {
        struct page page = page_of_columns(to, fonts, columns);
        page.keys_width = widest_keys(&page, lines, count);
        for (int i = 0; i < count; i++)
            blocks[i] = typeset(&page, &lines[i], i < across);
        placed = place(&page, blocks, count, false);
        bool last = placed == count || columns == MOST_COLUMNS;
        if (last)
            place(&page, blocks, count, true);
        free_blocks(blocks, count);
        if (last)
            break;
    }
    base_arena_destroy(a);
    return placed;
}
