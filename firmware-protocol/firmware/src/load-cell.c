#include "load-cell.h"

#include "hardware.h"

bench_count bench_load_cell_read(uint8_t data_pin, uint8_t clock_pin) {
  /* Data is low when a conversion is ready, ten times a second; a missing converter leaves it high. */
  if (hardware_pin_read(data_pin)) return BENCH_NO_ANSWER;
  uint32_t counts = 0;
  for (uint8_t i = 0; i < 24; i++) {
    hardware_pulse(clock_pin);
    counts = counts << 1 | (hardware_pin_read(data_pin) ? 1 : 0);
  }
  hardware_pulse(clock_pin); /* a 25th: channel A with a gain of 128 next */
  /* After the 25th data is high until the next conversion; a line that stays low is stuck. */
  if (!hardware_pin_read(data_pin)) return BENCH_NO_ANSWER;
  if (counts == 0x7FFFFFu || counts == 0x800000u) return BENCH_OUT_OF_RANGE;
  int16_t upper = (int16_t)(uint16_t)(counts >> 8);
  return upper <= INT16_MIN + 5 ? BENCH_OUT_OF_RANGE : upper;
}
