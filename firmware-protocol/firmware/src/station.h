/* The whole firmware above the hardware layer: reads the probes at each period and communicates with the host in between. */
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

/* Call once, first. */
void bench_setup(const bench_configuration *configuration);
/* Call repeatedly: scans when it is due, else sends answers, else sleeps for a millisecond at most. */
void bench_loop(void);

#ifdef __cplusplus
}
#endif

#endif
