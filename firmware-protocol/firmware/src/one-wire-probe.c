#include "one-wire-probe.h"

#include "hardware.h"

enum { SKIP_ROM = 0xCC, CONVERT = 0x44, READ_MEMORY = 0xBE, WRITE_MEMORY = 0x4E };

/*
 * The two alarm bytes have no other use and are lost with the supply: a probe with other values has been off
 * since its conversion was started, and its memory contains no reading.
 */
#define MARK_HIGH 0x5A
#define MARK_LOW 0x25
#define TWELVE_BITS 0x7F

/* Its value after power-on: 85 °C. */
#define POWER_ON 0x0550

static void write_byte(uint8_t pin, uint8_t byte) {
  for (uint8_t i = 0; i < 8; i++, byte >>= 1) hardware_one_wire_slot(pin, byte & 1);
}

static uint8_t read_byte(uint8_t pin) {
  uint8_t byte = 0;
  for (uint8_t i = 0; i < 8; i++) byte = (uint8_t)(byte >> 1 | (hardware_one_wire_slot(pin, true) ? 0x80 : 0));
  return byte;
}

/* CRC-8 of the one-wire bus, x^8 + x^5 + x^4 + 1; over bytes and their checksum it is 0. */
static uint8_t checksum(const uint8_t *bytes, uint8_t count) {
  uint8_t crc = 0;
  for (uint8_t i = 0; i < count; i++) {
    crc ^= bytes[i];
    for (uint8_t bit = 0; bit < 8; bit++) crc = (uint8_t)(crc & 1 ? (crc >> 1) ^ 0x8C : crc >> 1);
  }
  return crc;
}

void bench_one_wire_convert(uint8_t pin) {
  if (!hardware_one_wire_reset(pin)) return;
  write_byte(pin, SKIP_ROM);
  write_byte(pin, WRITE_MEMORY);
  write_byte(pin, MARK_HIGH);
  write_byte(pin, MARK_LOW);
  write_byte(pin, TWELVE_BITS);
  hardware_one_wire_reset(pin);
  write_byte(pin, SKIP_ROM);
  write_byte(pin, CONVERT);
}

bench_count bench_one_wire_decode(const uint8_t *memory) {
  bool low = true;
  for (uint8_t i = 0; i < BENCH_ONE_WIRE_MEMORY; i++) low = low && memory[i] == 0;
  if (low) return BENCH_NO_ANSWER; /* nine zeros have a matching checksum */
  if (checksum(memory, BENCH_ONE_WIRE_MEMORY) != 0) return BENCH_OTHER;
  if (memory[2] != MARK_HIGH || memory[3] != MARK_LOW) return BENCH_NO_ANSWER;
  int16_t reading = (int16_t)(uint16_t)(memory[1] << 8 | memory[0]);
  if (reading == POWER_ON) return BENCH_OTHER;
  /* -127 is beyond the range too. */
  if (reading < -55 * 16 || reading > 125 * 16) return BENCH_OUT_OF_RANGE;
  return reading;
}

bench_count bench_one_wire_read(uint8_t pin) {
  bench_count reading = BENCH_OTHER;
  for (uint8_t tries = 0; tries < 2 && reading == BENCH_OTHER; tries++) {
    uint8_t memory[BENCH_ONE_WIRE_MEMORY];
    if (!hardware_one_wire_reset(pin)) return BENCH_NO_ANSWER;
    write_byte(pin, SKIP_ROM);
    write_byte(pin, READ_MEMORY);
    for (uint8_t i = 0; i < BENCH_ONE_WIRE_MEMORY; i++) memory[i] = read_byte(pin);
    reading = bench_one_wire_decode(memory);
  }
  return reading;
}
