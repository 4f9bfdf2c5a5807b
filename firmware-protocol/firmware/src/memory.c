#include "memory.h"

#include <string.h>

#include "board.h"
#include "hardware.h"

/* Identity: 16 bytes and a checksum from address 0. Starts: 32 slots of a number and its checksum from address 32. */
#define IDENTITY_AT 0
#define IDENTITY_BYTES 16
#define BOOTS_AT 32
#define BOOT_PLACES 32

/*
 * A CRC-32 without its final complement: erased memory (all FF) would match the usual CRC of four bytes FF.
 */
static uint32_t checksum(const uint8_t *bytes, uint8_t count) {
  uint32_t crc = 0xFFFFFFFFu;
  while (count--) crc = bench_crc_add(crc, *bytes++);
  return crc;
}

/* Reads `count` bytes followed by their checksum; false when it does not match. */
static bool read_checked(uint16_t address, uint8_t *bytes, uint8_t count) {
  uint8_t crc[4];
  for (uint8_t i = 0; i < count; i++) bytes[i] = hardware_memory_read(address++);
  for (uint8_t i = 0; i < 4; i++) crc[i] = hardware_memory_read(address++);
  uint32_t expected = checksum(bytes, count);
  return memcmp(crc, &expected, 4) == 0;
}

/* Writes and reads back. */
static bool write_checked(uint16_t address, const uint8_t *bytes, uint8_t count) {
  uint32_t crc = checksum(bytes, count);
  uint8_t back[IDENTITY_BYTES];
  for (uint8_t i = 0; i < count; i++) hardware_memory_write((uint16_t)(address + i), bytes[i]);
  for (uint8_t i = 0; i < 4; i++) hardware_memory_write((uint16_t)(address + count + i), (uint8_t)(crc >> (8 * i)));
  return read_checked(address, back, count) && memcmp(back, bytes, count) == 0;
}

static uint8_t hex_value(char digit) { return (uint8_t)(digit <= '9' ? digit - '0' : digit - 'a' + 10); }

void bench_memory_identity(char identity[37]) {
  uint8_t bytes[IDENTITY_BYTES];
  char *out = identity;
  if (read_checked(IDENTITY_AT, bytes, IDENTITY_BYTES)) {
    for (uint8_t i = 0; i < 2 * IDENTITY_BYTES; i++) {
      uint8_t value = (uint8_t)(i % 2 ? bytes[i / 2] & 15 : bytes[i / 2] >> 4);
      if (i == 8 || i == 12 || i == 16 || i == 20) *out++ = '-';
      *out++ = (char)(value < 10 ? '0' + value : 'a' - 10 + value);
    }
  }
  *out = '\0';
}

bool bench_memory_store_identity(const char *identity) {
  uint8_t bytes[IDENTITY_BYTES];
  for (uint8_t i = 0; i < IDENTITY_BYTES; i++) {
    if (*identity == '-') identity++;
    bytes[i] = (uint8_t)(hex_value(identity[0]) << 4 | hex_value(identity[1]));
    identity += 2;
  }
  return write_checked(IDENTITY_AT, bytes, IDENTITY_BYTES);
}

static uint16_t place_of(uint32_t boot) { return (uint16_t)(BOOTS_AT + (uint16_t)(boot % BOOT_PLACES) * 8); }

uint32_t bench_memory_next_boot(void) {
  uint32_t newest = 0;
  for (uint32_t place = 0; place < BOOT_PLACES; place++) {
    uint32_t boot;
    if (read_checked(place_of(place), (uint8_t *)&boot, 4) && boot > newest) newest = boot;
  }
  /* A worn-out slot is skipped. */
  for (uint8_t tries = 0; tries < BOOT_PLACES; tries++) {
    newest++;
    if (write_checked(place_of(newest), (const uint8_t *)&newest, 4)) return newest;
  }
  return newest;
}
