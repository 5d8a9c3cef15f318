/* Stands in for pdf.c in a build without MuPDF. */
#include "sheet_reader/pdf.h"

enum sheet_exit pdf_read(struct collect *c, const char *bytes, size_t count, const char *password)
{
    (void)c, (void)bytes, (void)count, (void)password;
    return SHEET_EXIT_NOT_YET;
}
