/* One run of a command: its words, its memory, what it has to say. Shared by the files of the commands. */
#ifndef CLI_RUN_H
#define CLI_RUN_H

#include "app/app.h"
#include "cli/cli.h"
#include "cli/options.h"
#include "job/job.h"
#include "paint/image.h"
#include "settings/settings.h"
#include "json/write.h"

struct cli_bench;

struct cli_run {
    struct arena *a;
    struct err_list *errs;
    struct cli_args args;
    bool operand_is_read;            /* the operand names a file that is read, not one that is made */
    enum units_length unit;          /* for sentences and for bare numbers */
    struct cli_bench *bench;         /* whose window lives on beside the table's (cli/bench.h); NULL: there is none */
    const enum pattern_cloth *cloth; /* that cutting begins with; NULL: the one that was in hand */
    bool unit_is_told;               /* by --unit or the person's settings */
    const char *desktop_language;    /* the code of what the desktop asked for, before another was spoken; or NULL */
    struct settings *settings;       /* what is remembered of the person; NULL while the options are read */
    struct app_key_map keys;         /* that she gave to actions … */
    bool keys_are_read;              /* … once they were asked for (cli_given_keys) */
    struct err_list *settings_told;  /* of them, said behind what the command has to say */
    struct json_out *json;           /* the result's object; NULL: text is wanted */
};

typedef int cli_command(struct cli_run *run);

