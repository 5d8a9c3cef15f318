#include "lifting/words.h"
#include "base/text.h"
#include "lifting/counts.h"
#include "lifting/written.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { NAME_WORDS_MOST = 6, JOINED_WORDS_MOST = 5, SHAPES_LEAST = 3, LINES_JOINED = 2 };

/* A line that may be a name. */
struct candidate {
    const char *name, *plain; /* as written; in plain letters, to compare by */
    size_t shape, block, line, words;
    double size_mm;
    bool part, edge, cloth; /* has a word for a part; is a label of an edge; says only a cloth */
    bool counted;           /* stands in a line that tells a count */
    bool repeated;          /* on most shapes: the pattern's own */
    bool doubtful;          /* read, and a letter may be another */
};

struct sheet_words {
    struct arena *a;
    const struct drawing *d;
    const struct lifting_division *division;
    const char **sizes; /* their names in plain letters */
    size_t size_count;
    struct candidate *candidates;
    size_t count, cap;
};

/* One line, its tokens with what they stand for; what is taken out of it stands for something else than a name. */
struct line {
    const struct lifting_written *written;
    struct lifting_spoken *spoken;
    bool among;   /* other lines of its block say more than numbers */
    bool counted; /* some of it tells a count */
};

static bool is_on_size_layer(const struct sheet_words *s, const struct line *l)
{
    for (size_t i = 0; i < s->division->strand_count; i++)
        if (s->division->strands[i].role == LIFTING_SIZE && s->division->strands[i].layer == l->written->phrase->layer)
            return s->division->strands[i].layer != DRAWING_NONE;
    return false;
}

static const struct lifting_token *token(const struct line *l, size_t k)
{
    return &l->written->tokens.items[k];
}

static size_t tokens_of(const struct line *l)
{
    return l->written->tokens.count;
}

static bool token_is(const struct line *l, size_t k, const char *plain)
{
    return lifting_token_is(&l->written->tokens, k, plain);
}

static bool has_word(const struct line *l, enum trade_word word)
{
    for (size_t k = 0; k < tokens_of(l); k++)
        if (!l->spoken[k].taken && l->spoken[k].word == word)
            return true;
    return false;
}

static void take(struct line *l, size_t first, size_t end)
{
    for (size_t k = first; k < end && k < tokens_of(l); k++)
        l->spoken[k].taken = true;
}

static void take_all(struct line *l)
{
    take(l, 0, tokens_of(l));
}

/* Letters that sizes are named by. */
static bool is_letter_size(const char *plain)
{
    size_t xs = strspn(plain, "x");
    return (strlen(plain) == xs + 1 && strchr("sml", plain[xs]) && plain[xs]) || strcmp(plain, "small") == 0 ||
           strcmp(plain, "medium") == 0 || strcmp(plain, "large") == 0;
}

static bool is_size_name(const struct sheet_words *s, const struct line *l, size_t k)
{
    for (size_t i = 0; i < s->size_count; i++)
        if (strcmp(s->sizes[i], token(l, k)->plain) == 0)
            return true;
    return false;
}

static bool is_joint(const struct line *l, size_t k)
{
    return l->spoken[k].sign || l->spoken[k].word == TRADE_GLUE || token_is(l, k, "bis") || token_is(l, k, "alle") ||
           token_is(l, k, "all");
}

static bool tells_size(const struct line *l, size_t k)
{
    return token(l, k)->kind == LIFTING_NUMBER || l->spoken[k].word == TRADE_SIZE || is_letter_size(token(l, k)->plain);
}

/* “Size 34 - 46”, “Gr. 38”: from the word on to the last that tells sizes. */
static void take_sizes(struct line *l)
{
    for (size_t k = 0; k < tokens_of(l); k++) {
        if (l->spoken[k].taken || l->spoken[k].word != TRADE_SIZE)
            continue;
        size_t end = k;
        for (size_t i = k; i < tokens_of(l) && (is_joint(l, i) || tells_size(l, i)); i++)
            if (tells_size(l, i))
                end = i;
        take(l, k > 0 && (token_is(l, k - 1, "alle") || token_is(l, k - 1, "all")) ? k - 1 : k, end + 1);
    }
}

