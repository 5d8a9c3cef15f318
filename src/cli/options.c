#include "cli/options.h"

#include "base/text.h"
#include "base/words.h"

#include <string.h>

static const struct {
    const char *name, *value, *help; /* value NULL: takes none */
} option_rows[CLI_OPTIONS] = {
    [OPT_BODY] = { "--body", "FILE", BASE_TR("your measurements") },
    [OPT_VIEW] = { "--view", "NAME", BASE_TR("the view to cut") },
    [OPT_SIZE] = { "--size", "NAME",
                   BASE_TR("cut this size (\"12\"), or between two (\"12 to 14\", \"12 to 14 at 40%\")") },
    [OPT_CUP] = { "--cup", "NAME", BASE_TR("cut this cup group") },
    [OPT_MADE_TO] = { "--made-to", "WORD",
                      BASE_TR("size: as the chart has it; body: drafted to your own measurements") },
    [OPT_BLEND] = { "--blend", "LEVELS",
                    BASE_TR("body: every level in your own size; or by hand, \"waist 4, hip 5 to 6\"") },
    [OPT_ALTER] = { "--alter", "WORDS",
                    BASE_TR("\"lengthen LINE by 2 cm; take in SEAM at LEVEL by 6 mm; fuller bust; allow 4 cm at "
                            "PIECE.EDGE; "
                            "cut PIECE 70 cm wide\"") },
    [OPT_DROP] = { "--drop", "N", BASE_TR("take the alteration of that number out again") },
    [OPT_TRIAL] = { "--trial", NULL, BASE_TR("a trial garment: main pieces alone, 1 in allowances") },
    [OPT_FINAL] = { "--final", NULL,
                    BASE_TR("the final garment after a trial: allowances and pieces as they are drawn") },
    [OPT_TABLE] = { "--table", "FILE", BASE_TR("the table set-up to cut on") },
    [OPT_MAT] = { "--mat", "FILE", BASE_TR("your cutting mat, by its rulings") },
    [OPT_OUT] = { "--out", "PATH",
                  BASE_TR("where the result goes (cut, demo: the folder of pictures where there is no display)") },
    [OPT_REPLACE] = { "--replace", NULL,
                      BASE_TR("make a file anew that is there; the old one is kept under another name") },
    [OPT_PIECE] = { "--piece", "NAME", BASE_TR("show this piece") },
    [OPT_ALL] = { "--all", NULL, BASE_TR("show all pieces, in rows") },
    [OPT_MIRROR] = { "--mirror", NULL, BASE_TR("turn the piece over") },
    [OPT_ROTATE] = { "--rotate", "DEG", BASE_TR("turn it, counter-clockwise") },
    [OPT_PAN] = { "--pan", "X,Y", BASE_TR("move it, in mm, along the table and away from its near side") },
    [OPT_WEIGHT] = { "--weight", "MM", BASE_TR("width of the cut line on the cloth, 0.5 to 10 mm") },
    [OPT_SQUARE] = { "--square", NULL, BASE_TR("show the test square") },
    [OPT_LONG_LINES] = { "--long-lines", NULL,
                         BASE_TR("show the test frame: the longest lines there is light for, for a tape") },
    [OPT_SECTION] = { "--section", "NUMBER",
                      BASE_TR("show that section of the layout, as it lies once the cloth is placed") },
    [OPT_RULINGS] = { "--rulings", NULL, BASE_TR("show the mat's rulings") },
    [OPT_SIDE] = { "--side", "SIDE", BASE_TR("where you stand: near, right, far or left") },
    [OPT_CHALK] = { "--chalk", "NAME",
                    BASE_TR("colours of light: automatic, white, lemon, apricot, rose, mint or sky") },
    [OPT_FRAME] = { "--frame", "WxH", BASE_TR("the projector's own pixels, such as 1920x1080") },
    [OPT_READINGS] = { "--readings", "FILE", BASE_TR("the file of readings: crosses begins it, setup keeps it") },
    [OPT_SIGMA] = { "--sigma", "LENGTH", BASE_TR("how well you read the rulings (0.3 mm; 1/16 in rulings: 0.5 mm)") },
    [OPT_FOLLOW_TAPE] = { "--follow-tape", NULL, BASE_TR("where tape and rulings differ, take the tape for true") },
    [OPT_LAY] = { "--lay", "A,B",
                  BASE_TR("of distances alone: cross A lies at the table's zero, cross B along from it") },
    [OPT_TURN_OVER] = { "--turn-over", NULL, BASE_TR("of distances alone: the picture lies the other way round") },
    [OPT_CLOTH] = { "--cloth", "LENGTH", BASE_TR("how thick one layer of cloth is, bare numbers in mm") },
    [OPT_LAYERS] = { "--layers", "N", BASE_TR("how many layers lie on each other (1)") },
    [OPT_MAT_GOES] = { "--mat-goes", "LENGTH",
                       BASE_TR("the table was set up on a mat that thick, which is taken away to cut") },
    [OPT_MAT_COMES] = { "--mat-comes", "LENGTH",
                        BASE_TR("the table was set up without the mat, so thick, that you cut on") },
    [OPT_HEIGHT] = { "--height", "LENGTH", BASE_TR("how high the lens hangs above the rulings") },
    [OPT_FOOT] = { "--foot", "ALONG,AWAY", BASE_TR("the spot straight below the lens, on the rulings") },
    [OPT_BOARD] = { "--board", "FILE", BASE_TR("a table set up on a board under the same mat") },
    [OPT_THICKNESS] = { "--thickness", "LENGTH", BASE_TR("how thick that board is, 5 to 100 mm") },
    [OPT_FRACTION] = { "--fraction", "N", BASE_TR("inches to an 8th (as without it) or a 16th") },
    [OPT_CSV] = { "--csv", NULL, BASE_TR("print the result as comma-separated values") },
    [OPT_SHEET_LAYERS] = { "--layers", "A,B",
                           BASE_TR("use these layers of the drawing alone, and what is within them") },
    [OPT_PASSWORD_STDIN] = { "--password-stdin", NULL, BASE_TR("read the file's password from standard input") },
    [OPT_DPI] = { "--dpi", "N", BASE_TR("dots per inch of a scanned picture, whatever it says itself") },
    [OPT_SIDE_IS] = { "--side-is", "LENGTH", BASE_TR("what the side of its test square truly is") },
    [OPT_AS_DRAWN] = { "--as-drawn", NULL, BASE_TR("the drawing is true as it is: do not put its scale right") },
    [OPT_ACROSS] = { "--across", "N", BASE_TR("so many of its pages lie side by side") },
    [OPT_DOWN_FIRST] = { "--down-first", NULL, BASE_TR("its pages follow each other down, then across") },
    [OPT_OUTLINE] = { "--outline", "WORD",
                      BASE_TR("what its outlines are: cutting, with the seam allowance in them, or stitching") },
    [OPT_ALLOWANCE] = { "--allowance", "LENGTH",
                        BASE_TR("how wide the seam allowance is, in the outline or beside it") },
    [OPT_CHART] = { "--chart", "FILE", BASE_TR("the size chart that comes with it, to be sized and blended by") },
    [OPT_NAME] = { "--name", "TEXT", BASE_TR("what the pattern is to be called") },
    [OPT_FOR] = { "--for", "MATERIAL", BASE_TR("fabric, lining or interfacing alone") },
    [OPT_ON] = { "--on", "CLOTH",
                 BASE_TR("the file of the cloth that is laid on: the fabric's, or of what --for says") },
    [OPT_WIDTH] = { "--width", "LENGTH", BASE_TR("how wide that cloth is, as bought, from selvedge to selvedge") },
    [OPT_SPREAD] = { "--spread", "WORDS",
                     BASE_TR("how it lies: single, folded, \"folded to 40 cm\", \"to the middle\" or across") },
    [OPT_ROUNDS] = { "--rounds", "N",
                     BASE_TR("so many rounds of searching; 0 is the first layout (until nothing is gained)") },
    [OPT_SECONDS] = { "--seconds", "N", BASE_TR("search so long") },
    [OPT_SEED] = { "--seed", "N", BASE_TR("where the search begins: another one may find another layout (0)") },
    [OPT_LET_GO] = { "--let-go", NULL, BASE_TR("let go of the pieces that are held in place: else they stay there") },
    [OPT_TRY] = { "--try", NULL, BASE_TR("only tell of the layout; the job stays as it is") },
    [OPT_WIDTHS] = { "--widths", NULL, BASE_TR("what is needed on the other usual widths, too") },
    [OPT_OFF_SQUARE] = { "--off-square", "LENGTH",
                         BASE_TR("how much longer the cloth is at one selvedge than at the other") },
    [OPT_MARGIN] = { "--margin", "LENGTH", BASE_TR("left on at each torn edge to be trimmed off (1/2 in)") },
    [OPT_ALONG] = { "--along", NULL, BASE_TR("tear strips along the cloth, even where those across it need less") },
    [OPT_TEAR_ACROSS] = { "--across", NULL,
                          BASE_TR("tear strips across the cloth, even where those along it need less") },
    [OPT_TEAR_KEEP] = { "--keep", NULL,
                        BASE_TR("keep the plan in the job: `lay` lays the rest alone, behind what is torn") },
    [OPT_TEAR_DROP] = { "--drop", NULL,
                        BASE_TR("of a plan that is kept: lay the rectangles out with the rest after all") },
    [OPT_LEAVE_RESTS] = { "--leave-rests", NULL,
                          BASE_TR("cut nothing of what strips leave, even where that spares cloth") },
    [OPT_DISPLAY] = { "--display", "N", BASE_TR("the display to use, from 1") },
    [OPT_NOTES] = { "--notes", NULL, BASE_TR("show the keys in a window of their own") },
    [OPT_UNIT] = { "--unit", "UNIT",
                   BASE_TR("mm, cm or in: for lengths in sentences and tables, for the test square, and for what you "
                           "type in "
                           "setup") },
    [OPT_JSON] = { "--json", NULL, BASE_TR("print the result as JSON") },
    [OPT_HELP] = { "--help", NULL, BASE_TR("say how the command is used") },
};

