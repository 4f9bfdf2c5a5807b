/*
 * The board's side of line protocol 1 (../../README.md), in portable C99: no heap, no printf, no line buffer for sending.
 * Fill in a bench_board, give it memory for its last scans, call bench_scan at each period, bench_receive for each byte
 * received, and bench_idle whenever there is time: it sends one line of a description or one stored scan per call, so that
 * a live scan never waits for more than a line.
 *
 * All of it runs in one thread: bench_receive sends answers, so it must not be called from an interrupt. The interrupt
 * puts the byte into a buffer and the main loop reads it.
 */
#ifndef BENCH_BOARD_H
#define BENCH_BOARD_H

#include <stdbool.h>
#include <stdint.h>

#include "text.h"

#ifdef __cplusplus
extern "C" {
#endif

#define BENCH_MAX_COMMAND 63

/* How a reading is stored. 16 bits are enough for 1/16 K up to 2047 °C, not for 1/128 K: those end at 256 °C. */
#ifndef BENCH_COUNT_BITS
#ifdef __AVR__
#define BENCH_COUNT_BITS 16
#else
#define BENCH_COUNT_BITS 32
#endif
#endif

#if BENCH_COUNT_BITS == 16
typedef int16_t bench_count;
#define BENCH_COUNT_MIN INT16_MIN
#else
typedef int32_t bench_count;
#define BENCH_COUNT_MIN INT32_MIN
#endif

/* Faults are encoded as readings that no converter returns. */
#define BENCH_OPEN ((bench_count)BENCH_COUNT_MIN)
#define BENCH_SHORT_TO_GROUND ((bench_count)(BENCH_COUNT_MIN + 1))
#define BENCH_SHORT_TO_SUPPLY ((bench_count)(BENCH_COUNT_MIN + 2))
#define BENCH_OUT_OF_RANGE ((bench_count)(BENCH_COUNT_MIN + 3))
#define BENCH_NO_ANSWER ((bench_count)(BENCH_COUNT_MIN + 4))
#define BENCH_OTHER ((bench_count)(BENCH_COUNT_MIN + 5))

/* Memory for `depth` scans of `channels` readings, in bytes. */
#define BENCH_HELD_BYTES(depth, channels) ((depth) * (4u + sizeof(bench_count) * (channels)))

typedef struct bench_board {
  /* Its description: set before bench_start. */
  bench_text name, firmware;
  uint8_t channels;
  uint16_t depth; /* number of scans that it stores, 0 for none */
  uint8_t *held;  /* BENCH_HELD_BYTES(depth, channels) */
  uint32_t boot, period_ms;
  char identity[37]; /* as stored, or "" */

  /* Its functions for input and output. */
  void (*put)(char byte);
  /* Writes the words of a channel line after "index=N ", the first channel being 0, with bench_put_text and similar functions. */
  void (*describe_channel)(struct bench_board *board, uint8_t channel);
  bool (*store_identity)(const char *identity); /* false: not supported by this board */
  uint32_t (*set_period)(uint32_t wanted_ms);   /* returns the active period */
  bool (*blink)(void);                          /* false: not supported by this board */

  /* Internal state. */
  uint32_t next_sequence, crc;
  uint32_t resend_next, resend_left;
  uint16_t held_next, held_count;
  uint8_t described, describe_answers;
  bool describing;
  char command[BENCH_MAX_COMMAND + 1];
  uint8_t command_length;
} bench_board;

/* Sends hello and the channels, a line with each call of bench_idle: once at the start. */
void bench_start(bench_board *board);
/* Sends the scan read at uptime_ms and stores it. */
void bench_scan(bench_board *board, uint32_t uptime_ms, const bench_count *readings);
/* Receives a byte from the host. Not from an interrupt: it sends answers. */
void bench_receive(bench_board *board, char byte);
/* Sends one pending line; false when there is none. */
bool bench_idle(bench_board *board);

void bench_put_char(bench_board *board, char byte);
void bench_put_text(bench_board *board, bench_text text);
void bench_put_unsigned(bench_board *board, uint32_t value);

/* Adds a byte to a CRC-32 (IEEE 802.3); starts at 0xFFFFFFFF, and the line contains the complement. */
uint32_t bench_crc_add(uint32_t crc, uint8_t byte);

#ifdef __cplusplus
}
#endif

#endif