/* “60 x 8 cm”, “60 cm”. */
static void take_measures(struct line *l)
{
    for (size_t k = 0; k + 1 < tokens_of(l); k++) {
        bool times = l->spoken[k].digits && l->spoken[k + 1].word == TRADE_TIMES && k + 2 < tokens_of(l) &&
                     l->spoken[k + 2].digits;
        if (times && !l->spoken[k].taken)
            take(l, k, k + 3);
        if (l->spoken[k].digits && l->spoken[k + 1].word == TRADE_UNIT)
            take(l, k, k + 2);
    }
}

/* A line of nothing but numbers, signs and sizes, two or more: a list of sizes. */
static void take_size_list(struct line *l)
{
    size_t sizes = 0;
    for (size_t k = 0; k < tokens_of(l); k++) {
        if (!tells_size(l, k) && !is_joint(l, k))
            return;
        sizes += tells_size(l, k);
    }
    if (sizes > 1)
        take_all(l);
}

/* A size's name at the end: “Front - 38”. */
static void take_size_behind(const struct sheet_words *s, struct line *l)
{
    size_t n = tokens_of(l);
    while (n > 0 && (l->spoken[n - 1].taken || l->spoken[n - 1].sign))
        n--;
    if (n > 1 && (token(l, n - 1)->kind == LIFTING_NUMBER || is_letter_size(token(l, n - 1)->plain)) &&
        is_size_name(s, l, n - 1) && l->spoken[n - 2].word != TRADE_PIECE)
        take(l, n - 1, n);
}

/* Lines that hold such a word say nothing of what piece this is. */
static bool says_else(const struct line *l)
{
    static const enum trade_word else_words[] = { TRADE_FURNITURE, TRADE_ALLOWANCE, TRADE_LENGTHEN, TRADE_NOT,
                                                  TRADE_FOLD_ELSE };
    for (size_t i = 0; i < sizeof else_words / sizeof else_words[0]; i++)
        if (has_word(l, else_words[i]))
            return true;
    return strchr(l->written->tokens.text, '@') != NULL || strstr(l->written->tokens.text, "://") != NULL;
}

static bool is_view(const struct line *l)
{
    return tokens_of(l) > 1 && l->spoken[0].word == TRADE_VIEW &&
           (token(l, 1)->kind == LIFTING_NUMBER || strlen(token(l, 1)->plain) <= 2 || l->spoken[1].sign);
}

/* Only words for the grain and the fold of the cloth, and what joins them. */
static bool is_grain_or_fold(const struct line *l)
{
    bool any = false;
    for (size_t k = 0; k < tokens_of(l); k++) {
        enum trade_word word = l->spoken[k].word;
        if (!l->spoken[k].taken && !is_joint(l, k) && word != TRADE_GRAIN && word != TRADE_FOLD && word != TRADE_CUT &&
            word != TRADE_CLOTH && word != TRADE_EDGE)
            return false;
        any = any || word == TRADE_GRAIN || word == TRADE_FOLD;
    }
    return any;
}

/* A number with at most one letter right behind it: 7, 7a. Where it ends; `k` when there is none. */
static size_t number_end(const struct line *l, size_t k)
{
    if (k >= tokens_of(l) || token(l, k)->kind != LIFTING_NUMBER || strlen(token(l, k)->plain) > 3 ||
        strpbrk(token(l, k)->plain, ".,"))
        return k;
    bool letter = k + 1 < tokens_of(l) && !token(l, k + 1)->spaced && token(l, k + 1)->kind == LIFTING_WORD;
    if (letter && (strlen(token(l, k + 1)->plain) > 1 || l->spoken[k + 1].word == TRADE_TIMES))
        return k;
    return letter ? k + 2 : k + 1;
}

static const char *between(const struct sheet_words *s, const struct line *l, size_t first, size_t end)
{
    const char *text = l->written->tokens.text;
    return base_arena_copy_bytes(s->a, text + token(l, first)->first, token(l, end - 1)->end - token(l, first)->first);
}

