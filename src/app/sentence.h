/* Faults into sentences: what, where and what to do, with lengths in the person's unit. */
#ifndef APP_SENTENCE_H
#define APP_SENTENCE_H

#include "base/err_list.h"
#include "units/length.h"
#include "json/write.h"

/* "shirt.json:41: pieces[0].fold: edge “centre” lies on the fold …"; lives in `a`. */
const char *app_sentence(struct arena *a, const struct err *e, enum units_length unit);

/* The same with a file's name without its folders, for a window: she knows which file she took. Where nothing stands
 * before it, it begins with a capital. */
const char *app_sentence_short(struct arena *a, const struct err *e, enum units_length unit);

/* The same as a member of a JSON list: code, severity, file, path, line, sentence. */
void app_sentence_json(struct json_out *list, struct arena *a, const struct err *e, enum units_length unit);

#endif