static const struct err_kind unknown = { "use.unknown_option", ERR_FAULT, BASE_TR("there is no option {0} here") };
static const struct err_kind unknown_near = { "use.unknown_option", ERR_FAULT,
                                              BASE_TR("there is no option {0} here; perhaps --{1}") };
static const struct err_kind of_others = { "use.unknown_option", ERR_FAULT,
                                           BASE_TR("there is no option {0} here; it belongs to other commands") };
static const struct err_kind no_value = { "use.no_value", ERR_FAULT, BASE_TR("{0} needs a value behind it: {1}") };
static const struct err_kind has_value = { "use.has_value", ERR_FAULT, BASE_TR("{0} takes no value") };
static const struct err_kind given_twice = { "use.given_twice", ERR_FAULT, BASE_TR("{0} is given twice") };
static const struct err_kind not_utf8 = {
    "use.not_utf8", ERR_FAULT, BASE_TR("“{0}” is not written in UTF-8, as all names have to be here; rename it")
};
static const struct err_kind spare_word = { "use.spare_word", ERR_FAULT, BASE_TR("“{0}” is one word too many") };

const char *cli_option_usage(struct arena *a, enum cli_option o)
{
    if (!option_rows[o].value)
        return option_rows[o].name;
    return base_arena_print(a, "%s %s", option_rows[o].name, option_rows[o].value);
}

