/*
 * For the sketch: include the configuration header first, then this one, then call bench_setup(&bench_of_sketch) once and
 * bench_loop() repeatedly. The tables are made here from the header; a configuration that cannot work does not compile.
 */
#ifndef STOVEBENCH_H
#define STOVEBENCH_H

#include "station.h"

#define BENCH_ONE_ENTRY(kind, pin, type, label) {BENCH_KIND_##kind, pin, BENCH_TYPE_##type, label},
#define BENCH_ONE_COUNT(kind, pin, type, label) +1
#define BENCH_IF_14(kind, pin, type, label) +(BENCH_KIND_##kind == BENCH_KIND_THERMOCOUPLE_14)
#define BENCH_IF_TERMINALS(kind, pin, type, label) +(BENCH_KIND_##kind == BENCH_KIND_TERMINALS)
#define BENCH_IF_LOAD_CELL(kind, pin, type, label) +(BENCH_KIND_##kind == BENCH_KIND_LOAD_CELL)
#define BENCH_HAS_PIN(kind) (BENCH_KIND_##kind != BENCH_KIND_TERMINALS)
#define BENCH_IS_SELECTED(kind) \
  (BENCH_KIND_##kind == BENCH_KIND_THERMOCOUPLE_14 || BENCH_KIND_##kind == BENCH_KIND_THERMOCOUPLE_19)
#define BENCH_PIN_FITS(kind, pin)                                                    \
  (BENCH_KIND_##kind == BENCH_KIND_ANALOGUE ? (pin) >= 14 && (pin) <= 19             \
                                            : ((pin) >= 2 && (pin) <= 9) ||          \
                                                  ((pin) == 10 && BENCH_IS_SELECTED(kind)) || \
                                                  ((pin) >= 14 && (pin) <= 19))
#define BENCH_IF_BAD_PIN(kind, pin, type, label) +(BENCH_HAS_PIN(kind) && !BENCH_PIN_FITS(kind, pin))
#define BENCH_PIN_BIT(kind, pin) (BENCH_HAS_PIN(kind) ? 1ul << ((pin) & 31) : 0)
#define BENCH_ADD_PIN(kind, pin, type, label) +BENCH_PIN_BIT(kind, pin)
#define BENCH_JOIN_PIN(kind, pin, type, label) | BENCH_PIN_BIT(kind, pin)
#define BENCH_CLOCK_BIT (BENCH_LOAD_CELL_CLOCK_PIN == BENCH_NO_PIN ? 0 : 1ul << (BENCH_LOAD_CELL_CLOCK_PIN & 31))
#define BENCH_IF_14_B(kind, pin, type, label) \
  +(BENCH_KIND_##kind == BENCH_KIND_THERMOCOUPLE_14 && BENCH_TYPE_##type == BENCH_TYPE_B)

enum {
  bench_probe_count = 0 BENCH_PROBES(BENCH_ONE_COUNT),
  bench_depth = (int)(BENCH_HELD_RAM / BENCH_HELD_BYTES(1, bench_probe_count))
};

/* An array of -1 names the rule that the configuration header breaks. */
typedef char bench_has_1_to_16_probes[bench_probe_count >= 1 && bench_probe_count <= BENCH_MAX_PROBES ? 1 : -1];
typedef char bench_14_bit_kind_needs_one_TERMINALS
    [(0 BENCH_PROBES(BENCH_IF_14)) == 0 || (0 BENCH_PROBES(BENCH_IF_TERMINALS)) == 1 ? 1 : -1];
typedef char bench_has_at_most_one_LOAD_CELL[(0 BENCH_PROBES(BENCH_IF_LOAD_CELL)) <= 1 ? 1 : -1];
/* Pin 10 is never an input and is pulled up at each transfer: usable as a select pin only. */
typedef char bench_pins_are_2_to_10_or_14_to_19_10_selects_14_to_19_measure[(0 BENCH_PROBES(BENCH_IF_BAD_PIN)) == 0 ? 1 : -1];
typedef char bench_no_pin_is_used_twice
    [(BENCH_CLOCK_BIT BENCH_PROBES(BENCH_ADD_PIN)) == (BENCH_CLOCK_BIT BENCH_PROBES(BENCH_JOIN_PIN)) ? 1 : -1];
typedef char bench_load_cell_needs_a_clock_pin_of_2_to_9_or_14_to_19
    [(0 BENCH_PROBES(BENCH_IF_LOAD_CELL)) == 0 ||
             (BENCH_LOAD_CELL_CLOCK_PIN >= 2 && BENCH_LOAD_CELL_CLOCK_PIN <= 19 &&
              (BENCH_LOAD_CELL_CLOCK_PIN <= 9 || BENCH_LOAD_CELL_CLOCK_PIN >= 14))
         ? 1
         : -1];
typedef char bench_14_bit_kind_knows_no_type_B[(0 BENCH_PROBES(BENCH_IF_14_B)) == 0 ? 1 : -1];

static const bench_probe bench_probes[] BENCH_FLASH = {BENCH_PROBES(BENCH_ONE_ENTRY)};
static const char bench_name[] BENCH_FLASH = BENCH_NAME;
static const char bench_kg_per_count[] BENCH_FLASH = BENCH_LOAD_CELL_KG_PER_COUNT;
static uint8_t bench_held[BENCH_HELD_BYTES(bench_depth, bench_probe_count)];

static const bench_configuration bench_of_sketch = {
    bench_probes, bench_probe_count, BENCH_MAINS_HZ, BENCH_LOAD_CELL_CLOCK_PIN, BENCH_LAMP_PIN,
    bench_name,   bench_kg_per_count, bench_held,   bench_depth,
};

#endif
