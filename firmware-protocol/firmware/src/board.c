#include "board.h"

#include <stddef.h>
#include <string.h>

/* ---- sending: every character goes through bench_put_char, which updates the checksum ---- */

uint32_t bench_crc_add(uint32_t crc, uint8_t byte) {
  crc ^= byte;
  for (uint8_t bit = 0; bit < 8; bit++) crc = (crc & 1) ? (crc >> 1) ^ 0xEDB88320u : crc >> 1;
  return crc;
}

void bench_put_char(bench_board *board, char byte) {
  board->crc = bench_crc_add(board->crc, (uint8_t)byte);
  board->put(byte);
}

void bench_put_text(bench_board *board, bench_text text) {
  for (char byte; (byte = (char)bench_flash_byte(text)) != '\0'; text++) bench_put_char(board, byte);
}

static void put_identity(bench_board *board) {
  for (const char *c = board->identity; *c; c++) bench_put_char(board, *c);
}

void bench_put_unsigned(bench_board *board, uint32_t value) {
  char digits[10];
  uint8_t count = 0;
  do digits[count++] = (char)('0' + (uint8_t)(value % 10));
  while (value /= 10);
  while (count) bench_put_char(board, digits[--count]);
}

static void put_reading(bench_board *board, bench_count value) {
  if (value <= BENCH_OTHER) {
    bench_text fault = BENCH_TEXT("open\0short-to-ground\0short-to-supply\0out-of-range\0no-answer\0other");
    for (uint8_t i = (uint8_t)(value - BENCH_OPEN); i > 0; fault++) {
      if (bench_flash_byte(fault) == 0) i--;
    }
    bench_put_text(board, fault);
    return;
  }
  if (value < 0) bench_put_char(board, '-');
  bench_put_unsigned(board, value < 0 ? 0u - (uint32_t)value : (uint32_t)value);
}

static void begin_line(bench_board *board, bench_text words) {
  board->crc = 0xFFFFFFFFu;
  bench_put_text(board, words);
}

static char hex_digit(uint8_t value) {
  return (char)(value < 10 ? '0' + value : 'A' - 10 + value);
}

static void end_line(bench_board *board) {
  bench_put_char(board, ' ');
  uint32_t crc = board->crc ^ 0xFFFFFFFFu;
  board->put('~');
  for (uint8_t i = 0; i < 8; i++, crc <<= 4) board->put(hex_digit((uint8_t)(crc >> 28)));
  board->put('\n');
}

/* ---- messages of the board ---- */

void bench_start(bench_board *board) {
  board->describing = true;
  board->described = 0;
}

static void send_hello(bench_board *board) {
  begin_line(board, BENCH_TEXT("hello protocol=1 id="));
  if (board->identity[0]) put_identity(board);
  else bench_put_text(board, BENCH_TEXT("none"));
  bench_put_text(board, BENCH_TEXT(" boot="));
  bench_put_unsigned(board, board->boot);
  bench_put_text(board, BENCH_TEXT(" name="));
  bench_put_text(board, board->name);
  bench_put_text(board, BENCH_TEXT(" firmware="));
  bench_put_text(board, board->firmware);
  bench_put_text(board, BENCH_TEXT(" depth="));
  bench_put_unsigned(board, board->depth);
  bench_put_text(board, BENCH_TEXT(" period="));
  bench_put_unsigned(board, board->period_ms);
  bench_put_text(board, BENCH_TEXT(" channels="));
  bench_put_unsigned(board, board->channels);
  end_line(board);
}

static void send_channel(bench_board *board, uint8_t channel) {
  begin_line(board, BENCH_TEXT("channel index="));
  bench_put_unsigned(board, (uint32_t)channel + 1);
  bench_put_char(board, ' ');
  board->describe_channel(board, channel);
  end_line(board);
}

/* Sends the next line of a description: hello, the channels, and the answer if it was requested. */
static void describe_on(bench_board *board) {
  uint8_t line = board->described++;
  if (line == 0) {
    send_hello(board);
  } else if (line <= board->channels) {
    send_channel(board, (uint8_t)(line - 1));
  } else if (board->describe_answers > 0) {
    board->describe_answers--;
    begin_line(board, BENCH_TEXT("ok describe"));
    end_line(board);
  }
  board->describing = board->described <= board->channels || board->describe_answers > 0;
}

/* Returns the address of the stored scan made `behind` scans before the next one. */
static uint8_t *slot(const bench_board *board, uint32_t behind) {
  size_t index = (board->held_next + (size_t)board->depth - (size_t)behind) % board->depth;
  return board->held + BENCH_HELD_BYTES(index, board->channels);
}

