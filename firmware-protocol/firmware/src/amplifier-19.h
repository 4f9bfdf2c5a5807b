/*
 * Thermocouple amplifier of the 19-bit kind (for example the 31856): sixteen registers, linearised degrees at 1/128 K.
 * Register map: from memory of the data sheet.
 */
#ifndef BENCH_AMPLIFIER_19_H
#define BENCH_AMPLIFIER_19_H

#include "board.h"

#define BENCH_AMPLIFIER_19_REGISTERS 16

/* Sets it up: type, continuous conversion, detection of an open thermocouple, rejection of 50 Hz or 60 Hz. */
void bench_amplifier_19_set_up(uint8_t pin, char type, uint8_t mains_hz);
/* Whether the registers are those of a chip with this setup: a loss of supply resets them. */
bool bench_amplifier_19_is_set_up(const uint8_t *registers, char type, uint8_t mains_hz);
/* Decodes the registers: a reading in 1/16 K (16 bits of 1/128 K would end at 256 °C), or a fault. */
bench_count bench_amplifier_19_decode(const uint8_t *registers);
/* Reads all registers twice until both readings agree; false when they do not. */
bool bench_amplifier_19_read(uint8_t pin, uint8_t *registers);

#endif
