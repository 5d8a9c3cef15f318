#include "app/piece_marks.h"

#include "base/words.h"

size_t app_snips(const struct draft_piece *piece)
{
    size_t count = 0;
    for (size_t i = 0; i < piece->notch_count; i++)
        if (piece->notches[i].depth_mm > 0)
            count += piece->notches[i].place_count;
    return count;
}

static bool has_line(const struct draft_piece *piece, enum pattern_line_kind kind)
{
    for (size_t i = 0; i < piece->line_count; i++)
        if (piece->lines[i].kind == kind)
            return true;
    return false;
}

size_t app_mark_kinds(const struct draft_piece *piece, const char *kinds[APP_MARK_KINDS])
{
    const struct {
        bool has;
        const char *what;
    } rows[APP_MARK_KINDS] = {
        { piece->drill_mark_count > 0, BASE_TR("dots") },
        { has_line(piece, PATTERN_LINE_DART), BASE_TR("dart points") },
        { has_line(piece, PATTERN_LINE_PLACEMENT), BASE_TR("pocket places") },
        { piece->button_count > 0 || has_line(piece, PATTERN_LINE_BUTTONHOLE), BASE_TR("places of buttons") },
    };
    size_t count = 0;
    for (size_t i = 0; i < APP_MARK_KINDS; i++)
        if (rows[i].has)
            kinds[count++] = base_tr(rows[i].what);
    return count;
}
