/* Membership dictionaries (ISO 32000-2, 8.11.2.2): a policy over groups, or a visibility expression. */
#ifndef SHEET_READER_PDF_CONDITION_H
#define SHEET_READER_PDF_CONDITION_H

#include "sheet_reader/mupdf.h"
#include "sheet_reader/pdf_layers_in.h"

enum { CONDITION_TEXT = 1000 };

struct pdf_condition {
    char name[CONDITION_TEXT]; /* for a person: "36 and not Lines"; cut off when longer */
    char key[CONDITION_TEXT];  /* the same with object numbers; "": no condition at all */
    bool on;                   /* whether it holds by the default configuration */
    bool several;
};

bool pdf_condition_is_membership(fz_context *ctx, pdf_obj *oc);

/* What a membership dictionary asks for. Groups that are missing or null do not count. */
void pdf_condition_read(fz_context *ctx, struct pdf_layers *l, pdf_obj *membership, struct pdf_condition *out);

/* That both rows are visible. */
void pdf_condition_both(const struct pdf_layers *l, uint32_t a, uint32_t b, struct pdf_condition *out);

#endif
