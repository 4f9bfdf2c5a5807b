/* The non-volatile data of the board: its identity and its number of starts. */
#ifndef BENCH_MEMORY_H
#define BENCH_MEMORY_H

#include <stdbool.h>
#include <stdint.h>

/* Reads the identity as text of 36 characters, or "" when there is none or it was damaged. */
void bench_memory_identity(char identity[37]);
/* Stores it; false when the memory does not store it correctly. */
bool bench_memory_store_identity(const char *identity);
/*
 * Counts a start and returns its number, one above the highest so far. Each start writes another of 32 slots, so the memory
 * lasts 32 times its 100,000 writes; a start interrupted by a failing supply does not change the earlier numbers.
 */
uint32_t bench_memory_next_boot(void);

#endif
