import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type BoardConfig, readBoardConfig } from '../../firmware-protocol/bench-config.ts';
import { firmwareOf } from '../../server/flashing/firmware-files.ts';
import type { FirmwareName } from '../../shared/contract/flashing.ts';
import type { ThermocoupleType } from '../../shared/physics/thermocouple.ts';
import { Amplifier14 } from './amplifier-14.ts';
import { Amplifier19 } from './amplifier-19.ts';
import { LoadCell } from './load-cell.ts';
import { Microcontroller } from './microcontroller.ts';
import { OneWireProbe } from './one-wire-probe.ts';

const examples = join(import.meta.dirname, '../../firmware-protocol/firmware/examples');

export function configOf(name: FirmwareName): BoardConfig {
  return readBoardConfig(readFileSync(join(examples, name, 'bench-config.h'), 'utf8'));
}

/** A microcontroller with the chips on its pins that a configuration header names. */
export type AvrBoard = ReturnType<typeof createAvrBoard>;

/** @param contents `program`: the flash contains the firmware; `boot loader`: only the boot loader */
export function createAvrBoard(name: FirmwareName, contents: 'program' | 'boot loader' = 'program') {
  const chip = new Microcontroller();
  const config = configOf(name);
  const of = (kind: string) => config.probes.filter((probe) => probe.kind === kind);
  const amplifiers14 = of('THERMOCOUPLE_14').map(
    ({ pin, type }) => new Amplifier14(chip, pin!, type as ThermocoupleType),
  );
  const amplifiers19 = of('THERMOCOUPLE_19').map(({ pin }) => new Amplifier19(chip, pin!));
  const oneWire = of('ONE_WIRE').map(({ pin }) => new OneWireProbe(chip, pin!));
  const [cell] = of('LOAD_CELL');
  const loadCell = cell ? new LoadCell(chip, cell.pin!, config.loadCellClockPin!) : null;
  if (contents === 'program') chip.load(firmwareOf(name));
  else {
    chip.load(firmwareOf('boot-loader'));
    chip.bootSection = true;
  }
  chip.reset('power');
  return {
    chip,
    config,
    amplifiers14,
    amplifiers19,
    oneWire,
    loadCell,
    /** Advances the chip's own time. */
    run(us: number): void {
      for (let left = us; left > 0; left -= 10_000) {
        loadCell?.tick();
        chip.run(Math.min(left, 10_000));
      }
    },
  };
}
