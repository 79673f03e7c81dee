/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Functions that the compiler leaves on their own. */
#ifndef MENSUR_BASE_OUT_OF_LINE_H
#define MENSUR_BASE_OUT_OF_LINE_H

/* Before a function for what is seldom: its caller, whose usual way is short, would save all the
 * registers that it needs where it were made part of the caller. */
#if defined(__GNUC__)
#define MENSUR_OUT_OF_LINE __attribute__((__noinline__))
#else
#define MENSUR_OUT_OF_LINE
#endif

#endif
