#include "form/kit_page.h"

static const char *const cloths[] = { "Cotton, woven", "Linen, woven", "Jersey, knit" };
static const char *const spreads[] = { "Single", "Folded", "Edges in" };

static const double left = 280, boxes = 392, right = 742;

static void field(struct form *form, int id, enum form_state state, double y, const char *label, const char *text,
                  const char *note)
{
    form_add(form, (struct form_item){ .id = id,
                                       .kind = FORM_FIELD,
                                       .state = state,
                                       .box = { boxes, y, 128, 34 },
                                       .label_x = left,
                                       .label = label,
                                       .text = text,
                                       .unit = "cm",
                                       .note = note,
                                       .note_room = 160 });
}

void kit_make(struct form *form)
{
    field(form, KIT_PLAIN, FORM_PLAIN, 104, "Plain", "150", NULL);
    field(form, KIT_FOCUS, FORM_PLAIN, 152, "Focus", "150", NULL);
    field(form, KIT_FAULT, FORM_FAULT, 200, "Fault", "15", "15 cm is narrower than any cloth.");
    form->items[form->count - 1].mend = "150 cm?";
    form->items[form->count - 1].offer = "150";
    field(form, KIT_TO_DO, FORM_TO_DO, 248, "To do", "to take", "needed for the layout");
    field(form, KIT_NOT_NOW, FORM_NOT_NOW, 296, "Not now", "none", "plain cloth has no repeat");
    form_add(form, (struct form_item){ .id = KIT_LIST,
                                       .kind = FORM_LIST,
                                       .box = { boxes, 344, 168, 34 },
                                       .label_x = left,
                                       .label = "List",
                                       .text = "Linen, woven",
                                       .choices = cloths,
                                       .choice_count = 3,
                                       .chosen = 1 });
    form_add(form, (struct form_item){
                       .id = KIT_NEXT, .kind = FORM_TAG, .box = { boxes, 404, 112, 36 }, .label = "Next", .on = true });
    form_add(
        form,
        (struct form_item){
            .id = KIT_NOT_YET, .kind = FORM_TICK, .box = { right, 120, 22, 22 }, .label = "not yet", .note_room = 90 });
    form_add(form, (struct form_item){ .id = KIT_TICKED,
                                       .kind = FORM_TICK,
                                       .box = { right, 156, 22, 22 },
                                       .label = "done",
                                       .note_room = 90,
                                       .on = true });
    form_add(form,
             (struct form_item){
                 .id = KIT_STEPPER, .kind = FORM_STEPPER, .box = { right, 200, 154, 34 }, .text = "5\342\201\2041" });
    form_add(form, (struct form_item){ .id = KIT_TILES,
                                       .kind = FORM_TILES,
                                       .box = { right, 256, 250, 60 },
                                       .columns = 3,
                                       .gap = 8,
                                       .choices = spreads,
                                       .choice_count = 3,
                                       .chosen = 1 });
    form_add(form, (struct form_item){ .id = KIT_ROWS,
                                       .kind = FORM_TILES,
                                       .box = { right, 336, 200, 102 },
                                       .columns = 1,
                                       .choices = cloths,
                                       .choice_count = 3,
                                       .chosen = 2 });
    form_add(form, (struct form_item){
                       .id = KIT_TAG, .kind = FORM_TAG, .box = { right, 460, 130, 36 }, .label = "Read again" });
}
