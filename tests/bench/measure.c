/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs a command without its output and prints elapsed seconds, processor seconds and the greatest
 * memory in KiB. It uses little memory itself, because a child process starts with its parent's. */
#define _GNU_SOURCE
#include <fcntl.h>
#include <stdio.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

static double clock_seconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static double seconds_of(struct timeval time) {
    return (double)time.tv_sec + (double)time.tv_usec * 1e-6;
}

int main(int argc, char **argv) {
    struct rusage usage;
    int status = 0;
    double start = clock_seconds();
    pid_t child = argc > 1 ? fork() : -1;
    if (child == 0) {
        dup2(open("/dev/null", O_WRONLY), STDOUT_FILENO);
        execvp(argv[1], argv + 1);
        _exit(127);
    }
    if (child < 0 || wait4(child, &status, 0, &usage) < 0) {
        return 2;
    }
    printf("%.6f %.6f %ld\n", clock_seconds() - start,
           seconds_of(usage.ru_utime) + seconds_of(usage.ru_stime), usage.ru_maxrss);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 1;
}
