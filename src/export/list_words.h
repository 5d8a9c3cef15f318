/* The words of a cutting list, in the unit of the person who cuts: "2 pairs", "≈33.2 × 41 cm". Texts live in the arena.
 */
#ifndef EXPORT_LIST_WORDS_H
#define EXPORT_LIST_WORDS_H

#include "export/list.h"
#include "units/length.h"

/* What a length is rounded to: whole mm, tenths of a cm, and in inches eighths or sixteenths. */
struct export_words {
    struct arena *a;
    enum units_length unit;
    int fraction; /* 8 or 16 */
    bool joined;  /* no line may break within a length: its blanks are no-break spaces */
};

#define EXPORT_ROUNDED_MARK "≈" /* before a length that was rounded */

/* The nearest mark to a length; whether that is more than 0.005 mm off it, which no tape shows. */
double export_mark(const struct export_words *w, double mm);
bool export_is_rounded(const struct export_words *w, double mm);

/* "41 cm", "≈16 1/8 in"; "33.2 × 41 cm". */
const char *export_length_text(const struct export_words *w, double mm);
const char *export_extent_text(const struct export_words *w, struct export_extent e);

/* "Bib front", with the name it has in the pattern where that is another: "Bib front (bib front full)". */
const char *export_piece_text(const struct export_words *w, const struct draft_piece *piece);

/* "2 pairs", "1 left", "3". */
const char *export_count_text(const struct export_words *w, const struct draft_cut *cut);

/* "fabric", "interfacing, fused on the wrong side". */
const char *export_cloth_text(struct arena *a, const struct draft_cut *cut);

/* ", fused on the wrong side" of interfacing, nothing of other cloth. */
const char *export_fuse_text(const struct draft_cut *cut);

/* "“top” gathered from 112 cm to 70 cm, seam “waist”". */
const char *export_fullness_text(const struct export_words *w, const struct export_list *list,
                                 const struct export_line *line, const struct fit_fullness *f);

/* Of a block: "fuse it on the fabric first, then cut out of both: 2 × Collar, Band"; of a line that is cut out of it:
 * "cut out of the block with its fabric"; else NULL. */
const char *export_block_text(const struct export_words *w, const struct export_list *list,
                              const struct export_line *line);

/* "5 × button, 1.8 cm"; "elastic, 60 cm long". */
const char *export_notion_text(const struct export_words *w, const struct draft_notion *notion);

/* What "≈" means, "≈: to the nearest 1/8 in". */
const char *export_rounding_text(const struct export_words *w);

#endif