/* A line to standard output, unless JSON is wanted. */
void cli_say(const struct cli_run *run, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Records a fault of the command line itself; always false. */
bool cli_wrong(struct cli_run *run, const char *sentence, const char *word);

/* The value of an option that the command cannot do without; NULL, with a sentence, when it was not given. */
const char *cli_need(struct cli_run *run, enum cli_option o);

/* "1920x1080" of --frame; false with a sentence when it is no size. Untouched when the option was not given. */
bool cli_frame_size(struct cli_run *run, int *width, int *height);

/* The value of --sigma, mm; untouched when it was not given. */
bool cli_sigma(struct cli_run *run, double *sigma_mm);

/* The person's unit: --unit, else her settings', else the one she wrote her measurements in, else the pattern's. */
enum units_length cli_person_unit(const struct cli_run *run, const struct job *job);

/* The operand without folder and ending: "skirt" of "patterns/skirt.pdf". */
const char *cli_operand_name(struct cli_run *run);

/* Whether a path's ending is that one (".svg"), in capitals or not. */
bool cli_ends_in(const char *path, const char *ending);

/* The unit that a file of ours is written in, or a job's pattern; the run's own when it names none or cannot be read.
 */
enum units_length cli_file_unit(const struct cli_run *run, const char *path);

/* What is cut on, by --cloth, --layers, --mat-goes and --mat-comes; false with a sentence when it cannot be. */
bool cli_surface(struct cli_run *run, struct calibration_surface *out);

/* Whether the operand is a job file; what is wrong with it is told by whoever reads it. */
bool cli_is_job(struct cli_run *run);

/* The job that the operand is, or that the pattern it is gives with the options; without a table then, and of all
 * pieces where it may be and no view is named. CLI_OK, or what to return, told. */
int cli_job(struct cli_run *run, bool all_pieces, struct job *job);

/* Says how a job is fitted, where it is; in JSON always. */
void cli_say_fitted(struct cli_run *run, const struct job *job);

/* Says for what height a job is drawn, or by how much its light is off; nothing of one on the table's own. */
void cli_say_surface(struct cli_run *run, const struct job *job);

/* Two lengths with one comma between, bare numbers in `unit`; false, both untouched, when it is none. */
bool cli_parse_pair(struct arena *a, const char *text, enum units_length unit, double *first_mm, double *second_mm);

/* What is written where (save.c). Nothing is lost: a file that a command reads is never written over, and one that is
 * there already only by --replace, and then it is kept beside under another name, with the journal of a job. A job that
 * is open in `cut` is not replaced. CLI_OK, or CLI_FAULT with a sentence. */
int cli_save_text(struct cli_run *run, const char *path, const char *text);

/* Whether that may be done; false with a sentence. */
bool cli_may_save(struct cli_run *run, const char *path);

/* Whether the folder is there that a file is to be made in; false with a sentence. */
bool cli_has_folder(struct cli_run *run, const char *path);

/* As cli_save_text of a file that the command reads in order to change it: the old one is kept without being asked for.
 */
int cli_save_over(struct cli_run *run, const char *path, const char *text);

/* The same where all that the old one said is in the new one: it is kept only where there is something done at the
 * table. */
int cli_save_more(struct cli_run *run, const char *path, const char *text);

/* Whether no other program has that job at the table or as its ticket; told before anything is made that could not be
 * kept there. */
bool cli_is_free(struct cli_run *run, const char *job);

/* Whether a picture may go to that path: over another picture, which can be drawn again, but over nothing else. False
 * with a sentence. */
bool cli_may_draw(struct cli_run *run, const char *path);

/* Copies a file to a free name beside it, which is returned (in the run's arena); NULL, with the reason, when it
 * cannot. */
const char *cli_keep_beside(struct cli_run *run, const char *path);

/* A file of ours that came with the program ("assets/demo/pinafore.json"); in the run's arena. */
const char *cli_data_path(struct cli_run *run, const char *name);

/* Today, "2026-11-25". */
const char *cli_today(struct arena *a);

/* The sample table that came with the program, for a frame of that size (0: the sample's own). */
bool cli_sample_table(struct cli_run *run, int width, int height, struct calibration_table *out);

/* The table that a job's frames are drawn through, of the size that --frame asks for: a job without one is drawn on the
 * sample table, which says so across the frame. CLI_OK, or what to return, told. */
int cli_table_of_job(struct cli_run *run, const struct job *job, struct calibration_table *out);

/* Frames without a window (frames.c). */
struct paint_image cli_paint(struct arena *a, struct app *app);
int cli_write_frames(struct cli_run *run, struct app *app, const char *folder);

/* The first line of standard input, for --password-stdin; NULL where that is not given. False with a sentence when it
 * is too long. */
bool cli_read_password(struct cli_run *run, const char **password);

/* What --dpi says, 0 where it is not given. False with a sentence when it is no number. */
bool cli_read_dpi(struct cli_run *run, double *dpi);

/* Tells what was collected apart. */
void cli_pass_on(struct cli_run *run, const struct err_list *from);

/* What is remembered of the person (remembered.c): opens it and takes her unit from it. */
void cli_open_settings(struct cli_run *run);

/* Speaks the language of that setting (SETTINGS_LANGUAGE's words; words.c). `desktop`: the code of the desktop's, NULL:
 * no other was spoken yet, so it is asked now. English where there is no catalogue. */
void cli_speak(int setting, const char *desktop);

/* Remembers a job's file as the one that was open last. What cannot be kept is no matter here. */
void cli_remember_job(struct cli_run *run, const char *path);

/* When the usual cautions were shown last: today; within half a year; and that it is now. */
bool cli_cautioned_today(const struct cli_run *run);
bool cli_cautioned_lately(const struct cli_run *run);
void cli_remember_cautions(struct cli_run *run);

/* Whether a window at the table begins with them, which is remembered then: a command's own does, the bench's once a
 * day. */
bool cli_show_cautions(struct cli_run *run);

/* The remembered job that was used last and is still there; NULL where there is none. */
const char *cli_last_job(struct cli_run *run);

/* The job that the operand is, remembered; false with the reasons. */
bool cli_read_job(struct cli_run *run, struct job *job);

/* How long after "done" at the table the next one is not taken. */
double cli_lockout_s(const struct cli_run *run);

/* The keys that she gave to actions while cutting; what is wrong with one is told, once. */
const struct app_key_map *cli_given_keys(struct cli_run *run);

/* The app as she last had it set: where she stands, and her colour of light. NULL, with the reasons, as app_create. */
struct app *cli_create_app(struct cli_run *run, const struct app_start *start);

/* Draws the pieces of a job that is not kept in a file. */
int cli_cut(struct cli_run *run, const struct job *job);

/* Commands that live in files of their own. */
int cli_run_crosses(struct cli_run *run);
int cli_run_setup(struct cli_run *run);
int cli_run_calibrate(struct cli_run *run);
int cli_run_lens(struct cli_run *run);
int cli_run_draft(struct cli_run *run);
int cli_run_arrange(struct cli_run *run);
int cli_run_bench(struct cli_run *run);
int cli_run_lift(struct cli_run *run);
int cli_run_lay(struct cli_run *run);
int cli_run_list(struct cli_run *run);
int cli_run_tear(struct cli_run *run);
int cli_run_sheet(struct cli_run *run);
int cli_run_settings(struct cli_run *run);
int cli_run_size(struct cli_run *run);
int cli_run_job(struct cli_run *run);
int cli_run_alter(struct cli_run *run);
int cli_run_frame(struct cli_run *run);
int cli_run_cut(struct cli_run *run);
int cli_run_demo(struct cli_run *run);

#endif
