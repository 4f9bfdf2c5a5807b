/* The probes of a board, from its configuration header. */
#ifndef BENCH_PROBES_H
#define BENCH_PROBES_H

#include <stdint.h>

#include "board.h"

enum {
  BENCH_KIND_THERMOCOUPLE_14 = 1, /* amplifier of the 14-bit kind: finished degrees at 0.25 K, not linearised */
  BENCH_KIND_THERMOCOUPLE_19,     /* amplifier of the 19-bit kind: linearised, with registers */
  BENCH_KIND_TERMINALS,           /* the temperature of the terminals of all amplifiers of the 14-bit kind */
  BENCH_KIND_ONE_WIRE,            /* a digital probe, the only one on its pin */
  BENCH_KIND_ANALOGUE,            /* a sensor that divides the supply */
  BENCH_KIND_LOAD_CELL            /* a 24-bit converter with a clock and a data pin */
};

enum {
  BENCH_TYPE_NONE = 0,
  BENCH_TYPE_B = 'B',
  BENCH_TYPE_E = 'E',
  BENCH_TYPE_J = 'J',
  BENCH_TYPE_K = 'K',
  BENCH_TYPE_N = 'N',
  BENCH_TYPE_R = 'R',
  BENCH_TYPE_S = 'S',
  BENCH_TYPE_T = 'T'
};

#define BENCH_NO_PIN 255
#define BENCH_MAX_PROBES 16

typedef struct {
  uint8_t kind, pin;
  char type; /* of the thermocouple */
  char label[33];
} bench_probe;

#endif
