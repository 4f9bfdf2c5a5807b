/*
 * The hardware layer of the firmware: the only code that accesses registers. hardware-avr.c is the one for the
 * ATmega328P; another processor needs these functions and nothing else. Pins are numbered as on boards with this chip: 0 to
 * 13 are D0 to D13, 14 to 19 are A0 to A5.
 */
#ifndef BENCH_HARDWARE_H
#define BENCH_HARDWARE_H

#include <stdbool.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Starts clock, serial port (115200 8N1) and a watchdog of two seconds, and enables interrupts. */
void hardware_start(void);
/* Resets the watchdog; only the main loop may call it. */
void hardware_alive(void);
/* Sleeps until the next interrupt, a millisecond at most. */
void hardware_sleep(void);
/* Milliseconds since the start, modulo 2^32. */
uint32_t hardware_milliseconds(void);

/* Sends a byte; waits for room in the buffer, at most for one byte's time. */
void hardware_put(char byte);
/* Returns a byte from the host, or -1. */
int16_t hardware_get(void);

/* The level is set before the direction, so that the pin never has the other level. */
void hardware_pin_output(uint8_t pin, bool level);
void hardware_pin_input(uint8_t pin);
void hardware_pin_write(uint8_t pin, bool level);
bool hardware_pin_read(uint8_t pin);

/* SPI at 1 MHz or less, most significant bit first, in mode 0 or 1. Between end and begin its clock pin is free. */
void hardware_spi_begin(uint8_t mode);
uint8_t hardware_spi_transfer(uint8_t byte);
void hardware_spi_end(void);

/* One-wire bus with a pull-up of some 4.7 kOhm: a reset (true when a probe responds) and a time slot (returns the bit read). */
bool hardware_one_wire_reset(uint8_t pin);
bool hardware_one_wire_slot(uint8_t pin, bool bit);

/* A high pulse of at most some microseconds, with interrupts disabled. */
void hardware_pulse(uint8_t pin);

/* Reads an analogue input relative to the supply, 0 to 1023. */
uint16_t hardware_analogue(uint8_t pin);

/* Non-volatile memory of at least 512 bytes. Writes only what differs. */
uint8_t hardware_memory_read(uint16_t address);
void hardware_memory_write(uint16_t address, uint8_t byte);

#ifdef __cplusplus
}
#endif

#endif
