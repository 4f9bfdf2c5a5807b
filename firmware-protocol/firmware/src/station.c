#include "station.h"

#include "amplifier-14.h"
#include "amplifier-19.h"
#include "hardware.h"
#include "load-cell.h"
#include "memory.h"
#include "one-wire-probe.h"

#ifdef __AVR__
#define copy_from_flash memcpy_P
#else
#include <string.h>
#define copy_from_flash memcpy
#endif

#define FIRMWARE_VERSION "1.0.0"
#define FIRST_PERIOD_MS 1000u
#define BLINK_MS 5000u
#define BLINK_HALF_MS 250u
/* Time of the first conversion of the 19-bit kind after setup, with detection of an open thermocouple, and a margin. */
#define AMPLIFIER_19_FIRST_MS 250u
/* Shortest period: two readings of one conversion would be the same reading. */
#define AMPLIFIER_LEAST_PERIOD_MS 120u
#define LOAD_CELL_LEAST_PERIOD_MS 220u
#define ONE_WIRE_LEAST_PERIOD_MS 900u

static const bench_configuration *bench;
static bench_board board;
static uint32_t last_scan_ms, blink_from_ms;
static bool blinking;
/* When each amplifier of the 19-bit kind was last set up. */
static uint32_t set_up_ms[BENCH_MAX_PROBES];

static bench_probe probe_at(uint8_t index) {
  bench_probe probe;
  copy_from_flash(&probe, &bench->probes[index], sizeof probe);
  return probe;
}

static uint8_t kind_at(uint8_t index) { return bench_flash_byte(&bench->probes[index].kind); }

/* ---- the words that describe the probes ---- */

static uint8_t terminals_index(void) {
  uint8_t index = 0;
  while (index < bench->count && kind_at(index) != BENCH_KIND_TERMINALS) index++;
  return index;
}

static void describe_channel(bench_board *of, uint8_t channel) {
  bench_probe probe = probe_at(channel);
  switch (probe.kind) {
    case BENCH_KIND_THERMOCOUPLE_14:
      bench_put_text(of, BENCH_TEXT("quantity=temperature unit=uV form=thermocouple-uv scale="));
      bench_put_text(of, bench_amplifier_14_scale(probe.type));
      bench_put_text(of, BENCH_TEXT(" resolution="));
      bench_put_text(of, bench_amplifier_14_resolution(probe.type));
      bench_put_text(of, BENCH_TEXT(" cold="));
      bench_put_unsigned(of, terminals_index() + 1u);
      bench_put_text(of, BENCH_TEXT(" probe=thermocouple-"));
      bench_put_char(of, probe.type);
      break;
    case BENCH_KIND_THERMOCOUPLE_19:
      bench_put_text(of, BENCH_TEXT("quantity=temperature unit=Cel form=value scale=0.0625 resolution=0.0625 probe=thermocouple-"));
      bench_put_char(of, probe.type);
      break;
    case BENCH_KIND_ANALOGUE:
      bench_put_text(of, BENCH_TEXT("quantity=fraction unit=1 form=value scale=6.103515625e-5 resolution=0.0009765625 probe=analogue"));
      break;
    case BENCH_KIND_LOAD_CELL:
      bench_put_text(of, BENCH_TEXT("quantity=mass unit=kg form=value scale="));
      bench_put_text(of, bench->load_cell_kg_per_count);
      bench_put_text(of, BENCH_TEXT(" resolution="));
      bench_put_text(of, bench->load_cell_kg_per_count);
      bench_put_text(of, BENCH_TEXT(" probe=load-cell"));
      break;
    default: /* terminals, one-wire */
      bench_put_text(of, BENCH_TEXT("quantity=temperature unit=Cel form=value scale=0.0625 resolution=0.0625 probe=digital"));
      break;
  }
  bench_put_text(of, BENCH_TEXT(" label="));
  bench_put_text(of, bench->probes[channel].label);
}

/* ---- reading ---- */

static bench_count read_19(uint8_t index, const bench_probe *probe, uint32_t now_ms) {
  uint8_t registers[BENCH_AMPLIFIER_19_REGISTERS];
  bool settled = bench_amplifier_19_read(probe->pin, registers);
  if (!bench_amplifier_19_is_set_up(registers, probe->type, bench->mains_hz)) {
    /* It is missing, or a dip of its supply reset it: it has no reading until it has converted. */
    bench_amplifier_19_set_up(probe->pin, probe->type, bench->mains_hz);
    set_up_ms[index] = now_ms;
    return BENCH_NO_ANSWER;
  }
  if (now_ms - set_up_ms[index] < AMPLIFIER_19_FIRST_MS) return BENCH_NO_ANSWER;
  return settled ? bench_amplifier_19_decode(registers) : BENCH_OTHER;
}

static bench_count read_analogue(uint8_t pin) {
  uint16_t sum = 0;
  for (uint8_t i = 0; i < 16; i++) sum = (uint16_t)(sum + hardware_analogue(pin));
  if (sum == 0) return BENCH_SHORT_TO_GROUND;
  return sum == 16u * 1023u ? BENCH_SHORT_TO_SUPPLY : (bench_count)sum;
}

/*
 * The 14-bit kind names one cold junction for the whole board: that of the first amplifier that responds. The
 * difference of another amplifier's own is added to its voltage, so a lost amplifier does not affect other readings.
 */
