#include "board.h"

#include <stddef.h>
#include <string.h>

/* ---- sending: everything goes through put_char, which keeps the checksum ---- */

static uint32_t crc_add(uint32_t crc, char byte) {
  crc ^= (uint8_t)byte;
  for (uint8_t bit = 0; bit < 8; bit++) crc = (crc & 1) ? (crc >> 1) ^ 0xEDB88320u : crc >> 1;
  return crc;
}

static void put_char(bench_board *board, char byte) {
  board->crc = crc_add(board->crc, byte);
  board->put(byte);
}

static void put_text(bench_board *board, const char *text) {
  while (*text) put_char(board, *text++);
}

static void put_unsigned(bench_board *board, uint32_t value) {
  char digits[10];
  uint8_t count = 0;
  do digits[count++] = (char)('0' + value % 10);
  while (value /= 10);
  while (count) put_char(board, digits[--count]);
}

static void put_reading(bench_board *board, int32_t value) {
  static const char *const faults[] = {"open", "short-to-ground", "short-to-supply", "out-of-range", "no-answer", "other"};
  if (value <= BENCH_OTHER) {
    put_text(board, faults[(uint32_t)value - (uint32_t)BENCH_OPEN]);
    return;
  }
  if (value < 0) put_char(board, '-');
  put_unsigned(board, value < 0 ? 0u - (uint32_t)value : (uint32_t)value);
}

static void begin_line(bench_board *board, const char *words) {
  board->crc = 0xFFFFFFFFu;
  put_text(board, words);
}

static void put_hex_digit(bench_board *board, uint8_t value) {
  board->put((char)(value < 10 ? '0' + value : 'A' + value - 10));
}

static void end_line(bench_board *board) {
  put_char(board, ' ');
  uint32_t crc = board->crc ^ 0xFFFFFFFFu;
  board->put('~');
  for (int8_t shift = 28; shift >= 0; shift -= 4) put_hex_digit(board, (uint8_t)((crc >> shift) & 0xF));
  board->put('\n');
}

/* ---- what the board says ---- */

void bench_start(bench_board *board) {
  begin_line(board, "hello protocol=1 id=");
  put_text(board, board->identity[0] ? board->identity : "none");
  put_text(board, " boot=");
  put_unsigned(board, board->boot);
  put_text(board, " name=");
  put_text(board, board->name);
  put_text(board, " firmware=");
  put_text(board, board->firmware);
  put_text(board, " depth=");
  put_unsigned(board, board->depth);
  put_text(board, " period=");
  put_unsigned(board, board->period_ms);
  put_text(board, " channels=");
  put_unsigned(board, board->channels);
  end_line(board);
  for (uint8_t i = 0; i < board->channels; i++) {
    begin_line(board, "channel index=");
    put_unsigned(board, (uint32_t)i + 1);
    put_char(board, ' ');
    put_text(board, board->channel_lines[i]);
    end_line(board);
  }
}

/* Where scan `sequence` is held. */
static int32_t *slot(bench_board *board, uint32_t sequence) {
  return board->held + (size_t)(sequence % board->depth) * (board->channels + 1u);
}

static void send_scan(bench_board *board, const char *word, uint32_t sequence, uint32_t uptime, const int32_t *readings) {
  begin_line(board, word);
  put_unsigned(board, board->boot);
  put_char(board, ' ');
  put_unsigned(board, sequence);
  put_char(board, ' ');
  put_unsigned(board, uptime);
  for (uint8_t i = 0; i < board->channels; i++) {
    put_char(board, ' ');
    put_reading(board, readings[i]);
  }
  end_line(board);
}

void bench_scan(bench_board *board, uint32_t uptime_ms, const int32_t *readings) {
  uint32_t sequence = board->next_sequence++;
  if (board->depth > 0) {
    int32_t *held = slot(board, sequence);
    memcpy(held, &uptime_ms, sizeof *held);
    memcpy(held + 1, readings, board->channels * sizeof *held);
    if (board->held_count < board->depth) board->held_count++;
  }
  send_scan(board, "scan ", sequence, uptime_ms, readings);
}