const char *cli_option_help(enum cli_option o)
{
    return base_tr(option_rows[o].help);
}

static const struct err_place command_line = { NULL, NULL, 0 };

bool cli_is_allowed(const enum cli_option *allowed, enum cli_option o)
{
    while (*allowed != o && *allowed != CLI_OPTIONS)
        allowed++;
    return *allowed == o;
}

/* Whether the word begins with that option's name, up to its end or an equals sign. */
static bool is_named(const char *word, enum cli_option o)
{
    size_t length = strcspn(word, "=");
    return strlen(option_rows[o].name) == length && strncmp(option_rows[o].name, word, length) == 0;
}

/* The option that the word names; CLI_OPTIONS when there is none. */
static enum cli_option find_option(const char *word, const enum cli_option *allowed)
{
    while (*allowed != CLI_OPTIONS && !is_named(word, *allowed))
        allowed++;
    return *allowed;
}

/* Whether any command takes it. */
static bool is_some_option(const char *word)
{
    int o = 0;
    while (o < CLI_OPTIONS && !is_named(word, (enum cli_option)o))
        o++;
    return o < CLI_OPTIONS;
}

/* The name that was perhaps meant; NULL: none. The dashes, which all have, make no name alike. */
static const char *near_name(const char *word, const enum cli_option *allowed)
{
    const char *names[CLI_OPTIONS];
    size_t count = 0;
    for (; *allowed != CLI_OPTIONS; allowed++)
        names[count++] = option_rows[*allowed].name + strlen("--");
    return base_text_nearest(word + strlen("--"), names, count);
}

