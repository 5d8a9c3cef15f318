/* What keys and the mouse do to a form. */
#include "form/form.h"

#include "base/text.h"
#include "input/key.h"

#include <math.h>
#include <string.h>

struct form_item *form_add(struct form *form, struct form_item item)
{
    form->items = base_arena_grow(form->a, form->items, &form->cap, form->count + 1, sizeof *form->items);
    form->items[form->count] = item;
    return &form->items[form->count++];
}

static const struct form_item *at_id(const struct form *form, int id, size_t *index)
{
    for (size_t i = 0; i < form->count; i++)
        if (form->items[i].id == id) {
            *index = i;
            return &form->items[i];
        }
    return NULL;
}

const struct form_item *form_find(const struct form *form, int id)
{
    size_t index;
    return at_id(form, id, &index);
}

void form_settle(const struct form *form, struct form_hand *hand)
{
    const struct form_item *here = form_find(form, hand->focus);
    if (here && here->state != FORM_NOT_NOW)
        return;
    *hand = (struct form_hand){ 0 };
    for (size_t i = 0; i < form->count && !hand->focus; i++)
        if (form->items[i].state != FORM_NOT_NOW)
            hand->focus = form->items[i].id;
}

/* --- leaving and going on ---------------------------------------------------------------------------------------- */

struct form_answer form_leave(const struct form *form, struct form_hand *hand)
{
    const struct form_item *item = form_find(form, hand->focus);
    struct form_answer answer = { .did = FORM_LOOKED, .id = hand->focus };
    if (hand->writing && item && strcmp(hand->text, item->text ? item->text : "") != 0) {
        answer.did = FORM_WROTE;
        memcpy(answer.text, hand->text, sizeof answer.text);
    }
    hand->writing = hand->open = false;
    return answer;
}

/* The next item that can be used, round the page. */
static struct form_answer go(const struct form *form, struct form_hand *hand, int by)
{
    struct form_answer answer = form_leave(form, hand);
    size_t i = 0;
    if (!at_id(form, hand->focus, &i))
        return answer;
    do {
        i = (i + form->count + (size_t)(by > 0 ? 1 : form->count - 1)) % form->count;
    } while (form->items[i].state == FORM_NOT_NOW && form->items[i].id != hand->focus);
    hand->focus = form->items[i].id;
    return answer;
}

/* --- writing ----------------------------------------------------------------------------------------------------- */

static void begin_writing(struct form_hand *hand, const char *text)
{
    hand->writing = true;
    size_t count = text ? strlen(text) : 0;
    if (count >= sizeof hand->text)
        count = 0;
    memset(hand->text, 0, sizeof hand->text);
    memcpy(hand->text, count ? text : "", count);
    hand->caret = count;
}

static size_t before_caret(const struct form_hand *hand)
{
    size_t at = hand->caret;
    while (at > 0 && ((unsigned char)hand->text[--at] & 0xc0) == 0x80)
        ;
    return at;
}

static size_t after_caret(const struct form_hand *hand)
{
    const char *end = hand->text + hand->caret;
    base_text_next(&end);
    return (size_t)(end - hand->text);
}

static void insert(struct form_hand *hand, unsigned long point)
{
    char bytes[4];
    size_t count = base_text_put(bytes, point), length = strlen(hand->text);
    if (length + count >= sizeof hand->text)
        return;
    memmove(hand->text + hand->caret + count, hand->text + hand->caret, length - hand->caret + 1);
    memcpy(hand->text + hand->caret, bytes, count);
    hand->caret += count;
}

static void rub_out(struct form_hand *hand, size_t from, size_t to)
{
    memmove(hand->text + from, hand->text + to, strlen(hand->text + to) + 1);
    hand->caret = from;
}

