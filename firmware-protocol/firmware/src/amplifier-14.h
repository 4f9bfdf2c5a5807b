/*
 * Thermocouple amplifier of the 14-bit kind (for example the 31855): 32 bits out, no input.
 * Layout of the word and sensitivities: from memory of the data sheet.
 */
#ifndef BENCH_AMPLIFIER_14_H
#define BENCH_AMPLIFIER_14_H

#include "board.h"

/* A 14-bit chip does not linearise: it divides the voltage by one sensitivity and adds its own temperature. */
typedef struct {
  bench_count fault; /* 0, or a fault in place of the reading */
  int16_t hot_4;     /* the chip's reading, in 1/4 K */
  int16_t cold_16;   /* its own temperature, in 1/16 K */
  bool cold_known;
} bench_amplifier_14;

/* Decodes the 32 bits. */
bench_amplifier_14 bench_amplifier_14_decode(uint32_t word);
/* Reads the chip on this select pin. */
bench_amplifier_14 bench_amplifier_14_read(uint8_t pin);
/*
 * The voltage at the terminals in 1/16 of the sensitivity, terminals being at cold_16: (hot - cold) * 16. Where cold_16 is
 * that of another chip on the board, their difference is added to the voltage, with an error of 2 % of it.
 */
bench_count bench_amplifier_14_voltage(const bench_amplifier_14 *reading, int16_t cold_16);
/*
 * Return the words of its channel after the type: scale, that is 1/16 of the sensitivity in uV, and resolution, that is
 * 1/4 of it.
 */
bench_text bench_amplifier_14_scale(char type);
bench_text bench_amplifier_14_resolution(char type);

#endif
