/*
 * The reference implementation with a person at its controls: lines that begin with "!" say what happens to the board, all
 * others come from the host. What the board sends goes to standard output.
 *   !start BOOT DEPTH · !sequence N · !scan UPTIME R1 R2 ... · !channels N · !idle · !forgetful · !bytes HEX · !rule
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "board.h"

static bool can_store = true;

static void put(char byte) { putchar(byte); }
static bool store_identity(const char *identity) { return identity[0] != '\0' && can_store; }
static uint32_t set_period(uint32_t wanted_ms) { return wanted_ms < 100 ? 100 : wanted_ms; }
static bool blink(void) { return true; }

static void describe_channel(bench_board *of, uint8_t channel) {
  static const char *const words[] = {
      "quantity=temperature unit=Cel scale=0.25 probe=thermocouple-K resolution=0.25 form=value label=Pot_low",
      "quantity=temperature unit=uV scale=7.8125 probe=thermocouple-K resolution=7.8125 form=thermocouple-uv cold=1 label=Flue",
  };
  bench_put_text(of, words[channel % 2]);
}

enum { MOST_CHANNELS = 4 };
static uint8_t held[BENCH_HELD_BYTES(1000, MOST_CHANNELS)];
static bench_board board = {
    .name = "Reference", .firmware = "1.0.0", .channels = 2, .period_ms = 1000, .held = held, .put = put,
    .describe_channel = describe_channel, .store_identity = store_identity, .set_period = set_period, .blink = blink,
};

static void describe_all(void) {
  while (board.describing) bench_idle(&board);
}

static void receive_hex(const char *digits) {
  unsigned byte;
  for (; sscanf(digits, "%2x", &byte) == 1; digits += 2) bench_receive(&board, (char)byte);
}

int main(void) {
  char line[4096];
  while (fgets(line, sizeof line, stdin)) {
    if (line[0] != '!') {
      for (char *c = line; *c; c++) bench_receive(&board, *c);
      describe_all();
      continue;
    }
    char *rest = strchr(line, ' ');
    if (strncmp(line, "!start", 6) == 0) {
      board.boot = (uint32_t)strtoul(rest, &rest, 10);
      board.depth = (uint16_t)strtoul(rest, &rest, 10);
      board.held_count = 0;
      bench_start(&board);
      describe_all();
    } else if (strncmp(line, "!channels", 9) == 0) {
      board.channels = (uint8_t)strtoul(rest, &rest, 10);
    } else if (strncmp(line, "!sequence", 9) == 0) {
      board.next_sequence = (uint32_t)strtoul(rest, &rest, 10);
    } else if (strncmp(line, "!scan", 5) == 0) {
      bench_count readings[MOST_CHANNELS];
      uint32_t uptime = (uint32_t)strtoul(rest, &rest, 10);
      for (int i = 0; i < board.channels; i++) readings[i] = (bench_count)strtol(rest, &rest, 10);
      bench_scan(&board, uptime, readings);
    } else if (strncmp(line, "!idle", 5) == 0) {
      while (bench_idle(&board)) {
      }
    } else if (strncmp(line, "!bytes", 6) == 0) {
      receive_hex(rest + 1);
    } else if (strncmp(line, "!forgetful", 10) == 0) {
      can_store = false;
    } else if (strncmp(line, "!rule", 5) == 0) {
      puts("----");
    }
  }
  return 0;
}
