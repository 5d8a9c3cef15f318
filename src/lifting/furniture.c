#include "lifting/furniture.h"
#include "lifting/words.h"

#include <math.h>

/* Lines in a box from this length on may be a grain line. */
#define GRAIN_LEAST_MM 20.0

/* A title has several lines; a piece may have but its name. */
enum { TITLE_LINES = 3 };

static const struct nest_outline *common_outline(const struct within_shape *shape)
{
    return shape->shape.one_size && !shape->outlines[0]->of_size ? shape->outlines[0] : NULL;
}

/* Told by its side alone: to as much as a true sheet may be off. */
static bool is_round(const struct drawing_square *s)
{
    double most = s->likely_mm[0] * DRAWING_TRUE_SHARE;
    return s->likely_mm[0] > 0 && fabs(s->width_mm - s->likely_mm[0]) <= most &&
           fabs(s->height_mm - s->likely_mm[0]) <= most;
}

static bool is_test_square(const struct one_size_sheet *sheet, const struct within_shape *shape,
                           const struct nest_outline *o)
{
    if (shape->shape.line_count || shape->shape.text_count)
        return false;
    for (size_t i = 0; i < sheet->asked.square_count; i++)
        if (is_round(&sheet->asked.squares[i]) && nest_is_square(o, &sheet->asked.squares[i]))
            return true;
    return false;
}

static bool has_long_line(const struct one_size_sheet *sheet, const struct lifting_shape *shape)
{
    for (size_t i = 0; i < shape->line_count; i++)
        if (geometry_path_length(sheet->d->lines[shape->lines[i]].path.path) >= GRAIN_LEAST_MM)
            return true;
    return false;
}

static bool is_box(struct arena *a, const struct one_size_sheet *sheet, const struct lifting_shape *shape)
{
    struct lifting_words words;
    if (shape->text_count < TITLE_LINES || has_long_line(sheet, shape))
        return false;
    for (size_t i = 0; i < shape->text_count; i++)
        if (lifting_said_of_line(sheet->d->texts[shape->texts[i]].words) != LIFTING_SAID_NOTHING)
            return false;
    lifting_read_words(a, sheet->d, sheet->division, shape, 1, &words);
    return words.count == 0 && !words.on_fold && words.cloths == 0;
}

bool furniture_is(struct arena *a, const struct one_size_sheet *sheet, const struct within_shape *shape)
{
    const struct nest_outline *o = common_outline(shape);
    return o && nest_is_rectangle(o) && (is_test_square(sheet, shape, o) || is_box(a, sheet, &shape->shape));
}
