#include "export/list_words.h"

#include "base/text.h"
#include "base/words.h"

#include <math.h>
#include <string.h>

#define UNSEEN_MM 0.005
#define NO_BREAK "\u00a0"

double export_mark(const struct export_words *w, double mm)
{
    return w->unit == UNITS_IN && w->fraction == 16 ? units_to_sixteenth(mm, UNITS_IN) : units_on_tape(mm, w->unit);
}

bool export_is_rounded(const struct export_words *w, double mm)
{
    return fabs(export_mark(w, mm) - mm) > UNSEEN_MM;
}

static const char *join(struct arena *a, const char *text)
{
    const char *joined = "";
    for (size_t count = strcspn(text, " "); text[count]; text += count + 1, count = strcspn(text, " "))
        joined = base_arena_print(a, "%s%.*s" NO_BREAK, joined, (int)count, text);
    return base_arena_print(a, "%s%s", joined, text);
}

const char *export_length_text(const struct export_words *w, double mm)
{
    char text[UNITS_TEXT];
    units_print_length(text, export_mark(w, mm), w->unit);
    return base_arena_print(w->a, "%s%s", export_is_rounded(w, mm) ? EXPORT_ROUNDED_MARK : "",
                            w->joined ? join(w->a, text) : text);
}

const char *export_extent_text(const struct export_words *w, struct export_extent e)
{
    const char *width = export_length_text(w, e.width_mm);
    size_t unit = strlen(units_shown_name(w->unit)) + strlen(w->joined ? NO_BREAK : " ");
    return base_arena_print(w->a, "%.*s × %s", (int)(strlen(width) - unit), width, export_length_text(w, e.height_mm));
}

/* "1 Front", "7a Front" of "Front": a number and the name, so the label alone says both. */
static bool is_numbered_name(const char *label, const char *name)
{
    size_t number = strcspn(label, " ");
    return *label >= '0' && *label <= '9' && label[number] && base_text_distance(label + number + 1, name, 1) == 0;
}

const char *export_piece_text(const struct export_words *w, const struct draft_piece *piece)
{
    const char *name = base_text_one_line(w->a, piece->name), *label = base_text_one_line(w->a, piece->label);
    bool is_of_pattern = piece->index != PATTERN_NONE; /* a block is of none */
    return !is_of_pattern || base_text_distance(name, label, 1) == 0 || is_numbered_name(label, name)
               ? label
               : base_arena_print(w->a, "%s (%s)", label, name);
}

const char *export_count_text(const struct export_words *w, const struct draft_cut *cut)
{
    static const char *const hands[] = {
        [PATTERN_AS_DRAWN] = "%d", [PATTERN_LEFT] = BASE_TR("%d left"), [PATTERN_RIGHT] = BASE_TR("%d right")
    };
    size_t pairs = (size_t)cut->count / 2;
    if (cut->hand == PATTERN_PAIRS)
        return base_arena_print(w->a, base_tr_count(pairs, "%zu pair", "%zu pairs"), pairs);
    return base_arena_print(w->a, base_tr(hands[cut->hand]), cut->count);
}

const char *export_fuse_text(const struct draft_cut *cut)
{
    if (cut->cloth != PATTERN_INTERFACING)
        return "";
    static const char *const sides[] = { [PATTERN_WRONG_SIDE] = BASE_TR(", fused on the wrong side"),
                                         [PATTERN_RIGHT_SIDE] = BASE_TR(", fused on the right side") };
    return base_tr(sides[cut->fuse]);
}

const char *export_cloth_text(struct arena *a, const struct draft_cut *cut)
{
    return base_arena_print(a, "%s%s", base_tr(pattern_cloth_name(cut->cloth)), export_fuse_text(cut));
}

/* What is made shorter: an edge, or half of it, alone or with its neighbours in the seam. */
static const char *edge_text(struct arena *a, const char *edge, const struct fit_fullness *f)
{
    static const char *const texts[2][2] = {
        { "“%s”", BASE_TR("“%s” and what lies beside it in the seam") },
        { BASE_TR("each half of “%s”"), BASE_TR("each half of “%s” and what lies beside it in the seam") },
    };
    return base_arena_print(a, base_tr(texts[f->is_half][f->with_others]), edge);
}

const char *export_fullness_text(const struct export_words *w, const struct export_list *list,
                                 const struct export_line *line, const struct fit_fullness *f)
{
    /* To: an edge, a length, a shorter length, the seam's name */
    static const char *const done[] = { [FIT_EASED] = BASE_TR("%s eased from %s to %s, seam “%s”"),
                                        [FIT_GATHERED] = BASE_TR("%s gathered from %s to %s, seam “%s”"),
                                        [FIT_FOLDED] = BASE_TR("%s folded from %s to %s, seam “%s”") };
    const struct pattern_seam *seam = &list->pattern->seams[f->seam];
    const char *edge =
        pattern_worded(w->a, list->pattern, list->pattern->pieces[line->piece->index].edges[f->edge].name);
    const char *text =
        base_arena_print(w->a, base_tr(done[f->kind]), edge_text(w->a, edge, f), export_length_text(w, f->from_mm),
                         export_length_text(w, f->to_mm), seam->label);
    if (f->interval_count)
        text = base_arena_print(w->a, base_tr("%s, interval %zu of %zu"), text, f->interval + 1, f->interval_count);
    return base_text_one_line(w->a, text);
}

static const char *out_of_block(struct arena *a, const struct export_line *line)
{
    if (line->in_block == line->cut.count)
        return base_tr("cut out of the block with its fabric");
    return base_arena_print(a, base_tr("%d of these cut out of the block with their fabric"), line->in_block);
}

const char *export_block_text(const struct export_words *w, const struct export_list *list,
                              const struct export_line *line)
{
    const char *names = "";
    if (!line->is_block)
        return line->in_block ? out_of_block(w->a, line) : NULL;
    for (size_t i = 0; i < list->line_count; i++) {
        const struct export_line *of = &list->lines[i];
        const char *label = base_text_one_line(w->a, of->piece->label);
        if (of->in_block)
            names = base_arena_print(w->a, "%s%s%s", names, *names ? ", " : "",
                                     of->in_block > 1 ? base_arena_print(w->a, "%d × %s", of->in_block, label) : label);
    }
    return base_arena_print(w->a, base_tr("fuse it on the fabric first, then cut out of both: %s"), names);
}

const char *export_notion_text(const struct export_words *w, const struct draft_notion *notion)
{
    const char *text = base_text_one_line(w->a, notion->name);
    if (notion->count > 1)
        text = base_arena_print(w->a, "%d × %s", notion->count, text);
    if (notion->size_mm > 0)
        text = base_arena_print(w->a, "%s, %s", text, export_length_text(w, notion->size_mm));
    if (notion->length_mm > 0)
        text = base_arena_print(w->a, base_tr("%s, %s long"), text, export_length_text(w, notion->length_mm));
    return text;
}

const char *export_rounding_text(const struct export_words *w)
{
    if (w->unit != UNITS_IN)
        return base_tr("≈: to the nearest 1 mm");
    return w->fraction == 16 ? base_tr("≈: to the nearest 1/16 in") : base_tr("≈: to the nearest 1/8 in");
}
