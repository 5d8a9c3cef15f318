/* The two fonts of what is read on the bench. */
#include "base/arena.h"
#include "screen/inside.h"

static const struct err_kind no_font = { "screen.no_font", ERR_FAULT,
                                         BASE_TR("No font was found for the notes. Install one, such as fonts-lato.") };
static const struct err_kind bad_font = { "screen.bad_font", ERR_FAULT,
                                          BASE_TR("The font of the notes cannot be read: {0}.") };

/* Any size does for opening; drawing sets its own. */
enum { OPENING_SIZE = 16 };

/* The largest font that is taken; collections of Chinese and Japanese have some 20 MB. */
enum { MOST_BYTES = 64 * 1024 * 1024 };

bool screen_faces_read(struct arena *a, struct screen_face out[SCREEN_WEIGHTS], struct err_list *errs)
{
    static const enum text_weight weights[SCREEN_WEIGHTS] = { TEXT_REGULAR, TEXT_SEMIBOLD };
    struct text_face_file files[SCREEN_WEIGHTS];
    bool good = text_find_files(a, weights, SCREEN_WEIGHTS, files);
    if (!good)
        base_err(errs, &no_font, (struct err_place){ 0 }, ERR_NONE);
    for (int i = 0; good && i < SCREEN_WEIGHTS; i++) {
        out[i].file = files[i];
        good = base_file_read(a, files[i].path, MOST_BYTES, &out[i].bytes, errs);
    }
    return good;
}

/* From memory: from a file it would be sought for each letter that is measured. */
TTF_Font *screen_font_open(const struct screen_face *face, struct err_list *errs)
{
    SDL_RWops *bytes = SDL_RWFromConstMem(face->bytes.data, (int)face->bytes.count);
    TTF_Font *font = bytes ? TTF_OpenFontIndexRW(bytes, 1, OPENING_SIZE, face->file.index) : NULL;
    if (!font)
        base_err(errs, &bad_font, base_err_in_file(face->file.path), ERR_TEXT(SDL_GetError()));
    return font;
}

bool screen_fonts_open(struct arena *a, struct screen_page_fonts *out, struct err_list *errs)
{
    struct screen_face faces[SCREEN_WEIGHTS];
    bool read = screen_faces_read(a, faces, errs);
    out->regular = read ? screen_font_open(&faces[0], errs) : NULL;
    out->semibold = out->regular ? screen_font_open(&faces[1], errs) : NULL;
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
