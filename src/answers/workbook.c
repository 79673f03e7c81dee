/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working, line by line; formulas with braces around their symbols. */
#include "workbook.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "number.h"
#include "quantity.h"

/* Name in a row of the table, factor from SI, decimals (or digits, where negative), unit behind a
 * result. */
static const struct {
    const char *name;
    double factor;
    int decimals;
    const char *unit;
} units[IN_UNIT_COUNT] = {
    [IN_LENGTH] = {"mm or in", 1e3, 2, " mm"},
    [IN_MM] = {"mm", 1e3, 2, " mm"},
    [IN_FINE_MM] = {"fine mm", 1e3, 4, " mm"},
    [IN_MM2] = {"mm²", 1e6, -5, " mm²"},
    [IN_MM4] = {"mm⁴", 1e12, -5, " mm⁴"},
    [IN_CM2] = {"cm²", 1e4, -6, " cm²"},
    [IN_CM3] = {"cm³", 1e6, -6, " cm³"},
    [IN_METRES] = {"m", 1.0, 5, " m"},
    [IN_DEGREES] = {"°", 57.29577951308232, 3, "°"},
    [IN_HERTZ] = {"Hz", 1.0, 3, " Hz"},
    [IN_NEWTONS] = {"N", 1.0, 2, " N"},
    [IN_KG_PER_M] = {"kg/m", 1.0, -5, " kg/m"},
    [IN_G_PER_M] = {"g/m", 1e3, -5, " g/m"},
    [IN_GRAMS] = {"g", 1e3, -5, " g"},
    [IN_G_PER_CM3] = {"g/cm³", 1e-3, -5, " g/cm³"},
    [IN_GPA] = {"GPa", 1e-9, -6, " GPa"},
    [IN_MPA] = {"MPa", 1e-6, -6, " MPa"},
    [IN_KG_PER_S] = {"kg/s", 1.0, -4, " kg/s"},
    [IN_SEMITONES] = {"semitones", 1.0, 2, " semitones"},
    [IN_CENTS] = {"cents", 1.0, 2, " cents"},
    [IN_NUMBER] = {"number", 1.0, -6, ""},
    [IN_PERCENT] = {"%", 1e2, 2, " %"},
};

/* The unit of a name; of a figure's row. */
static enum workbook_unit unit_named(const char *name, size_t length) {
    enum workbook_unit unit = IN_LENGTH;
    while (unit < IN_UNIT_COUNT &&
           (strncmp(units[unit].name, name, length) != 0 || units[unit].name[length] != '\0')) {
        unit++;
    }
    return unit < IN_UNIT_COUNT ? unit : IN_NUMBER;
}

enum workbook_unit workbook_unit_of(enum mensur_kind kind) {
    static const enum workbook_unit usual[MENSUR_KIND_COUNT] = {
        [MENSUR_LENGTH] = IN_LENGTH,       [MENSUR_FORCE] = IN_NEWTONS,
        [MENSUR_MODULUS] = IN_MPA,         [MENSUR_LINEAR_DENSITY] = IN_G_PER_M,
        [MENSUR_STRESS] = IN_MPA,          [MENSUR_DENSITY] = IN_G_PER_CM3,
        [MENSUR_FREQUENCY] = IN_HERTZ,     [MENSUR_ANGLE] = IN_DEGREES,
        [MENSUR_SEMITONES] = IN_SEMITONES, [MENSUR_NUMBER] = IN_NUMBER,
        [MENSUR_MASS] = IN_GRAMS,          [MENSUR_VOLUME] = IN_CM3};
    return usual[kind];
}

static enum workbook_unit unit_of(const struct mensur_figure *figure) {
    return figure->unit != NULL ? unit_named(figure->unit, strlen(figure->unit))
                                : workbook_unit_of(figure->kind);
}

enum { INCH_DECIMALS = 4 };

/* The text of one line, with room for a formula of 64 terms; what does not fit fails the book. */
struct scrap {
    char text[4096];
    size_t length;
};

static void add(struct workbook *book, struct scrap *scrap, const char *text, size_t length) {
    if (length >= sizeof scrap->text - scrap->length) {
        book->status = MENSUR_MEMORY;
        return;
    }
    memcpy(scrap->text + scrap->length, text, length);
    scrap->length += length;
    scrap->text[scrap->length] = '\0';
}

static void add_text(struct workbook *book, struct scrap *scrap, const char *text) {
    add(book, scrap, text, strlen(text));
}

