#include "amplifier-19.h"

#include <string.h>

#include "hardware.h"

enum { CR0 = 0x00, CR1 = 0x01, MASK = 0x02, LTC_HIGH = 0x0C, LTC_MIDDLE = 0x0D, LTC_LOW = 0x0E, STATUS = 0x0F, WRITE = 0x80 };

/* CR0: convert continuously, detect an open thermocouple at each conversion. */
#define CR0_CONTINUOUS 0x80
#define CR0_OPEN_DETECTION 0x10
#define CR0_REJECT_50_HZ 0x01

static uint8_t wanted_cr0(uint8_t mains_hz) {
  return (uint8_t)(CR0_CONTINUOUS | CR0_OPEN_DETECTION | (mains_hz == 50 ? CR0_REJECT_50_HZ : 0));
}

static uint8_t wanted_cr1(char type) {
  switch (type) {
    case 'B': return 0;
    case 'E': return 1;
    case 'J': return 2;
    case 'N': return 4;
    case 'R': return 5;
    case 'S': return 6;
    case 'T': return 7;
    default: return 3; /* K */
  }
}

static void write_register(uint8_t pin, uint8_t address, uint8_t value) {
  hardware_pin_write(pin, false);
  hardware_spi_transfer((uint8_t)(address | WRITE));
  hardware_spi_transfer(value);
  hardware_pin_write(pin, true);
}

void bench_amplifier_19_set_up(uint8_t pin, char type, uint8_t mains_hz) {
  hardware_spi_begin(1);
  /* The mains filter may be changed only between conversions. */
  write_register(pin, CR0, (uint8_t)(wanted_cr0(mains_hz) & ~CR0_CONTINUOUS));
  write_register(pin, CR1, wanted_cr1(type));
  write_register(pin, CR0, wanted_cr0(mains_hz));
  hardware_spi_end();
}

bool bench_amplifier_19_is_set_up(const uint8_t *registers, char type, uint8_t mains_hz) {
  return registers[CR0] == wanted_cr0(mains_hz) && registers[CR1] == wanted_cr1(type);
}

bench_count bench_amplifier_19_decode(const uint8_t *registers) {
  uint8_t status = registers[STATUS];
  if (status & 0x01) return BENCH_OPEN;
  if (status & 0x02) return BENCH_SHORT_TO_SUPPLY; /* a voltage below ground or above the supply at the terminals */
  if (status & 0xFC) return BENCH_OUT_OF_RANGE;    /* thermocouple or cold junction beyond its range or limits */
  /* 19 bits, left-justified in 24. */
  int32_t degrees_128 = (int32_t)((uint32_t)registers[LTC_HIGH] << 24 | (uint32_t)registers[LTC_MIDDLE] << 16 |
                                  (uint32_t)(registers[LTC_LOW] & 0xE0) << 8) / 8192;
  if (degrees_128 < -300 * 128L || degrees_128 > 2000 * 128L) return BENCH_OUT_OF_RANGE;
  /* Rounded to the nearest 1/16 K; the dividend is made positive, so that division rounds in one direction. */
  return (bench_count)((degrees_128 + 4 + 8 * 8192L) / 8 - 8192);
}

static void read_registers(uint8_t pin, uint8_t *registers) {
  hardware_pin_write(pin, false);
  hardware_spi_transfer(0);
  for (uint8_t i = 0; i < BENCH_AMPLIFIER_19_REGISTERS; i++) registers[i] = hardware_spi_transfer(0);
  hardware_pin_write(pin, true);
}

bool bench_amplifier_19_read(uint8_t pin, uint8_t *registers) {
  uint8_t before[BENCH_AMPLIFIER_19_REGISTERS];
  bool settled = false;
  hardware_spi_begin(1);
  read_registers(pin, registers);
  for (uint8_t tries = 0; tries < 4 && !settled; tries++) {
    memcpy(before, registers, sizeof before);
    read_registers(pin, registers);
    settled = memcmp(before, registers, sizeof before) == 0;
  }
  hardware_spi_end();
  return settled;
}
