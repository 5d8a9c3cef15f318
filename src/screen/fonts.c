/* The two fonts of what is read on the bench. */
#include "base/arena.h"
#include "screen/inside.h"
#include "text/find.h"

static const struct err_kind no_font = { "screen.no_font", ERR_FAULT,
                                         BASE_TR("No font was found for the notes. Install one, such as fonts-lato.") };
static const struct err_kind bad_font = { "screen.bad_font", ERR_FAULT,
                                          BASE_TR("The font of the notes cannot be read: {0}.") };

/* Any size does for opening; drawing sets its own. */
enum { OPENING_SIZE = 16 };

TTF_Font *screen_font_open(struct arena *a, enum text_weight weight, struct err_list *errs)
{
    const char *path = NULL;
    int face = 0;
    if (!text_find_file(a, weight, &path, &face)) {
        base_err(errs, &no_font, (struct err_place){ 0 }, ERR_NONE);
        return NULL;
    }
    TTF_Font *font = TTF_OpenFontIndex(path, OPENING_SIZE, face);
    if (!font)
        base_err(errs, &bad_font, base_err_in_file(path), ERR_TEXT(SDL_GetError()));
    return font;
}

bool screen_fonts_open(struct arena *a, struct screen_page_fonts *out, struct err_list *errs)
{
    out->regular = screen_font_open(a, TEXT_REGULAR, errs);
    out->semibold = out->regular ? screen_font_open(a, TEXT_SEMIBOLD, errs) : NULL;
    if (out->semibold)
        return true;
    screen_fonts_close(out);
    return false;
}

void screen_fonts_close(struct screen_page_fonts *fonts)
{
    if (fonts->regular)
        TTF_CloseFont(fonts->regular);
    if (fonts->semibold)
        TTF_CloseFont(fonts->semibold);
    *fonts = (struct screen_page_fonts){ 0 };
}
