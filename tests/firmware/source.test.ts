import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { configOf } from '../../scripts/avr-board/board.ts';
import { firmwareOf } from '../../server/flashing/firmware-files.ts';
import type { FirmwareName } from '../../shared/contract/flashing.ts';

const firmware = join(import.meta.dirname, '../../firmware-protocol/firmware');

test('The scale of an amplifier of the 14-bit kind is a sixteenth of its sensitivity, the chord of the NIST tables', () => {
  // NIST Monograph 175 (ITS-90), reference functions of thermocouples with the other end at 0 °C: mV at this temperature.
  const published: Record<string, [millivolts: number, tempC: number]> = {
    K: [41.276, 1000],
    J: [57.953, 1000],
    N: [36.256, 1000],
    T: [20.872, 400],
    E: [76.373, 1000],
    S: [9.587, 1000],
    R: [10.506, 1000],
  };
  const source = readFileSync(join(firmware, 'src/amplifier-14.c'), 'utf8');
  const [scales, resolutions] = ['scale', 'resolution'].map((name) => {
    const body = new RegExp(`bench_text bench_amplifier_14_${name}\\(char type\\) \\{([^}]*)\\}`).exec(source)![1]!;
    const cases = [...body.matchAll(/(?:case '(\w)'|default): return BENCH_TEXT\("([\d.]+)"\)/g)];
    return Object.fromEntries(cases.map(([, type, value]) => [type ?? 'R', Number(value)]));
  });
  expect(Object.keys(scales!).sort()).toEqual(Object.keys(published).sort());
  for (const [type, [millivolts, tempC]] of Object.entries(published)) {
    const microvoltsPerK = (millivolts * 1000) / tempC;
    expect(scales![type], type).toBeCloseTo(microvoltsPerK / 16, 6);
    expect(resolutions![type], type).toBeCloseTo(microvoltsPerK / 4, 5);
  }
});

test('The sizes and depths in the description of the firmware are those of the hex files', () => {
  const text = readFileSync(join(firmware, 'README.md'), 'utf8');
  const rows = [...text.matchAll(/^\| `(bench-board-\w+)\.hex` \|.*\| ([\d,]+) \| ([\d,]+) \| (\d+) \|$/gm)];
  expect(rows.length).toBe(3);
  for (const [, name, flashBytes, , heldScans] of rows) {
    expect(Number(flashBytes!.replace(',', '')), name).toBe(firmwareOf(name as FirmwareName).length);
    const { probes } = configOf(name as FirmwareName);
    expect(Number(heldScans), name).toBe(Math.floor(1200 / (4 + 2 * probes.length)));
  }
});
