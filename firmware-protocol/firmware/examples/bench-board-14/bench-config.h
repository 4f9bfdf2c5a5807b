/*
 * What hangs on this board. Change it to what you have wired, nothing else needs to be changed. The drawing of the wiring
 * in the build guide is made from this very file.
 */
#ifndef BENCH_CONFIG_H
#define BENCH_CONFIG_H

/* The name that the host shows until you give the board another; at most 32 characters, "_" for a blank. */
#define BENCH_NAME "Bench_board"

/*
 * One line a probe, in the order of the readings: probe(KIND, PIN, TYPE, "LABEL").
 *   THERMOCOUPLE_14  amplifier of the 14-bit kind; PIN is its select pin; TYPE K J N T E S R
 *   THERMOCOUPLE_19  amplifier of the 19-bit kind; PIN is its select pin; TYPE K J N T E S R B
 *   TERMINALS        the temperature of the terminals, needed once beside amplifiers of the 14-bit kind
 *   ONE_WIRE         digital probe, alone on its PIN, with 4.7 kOhm from there to the supply
 *   ANALOGUE         a sensor that divides the supply, on A0 (14) to A5 (19)
 *   LOAD_CELL        24-bit converter; PIN is its data pin
 * Pins are 2 to 10 and 14 to 19 (A0 to A5), 10 as a select pin only; 0 and 1 are the serial port, 11 to 13 carry SPI.
 */
#define BENCH_PROBES(probe)                \
  probe(THERMOCOUPLE_14, 10, K, "Pot_low")  \
  probe(THERMOCOUPLE_14, 9, K, "Pot_high")  \
  probe(THERMOCOUPLE_14, 8, K, "Flue")      \
  probe(TERMINALS, BENCH_NO_PIN, NONE, "Terminals")

/* Hum of the mains that the 19-bit kind filters out: 50 or 60. */
#define BENCH_MAINS_HZ 50

/* The lamp that blinks when the host asks which board this is. 13 is the one on the board itself. */
#define BENCH_LAMP_PIN 13

/* Of a load cell: its converter's clock pin, and kilograms a count. */
#define BENCH_LOAD_CELL_CLOCK_PIN BENCH_NO_PIN
#define BENCH_LOAD_CELL_KG_PER_COUNT "0.003"

/* Bytes for the last scans, of the 2048 that an ATmega328P has. A scan takes 4, and 2 more for each line above. */
#define BENCH_HELD_RAM 1200

#endif