/* The power of ten of a number printed as 1.5e-05, as 1.5·10⁻⁵. */
static void add_power(struct workbook *book, struct scrap *scrap, const char *power) {
    static const char *const digits[] = {"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
    add_text(book, scrap, power[0] == '-' ? "·10⁻" : "·10");
    power += strspn(power, "+-0");
    for (; *power != '\0'; power++) {
        add_text(book, scrap, digits[*power - '0']);
    }
}

/* The number alone, with a true minus. */
static void add_number(struct workbook *book, struct scrap *scrap, double value,
                       enum workbook_unit unit) {
    char room[MENSUR_NUMBER_ROOM];
    if (unit == IN_LENGTH && book->terms->inches) {
        mensur_number_print(value / (MENSUR_MM_PER_INCH / 1e3), INCH_DECIMALS, room);
    } else if (units[unit].decimals >= 0) {
        mensur_number_print(value * units[unit].factor, units[unit].decimals, room);
    } else {
        mensur_number_print_significant(value * units[unit].factor, -units[unit].decimals, room);
    }
    const char *digits = room[0] == '-' ? room + 1 : room;
    size_t length = strcspn(digits, "e");
    add_text(book, scrap, room[0] == '-' ? "−" : "");
    add(book, scrap, digits, length);
    if (digits[length] == 'e') {
        add_power(book, scrap, digits + length + 1);
    }
}

/* A number inside a formula: in brackets where a sign of its own would confuse. */
static void add_operand(struct workbook *book, struct scrap *scrap, double value,
                        enum workbook_unit unit) {
    struct scrap number = {.length = 0};
    add_number(book, &number, value, unit);
    bool bracket = strstr(number.text, "−") != NULL || strstr(number.text, "·") != NULL;
    add_text(book, scrap, bracket ? "(" : "");
    add_text(book, scrap, number.text);
    add_text(book, scrap, unit == IN_DEGREES ? "°" : "");
    add_text(book, scrap, bracket ? ")" : "");
}

static const struct workbook_symbol *find(const struct workbook *book, const char *name,
                                          size_t length) {
    for (size_t i = book->symbol_count; i-- > 0;) {
        const struct workbook_symbol *symbol = &book->symbols[i];
        if (strncmp(symbol->name, name, length) == 0 && symbol->name[length] == '\0') {
            return symbol;
        }
    }
    return NULL;
}

/* Copies a formula, its braced symbols as names or as numbers. False where one of them is not
 * known. */
static bool expand(struct workbook *book, const char *formula, bool numbers, struct scrap *scrap) {
    bool known = true;
    while (*formula != '\0') {
        size_t plain = strcspn(formula, "{");
        add(book, scrap, formula, plain);
        formula += plain;
        if (*formula == '{') {
            const char *name = formula + 1;
            size_t length = strcspn(name, "}");
            size_t letters = strcspn(name, " }");
            const struct workbook_symbol *symbol = find(book, name, letters);
            known = known && symbol != NULL && !isnan(symbol->value);
            if (numbers && known) {
                bool own = letters == length;
                add_operand(book, scrap, symbol->value,
                            own ? symbol->unit
                                : unit_named(name + letters + 1, length - letters - 1));
            } else {
                add(book, scrap, name, letters);
            }
            formula = name + length + 1;
        }
    }
    return known;
}

static struct mensur_working_line *new_line(struct workbook *book) {
    struct mensur_working *working = &book->working;
    if (working->count == working->room) {
        size_t room = working->room == 0 ? 32 : 2 * working->room;
        struct mensur_working_line *lines = realloc(working->lines, room * sizeof *lines);
        if (lines == NULL) {
            book->status = MENSUR_MEMORY;
            return NULL;
        }
        working->lines = lines;
        working->room = room;
    }
    return &working->lines[working->count++];
}

/* NULL is told as nothing: no line lacks a text. */
static char *copy(struct workbook *book, const char *text) {
    char *made = NULL;
    text = text == NULL ? "" : text;
    if (book->status == MENSUR_OK) {
        book->status = mensur_text_copy(text, strlen(text), &made);
    }
    return made;
}

static void set_down(struct workbook *book, const char *what, const char *formula,
                     const char *with_numbers, double value, enum workbook_unit unit,
                     const char *source) {
    struct scrap whole = {.length = 0};
    struct scrap result = {.length = 0};
    add_text(book, &whole, what);
    if (book->of != NULL) {
        add_text(book, &whole, " of ");
        add_text(book, &whole, book->of);
    }
    add_number(book, &result, value, unit);
    add_text(book, &result, unit == IN_LENGTH && book->terms->inches ? " in" : units[unit].unit);
    struct mensur_working_line *line = book->status == MENSUR_OK ? new_line(book) : NULL;
    if (line != NULL) {
        *line = (struct mensur_working_line){.instrument = book->instrument,
                                             .about = copy(book, book->subject),
                                             .what = copy(book, whole.text),
                                             .formula = copy(book, formula),
                                             .with_numbers = copy(book, with_numbers),
                                             .result = copy(book, result.text),
                                             .source = copy(book, source)};
    }
}

void workbook_open(struct workbook *book, const struct mensur_stock *stock,
                   const struct mensur_terms *terms, struct mensur_fault *fault) {
    *book = (struct workbook){.stock = stock, .terms = terms, .fault = fault};
    book->status = mensur_solver_make(&book->solver);
}

bool workbook_setup(struct workbook *book, const struct mensur_instrument *instrument,
                    const struct setup *from, struct setup *out) {
    if (book->status == MENSUR_OK) {
        book->status = setup_make(book->solver, book->stock, instrument, from, book->terms->hold,
                                  book->fault, out);
    }
    return book->status == MENSUR_OK;
}

enum mensur_status workbook_close(struct workbook *book, struct mensur_working *out) {
    mensur_solver_free(book->solver);
    if (book->status == MENSUR_OK) {
        *out = book->working;
        return MENSUR_OK;
    }
    mensur_working_clear(&book->working);
    if (book->status == MENSUR_MEMORY) {
        mensur_fault_set(book->fault, "%s", mensur_status_text(book->status));
    }
    return book->status;
}

void workbook_know(struct workbook *book, const char *name, double value, enum workbook_unit unit) {
    size_t length = strcspn(name, " ");
    struct workbook_symbol symbol = {.value = value, .unit = unit};
    if (length < sizeof symbol.name) {
        memcpy(symbol.name, name, length);
    }
    for (size_t i = 0; i < book->symbol_count; i++) {
        if (strcmp(book->symbols[i].name, symbol.name) == 0) {
            book->symbols[i] = symbol;
            return;
        }
    }
    if (book->symbol_count == WORKBOOK_SYMBOLS) {
        book->status = MENSUR_MEMORY;
        return;
    }
    book->symbols[book->symbol_count++] = symbol;
}

void workbook_value(struct workbook *book, const char *what, const char *name, double value,
                    enum workbook_unit unit, const char *source) {
    workbook_know(book, name, value, unit);
    if (!isnan(value)) {
        set_down(book, what, name, "", value, unit, source);
    }
}

void workbook_step(struct workbook *book, const char *what, const char *formula, const char *note,
                   double value, enum workbook_unit unit, const char *source) {
    struct scrap symbols = {.length = 0};
    struct scrap numbers = {.length = 0};
    const char *right = strstr(formula, " = ");
    right = right == NULL ? formula : right + strlen(" = ");
    bool known = expand(book, right, true, &numbers) && !isnan(value);
    workbook_know(book, formula, value, unit);
    if (known) {
        (void)expand(book, formula, false, &symbols);
        if (note != NULL) {
            add_text(book, &symbols, ", ");
            add_text(book, &symbols, note);
        }
        set_down(book, what, symbols.text, numbers.text, value, unit, source);
    }
}

void workbook_record(struct workbook *book, enum mensur_scope scope, const void *record) {
    struct mensur_figures figures = mensur_figures(scope);
    for (size_t i = 0; i < figures.count; i++) {
        const struct mensur_figure *figure = &figures.items[i];
        if (figure->symbol != NULL) {
            workbook_know(book, figure->symbol, mensur_figure_value(figure, record),
                          unit_of(figure));
        }
    }
}

void workbook_row(struct workbook *book, enum mensur_scope scope, const char *key,
                  const void *record) {
    const struct mensur_figure *figure = mensur_figure_named(scope, key);
    const char *what = figure->what != NULL ? figure->what : figure->label;
    workbook_figure(book, figure, what, figure->formula, figure->source, record);
}

void workbook_figure(struct workbook *book, const struct mensur_figure *figure, const char *what,
                     const char *formula, const char *source, const void *record) {
    double value = mensur_figure_value(figure, record);
    struct scrap whole = {.length = 0};
    if (formula == NULL) {
        workbook_value(book, what, figure->symbol, value, unit_of(figure), source);
        return;
    }
    add_text(book, &whole, figure->symbol);
    add_text(book, &whole, " = ");
    add_text(book, &whole, formula);
    workbook_step(book, what, whole.text, figure->note, value, unit_of(figure), source);
}

void workbook_rows(struct workbook *book, enum mensur_scope scope, const char *const *keys,
                   const void *record) {
    for (; *keys != NULL; keys++) {
        workbook_row(book, scope, *keys, record);
    }
}

void mensur_working_clear(struct mensur_working *working) {
    for (size_t i = 0; working->lines != NULL && i < working->count; i++) {
        struct mensur_working_line *line = &working->lines[i];
        free(line->about);
        free(line->what);
        free(line->formula);
        free(line->with_numbers);
        free(line->result);
        free(line->source);
    }
    free(working->lines);
    memset(working, 0, sizeof *working);
}