/* Digits in plain form: a circled one, too. */
static const char *number_text(const struct sheet_words *s, const struct line *l, size_t first, size_t end)
{
    return end - first > 1 ? base_arena_print(s->a, "%s%s", token(l, first)->plain, token(l, first + 1)->plain)
                           : token(l, first)->plain;
}

/* “of 12”, “/ 12”. */
static size_t behind_total(const struct line *l, size_t k)
{
    bool of = token_is(l, k, "of") || token_is(l, k, "von") || token_is(l, k, "/");
    return of && k + 1 < tokens_of(l) && token(l, k + 1)->kind == LIFTING_NUMBER ? k + 2 : k;
}

/* “Piece 3”, “Teil Nr. 7a”, “#5”, with what is taken for it. */
static const char *take_called_number(const struct sheet_words *s, struct line *l)
{
    for (size_t k = 0; k < tokens_of(l); k++) {
        if (l->spoken[k].taken || (l->spoken[k].word != TRADE_PIECE && !token_is(l, k, "#")))
            continue;
        size_t i = k + 1;
        while (i < tokens_of(l) && (l->spoken[i].sign || l->spoken[i].word == TRADE_PIECE))
            i++;
        size_t end = number_end(l, i);
        if (end > i && !l->spoken[i].taken) {
            take(l, k, behind_total(l, end));
            return number_text(s, l, i, end);
        }
    }
    return NULL;
}

/* “3 Front”, “3. Vorderteil”. */
static const char *take_leading_number(const struct sheet_words *s, struct line *l)
{
    size_t end = number_end(l, 0), behind = end;
    while (behind < tokens_of(l) && l->spoken[behind].sign)
        behind++;
    bool name = end > 0 && !l->spoken[0].taken && behind < tokens_of(l) && !l->spoken[behind].taken &&
                token(l, behind)->kind == LIFTING_WORD && l->spoken[behind].word != TRADE_UNIT;
    if (!name)
        return NULL;
    take(l, 0, behind);
    return number_text(s, l, 0, end);
}

/* What is left of a line: the longest stretch that nothing else took, without signs and glue at its ends. */
static bool left_over(const struct line *l, size_t *first, size_t *end)
{
    *first = *end = 0;
    for (size_t k = 0, i; k < tokens_of(l); k = i + 1) {
        for (i = k; i < tokens_of(l) && !l->spoken[i].taken;)
            i++;
        if (i - k > *end - *first) {
            *first = k;
            *end = i;
        }
    }
    while (*first < *end && l->spoken[*first].sign)
        ++*first;
    while (*end > *first && l->spoken[*end - 1].sign && !token_is(l, *end - 1, ")"))
        --*end;
    return *end > *first;
}

/* “Center front” alone names an edge. */
static bool is_middle(const struct line *l, size_t first, size_t end)
{
    static const char *const middles[] = { "center", "centre", "mitte", "vordere", "hintere" };
    static const char *const sides[] = { "front", "back", "vorne", "hinten", "vorn", "mitte" };
    bool middle = false, side = false;
    for (size_t i = 0; i < sizeof middles / sizeof middles[0]; i++)
        middle = middle || token_is(l, first, middles[i]);
    for (size_t i = 0; i < sizeof sides / sizeof sides[0]; i++)
        side = side || token_is(l, first + 1, sides[i]);
    return end - first == 2 && middle && side;
}

static void put_candidate(struct sheet_words *s, const struct line *l, size_t shape, size_t index, size_t first,
                          size_t end)
{
    struct candidate c = {
        .shape = shape, .line = index, .block = l->written->block, .size_mm = l->written->phrase->size_mm, .cloth = true
    };
    size_t letters = 0;
    for (size_t k = first; k < end; k++) {
        bool word = token(l, k)->kind == LIFTING_WORD, glue = l->spoken[k].word == TRADE_GLUE;
        c.words += word;
        letters += word && !glue ? strlen(token(l, k)->plain) : 0;
        c.part = c.part || l->spoken[k].word == TRADE_PART;
        c.edge = l->spoken[k].word == TRADE_EDGE || (c.edge && !word);
        c.cloth = c.cloth && (l->spoken[k].word >= TRADE_CLOTH && l->spoken[k].word <= TRADE_LINING);
    }
    c.edge = c.edge || is_middle(l, first, end);
    c.counted = l->counted;
    c.doubtful = l->written->phrase->doubtful;
    if (letters < 2)
        return;
    c.name = between(s, l, first, end);
    c.plain = lifting_plain(s->a, c.name);
    s->candidates = base_arena_grow(s->a, s->candidates, &s->cap, s->count + 1, sizeof *s->candidates);
    s->candidates[s->count++] = c;
}

