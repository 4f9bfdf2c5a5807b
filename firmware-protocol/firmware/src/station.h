/* The whole firmware above the hardware layer: reads the probes at each period and talks to the host in between. */
#ifndef BENCH_STATION_H
#define BENCH_STATION_H

#include "probes.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct {
  const bench_probe *probes; /* in flash, in the order of the readings */
  uint8_t count, mains_hz, load_cell_clock_pin, lamp_pin;
  bench_text name, load_cell_kg_per_count;
  uint8_t *held;
  uint16_t depth;
} bench_configuration;

/* Once, before everything else. */
void bench_setup(const bench_configuration *configuration);
/* Again and again: scans when it is time, else answers, else sleeps for a millisecond at most. */
void bench_loop(void);

#ifdef __cplusplus
}
#endif

#endif
