/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Prints the man page, or the completion for a shell, from the tables that drive help and reading:
 *     manual man|bash|zsh */
#include <stdio.h>
#include <string.h>

#include "question.h"

/* Text of a man page: a dash is a dash, and no line begins with a request. */
static void put_roff(const char *text) {
    if (text[0] == '.' || text[0] == '\'') {
        fputs("\\&", stdout);
    }
    for (; *text != '\0'; text++) {
        if (*text == '-') {
            fputs("\\-", stdout);
        } else if (*text == '\\') {
            fputs("\\e", stdout);
        } else {
            fputc(*text, stdout);
        }
    }
}

static void put_section(const char *title) {
    printf(".SH %s\n", title);
}

static void man_commands(void) {
    put_section("COMMANDS");
    const struct mensur_command_info *info;
    for (size_t i = 0; (info = mensur_command_at(i)) != NULL; i++) {
        printf(".TP\n.B %s ", info->name);
        put_roff(info->arguments);
        fputs("\n", stdout);
        put_roff(info->meaning);
        fputs("; for example\n.B ", stdout);
        put_roff(info->example);
        fputs("\n", stdout);
    }
}

/* Which commands an option goes with, where it is not all. */
static void man_option_commands(const struct mensur_option_info *info) {
    bool first = true;
    if (info->goes_with_every) {
        return;
    }
    fputs("\n(", stdout);
    for (size_t i = 0; mensur_command_at(i) != NULL; i++) {
        if ((info->commands & (1u << i)) != 0) {
            printf("%s%s", first ? "" : ", ", mensur_command_at(i)->name);
            first = false;
        }
    }
    fputs(")", stdout);
}

static void man_options(void) {
    put_section("OPTIONS");
    const struct mensur_option_info *info;
    for (size_t i = 0; (info = mensur_option_at(i)) != NULL; i++) {
        printf(".TP\n.B \\-\\-");
        put_roff(info->name);
        if (info->value != NULL) {
            fputs(" ", stdout);
            put_roff(info->value);
        }
        fputs("\n", stdout);
        put_roff(info->meaning);
        man_option_commands(info);
        fputs("\n", stdout);
    }
}

static void man_rest(void) {
    put_section("EXIT STATUS");
    fputs("0 answered; 1 answered, and the wish cannot be met; 2 wrong use; 3 bad data; 4 no "
          "physical\n"
          "answer; 5 the system failed.\n",
          stdout);
    put_section("ENVIRONMENT");
    fputs(".TP\n.B MENSUR_SHOP\nthe shop's folder, where \\-\\-shop is not given\n"
          ".TP\n.B NO_COLOR\nplain text on a terminal too\n",
          stdout);
    put_section("CAUTIONS");
    fputs("A string under tension can break and injure an eye. More tension than an instrument was "
          "built\n"
          "for can sink the belly. Lengthening a neck on an existing instrument is work for a "
          "qualified\n"
          "restorer. Reach and spread compare instruments; they are no medical advice.\n",
          stdout);
}

static void print_man(void) {
    printf(".TH MENSUR 1 \"\" \"mensur %s\" \"\"\n", MENSUR_VERSION);
    put_section("NAME");
    fputs("mensur \\- stop, neck and strings of bowed instruments, decided before wood is cut\n",
          stdout);
    put_section("SYNOPSIS");
    fputs(".B mensur\n.I COMMAND\n.RI [ NAME ...]\n.RI [ OPTION ...]\n", stdout);
    put_section("DESCRIPTION");
    fputs(
        "Computes from workshop measurements how long the strings of a bowed instrument are, how\n"
        "much tension they have, where the fingers fall and how far the hands stand from the body, "
        "and\n"
        "decides which neck a stop wants. Without \\-\\-shop the answers come from the built\\-in\n"
        "demonstration; a wish is a range LOW..HIGH, open on either side,\n"
        "or one value, give or take what is usual.\n",
        stdout);
    man_commands();
    man_options();
    man_rest();
}

