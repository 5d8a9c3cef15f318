/* What is typed, where the seam allowance is, and saving. */
#include "app/amount.h"
#include "app/lift_state.h"
#include "base/words.h"
#include "lifting/words.h"
#include "units/typed.h"

#include <stdlib.h>
#include <string.h>

enum { MOST_COUNT = 999 };

#define MOST_ALLOWANCE_MM 100.0

struct app_lift_effects app_lift_type(struct app_lift *lift, enum app_lift_typing what)
{
    memset(lift->typed, 0, sizeof lift->typed);
    lift->typing = what;
    return app_lift_over(lift, APP_LIFT_TYPE);
}

const char *app_lift_type_sentence(const struct app_lift *lift)
{
    static const char *const sentences[] = {
        [APP_LIFT_TYPE_APART] = BASE_TR("Type how far apart the two points truly are, as 10 cm or 4 in"),
        [APP_LIFT_TYPE_SIZE] = BASE_TR("Type the name of the size"),
        [APP_LIFT_TYPE_NAME] = BASE_TR("Type the name of the piece"),
        [APP_LIFT_TYPE_COUNT] = BASE_TR("Type how often it is cut, as 2, 1 pair, 1 on the fold or 2 of interfacing"),
        [APP_LIFT_TYPE_OUT] = BASE_TR("Type the name of the file that the pattern goes to"),
    };
    return base_tr(sentences[lift->typing]);
}

static struct app_lift_effects take_apart(struct app_lift *lift)
{
    double mm;
    if (units_typed_length(lift->typed, lift->start.unit, &mm) && mm > 0)
        return app_lift_take_apart(lift, mm);
    app_lift_tell(lift, "%s",
                  app_no_length(lift->a, lift->typed, base_tr("That is not a length: write 10 cm, 100 mm or 4 in")));
    return app_lift_redraw;
}

static struct app_lift_effects take_size(struct app_lift *lift)
{
    lift->page = lift->beneath;
    return app_lift_new_size(lift, lift->typed);
}

static struct app_lift_effects take_name(struct app_lift *lift)
{
    return app_lift_mend(lift, (struct lifting_mend){ .kind = LIFTING_MEND_RENAME, .text = lift->typed });
}

static struct app_lift_effects take_count(struct app_lift *lift)
{
    char *end;
    long count = strtol(lift->typed, &end, 10);
    struct lifting_words words;
    if (!*end && count >= 1 && count <= MOST_COUNT)
        return app_lift_mend(lift, (struct lifting_mend){ .kind = LIFTING_MEND_COUNT, .number = (int)count });
    if (lifting_read_count(lift->typed, &words))
        return app_lift_mend(
            lift, (struct lifting_mend){ .kind = LIFTING_MEND_COUNT, .number = words.count, .text = lift->typed });
    app_lift_tell(lift, base_tr("That is no count: write 2, 1 pair, 1 on the fold, or 2 of fabric, 1 of interfacing"));
    return app_lift_redraw;
}

static struct app_lift_effects take_out(struct app_lift *lift)
{
    lift->out = base_arena_copy_text(lift->a, lift->typed);
    lift->replace = false;
    lift->page = APP_LIFT_SAVE;
    return (struct app_lift_effects){ .redraw = true, .save = true };
}

/* Nothing typed is nothing said. */
struct app_lift_effects app_lift_typed(struct app_lift *lift)
{
    static struct app_lift_effects (*const takers[])(struct app_lift *) = { [APP_LIFT_TYPE_APART] = take_apart,
                                                                            [APP_LIFT_TYPE_SIZE] = take_size,
                                                                            [APP_LIFT_TYPE_NAME] = take_name,
                                                                            [APP_LIFT_TYPE_COUNT] = take_count,
                                                                            [APP_LIFT_TYPE_OUT] = take_out };
    if (*lift->typed)
        return takers[lift->typing](lift);
    lift->page = lift->beneath;
    return app_lift_redraw;
}

/* The marked row says where the outlines are; its width is typed. */
struct app_lift_effects app_lift_take_allowance(struct app_lift *lift)
{
    double mm = lift->im->choices.allowance.mm;
    bool typed = *lift->typed != '\0';
    if (lift->row == APP_LIFT_NO_ROW) {
        app_lift_tell(lift, base_tr("Yes or no? Up or Down marks it"));
        return app_lift_redraw;
    }
    if (!typed && !lift->im->choices.allowance.said) {
        app_lift_tell(lift, base_tr("Type how wide the allowance is, then Enter"));
        return app_lift_redraw;
    }
    if (typed && (!units_typed_length(lift->typed, lift->start.unit, &mm) || mm < 0 || mm > MOST_ALLOWANCE_MM)) {
        app_lift_tell(lift, "%s",
                      app_no_length(lift->a, lift->typed,
                                    base_tr("That is not a width from 0 to 10 cm: write 1.5 cm, 15 mm or 5/8 in")));
        return app_lift_redraw;
    }
    lift->im->choices.allowance = (struct app_import_allowance){ true, lift->row == 0, mm };
    app_lift_go(lift, APP_LIFT_SAVE);
    return app_lift_keep;
}

struct app_lift_effects app_lift_ask_save(struct app_lift *lift)
{
    if (!lift->im->lifting.piece_count) {
        app_lift_tell(lift, "%s. %s", base_tr("There is nothing to save"), app_lift_no_piece(lift));
        return app_lift_redraw;
    }
    if (lift->start.out_is_there && !lift->replace) {
        app_lift_tell(lift,
                      base_tr("A file stands there. R: replace it, the old one is kept beside · N: another name"));
        return app_lift_redraw;
    }
    return (struct app_lift_effects){ .redraw = true, .save = true };
}

/* The pattern's name: its sheet's, without folder and ending. */
struct lifting_wish app_lift_wish(const struct app_lift *lift, struct arena *a)
{
    const char *slash = strrchr(lift->start.file, '/'), *name = slash ? slash + 1 : lift->start.file;
    const char *dot = strrchr(name, '.');
    const struct app_import_allowance *said = &lift->im->choices.allowance;
    return (struct lifting_wish){ .name =
                                      dot && dot > name ? base_arena_copy_bytes(a, name, (size_t)(dot - name)) : name,
                                  .unit = lift->start.unit,
                                  .cutting_line = said->cutting_line,
                                  .allowance_mm = said->mm };
}