static void begin_scan(bench_board *board, bench_text word, uint32_t sequence, uint32_t uptime) {
  begin_line(board, word);
  bench_put_unsigned(board, board->boot);
  bench_put_char(board, ' ');
  bench_put_unsigned(board, sequence);
  bench_put_char(board, ' ');
  bench_put_unsigned(board, uptime);
}

static void put_readings(bench_board *board, const void *readings) {
  const uint8_t *bytes = readings;
  for (uint8_t i = 0; i < board->channels; i++, bytes += sizeof(bench_count)) {
    bench_count reading;
    memcpy(&reading, bytes, sizeof reading); /* a stored one need not be aligned */
    bench_put_char(board, ' ');
    put_reading(board, reading);
  }
}

void bench_scan(bench_board *board, uint32_t uptime_ms, const bench_count *readings) {
  uint32_t sequence = board->next_sequence++;
  if (board->depth > 0) {
    board->held_next = (uint16_t)((board->held_next + 1u) % board->depth);
    uint8_t *held = slot(board, 1);
    memcpy(held, &uptime_ms, 4);
    memcpy(held + 4, readings, board->channels * sizeof *readings);
    if (board->held_count < board->depth) board->held_count++;
  }
  begin_scan(board, BENCH_TEXT("scan "), sequence, uptime_ms);
  put_readings(board, readings);
  end_line(board);
}

static void repeat_next(bench_board *board) {
  uint32_t sequence = board->resend_next++;
  board->resend_left--;
  uint32_t behind = board->next_sequence - sequence;
  if (behind > board->held_count) return; /* overwritten since it was requested */
  const uint8_t *held = slot(board, behind);
  uint32_t uptime;
  memcpy(&uptime, held, 4);
  begin_scan(board, BENCH_TEXT("again "), sequence, uptime);
  put_readings(board, held + 4);
  end_line(board);
}

bool bench_idle(bench_board *board) {
  if (board->describing) describe_on(board);
  else if (board->resend_left > 0) repeat_next(board);
  return board->describing || board->resend_left > 0;
}

/* ---- commands of the host ---- */

static void refuse(bench_board *board, bench_text command, bench_text reason) {
  begin_line(board, BENCH_TEXT("no "));
  bench_put_text(board, command);
  bench_put_char(board, ' ');
  bench_put_text(board, reason);
  end_line(board);
}

static void accept_with(bench_board *board, bench_text words) {
  begin_line(board, BENCH_TEXT("ok "));
  bench_put_text(board, words);
}

/* Parses a decimal uint32 at the end of the text or before a blank; returns the rest, NULL without a number. */
static const char *read_unsigned(const char *text, uint32_t *value) {
  if (text == NULL || *text < '0' || *text > '9') return NULL;
  *value = 0;
  while (*text >= '0' && *text <= '9') {
    uint8_t digit = (uint8_t)(*text++ - '0');
    if (*value > (0xFFFFFFFFu - digit) / 10) return NULL;
    *value = *value * 10 + digit;
  }
  if (*text == ' ') return text + 1;
  return *text == '\0' ? text : NULL;
}

/* Returns the text after `word`, or NULL when `text` begins with another word. */
static const char *after_word(const char *text, bench_text word) {
  for (char byte; (byte = (char)bench_flash_byte(word)) != '\0'; word++) {
    if (*text++ != byte) return NULL;
  }
  if (*text == '\0') return text;
  return *text == ' ' ? text + 1 : NULL;
}

