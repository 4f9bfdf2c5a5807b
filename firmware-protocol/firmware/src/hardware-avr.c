/*
 * ATmega328P at 16 MHz. Uses Timer 2, the USART, SPI, the converter, EEPROM and the watchdog; not Timer 0 and 1,
 * so that it works together with the core of the common board environments.
 */
#if defined(__AVR_ATmega328P__)

#include "hardware.h"

#include <avr/eeprom.h>
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>
#include <util/atomic.h>
#include <util/delay.h>

/* Powers of two. The host sends one command of at most 64 bytes at a time, while a scan may take 80 ms. */
#define RECEIVE_BYTES 128
#define SEND_BYTES 64

static volatile uint32_t milliseconds;
static volatile char received[RECEIVE_BYTES], to_send[SEND_BYTES];
static volatile uint8_t received_head, received_tail, send_head, send_tail;

/* A reset by the watchdog leaves it running, with its shortest time: it has to be stopped first. */
void bench_stop_watchdog(void) __attribute__((naked, used, section(".init3")));
void bench_stop_watchdog(void) {
  MCUSR = 0;
  wdt_disable();
}

ISR(TIMER2_COMPA_vect) { milliseconds++; }

ISR(USART_RX_vect) {
  char byte = (char)UDR0;
  uint8_t next = (uint8_t)((received_head + 1) & (RECEIVE_BYTES - 1));
  if (next == received_tail) return; /* a lost byte loses one command, which the host repeats */
  received[received_head] = byte;
  received_head = next;
}

/* Runs only while there is something to send. */
ISR(USART_UDRE_vect) {
  UDR0 = (uint8_t)to_send[send_tail];
  send_tail = (uint8_t)((send_tail + 1) & (SEND_BYTES - 1));
  if (send_head == send_tail) UCSR0B = (uint8_t)(UCSR0B & ~(1 << UDRIE0));
}

void hardware_start(void) {
  /* 115200 baud: 2 * 16 MHz / 16 / 17 is 117647, 2.1 % fast, within the tolerance of receivers. */
  UBRR0 = 16;
  UCSR0A = 1 << U2X0;
  UCSR0C = (1 << UCSZ01) | (1 << UCSZ00);
  UCSR0B = (1 << RXEN0) | (1 << TXEN0) | (1 << RXCIE0);
  /* 16 MHz / 64 / 250 = 1 kHz. */
  TCCR2A = 1 << WGM21;
  TCCR2B = 1 << CS22;
  OCR2A = 249;
  TIMSK2 = 1 << OCIE2A;
  ADMUX = 1 << REFS0;
  ADCSRA = (1 << ADEN) | (1 << ADPS2) | (1 << ADPS1) | (1 << ADPS0);
  SMCR = 1 << SE; /* idle: everything but the processor continues */
  wdt_enable(WDTO_2S);
  sei();
}

void hardware_alive(void) { wdt_reset(); }

void hardware_sleep(void) { sleep_cpu(); }

uint32_t hardware_milliseconds(void) {
  uint32_t now;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { now = milliseconds; }
  return now;
}

void hardware_put(char byte) {
  uint8_t next = (uint8_t)((send_head + 1) & (SEND_BYTES - 1));
  while (next == send_tail) hardware_sleep();
  to_send[send_head] = byte;
  send_head = next;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { UCSR0B |= 1 << UDRIE0; }
}

int16_t hardware_get(void) {
  if (received_head == received_tail) return -1;
  char byte = received[received_tail];
  received_tail = (uint8_t)((received_tail + 1) & (RECEIVE_BYTES - 1));
  return (uint8_t)byte;
}

/* ---- pins ---- */

/* The input register of the pin's port; direction and output follow it. */
static volatile uint8_t *port_of(uint8_t pin) { return pin < 8 ? &PIND : pin < 14 ? &PINB : &PINC; }

static uint8_t mask_of(uint8_t pin) { return (uint8_t)(1 << (pin < 8 ? pin : pin < 14 ? pin - 8 : pin - 14)); }

static void set_bit(volatile uint8_t *address, uint8_t mask, bool on) {
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { *address = (uint8_t)(on ? *address | mask : *address & ~mask); }
}

void hardware_pin_write(uint8_t pin, bool level) { set_bit(port_of(pin) + 2, mask_of(pin), level); }

bool hardware_pin_read(uint8_t pin) { return (*port_of(pin) & mask_of(pin)) != 0; }

void hardware_pin_output(uint8_t pin, bool level) {
  hardware_pin_write(pin, level);
  set_bit(port_of(pin) + 1, mask_of(pin), true);
}

void hardware_pin_input(uint8_t pin) {
  set_bit(port_of(pin) + 1, mask_of(pin), false);
  hardware_pin_write(pin, true); /* pull-up: an unconnected input reads as high */
}

void hardware_pulse(uint8_t pin) {
  volatile uint8_t *output = port_of(pin) + 2;
  uint8_t mask = mask_of(pin);
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    *output |= mask;
    _delay_us(1);
    *output = (uint8_t)(*output & ~mask);
  }
  _delay_us(1);
}

/* ---- SPI: SS is D10, MOSI D11, MISO D12, SCK D13 ---- */

void hardware_spi_begin(uint8_t mode) {
  hardware_pin_output(10, true); /* a low input would end master mode, and a transfer would never end */
  hardware_pin_input(12); /* with its pull-up: a missing amplifier reads as ones */
  hardware_pin_output(11, false);
  hardware_pin_output(13, false);
  SPCR = (uint8_t)((1 << SPE) | (1 << MSTR) | (1 << SPR0) | (mode == 1 ? 1 << CPHA : 0));
  SPSR = 0;
}

uint8_t hardware_spi_transfer(uint8_t byte) {
  SPDR = byte;
  while (!(SPSR & (1 << SPIF))) {
  }
  return SPDR;
}

void hardware_spi_end(void) { SPCR = 0; }

/* ---- one-wire: the line is pulled low as an output, released as an input ---- */

static void one_wire_low(uint8_t pin, bool low) {
  volatile uint8_t *port = port_of(pin);
  uint8_t mask = mask_of(pin);
  if (low) {
    *(port + 2) = (uint8_t)(*(port + 2) & ~mask);
    *(port + 1) |= mask;
  } else {
    *(port + 1) = (uint8_t)(*(port + 1) & ~mask);
  }
}

bool hardware_one_wire_reset(uint8_t pin) {
  bool present = false;
  one_wire_low(pin, true);
  _delay_us(480);
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    one_wire_low(pin, false);
    _delay_us(70);
    present = !hardware_pin_read(pin);
  }
  _delay_us(410);
  return present && hardware_pin_read(pin); /* a line that stays low is a short circuit, not a probe */
}

bool hardware_one_wire_slot(uint8_t pin, bool bit) {
  bool read = false;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    one_wire_low(pin, true);
    _delay_us(2);
    if (bit) one_wire_low(pin, false);
    _delay_us(8);
    read = hardware_pin_read(pin);
    _delay_us(50);
    one_wire_low(pin, false);
  }
  _delay_us(5);
  return read;
}

/* ---- converter and memory ---- */

uint16_t hardware_analogue(uint8_t pin) {
  ADMUX = (uint8_t)((1 << REFS0) | (pin - 14));
  ADCSRA |= 1 << ADSC;
  while (ADCSRA & (1 << ADSC)) {
  }
  return ADC;
}

uint8_t hardware_memory_read(uint16_t address) { return eeprom_read_byte((const uint8_t *)address); }

void hardware_memory_write(uint16_t address, uint8_t byte) { eeprom_update_byte((uint8_t *)address, byte); }

#endif
