/*
 * The board's side of line protocol 1 (../README.md), in portable C99: no heap, no printf, no line buffer for sending.
 * Fill in a bench_board, give it memory for its last scans, call bench_scan at each period and bench_receive for each byte
 * that comes, and bench_idle whenever there is time: it sends one held scan again per call.
 */
#ifndef BENCH_BOARD_H
#define BENCH_BOARD_H

#include <stdbool.h>
#include <stdint.h>

#define BENCH_MAX_COMMAND 63

/* Faults take the place of readings that no converter delivers. */
#define BENCH_OPEN INT32_MIN
#define BENCH_SHORT_TO_GROUND (INT32_MIN + 1)
#define BENCH_SHORT_TO_SUPPLY (INT32_MIN + 2)
#define BENCH_OUT_OF_RANGE (INT32_MIN + 3)
#define BENCH_NO_ANSWER (INT32_MIN + 4)
#define BENCH_OTHER (INT32_MIN + 5)

typedef struct bench_board {
  /* What it is: set before bench_start. */
  const char *name, *firmware;
  const char *const *channel_lines; /* the words of each channel line after "index=N " */
  uint8_t channels;
  uint32_t boot, period_ms;
  char identity[37]; /* as stored, or "" */
  int32_t *held;     /* depth * (channels + 1) values, the first of each scan its uptime */
  uint32_t depth;    /* scans; a power of two survives the wrap of the sequence number as well */

  /* How it reaches the world. */
  void (*put)(char byte);
  bool (*store_identity)(const char *identity); /* false: this board cannot */
  uint32_t (*set_period)(uint32_t wanted_ms);   /* returns the period now in force */
  bool (*blink)(void);                          /* false: this board cannot */

  /* Its own. */
  uint32_t next_sequence, held_count, crc;
  uint32_t resend_next, resend_left;
  char command[BENCH_MAX_COMMAND + 1];
  uint8_t command_length;
} bench_board;

/* Says hello and describes the channels: once at the start. */
void bench_start(bench_board *board);
/* Sends the scan read at uptime_ms and keeps it. */
void bench_scan(bench_board *board, uint32_t uptime_ms, const int32_t *readings);
/* Takes a byte from the host. */
void bench_receive(bench_board *board, char byte);
/* Sends one scan again, if any is asked for; false when there is nothing to do. */
bool bench_idle(bench_board *board);

#endif