bool bench_idle(bench_board *board) {
  if (board->resend_left == 0) return false;
  uint32_t sequence = board->resend_next++;
  board->resend_left--;
  /* New scans may have pushed it out since it was asked for. */
  if (board->next_sequence - sequence <= board->held_count) {
    int32_t *held = slot(board, sequence);
    uint32_t uptime;
    memcpy(&uptime, held, sizeof uptime);
    send_scan(board, "again ", sequence, uptime, held + 1);
  }
  return board->resend_left > 0;
}

/* ---- what the host says ---- */

static void refuse(bench_board *board, const char *command, const char *reason) {
  begin_line(board, "no ");
  put_text(board, command);
  put_char(board, ' ');
  put_text(board, reason);
  end_line(board);
}

static void accept_with(bench_board *board, const char *words) {
  begin_line(board, "ok ");
  put_text(board, words);
}

/* Reads a decimal uint32 that ends the text or is followed by a blank; returns what follows, NULL if there is none. */
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

/* What follows `word` in `text`, or NULL when that is another word. */
static const char *after_word(const char *text, const char *word) {
  size_t length = strlen(word);
  if (strncmp(text, word, length) != 0) return NULL;
  if (text[length] == '\0') return text + length;
  return text[length] == ' ' ? text + length + 1 : NULL;
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
    refuse(board, "identity", "bad-argument");
  } else if (!board->store_identity(identity)) {
    refuse(board, "identity", "not-supported");
  } else {
    memcpy(board->identity, identity, 37);
    accept_with(board, "identity id=");
    put_text(board, board->identity);
    end_line(board);
  }
}

static void obey_period(bench_board *board, const char *text) {
  uint32_t wanted;
  const char *end = read_unsigned(text, &wanted);
  if (end == NULL || *end != '\0' || wanted < 10 || wanted > 3600000) {
    refuse(board, "period", "bad-argument");
    return;
  }
  board->period_ms = board->set_period(wanted);
  accept_with(board, "period ms=");
  put_unsigned(board, board->period_ms);
  end_line(board);
}

static void obey_resend(bench_board *board, const char *text) {
  uint32_t boot, from, to;
  const char *end = read_unsigned(read_unsigned(read_unsigned(text, &boot), &from), &to);
  if (end == NULL || *end != '\0') {
    refuse(board, "resend", "bad-argument");
    return;
  }
  if (boot != board->boot) {
    refuse(board, "resend", "other-boot");
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
    begin_line(board, "no resend not-held");
    if (board->held_count > 0) {
      put_text(board, " oldest=");
      put_unsigned(board, oldest);
    }
    end_line(board);
    return;
  }
  accept_with(board, "resend oldest=");
  put_unsigned(board, oldest);
  end_line(board);
  board->resend_next = from;
  board->resend_left = count;
}

static void obey(bench_board *board, const char *text) {
  const char *rest;
  if ((rest = after_word(text, "describe")) != NULL && *rest == '\0') {
    bench_start(board);
    accept_with(board, "describe");
    end_line(board);
  } else if ((rest = after_word(text, "identity")) != NULL) {
    obey_identity(board, rest);
  } else if ((rest = after_word(text, "period")) != NULL) {
    obey_period(board, rest);
  } else if ((rest = after_word(text, "resend")) != NULL) {
    obey_resend(board, rest);
  } else if ((rest = after_word(text, "blink")) != NULL && *rest == '\0') {
    if (!board->blink()) {
      refuse(board, "blink", "not-supported");
      return;
    }
    accept_with(board, "blink");
    end_line(board);
  } else {
    refuse(board, "?", "unknown-command");
  }
}

/* Cuts the checksum off; false when there is one and it does not fit. */
static bool checksum_fits(char *text) {
  uint32_t crc = 0xFFFFFFFFu;
  char *mark = text;
  for (; *mark && *mark != '~'; mark++) crc = crc_add(crc, *mark);
  if (*mark == '\0') {
    /* Typed by hand. */
    while (mark > text && mark[-1] == ' ') *--mark = '\0';
    return true;
  }
  crc ^= 0xFFFFFFFFu;
  for (uint8_t i = 0; i < 8; i++) {
    uint8_t value = (uint8_t)((crc >> (28 - 4 * i)) & 0xF);
    if (mark[1 + i] != (char)(value < 10 ? '0' + value : 'A' + value - 10)) return false;
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
    refuse(board, "?", "unknown-command");
    return;
  }
  board->command[length] = '\0';
  if (checksum_fits(board->command)) obey(board, board->command);
  else refuse(board, "?", "bad-checksum");
}