/* The keys that move the caret; they leave the text as it stands. */
static bool edit(struct form_hand *hand, const struct form_item *item, int key)
{
    if (key != KEY_BACKSPACE && key != KEY_LEFT && key != KEY_RIGHT && key != KEY_HOME && key != KEY_END &&
        key != KEY_DELETE)
        return false;
    if (!hand->writing)
        begin_writing(hand, item->text);
    if (key == KEY_BACKSPACE)
        rub_out(hand, before_caret(hand), hand->caret);
    else if (key == KEY_DELETE)
        rub_out(hand, hand->caret, after_caret(hand));
    else if (key == KEY_LEFT)
        hand->caret = before_caret(hand);
    else if (key == KEY_RIGHT)
        hand->caret = after_caret(hand);
    else
        hand->caret = key == KEY_HOME ? 0 : strlen(hand->text);
    return true;
}

static const struct form_answer looked = { .did = FORM_LOOKED }, not_mine = { .did = FORM_NOT_MINE };

/* Of the item where she is, else, unless she is writing, the only one that is there. NULL: none, or which is not plain.
 */
static const struct form_item *offered(const struct form *form, const struct form_hand *hand,
                                       const struct form_item *here)
{
    const struct form_item *only = NULL;
    size_t count = 0;
    for (size_t i = 0; i < form->count; i++)
        if (form->items[i].offer) {
            only = &form->items[i];
            count++;
        }
    return here->offer ? here : count == 1 && !hand->writing ? only : NULL;
}

static struct form_answer take_offer(struct form_hand *hand, const struct form_item *item)
{
    hand->focus = item->id;
    struct form_answer answer = { .did = FORM_WROTE, .id = item->id };
    begin_writing(hand, item->offer);
    memcpy(answer.text, hand->text, sizeof answer.text);
    hand->writing = false;
    return answer;
}

/* An event on the item where she is. */
struct pressing {
    const struct form *form;
    struct form_hand *hand;
    const struct form_item *item;
    struct input_event e;
};

/* A character that starts a text takes the place of what stood there, as on a slate. */
static struct form_answer press_field(const struct pressing *on)
{
    struct form_hand *hand = on->hand;
    int key = on->e.key;
    unsigned long point = on->e.printed ? on->e.printed : input_key_printed(key, on->e.mods);
    if (point) {
        if (!hand->writing)
            begin_writing(hand, NULL);
        insert(hand, point);
        return looked;
    }
    if (key == KEY_ESC && hand->writing) {
        hand->writing = false;
        return looked;
    }
    if (key == KEY_ENTER)
        return go(on->form, hand, 1);
    return !on->e.mods && edit(hand, on->item, key) ? looked : not_mine;
}

/* --- the other kinds --------------------------------------------------------------------------------------------- */

static struct form_answer answer_of(enum form_did did, const struct form_item *item)
{
    return (struct form_answer){ .did = did, .id = item->id };
}

static struct form_answer choose(const struct form_item *item, int choice)
{
    struct form_answer answer = answer_of(choice == item->chosen ? FORM_LOOKED : FORM_CHOSE, item);
    answer.choice = choice;
    return answer;
}

static int within(const struct form_item *item, int choice)
{
    int last = (int)item->choice_count - 1;
    return choice < 0 ? 0 : choice > last ? last : choice;
}

static bool presses(int key)
{
    return key == KEY_SPACE || key == KEY_ENTER;
}

static struct form_answer open_list(struct form_hand *hand, const struct form_item *item)
{
    hand->open = true;
    hand->at = within(item, item->chosen);
    return looked;
}

static struct form_answer press_list(const struct pressing *on)
{
    struct form_hand *hand = on->hand;
    int key = on->e.key, by = key == KEY_UP ? -1 : key == KEY_DOWN ? 1 : 0;
    if (!hand->open)
        return presses(key) ? open_list(hand, on->item) : not_mine;
    if (presses(key)) {
        hand->open = false;
        return choose(on->item, hand->at);
    }
    if (key != KEY_ESC && !by)
        return not_mine;
    hand->open = key != KEY_ESC;
    hand->at = within(on->item, hand->at + by);
    return looked;
}