static void bash_words(const char *variable, bool options) {
    printf("    local %s=\"", variable);
    for (size_t i = 0; options ? mensur_option_at(i) != NULL : mensur_command_at(i) != NULL; i++) {
        printf("%s%s%s", i == 0 ? "" : " ", options ? "--" : "",
               options ? mensur_option_at(i)->name : mensur_command_at(i)->name);
    }
    fputs("\"\n", stdout);
}

/* An option whose value is one of a few words: a|b|c. */
static bool is_choice(const struct mensur_option_info *info) {
    return info->value != NULL && strchr(info->value, '|') != NULL;
}

static void put_choices(const char *value) {
    for (; *value != '\0'; value++) {
        fputc(*value == '|' ? ' ' : *value, stdout);
    }
}

static void print_bash(void) {
    fputs("# completion of mensur for bash\n_mensur() {\n"
          "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n",
          stdout);
    bash_words("commands", false);
    bash_words("options", true);
    fputs("    case $before in\n", stdout);
    const struct mensur_option_info *info;
    for (size_t i = 0; (info = mensur_option_at(i)) != NULL; i++) {
        if (is_choice(info)) {
            printf("    --%s) COMPREPLY=($(compgen -W \"", info->name);
            put_choices(info->value);
            fputs("\" -- \"$word\")); return ;;\n", stdout);
        }
    }
    fputs("    --shop|--output) COMPREPLY=($(compgen -f -- \"$word\")); return ;;\n    esac\n"
          "    if [[ $word == -* ]]; then COMPREPLY=($(compgen -W \"$options\" -- \"$word\"))\n"
          "    elif [[ $COMP_CWORD -eq 1 ]]; then COMPREPLY=($(compgen -W \"$commands\" -- "
          "\"$word\"))\n"
          "    else COMPREPLY=($(compgen -W \"$(mensur lengths --format csv 2>/dev/null |\n"
          "        sed -e 1d -e 's/,.*//')\" -- \"$word\"))\n"
          "    fi\n}\ncomplete -F _mensur mensur\n",
          stdout);
}

/* Text between single quotes, in which : and [ would end a description. */
static void put_zsh(const char *text) {
    for (; *text != '\0'; text++) {
        if (strchr(":[]", *text) != NULL) {
            fputc('\\', stdout);
        }
        if (*text == '\'') {
            fputs("'\\''", stdout);
        } else {
            fputc(*text, stdout);
        }
    }
}

static void print_zsh(void) {
    fputs("#compdef mensur\n_arguments \\\n", stdout);
    const struct mensur_option_info *info;
    for (size_t i = 0; (info = mensur_option_at(i)) != NULL; i++) {
        printf("  '%s--%s[", info->type == MENSUR_OPTION_LIST ? "*" : "", info->name);
        put_zsh(info->meaning);
        fputs("]", stdout);
        if (is_choice(info)) {
            printf(":%s:(", info->name);
            put_choices(info->value);
            fputs(")", stdout);
        } else if (info->value != NULL) {
            printf(":%s:%s", info->name,
                   strcmp(info->name, "shop") == 0 || strcmp(info->name, "output") == 0 ? "_files"
                                                                                        : "");
        }
        fputs("' \\\n", stdout);
    }
    fputs("  '1:command:((", stdout);
    for (size_t i = 0; mensur_command_at(i) != NULL; i++) {
        printf("%s%s\\:\"", i == 0 ? "" : " ", mensur_command_at(i)->name);
        put_zsh(mensur_command_at(i)->meaning);
        fputs("\"", stdout);
    }
    fputs("))' \\\n  '*:name:'\n", stdout);
}

int main(int argc, char **argv) {
    static const struct {
        const char *name;
        void (*print)(void);
    } kinds[] = {{"man", print_man}, {"bash", print_bash}, {"zsh", print_zsh}};
    for (size_t i = 0; argc == 2 && i < sizeof kinds / sizeof kinds[0]; i++) {
        if (strcmp(argv[1], kinds[i].name) == 0) {
            kinds[i].print();
            return fflush(stdout) == 0 ? 0 : 5;
        }
    }
    fputs("usage: manual man|bash|zsh\n", stderr);
    return 2;
}
