/* Why a table may not be true any more, and until when that is told. */
#ifndef APP_TRUST_H
#define APP_TRUST_H

#include <stdbool.h>

/* A notice stands across the frame until the person says that the marks lie on their check stickers; where there are
 * none, until the test square was shown and she goes on from it. */
enum app_doubt {
    APP_DOUBT_NONE,
    APP_DOUBT_START,
    APP_DOUBT_DISPLAY,
    APP_DOUBT_AWAY,
    APP_DOUBT_SLEPT,
    APP_DOUBT_HOURS,
    APP_DOUBTS
};

struct app_trust {
    enum app_doubt doubt; /* why the table is not to be trusted until it is looked at */
    double slept_s;       /* up to now, since that moment of app_trust_pass_time */
    double looked_at_s;   /* when it was last known to be true; below zero: not known yet */
};

/* Told now and then, at least once a minute: seconds since some fixed moment, with the computer's sleep and without.
 * After a sleep, and four hours after it was looked at, a table is doubted; true when it is now and was not before. */
bool app_trust_pass_time(struct app_trust *trust, double with_sleep_s, double awake_s);

/* The notice; NULL when nothing is doubted. `stickers`: the table has check stickers. */
const char *app_trust_notice(const struct app_trust *trust, bool stickers);

/* What is told where a sample table stands in for one; shown by base_tr. */
extern const char app_trust_sample[];

/* What is told over a picture whose lengths are not those of the cloth. */
extern const char app_trust_not_true[];

#endif
