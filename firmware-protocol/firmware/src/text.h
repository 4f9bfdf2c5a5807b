/* Text that stays in flash: an 8-bit AVR copies every plain literal into its 2 kB of RAM. */
#ifndef BENCH_TEXT_H
#define BENCH_TEXT_H

#ifdef __AVR__
#include <avr/pgmspace.h>
#define BENCH_FLASH PROGMEM
#define BENCH_TEXT(literal) PSTR(literal)
#define bench_flash_byte(address) ((uint8_t)pgm_read_byte(address))
#else
#define BENCH_FLASH
#define BENCH_TEXT(literal) (literal)
#define bench_flash_byte(address) (*(const uint8_t *)(address))
#endif

/* An address in flash; on other processors an address like any other. */
typedef const char *bench_text;

#endif
