/* The cutting list on the command line: an aligned table for people, JSON for scripts. */
#ifndef APP_LIST_H
#define APP_LIST_H

#include "export/list_words.h"
#include "json/write.h"

/* The whole list; lives in the words' arena. */
const char *app_list_table(const struct export_words *w, const struct export_list *list);

/* The same with exact lengths in mm. */
void app_list_json(struct json_out *to, const struct export_list *list);

#endif
