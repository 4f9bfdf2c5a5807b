/*
 * Digital probe on a one-wire bus (for example the 18B20), the only one on its pin, with a supply of its own.
 * Commands and memory map: from memory of the data sheet.
 */
#ifndef BENCH_ONE_WIRE_PROBE_H
#define BENCH_ONE_WIRE_PROBE_H

#include "board.h"

#define BENCH_ONE_WIRE_CONVERSION_MS 750
#define BENCH_ONE_WIRE_MEMORY 9

/* Sets it up for 12 bits and starts a conversion, 750 ms long. */
void bench_one_wire_convert(uint8_t pin);
/* Returns the reading of the conversion started last, in 1/16 °C, or a fault. */
bench_count bench_one_wire_read(uint8_t pin);
/* Decodes the probe's memory. */
bench_count bench_one_wire_decode(const uint8_t *memory);

#endif