static void tell_unknown(const char *word, const enum cli_option *allowed, struct err_list *errs)
{
    const char *near = near_name(word, allowed);
    const struct err_kind *kind = is_some_option(word) ? &of_others : near ? &unknown_near : &unknown;
    base_err(errs, kind, command_line, ERR_TEXT(word), ERR_TEXT(near));
}

/* The value of option `o` at words[*i], behind "=" or in the next word; NULL, with a complaint, when it has none. */
static const char *value_of(enum cli_option o, int argc, char **argv, int *i, struct err_list *errs)
{
    const char *equals = strchr(argv[*i], '=');
    if (!option_rows[o].value) {
        if (equals)
            base_err(errs, &has_value, command_line, ERR_TEXT(option_rows[o].name));
        return equals ? NULL : "";
    }
    if (equals)
        return equals + 1;
    if (*i + 1 < argc)
        return argv[++*i];
    base_err(errs, &no_value, command_line, ERR_TEXT(option_rows[o].name), ERR_TEXT(cli_option_usage(errs->arena, o)));
    return NULL;
}

/* Where the next operand goes; NULL when the command takes no more. */
static const char **free_place(struct cli_args *out, int operands)
{
    if (operands > 0 && !out->operand)
        return &out->operand;
    return operands > 1 && !out->second ? &out->second : NULL;
}

/* Words go into our files and into JSON, which have to be UTF-8. */
static void tell_foreign(int argc, char **argv, struct err_list *errs)
{
    for (int i = 0; i < argc; i++)
        if (!base_text_is_utf8(argv[i], strlen(argv[i])))
            base_err(errs, &not_utf8, command_line, ERR_TEXT(argv[i]));
}

bool cli_read_options(int argc, char **argv, const enum cli_option *allowed, int operands, struct cli_args *out,
                      struct err_list *errs)
{
    *out = (struct cli_args){ 0 };
    int before = errs->faults;
    tell_foreign(argc, argv, errs);
    for (int i = 0; i < argc; i++) {
        bool is_option = argv[i][0] == '-' && argv[i][1] == '-';
        enum cli_option o = is_option ? find_option(argv[i], allowed) : CLI_OPTIONS;
        const char **operand = is_option ? NULL : free_place(out, operands);
        if (operand) {
            *operand = argv[i];
        } else if (!is_option) {
            base_err(errs, &spare_word, command_line, ERR_TEXT(argv[i]));
        } else if (o == CLI_OPTIONS) {
            tell_unknown(argv[i], allowed, errs);
        } else {
            if (out->value[o])
                base_err(errs, &given_twice, command_line, ERR_TEXT(option_rows[o].name));
            out->value[o] = value_of(o, argc, argv, &i, errs);
        }
    }
    return errs->faults == before;
}
