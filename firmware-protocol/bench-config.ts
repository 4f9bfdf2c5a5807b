/** Reads the configuration header of a board (firmware/examples), from which drawings and simulations are made. */

export type ProbeKind = 'THERMOCOUPLE_14' | 'THERMOCOUPLE_19' | 'TERMINALS' | 'ONE_WIRE' | 'ANALOGUE' | 'LOAD_CELL';

export interface ConfiguredProbe {
  kind: ProbeKind;
  /** As numbered on boards with an ATmega328P, 14 to 19 being A0 to A5; null for a channel without a pin of its own. */
  pin: number | null;
  /** Letter of the thermocouple; null for other probes. */
  type: string | null;
  label: string;
}

export interface BoardConfig {
  name: string;
  probes: ConfiguredProbe[];
  /** Pin of the load cell's clock; null without a load cell. */
  loadCellClockPin: number | null;
}

/**
 * Reads a `bench-config.h`.
 * @throws SyntaxError for a header without probes
 */
export function readBoardConfig(header: string): BoardConfig {
  const code = header.replace(/\/\*[\s\S]*?\*\//g, '');
  const probes = [...code.matchAll(/probe\(\s*(\w+)\s*,\s*(\w+)\s*,\s*(\w+)\s*,\s*"([^"]*)"\s*\)/g)].map(
    ([, kind, pin, type, label]): ConfiguredProbe => ({
      kind: kind as ProbeKind,
      pin: pinOf(pin),
      type: type === 'NONE' ? null : type!,
      label: label!,
    }),
  );
  if (probes.length === 0) throw new SyntaxError('This header names no probes.');
  return {
    name: /BENCH_NAME\s+"([^"]*)"/.exec(code)?.[1] ?? '',
    probes,
    loadCellClockPin: pinOf(/BENCH_LOAD_CELL_CLOCK_PIN\s+(\w+)/.exec(code)?.[1]),
  };
}

function pinOf(text: string | undefined): number | null {
  const pin = Number(text);
  return Number.isInteger(pin) ? pin : null;
}