static struct form_answer press_tick(const struct pressing *on)
{
    return presses(on->e.key) ? answer_of(FORM_TICKED, on->item) : not_mine;
}

static struct form_answer step(const struct form_item *item, int by)
{
    struct form_answer answer = answer_of(FORM_STEPPED, item);
    answer.step = by;
    return answer;
}

static struct form_answer press_stepper(const struct pressing *on)
{
    int key = on->e.key;
    if (key == KEY_RIGHT || key == KEY_CHAR + '+')
        return step(on->item, 1);
    if (key == KEY_LEFT || key == KEY_CHAR + '-')
        return step(on->item, -1);
    return key == KEY_ENTER ? go(on->form, on->hand, 1) : not_mine;
}

static struct form_answer press_row(const struct form_item *item, int choice)
{
    struct form_answer answer = answer_of(FORM_PRESSED, item);
    answer.choice = choice;
    return answer;
}

/* Arrows go among tiles by their rows and columns, and up and down out of them; where none is chosen, Enter takes the
 * first. */
static struct form_answer press_tiles(const struct pressing *on)
{
    const struct form_item *item = on->item;
    int columns = (int)item->columns, key = on->e.key, first = -(int)item->first;
    int last = (int)(item->total ? item->total : item->choice_count) - 1 + first;
    bool across = columns > 1 && (key == KEY_LEFT || key == KEY_RIGHT), along = key == KEY_UP || key == KEY_DOWN;
    if (item->columns == 1 && presses(key) && item->chosen >= 0)
        return press_row(item, item->chosen);
    if (presses(key) && item->chosen < 0)
        return choose(item, 0);
    if (key == KEY_ENTER)
        return go(on->form, on->hand, 1);
    if (!across && !along)
        return not_mine;
    int by = key == KEY_LEFT || key == KEY_UP ? -1 : 1;
    int to = item->chosen < 0 ? 0 : item->chosen + (along ? by * columns : by);
    if (to < first || to > last)
        return along ? not_mine : looked;
    return choose(item, to);
}

static struct form_answer press_button(const struct pressing *on)
{
    return presses(on->e.key) ? answer_of(FORM_PRESSED, on->item) : not_mine;
}

typedef struct form_answer press_kind(const struct pressing *on);

static press_kind *const kinds[] = {
    [FORM_FIELD] = press_field, [FORM_LIST] = press_list,  [FORM_TICK] = press_tick,   [FORM_STEPPER] = press_stepper,
    [FORM_TILES] = press_tiles, [FORM_TAG] = press_button, [FORM_CARD] = press_button,
};

struct form_answer form_press(const struct form *form, struct form_hand *hand, struct input_event e)
{
    const struct pressing on = { form, hand, form_find(form, hand->focus), e };
    if (!on.item)
        return not_mine;
    if (e.key == KEY_TAB && !(e.mods & (MOD_CTRL | MOD_ALT)))
        return go(form, hand, e.mods & MOD_SHIFT ? -1 : 1);
    const struct form_item *offers = e.key == KEY_F4 && !e.mods ? offered(form, hand, on.item) : NULL;
    if (offers)
        return take_offer(hand, offers);
    struct form_answer answer = kinds[on.item->kind](&on);
    if (answer.did != FORM_NOT_MINE || e.mods)
        return answer;
    return e.key == KEY_UP || e.key == KEY_DOWN ? go(form, hand, e.key == KEY_UP ? -1 : 1) : not_mine;
}

/* --- the mouse --------------------------------------------------------------------------------------------------- */

static bool holds(struct bench_box b, struct bench_pt at)
{
    return at.x >= b.x && at.x < b.x + b.width && at.y >= b.y && at.y < b.y + b.height;
}

/* A tick is pressed on its words too. */
static struct bench_box reach(const struct form_item *item)
{
    struct bench_box box = item->box;
    if (item->kind == FORM_TICK)
        box.width += item->note_room;
    return box;
}