static bool is_uuid(const char *text) {
  if (strlen(text) != 36) return false;
  for (uint8_t i = 0; i < 36; i++) {
    char c = text[i];
    bool dash = i == 8 || i == 13 || i == 18 || i == 23;
    if (dash ? c != '-' : !((c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'))) return false;
  }
  return true;
}

static void obey_identity(bench_board *board, const char *identity) {
  if (!is_uuid(identity)) {
    refuse(board, BENCH_TEXT("identity"), BENCH_TEXT("bad-argument"));
  } else if (!board->store_identity(identity)) {
    refuse(board, BENCH_TEXT("identity"), BENCH_TEXT("not-supported"));
  } else {
    memcpy(board->identity, identity, 37);
    accept_with(board, BENCH_TEXT("identity id="));
    put_identity(board);
    end_line(board);
  }
}

static void obey_period(bench_board *board, const char *text) {
  uint32_t wanted;
  const char *end = read_unsigned(text, &wanted);
  if (end == NULL || *end != '\0' || wanted < 10 || wanted > 3600000) {
    refuse(board, BENCH_TEXT("period"), BENCH_TEXT("bad-argument"));
    return;
  }
  board->period_ms = board->set_period(wanted);
  accept_with(board, BENCH_TEXT("period ms="));
  bench_put_unsigned(board, board->period_ms);
  end_line(board);
}

static void obey_resend(bench_board *board, const char *text) {
  uint32_t boot, from, to;
  const char *end = read_unsigned(read_unsigned(read_unsigned(text, &boot), &from), &to);
  if (end == NULL || *end != '\0') {
    refuse(board, BENCH_TEXT("resend"), BENCH_TEXT("bad-argument"));
    return;
  }
  if (boot != board->boot) {
    refuse(board, BENCH_TEXT("resend"), BENCH_TEXT("other-boot"));
    return;
  }
  /* All differences modulo 2^32. */
  uint32_t oldest = board->next_sequence - board->held_count;
  uint32_t count = to - from + 1;
  uint32_t behind = board->next_sequence - from; /* scans from FROM to the newest, if FROM is not in the future */
  bool future = behind == 0 || behind > 0x80000000u;
  if (!future && behind > board->held_count) {
    uint32_t gone = behind - board->held_count;
    count = gone >= count ? 0 : count - gone;
    from = oldest;
  }
  if (!future && count > board->next_sequence - from) count = board->next_sequence - from;
  if (board->held_count == 0 || future || count == 0) {
    begin_line(board, BENCH_TEXT("no resend not-held"));
    if (board->held_count > 0) {
      bench_put_text(board, BENCH_TEXT(" oldest="));
      bench_put_unsigned(board, oldest);
    }
    end_line(board);
    return;
  }
  accept_with(board, BENCH_TEXT("resend oldest="));
  bench_put_unsigned(board, oldest);
  end_line(board);
  board->resend_next = from;
  board->resend_left = count;
}

static void obey(bench_board *board, const char *text) {
  const char *rest;
  if ((rest = after_word(text, BENCH_TEXT("describe"))) != NULL && *rest == '\0') {
    /* A request during another description restarts it; both get an answer. */
    bench_start(board);
    if (board->describe_answers < UINT8_MAX) board->describe_answers++;
  } else if ((rest = after_word(text, BENCH_TEXT("identity"))) != NULL) {
    obey_identity(board, rest);
  } else if ((rest = after_word(text, BENCH_TEXT("period"))) != NULL) {
    obey_period(board, rest);
  } else if ((rest = after_word(text, BENCH_TEXT("resend"))) != NULL) {
    obey_resend(board, rest);
  } else if ((rest = after_word(text, BENCH_TEXT("blink"))) != NULL && *rest == '\0') {
    if (!board->blink()) {
      refuse(board, BENCH_TEXT("blink"), BENCH_TEXT("not-supported"));
      return;
    }
    accept_with(board, BENCH_TEXT("blink"));
    end_line(board);
  } else {
    refuse(board, BENCH_TEXT("?"), BENCH_TEXT("unknown-command"));
  }
}

/* Typed by hand: blanks before, after, and more than one between. */
static void squeeze_blanks(char *text) {
  char *out = text;
  for (const char *in = text; *in; in++) {
    if (*in != ' ' || (out > text && out[-1] != ' ')) *out++ = *in;
  }
  if (out > text && out[-1] == ' ') out--;
  *out = '\0';
}

/* Removes the checksum; false when there is one and it does not match. */
static bool checksum_fits(char *text) {
  uint32_t crc = 0xFFFFFFFFu;
  char *mark = text;
  for (; *mark && *mark != '~'; mark++) crc = bench_crc_add(crc, (uint8_t)*mark);
  if (*mark == '\0') {
    squeeze_blanks(text);
    return true;
  }
  crc ^= 0xFFFFFFFFu;
  for (uint8_t i = 0; i < 8; i++, crc <<= 4) {
    if (mark[1 + i] != hex_digit((uint8_t)(crc >> 28))) return false;
  }
  if (mark[9] != '\0' || mark == text || mark[-1] != ' ') return false;
  mark[-1] = '\0';
  return true;
}

void bench_receive(bench_board *board, char byte) {
  if (byte == '\r') return;
  if (byte != '\n') {
    /* One past the limit marks a line that is too long to be a command. */
    if (board->command_length < BENCH_MAX_COMMAND) board->command[board->command_length] = byte;
    if (board->command_length <= BENCH_MAX_COMMAND) board->command_length++;
    return;
  }
  uint8_t length = board->command_length;
  board->command_length = 0;
  if (length == 0) return;
  if (length > BENCH_MAX_COMMAND) {
    refuse(board, BENCH_TEXT("?"), BENCH_TEXT("unknown-command"));
    return;
  }
  board->command[length] = '\0';
  if (checksum_fits(board->command)) obey(board, board->command);
  else refuse(board, BENCH_TEXT("?"), BENCH_TEXT("bad-checksum"));
}
