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

bool screen_fonts_find(struct arena *a, struct text_face_file out[SCREEN_WEIGHTS], struct err_list *errs)
{
    static const enum text_weight weights[SCREEN_WEIGHTS] = { TEXT_REGULAR, TEXT_SEMIBOLD };
    bool found = text_find_files(a, weights, SCREEN_WEIGHTS, out);
    if (!found)
        base_err(errs, &no_font, (struct err_place){ 0 }, ERR_NONE);
    return found;
}

TTF_Font *screen_font_open(const struct text_face_file *file, struct err_list *errs)
{
    TTF_Font *font = TTF_OpenFontIndex(file->path, OPENING_SIZE, file->index);
    if (!font)
        base_err(errs, &bad_font, base_err_in_file(file->path), ERR_TEXT(SDL_GetError()));
    return font;
}

bool screen_fonts_open(struct arena *a, struct screen_page_fonts *out, struct err_list *errs)
{
    struct text_face_file files[SCREEN_WEIGHTS];
    bool found = screen_fonts_find(a, files, errs);
    out->regular = found ? screen_font_open(&files[0], errs) : NULL;
    out->semibold = out->regular ? screen_font_open(&files[1], errs) : NULL;
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
