/* Load cell on a 24-bit converter with a clock and a data pin (for example the 711). Protocol: from memory of the data sheet. */
#ifndef BENCH_LOAD_CELL_H
#define BENCH_LOAD_CELL_H

#include "board.h"

/* Returns the upper 16 bits of the newest conversion, or a fault. */
bench_count bench_load_cell_read(uint8_t data_pin, uint8_t clock_pin);

#endif
