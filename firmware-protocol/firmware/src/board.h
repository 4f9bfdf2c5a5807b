/*
 * The board's side of line protocol 1 (../../README.md), in portable C99: no heap, no printf, no line buffer for sending.
 * Fill in a bench_board, give it memory for its last scans, call bench_scan at each period, bench_receive for each byte
 * that comes, and bench_idle whenever there is time: it sends one line of a description or one held scan per call, so that
 * a live scan never waits for more than a line.
 *
 * All of it belongs to one thread: bench_receive answers, and so it must not be called from an interrupt. Let the interrupt
 * put the byte into a buffer and the main loop take it out.
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

/* How a reading is kept. 16 bits are enough for 1/16 K up to 2047 °C, not for 1/128 K: those end at 256 °C. */
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

/* Faults take the place of readings that no converter delivers. */
#define BENCH_OPEN ((bench_count)BENCH_COUNT_MIN)
#define BENCH_SHORT_TO_GROUND ((bench_count)(BENCH_COUNT_MIN + 1))
#define BENCH_SHORT_TO_SUPPLY ((bench_count)(BENCH_COUNT_MIN + 2))
#define BENCH_OUT_OF_RANGE ((bench_count)(BENCH_COUNT_MIN + 3))
#define BENCH_NO_ANSWER ((bench_count)(BENCH_COUNT_MIN + 4))
#define BENCH_OTHER ((bench_count)(BENCH_COUNT_MIN + 5))

/* Memory for `depth` scans of `channels` readings, in bytes. */
#define BENCH_HELD_BYTES(depth, channels) ((depth) * (4u + sizeof(bench_count) * (channels)))

typedef struct bench_board {
  /* What it is: set before bench_start. */
  bench_text name, firmware;
  uint8_t channels;
  uint16_t depth; /* scans that it keeps, 0 for none */
  uint8_t *held;  /* BENCH_HELD_BYTES(depth, channels) */
  uint32_t boot, period_ms;
  char identity[37]; /* as stored, or "" */

  /* How it reaches the world. */
  void (*put)(char byte);
  /* Puts the words of a channel line after "index=N ", the first channel being 0, with bench_put_text and its sisters. */
  void (*describe_channel)(struct bench_board *board, uint8_t channel);
  bool (*store_identity)(const char *identity); /* false: this board cannot */
  uint32_t (*set_period)(uint32_t wanted_ms);   /* returns the period now in force */
  bool (*blink)(void);                          /* false: this board cannot */

  /* Its own. */
  uint32_t next_sequence, crc;
  uint32_t resend_next, resend_left;
  uint16_t held_next, held_count;
  uint8_t described, describe_answers;
  bool describing;
  char command[BENCH_MAX_COMMAND + 1];
  uint8_t command_length;
} bench_board;

/* Says hello and describes the channels, a line with each call of bench_idle: once at the start. */
void bench_start(bench_board *board);
/* Sends the scan read at uptime_ms and keeps it. */
void bench_scan(bench_board *board, uint32_t uptime_ms, const bench_count *readings);
/* Takes a byte from the host. Not from an interrupt: it answers. */
void bench_receive(bench_board *board, char byte);
/* Sends one line of what is still to be told; false when there is nothing to do. */
bool bench_idle(bench_board *board);

void bench_put_char(bench_board *board, char byte);
void bench_put_text(bench_board *board, bench_text text);
void bench_put_unsigned(bench_board *board, uint32_t value);

/* One byte more of a CRC-32 (IEEE 802.3); starts at 0xFFFFFFFF, and the line carries the complement. */
uint32_t bench_crc_add(uint32_t crc, uint8_t byte);

#ifdef __cplusplus
}
#endif

#endif
