#include "amplifier-14.h"

#include "hardware.h"

/*
 *   31..18 hot, signed, 1/4 K    17 zero    16 fault
 *   15..4  cold, signed, 1/16 K   3 zero     2 short to supply    1 short to ground    0 open
 */
bench_amplifier_14 bench_amplifier_14_decode(uint32_t word) {
  bench_amplifier_14 reading = {0, 0, 0, false};
  /* Nothing drives the line, or it is stuck. */
  if (word == 0xFFFFFFFFu || word == 0) {
    reading.fault = BENCH_NO_ANSWER;
    return reading;
  }
  uint8_t faults = (uint8_t)(word & 7);
  bool fault = (word >> 16 & 1) != 0;
  if ((word & 0x00020008u) != 0 || fault != (faults != 0)) {
    reading.fault = BENCH_OTHER; /* not a word of this chip */
    return reading;
  }
  int16_t high = (int16_t)(uint16_t)(word >> 16), low = (int16_t)(uint16_t)(word & 0xFFF0u);
  reading.hot_4 = (int16_t)(high / 4 - (high < 0 && high % 4 != 0));
  reading.cold_16 = (int16_t)(low / 16);
  reading.cold_known = true;
  if (faults & 1) reading.fault = BENCH_OPEN;
  else if (faults & 2) reading.fault = BENCH_SHORT_TO_GROUND;
  else if (faults & 4) reading.fault = BENCH_SHORT_TO_SUPPLY;
  else if (reading.hot_4 == 8191 || reading.hot_4 == -8192) reading.fault = BENCH_OUT_OF_RANGE;
  return reading;
}

static uint32_t read_word(uint8_t pin) {
  uint32_t word = 0;
  hardware_pin_write(pin, false);
  for (uint8_t i = 0; i < 4; i++) word = word << 8 | hardware_spi_transfer(0);
  hardware_pin_write(pin, true);
  return word;
}

/* The word has no checksum: a bit flipped on a long cable is detected only by a second word that differs. */
bench_amplifier_14 bench_amplifier_14_read(uint8_t pin) {
  hardware_spi_begin(0);
  uint32_t word = read_word(pin);
  bool settled = false;
  for (uint8_t tries = 0; tries < 4 && !settled; tries++) {
    uint32_t again = read_word(pin);
    settled = again == word;
    word = again;
  }
  hardware_spi_end();
  bench_amplifier_14 reading = bench_amplifier_14_decode(word);
  if (!settled) {
    reading.fault = BENCH_OTHER;
    reading.cold_known = false;
  }
  return reading;
}

bench_count bench_amplifier_14_voltage(const bench_amplifier_14 *reading, int16_t cold_16) {
  return (bench_count)(4 * reading->hot_4 - cold_16);
}

/*
 * Sensitivity in uV/K by type. It is that of the chord from 0 °C to the end of the usual range, which also follows from the
 * NIST tables: E(1000 °C)/1000, for type T E(400 °C)/400.
 */
bench_text bench_amplifier_14_scale(char type) {
  switch (type) {
    case 'K': return BENCH_TEXT("2.57975");   /* 41.276 */
    case 'J': return BENCH_TEXT("3.6220625"); /* 57.953 */
    case 'N': return BENCH_TEXT("2.266");     /* 36.256 */
    case 'T': return BENCH_TEXT("3.26125");   /* 52.18 */
    case 'E': return BENCH_TEXT("4.7733125"); /* 76.373 */
    case 'S': return BENCH_TEXT("0.5991875"); /* 9.587 */
    default: return BENCH_TEXT("0.656625");   /* R: 10.506 */
  }
}

bench_text bench_amplifier_14_resolution(char type) {
  switch (type) {
    case 'K': return BENCH_TEXT("10.319");
    case 'J': return BENCH_TEXT("14.48825");
    case 'N': return BENCH_TEXT("9.064");
    case 'T': return BENCH_TEXT("13.045");
    case 'E': return BENCH_TEXT("19.09325");
    case 'S': return BENCH_TEXT("2.39675");
    default: return BENCH_TEXT("2.6265");
  }
}
