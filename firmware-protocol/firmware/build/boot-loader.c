/*
 * A boot loader for the ATmega328P at 16 MHz that receives a program over the serial port (115200 8N1), in the protocol of
 * application note AVR061 as far as a program needs it: sync, signature, addresses, pages out and in. It is in the last
 * kilobyte of flash (fuses BOOTSZ = 01, BOOTRST programmed). After an external reset it waits for a second; every other
 * reset, and an end of that second, start the program.
 */
#include <avr/boot.h>
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/pgmspace.h>
#include <avr/wdt.h>

enum {
  OK = 0x10,
  IN_SYNC = 0x14,
  NO_SYNC = 0x15,
  END_OF_COMMAND = 0x20,
  GET_SYNC = 0x30,
  GET_PARAMETER = 0x41,
  SET_DEVICE = 0x42,
  SET_DEVICE_MORE = 0x45,
  ENTER = 0x50,
  LEAVE = 0x51,
  LOAD_ADDRESS = 0x55,
  UNIVERSAL = 0x56,
  PROGRAM_PAGE = 0x64,
  READ_PAGE = 0x74,
  READ_SIGNATURE = 0x75
};

/* Timer 1 at 16 MHz / 1024. */
#define A_SECOND 15625u
#define BOOT_AT 0x7C00u

static void start_program(void) __attribute__((noreturn));
static void start_program(void) {
  TCCR1B = 0;
  UCSR0A = 0;
  UCSR0B = 0;
  UBRR0 = 0;
  __asm__ volatile("jmp 0");
  __builtin_unreachable();
}

/* Silence means that there is no programming, or no longer. */
static uint8_t get(void) {
  TCNT1 = 0;
  while (!(UCSR0A & (1 << RXC0))) {
    if (TCNT1 > A_SECOND) start_program();
  }
  return UDR0;
}

static void put(uint8_t byte) {
  while (!(UCSR0A & (1 << UDRE0))) {
  }
  UDR0 = byte;
}

static void skip(uint8_t count) {
  while (count--) get();
}

/* Reports and returns false when the command does not end where it should. */
static uint8_t ends(void) {
  uint8_t fits = get() == END_OF_COMMAND;
  put(fits ? IN_SYNC : NO_SYNC);
  return fits;
}

static void write_page(uint16_t address, const uint8_t *bytes) {
  if (address >= BOOT_AT) return;
  boot_page_erase(address);
  boot_spm_busy_wait();
  for (uint16_t i = 0; i < SPM_PAGESIZE; i += 2) {
    boot_page_fill(address + i, (uint16_t)(bytes[i] | bytes[i + 1] << 8));
  }
  boot_page_write(address);
  boot_spm_busy_wait();
  boot_rww_enable();
}

int main(void) {
  uint8_t cause = MCUSR;
  MCUSR = 0;
  wdt_disable();
  if (!(cause & (1 << EXTRF)) && pgm_read_word(0) != 0xFFFF) start_program();

  uint16_t address = 0;
  static uint8_t page[SPM_PAGESIZE];
  UBRR0 = 16;
  UCSR0A = 1 << U2X0;
  UCSR0B = (1 << RXEN0) | (1 << TXEN0);
  TCCR1B = (1 << CS12) | (1 << CS10);

  for (;;) {
    uint8_t command = get();
    if (command == GET_PARAMETER) {
      uint8_t which = get();
      if (!ends()) continue;
      put(which == 0x81 ? 1 : which == 0x82 ? 16 : 3);
    } else if (command == LOAD_ADDRESS) {
      uint16_t words = get();
      words |= (uint16_t)(get() << 8);
      if (!ends()) continue;
      address = (uint16_t)(words * 2);
    } else if (command == UNIVERSAL) {
      skip(4);
      if (!ends()) continue;
      put(0);
    } else if (command == PROGRAM_PAGE) {
      uint16_t length = (uint16_t)(get() << 8);
      length |= get();
      skip(1);
      for (uint16_t i = 0; i < length; i++) {
        uint8_t byte = get();
        if (i < SPM_PAGESIZE) page[i] = byte;
      }
      for (uint16_t i = length; i < SPM_PAGESIZE; i++) page[i] = 0xFF;
      if (!ends()) continue;
      write_page(address, page);
    } else if (command == READ_PAGE) {
      uint16_t length = (uint16_t)(get() << 8);
      length |= get();
      skip(1);
      if (!ends()) continue;
      for (uint16_t i = 0; i < length; i++) put(pgm_read_byte(address + i));
    } else if (command == READ_SIGNATURE) {
      if (!ends()) continue;
      put(SIGNATURE_0);
      put(SIGNATURE_1);
      put(SIGNATURE_2);
    } else {
      if (command == SET_DEVICE) skip(20);
      if (command == SET_DEVICE_MORE) skip(5);
      if (!ends()) continue;
    }
    put(OK);
    if (command == LEAVE) {
      while (!(UCSR0A & (1 << TXC0))) {
      }
      start_program();
    }
  }
}
