#include "app/trust.h"

#include "base/words.h"

#include <stddef.h>

#define TRUSTED_S (4.0 * 3600) /* common practice, no source: lamps, mounts and tables creep */
#define LEAST_SLEEP_S 5.0

const char app_trust_sample[] = BASE_TR("Sample table, not yours: for looking, not for cutting");
const char app_trust_not_true[] = BASE_TR("Not true to scale here: for looking, not for cutting");

/* Without check stickers and with them. */
static const char *const doubts[APP_DOUBTS][2] = {
    [APP_DOUBT_START] = { BASE_TR("Not looked at since the start: measure the test square (S) before you go on"),
                          BASE_TR("Do the marks lie on their stickers? M: they do · Shift M: they do not") },
    [APP_DOUBT_DISPLAY] = { BASE_TR("Set up on another display: measure the test square (S) before you go on"),
                            BASE_TR("Set up on another display. Do the marks lie on their stickers? M: they do · "
                                    "Shift M: they do not") },
    [APP_DOUBT_AWAY] = { BASE_TR("The light was away: measure the test square (S) before you go on"),
                         BASE_TR("The light was away. Do the marks lie on their stickers? M: they do · "
                                 "Shift M: they do not") },
    [APP_DOUBT_SLEPT] = { BASE_TR("The computer slept: measure the test square (S) before you go on"),
                          BASE_TR("The computer slept. Do the marks lie on their stickers? M: they do · "
                                  "Shift M: they do not") },
    [APP_DOUBT_HOURS] = { BASE_TR("Four hours are over: measure the test square (S) before you go on"),
                          BASE_TR("Four hours are over. Do the marks lie on their stickers? M: they do · "
                                  "Shift M: they do not") },
};

bool app_trust_pass_time(struct app_trust *trust, double with_sleep_s, double awake_s)
{
    double slept_s = with_sleep_s - awake_s;
    bool first = trust->looked_at_s < 0, slept = !first && slept_s - trust->slept_s > LEAST_SLEEP_S;
    bool old = !first && with_sleep_s - trust->looked_at_s > TRUSTED_S;
    trust->slept_s = slept_s;
    if (first || trust->doubt)
        trust->looked_at_s = with_sleep_s;
    if (trust->doubt || !(slept || old))
        return false;
    trust->doubt = slept ? APP_DOUBT_SLEPT : APP_DOUBT_HOURS;
    return true;
}

const char *app_trust_notice(const struct app_trust *trust, bool stickers)
{
    return trust->doubt ? base_tr(doubts[trust->doubt][stickers]) : NULL;
}
