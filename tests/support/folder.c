#include "support/folder.h"

#include <dirent.h>
#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

char *support_folder_create(void)
{
    const char *base = getenv("TMPDIR");
    if (!base)
        base = "/tmp";
    size_t size = strlen(base) + sizeof "/chalk-test-XXXXXX";
    char *folder = malloc(size);
    if (!folder)
        abort();
    snprintf(folder, size, "%s/chalk-test-XXXXXX", base);
    if (!mkdtemp(folder))
        abort();
    return folder;
}

static int remove_one(const char *path, const struct stat *st, int type, struct FTW *place)
{
    (void)st, (void)type, (void)place;
    return remove(path);
}

void support_folder_remove(char *folder)
{
    nftw(folder, remove_one, 8, FTW_DEPTH | FTW_PHYS);
    free(folder);
}

int support_folder_count(const char *folder)
{
    DIR *dir = opendir(folder);
    int count = 0;
    if (!dir)
        return -1;
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir))
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0)
            count++;
    closedir(dir);
    return count;
}
