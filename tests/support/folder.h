/* A folder of a test's own, gone when it ends. */
#ifndef TESTS_SUPPORT_FOLDER_H
#define TESTS_SUPPORT_FOLDER_H

/* A new empty folder below the system's place for temporary files; the caller removes it. */
char *support_folder_create(void);

/* Removes it with all that is in it, and frees the name. */
void support_folder_remove(char *folder);

/* How many entries stand in it, those of folders in it not counted. */
int support_folder_count(const char *folder);

#endif
