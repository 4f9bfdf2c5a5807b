/* What the board remembers without supply: its identity and how often it was started. */
#ifndef BENCH_MEMORY_H
#define BENCH_MEMORY_H

#include <stdbool.h>
#include <stdint.h>

/* The identity as text of 36 characters, or "" when there is none or it was damaged. */
void bench_memory_identity(char identity[37]);
/* Stores it; false when the memory does not hold it. */
bool bench_memory_store_identity(const char *identity);
/*
 * Counts a start and returns its number, one more than ever before. Each start writes another of 32 places, so the memory
 * stands 32 times its 100,000 writings; a start cut short by a failing supply leaves the earlier numbers as they were.
 */
uint32_t bench_memory_next_boot(void);

#endif
