#include "form/type.h"

#include <string.h>

static const struct form_style_row rows[FORM_STYLES] = {
    [FORM_TITLE] = { 28, true },   [FORM_TICKET] = { 19, true }, [FORM_WRITTEN] = { 17, true },
    [FORM_LABEL] = { 16, false },  [FORM_STRONG] = { 16, true }, [FORM_SENTENCE] = { 15, false },
    [FORM_HEADING] = { 15, true }, [FORM_NOTE] = { 14, false },  [FORM_NOTE_STRONG] = { 14, true },
    [FORM_SMALL] = { 13, false },  [FORM_FIGURE] = { 42, true },
};

#define STEP_EM 1.3
#define CAPITAL_EM 0.7255

const struct form_style_row *form_style(enum form_style style)
{
    return &rows[style];
}

double form_line_step(enum form_style style)
{
    return STEP_EM * rows[style].size_u;
}

double form_drop(enum form_style style)
{
    return CAPITAL_EM / 2 * rows[style].size_u;
}

double form_width(const struct form_type *type, enum form_style style, const char *text)
{
    return type->width(type->of, style, text, strlen(text));
}