static void read_all_14(bench_count *readings) {
  bool cold_known = false;
  int16_t cold_16 = 0;
  for (uint8_t i = 0; i < bench->count; i++) {
    if (kind_at(i) != BENCH_KIND_THERMOCOUPLE_14) continue;
    bench_amplifier_14 reading = bench_amplifier_14_read(bench_flash_byte(&bench->probes[i].pin));
    if (reading.cold_known && !cold_known) {
      cold_known = true;
      cold_16 = reading.cold_16;
    }
    readings[i] = reading.fault ? reading.fault : bench_amplifier_14_voltage(&reading, cold_16);
  }
  uint8_t terminals = terminals_index();
  if (terminals < bench->count) readings[terminals] = cold_known ? cold_16 : BENCH_NO_ANSWER;
}

static void read_all(bench_count *readings, uint32_t now_ms) {
  read_all_14(readings);
  for (uint8_t i = 0; i < bench->count; i++) {
    bench_probe probe = probe_at(i);
    switch (probe.kind) {
      case BENCH_KIND_THERMOCOUPLE_19: readings[i] = read_19(i, &probe, now_ms); break;
      case BENCH_KIND_ONE_WIRE: readings[i] = bench_one_wire_read(probe.pin); break;
      case BENCH_KIND_ANALOGUE: readings[i] = read_analogue(probe.pin); break;
      case BENCH_KIND_LOAD_CELL: readings[i] = bench_load_cell_read(probe.pin, bench->load_cell_clock_pin); break;
      default: break;
    }
    hardware_alive();
  }
}

/* Probes that convert on request start now, to be ready at the next scan. */
static void start_conversions(void) {
  for (uint8_t i = 0; i < bench->count; i++) {
    if (kind_at(i) == BENCH_KIND_ONE_WIRE) bench_one_wire_convert(bench_flash_byte(&bench->probes[i].pin));
  }
}

/* ---- the functions that the board calls ---- */

static uint32_t set_period(uint32_t wanted_ms) {
  uint32_t least = AMPLIFIER_LEAST_PERIOD_MS;
  for (uint8_t i = 0; i < bench->count; i++) {
    uint8_t kind = kind_at(i);
    if (kind == BENCH_KIND_ONE_WIRE) least = ONE_WIRE_LEAST_PERIOD_MS;
    else if (kind == BENCH_KIND_LOAD_CELL && least < LOAD_CELL_LEAST_PERIOD_MS) least = LOAD_CELL_LEAST_PERIOD_MS;
  }
  return wanted_ms < least ? least : wanted_ms;
}

static bool blink(void) {
  blinking = true;
  blink_from_ms = hardware_milliseconds();
  return true;
}

static void blink_on(uint32_t now_ms) {
  if (!blinking) return;
  uint32_t since = now_ms - blink_from_ms;
  blinking = since < BLINK_MS;
  hardware_pin_output(bench->lamp_pin, blinking && since / BLINK_HALF_MS % 2 == 0);
}

/* ---- the two functions of the sketch ---- */

/* Before the first transfer no amplifier may be selected. */
static void set_pins(void) {
  for (uint8_t i = 0; i < bench->count; i++) {
    uint8_t pin = bench_flash_byte(&bench->probes[i].pin);
    switch (kind_at(i)) {
      case BENCH_KIND_THERMOCOUPLE_14:
      case BENCH_KIND_THERMOCOUPLE_19: hardware_pin_output(pin, true); break;
      case BENCH_KIND_ONE_WIRE:
      case BENCH_KIND_LOAD_CELL: hardware_pin_input(pin); break;
      default: break;
    }
  }
  if (bench->load_cell_clock_pin != BENCH_NO_PIN) hardware_pin_output(bench->load_cell_clock_pin, false);
}

void bench_setup(const bench_configuration *configuration) {
  bench = configuration;
  set_pins();
  hardware_start();
  board.name = bench->name;
  board.firmware = BENCH_TEXT(FIRMWARE_VERSION);
  board.channels = bench->count;
  board.depth = bench->depth;
  board.held = bench->held;
  board.period_ms = set_period(FIRST_PERIOD_MS);
  board.put = hardware_put;
  board.describe_channel = describe_channel;
  board.store_identity = bench_memory_store_identity;
  board.set_period = set_period;
  board.blink = blink;
  bench_memory_identity(board.identity);
  board.boot = bench_memory_next_boot();
  for (uint8_t i = 0; i < bench->count; i++) {
    bench_probe probe = probe_at(i);
    if (probe.kind == BENCH_KIND_THERMOCOUPLE_19) bench_amplifier_19_set_up(probe.pin, probe.type, bench->mains_hz);
  }
  start_conversions();
  last_scan_ms = hardware_milliseconds();
  bench_start(&board);
}

void bench_loop(void) {
  hardware_alive();
  for (int16_t byte; (byte = hardware_get()) >= 0;) bench_receive(&board, (char)byte);
  uint32_t now_ms = hardware_milliseconds();
  blink_on(now_ms);
  if (now_ms - last_scan_ms >= board.period_ms) {
    /* Counted from the last one, so that the period does not depend on the duration of reading. */
    last_scan_ms += board.period_ms;
    if (now_ms - last_scan_ms >= board.period_ms) last_scan_ms = now_ms;
    bench_count readings[BENCH_MAX_PROBES];
    read_all(readings, now_ms);
    bench_scan(&board, now_ms, readings);
    start_conversions();
  } else if (!bench_idle(&board)) {
    hardware_sleep();
  }
}