struct bench_box form_tile_box(const struct form_item *item, size_t choice)
{
    size_t columns = item->columns ? item->columns : 1, rows = (item->choice_count + columns - 1) / columns;
    double width = (item->box.width - (double)(columns - 1) * item->gap) / (double)columns;
    double height = (item->box.height - (double)(rows - 1) * item->gap) / (double)rows;
    size_t row = choice / columns, column = choice % columns;
    return (struct bench_box){ item->box.x + (double)column * (width + item->gap),
                               item->box.y + (double)row * (height + item->gap), width, height };
}

static const double row_height = 34, hang_margin = 10;

struct form_hang form_hang_of(const struct form *form, const struct form_hand *hand, const struct form_item *item)
{
    size_t room = (size_t)fmax(1, floor((form->height - 2 * hang_margin) / row_height)), at = (size_t)hand->at;
    struct form_hang hang = { .count = item->choice_count < room ? item->choice_count : room };
    if (at >= hang.count / 2)
        hang.first = at - hang.count / 2;
    if (hang.first + hang.count > item->choice_count)
        hang.first = item->choice_count - hang.count;
    double high = (double)hang.count * row_height, lowest = form->height - hang_margin - high;
    hang.box = (struct bench_box){ item->box.x, fmin(item->box.y + item->box.height, lowest), item->box.width, high };
    return hang;
}

struct bench_box form_row_box(const struct form_hang *hang, size_t choice)
{
    struct bench_box row = hang->box;
    row.y += (double)(choice - hang->first) * row_height;
    row.height = row_height;
    return row;
}

static struct form_answer point_list(const struct form *form, struct form_hand *hand, const struct form_item *item,
                                     struct bench_pt at)
{
    struct form_hang hang = form_hang_of(form, hand, item);
    for (size_t i = hang.first; hand->open && i < hang.first + hang.count; i++)
        if (holds(form_row_box(&hang, i), at)) {
            hand->open = false;
            return choose(item, (int)i);
        }
    if (hand->open && !holds(item->box, at))
        return form_leave(form, hand);
    if (!hand->open)
        return open_list(hand, item);
    hand->open = false;
    return looked;
}

static struct form_answer point_stepper(const struct form_item *item, struct bench_pt at)
{
    struct bench_box b = item->box;
    if (at.x < b.x + b.height)
        return step(item, -1);
    return at.x >= b.x + b.width - b.height ? step(item, 1) : looked;
}

static struct form_answer point_tiles(const struct form_item *item, struct bench_pt at)
{
    for (size_t i = 0; i < item->choice_count; i++)
        if (holds(form_tile_box(item, i), at))
            return item->columns == 1 && (int)i == item->chosen ? press_row(item, (int)i) : choose(item, (int)i);
    return looked;
}

static struct form_answer point_item(const struct form *form, struct form_hand *hand, const struct form_item *item,
                                     struct bench_pt at)
{
    switch (item->kind) {
    case FORM_FIELD:
        return looked;
    case FORM_LIST:
        return point_list(form, hand, item, at);
    case FORM_TICK:
        return answer_of(FORM_TICKED, item);
    case FORM_STEPPER:
        return point_stepper(item, at);
    case FORM_TILES:
        return point_tiles(item, at);
    case FORM_TAG:
    case FORM_CARD:
        return answer_of(FORM_PRESSED, item);
    }
    return not_mine;
}

struct form_answer form_point(const struct form *form, struct form_hand *hand, struct bench_pt at)
{
    const struct form_item *here = form_find(form, hand->focus);
    if (here && here->kind == FORM_LIST && hand->open)
        return point_list(form, hand, here, at);
    for (size_t i = 0; i < form->count; i++) {
        const struct form_item *item = &form->items[i];
        if (item->state == FORM_NOT_NOW || item->hidden || !holds(reach(item), at))
            continue;
        if (item->id != hand->focus)
            hand->writing = hand->open = false;
        hand->focus = item->id;
        return point_item(form, hand, item, at);
    }
    return not_mine;
}