/* A number that stands alone is the piece's unless it names a size. It may do both; within other words, and not on a
 * size's layer, it is the piece's. */
static bool is_lone_number(const struct sheet_words *s, const struct line *l)
{
    if (tokens_of(l) == 0 || number_end(l, 0) != tokens_of(l))
        return false;
    return !is_size_name(s, l, 0) || (l->among && s->size_count > 1 && !is_on_size_layer(s, l));
}

/* What one shape's lines tell beside its name. */
struct told {
    struct lifting_counts counts;
    const char *number, *lone_number;
    double lone_size_mm;
    bool lone_doubt, lone_is_size;
    bool lone_apart; /* of two digits, and no words beside it */
    bool doubtful;   /* of a count or number a letter may be another */
};

/* One that names no size goes before one that does, a larger before a smaller. */
static void take_lone_number(const struct sheet_words *s, const struct line *l, struct told *told)
{
    double size_mm = l->written->phrase->size_mm;
    bool is_size = is_size_name(s, l, 0);
    bool stays = told->lone_number && (is_size != told->lone_is_size ? is_size : size_mm <= told->lone_size_mm);
    bool alike = told->lone_number && is_size == told->lone_is_size && size_mm == told->lone_size_mm;
    told->lone_doubt = alike || (stays && told->lone_doubt);
    if (stays)
        return;
    told->lone_is_size = is_size;
    told->lone_apart = !l->among && tokens_of(l) == 1 && strlen(token(l, 0)->plain) == 2;
    told->lone_number = number_text(s, l, 0, tokens_of(l));
    told->lone_size_mm = size_mm;
}

static void read_line(struct sheet_words *s, struct line *l, size_t shape, size_t index, struct told *told)
{
    size_t first, end;
    if (says_else(l) || is_view(l) || is_grain_or_fold(l))
        return;
    bool doubtful = l->written->phrase->doubtful;
    if (is_lone_number(s, l)) {
        take_lone_number(s, l, told);
        told->doubtful = told->doubtful || doubtful;
        return;
    }
    take_size_list(l);
    take_sizes(l);
    take_measures(l);
    take_size_behind(s, l);
    const char *number = take_called_number(s, l);
    number = number ? number : take_leading_number(s, l);
    told->number = told->number ? told->number : number;
    told->doubtful = told->doubtful || (doubtful && (l->counted || number));
    if (left_over(l, &first, &end))
        put_candidate(s, l, shape, index, first, end);
}

static bool tells_fold(const struct lifting_written *line)
{
    return lifting_said_of_line(line->tokens.text) == LIFTING_SAID_FOLD;
}

static bool any_taken(const struct lifting_spoken *spoken, size_t count)
{
    for (size_t k = 0; k < count; k++)
        if (spoken[k].taken)
            return true;
    return false;
}

/* Reads the lines of a block, from `first` to `end`. */
static void read_block(struct sheet_words *s, const struct lifting_written *lines, size_t first, size_t end,
                       size_t shape, struct told *told)
{
    size_t count = 0, used = 0;
    bool words = false;
    for (size_t i = first; i < end; i++) {
        count += lines[i].tokens.count;
        for (size_t k = 0; k < lines[i].tokens.count; k++)
            words = words || lines[i].tokens.items[k].kind == LIFTING_WORD;
    }
    struct lifting_spoken *spoken = base_arena_alloc(s->a, count, sizeof *spoken);
    for (size_t i = first; i < end; used += lines[i++].tokens.count) {
        lifting_speak(&lines[i].tokens, spoken + used);
        told->counts.on_fold = told->counts.on_fold || tells_fold(&lines[i]);
    }
    lifting_find_counts(spoken, count, &told->counts);
    for (size_t i = first, at = 0; i < end; at += lines[i++].tokens.count)
        read_line(s, &(struct line){ &lines[i], spoken + at, words, any_taken(spoken + at, lines[i].tokens.count) },
                  shape, i, told);
}

