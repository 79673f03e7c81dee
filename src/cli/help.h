/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Help, made from the tables of commands and options. */
#ifndef MENSUR_HELP_H
#define MENSUR_HELP_H

#include <stdio.h>

#include "options.h"

/* Every command in a line each. */
void help_overview(FILE *to);

/* One command: what it answers, an example, its options. */
void help_command(FILE *to, enum command command);

/* How a command is used, as an example. */
const char *help_example(enum command command);

#endif