static void read_shape(struct sheet_words *s, const struct lifting_shape *shape, size_t index, struct told *told)
{
    const struct lifting_written *lines;
    size_t count = lifting_written_lines(s->a, s->d, shape->texts, shape->text_count, &lines);
    for (size_t first = 0, end; first < count; first = end) {
        for (end = first + 1; end < count && lines[end].block == lines[first].block;)
            end++;
        read_block(s, lines, first, end, index, told);
    }
}

static int by_name(const void *pa, const void *pb)
{
    const struct candidate *const *a = pa, *const *b = pb;
    int order = strcmp((*a)->plain, (*b)->plain);
    return order ? order : (*a > *b) - (*a < *b);
}

/* A piece has its words in every cup group: it counts once, in the first of them. */
static bool counts_once(const struct lifting_shape *shape)
{
    return shape->cup_group == LIFTING_NONE || shape->cup_group == 0;
}

static void mark_run(struct candidate **run, size_t count, const struct lifting_shape *shapes, size_t pieces)
{
    size_t on = 0;
    for (size_t i = 0; i < count; i++)
        on += counts_once(&shapes[run[i]->shape]) && (i == 0 || run[i]->shape != run[i - 1]->shape);
    for (size_t i = 0; i < count; i++)
        run[i]->repeated = on >= SHAPES_LEAST && 2 * on > pieces;
}

static void mark_repeated(struct sheet_words *s, const struct lifting_shape *shapes, size_t shape_count)
{
    size_t pieces = 0;
    for (size_t i = 0; i < shape_count; i++)
        pieces += counts_once(&shapes[i]);
    struct candidate **sorted = base_arena_alloc(s->a, s->count, sizeof(void *));
    for (size_t i = 0; i < s->count; i++)
        sorted[i] = &s->candidates[i];
    qsort(sorted, s->count, sizeof(void *), by_name);
    for (size_t first = 0, end; first < s->count; first = end) {
        for (end = first + 1; end < s->count && strcmp(sorted[first]->plain, sorted[end]->plain) == 0;)
            end++;
        mark_run(sorted + first, end - first, shapes, pieces);
    }
}

/* How likely it is the piece's name. */
static double worth(const struct candidate *c, double largest_mm)
{
    double worth = 2 * c->size_mm / largest_mm;
    worth += c->part ? 3 : 0;
    worth -= c->edge ? 4 : 0;
    worth -= c->cloth ? 1 : 0;
    worth -= c->counted ? 0.5 : 0;
    worth -= c->words > NAME_WORDS_MOST ? 4 : 0;
    return c->repeated ? worth - 20 : worth;
}

static bool may_be_name(const struct candidate *c)
{
    return !c->edge && !c->repeated && c->words <= 2 * NAME_WORDS_MOST;
}

/* “Front” with “bodice” right below in letters as large. */
static bool belong_together(const struct candidate *a, const struct candidate *b)
{
    return a->shape == b->shape && a->block == b->block && b->line == a->line + 1 && may_be_name(a) && may_be_name(b) &&
           a->cloth == b->cloth && !b->counted && fabs(a->size_mm - b->size_mm) < 0.05 * a->size_mm &&
           a->words + b->words <= JOINED_WORDS_MOST;
}

static const struct candidate *best_of(const struct candidate *c, size_t count)
{
    const struct candidate *best = NULL;
    double largest = 0;
    for (size_t i = 0; i < count; i++)
        largest = fmax(largest, c[i].size_mm);
    for (size_t i = 0; i < count; i++)
        if (may_be_name(&c[i]) && (!best || worth(&c[i], largest) > worth(best, largest)))
            best = &c[i];
    return best;
}

/* Blanks and line ends as one blank, soft hyphens and other hidden marks left out. */
static const char *tidy(struct arena *a, const char *name)
{
    char *out = base_arena_copy_text(a, name);
    size_t used = 0;
    for (const char *p = name; *p;) {
        const char *at = p;
        unsigned long point = base_text_next(&p);
        bool blank = point <= 0x20 || point == 0xa0, hidden = point == 0xad || (point >= 0x200b && point <= 0x200f);
        if (blank && used && out[used - 1] != ' ')
            out[used++] = ' ';
        for (; !blank && !hidden && at < p; at++)
            out[used++] = *at;
    }
    out[used] = 0;
    return out;
}

static void name_piece(const struct sheet_words *s, const struct candidate *c, size_t count, struct lifting_words *out)
{
    const struct candidate *best = best_of(c, count);
    if (!best)
        return;
    const char *name = best->name;
    if (best > c && belong_together(best - 1, best))
        name = base_arena_print(s->a, "%s %s", best[-1].name, best->name);
    else if (best + 1 < c + count && belong_together(best, best + 1))
        name = base_arena_print(s->a, "%s %s", best->name, best[1].name);
    out->name = tidy(s->a, name);
    for (size_t i = 0; i < count; i++)
        out->doubtful = out->doubtful || (c[i].doubtful && strstr(name, c[i].name));
    out->sure = out->sure && (best->part || count == 1);
}

/* Without a cloth at its count, a line of its own or the name tells it: “Lining”, “Futter Vorderteil”. */
static void cloth_by_name(struct arena *a, const struct candidate *c, size_t count, struct lifting_words *out)
{
    unsigned cloths = 0;
    for (size_t i = 0; i < count; i++) {
        struct lifting_tokens t = lifting_tokens_of(a, c[i].name);
        bool named = out->name && strstr(out->name, c[i].name);
        for (size_t k = 0; k < t.count && (named || c[i].cloth); k++) {
            enum trade_word word = lifting_trade_word(t.items[k].plain, NULL);
            cloths |= word == TRADE_LINING                 ? 1U << LIFTING_LINING
                      : word == TRADE_INTERFACING          ? 1U << LIFTING_INTERFACING
                      : word == TRADE_FABRIC && c[i].cloth ? 1U << LIFTING_FABRIC
                                                           : 0;
        }
    }
    if (!cloths || out->cloths)
        return;
    out->cloths = cloths;
    out->sure = false;
}

/* A piece's number is written at least as large as its name, or with it; a smaller one that stands apart is the only
 * size's. */
static bool is_written_size(const struct told *told, const struct candidate *name)
{
    return told->lone_apart && name && told->lone_size_mm < name->size_mm;
}

static struct lifting_words settle(const struct sheet_words *s, const struct told *told, size_t first, size_t end)
{
    struct lifting_words out = { .sure = true, .doubtful = told->doubtful };
    lifting_settle_counts(&told->counts, &out);
    bool doubt = told->lone_doubt || is_written_size(told, best_of(s->candidates + first, end - first));
    out.number = told->number ? told->number : doubt ? NULL : told->lone_number;
    name_piece(s, s->candidates + first, end - first, &out);
    cloth_by_name(s->a, s->candidates + first, end - first, &out);
    out.sure = out.sure && out.name && out.count;
    return out;
}

void lifting_read_words(struct arena *a, const struct drawing *d, const struct lifting_division *division,
                        const struct lifting_shape *shapes, size_t count, struct lifting_words *out)
{
    struct sheet_words s = { .a = a, .d = d, .division = division, .size_count = division->size_count };
    s.sizes = base_arena_alloc(a, s.size_count, sizeof *s.sizes);
    for (size_t i = 0; i < s.size_count; i++)
        s.sizes[i] = lifting_plain(a, division->sizes[i]);
    struct told *told = base_arena_alloc(a, count, sizeof *told);
    size_t *ends = base_arena_alloc(a, count, sizeof *ends);
    for (size_t i = 0; i < count; i++) {
        read_shape(&s, &shapes[i], i, &told[i]);
        ends[i] = s.count;
    }
    mark_repeated(&s, shapes, count);
    for (size_t i = 0; i < count; i++)
        out[i] = settle(&s, &told[i], i ? ends[i - 1] : 0, ends[i]);
}
