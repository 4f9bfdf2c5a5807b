/** Burn records made by hand from round numbers, so that every result can be computed on paper. Invented data. */
import type { BurnRecord, Channel, FuelLot, Scale } from '../../../shared/contract/burn-record.ts';
import type { Mark } from '../../../shared/contract/marks.ts';
import type { Weighing } from '../../../shared/contract/weighings.ts';

export function id(number: number): string {
  return `00000000-0000-7000-8000-${String(number).padStart(12, '0')}`;
}

type WithoutId<T> = T extends unknown ? Omit<T, 'id'> : never;

export interface HandMadeBurn {
  /** Water temperature as every water probe reads it. */
  readonly waterC: (elapsedS: number) => number;
  readonly fromS: number;
  readonly toS: number;
  readonly everyS: number;
  readonly channels: readonly Channel[];
  /** What one channel reads instead; null for a fault. */
  readonly reads?: (channel: Channel, elapsedS: number) => number | null;
  readonly marks: readonly WithoutId<Mark>[];
  readonly weighings: readonly WithoutId<Weighing>[];
  readonly record?: Partial<BurnRecord>;
}

export const exactScale: Scale = {
  id: id(900),
  name: 'exact scale',
  standardUncertaintyKg: 1e-6,
  gainStandardUncertainty: 1e-9,
  zeroStandardUncertaintyKg: 1e-9,
};

export const calibratedProbe: Channel = {
  id: id(100),
  boardId: id(50),
  index: 0,
  name: 'water',
  role: 'water',
  unit: 'Cel',
  scale: 0.001,
  timeConstantS: 1e-3,
  calibration: { version: 1, method: 'icePointAndBoilingPoint', offset: 0, gain: 1, standardUncertainty: 0.05 },
};

export const secondProbe: Channel = {
  ...calibratedProbe,
  id: id(101),
  index: 1,
  name: 'water, high',
  position: 'high',
};

export const dryWood: FuelLot = {
  id: id(300),
  name: 'beech',
  kind: 'wood',
  moisture: { fraction: 0.15, basis: 'wet', how: 'ovenDry', standardUncertainty: 0.01 },
  heatingValue: { MJPerKg: 18.5, basis: 'netDry', standardUncertaintyMJPerKg: 0.3 },
  charMJPerKg: 29.5,
  standardUncertaintyCharMJPerKg: 1,
};

/** 100 kPa: water boils at 99.606 °C (IAPWS-IF97). */
export const place = { id: id(200), name: 'yard', stationPressurePa: 100_000, standardUncertaintyPa: 50 };

/** Straight up from 20 °C at 1 K/min from lit (at 300 s) until it meets a ceiling. */
export function ramp(ceilingC: number, rateKPerMin = 1, litS = 300, startC = 20): (elapsedS: number) => number {
  return (elapsedS) => Math.min(ceilingC, startC + Math.max(0, elapsedS - litS) * (rateKPerMin / 60));
}

export const mark = (kind: Mark['kind'], elapsedS: number, more: object = {}): WithoutId<Mark> =>
  ({ kind, elapsedUs: Math.round(elapsedS * 1e6), standardUncertaintyS: 1, ...more }) as WithoutId<Mark>;

export function makeBurn(burn: HandMadeBurn): BurnRecord {
  const scans = Math.floor((burn.toS - burn.fromS) / burn.everyS) + 1;
  const timesS = Array.from({ length: scans }, (_, scan) => burn.fromS + scan * burn.everyS);
  const read = burn.reads ?? ((_channel: Channel, elapsedS: number) => burn.waterC(elapsedS));
  return {
    format: 'stovebench-burn-record',
    version: 1,
    id: id(1),
    title: 'by hand',
    origin: 'enteredByHand',
    status: 'complete',
    methodSet: 'bench-1',
    primaryResult: 'dryWoodPerBatch',
    startKind: 'cold',
    airTempC: 20,
    target: { kind: 'boil' },
    place,
    fuelLots: [dryWood],
    scales: [exactScale],
    channels: [...burn.channels],
    readings: [
      {
        boardId: id(50),
        elapsedUs: timesS.map((elapsedS) => Math.round(elapsedS * 1e6)),
        columns: burn.channels.map((channel) => ({
          channelId: channel.id,
          counts: timesS.map((elapsedS) => {
            const value = read(channel, elapsedS);
            return value === null ? null : Math.round(value / channel.scale);
          }),
        })),
      },
    ],
    marks: burn.marks.map((item, at) => ({ ...item, id: id(1000 + at) }) as Mark),
    weighings: burn.weighings.map((item, at) => ({ ...item, id: id(2000 + at) }) as Weighing),
    ...burn.record,
  };
}

/**
 * The burn most tests start from: 20 kg of water, lit at 300 s, heated at 1 K/min to the boil, fire out at 120 min; 5
 * kg of wood carried, 1 kg returned, 0.1 kg of char, 1 kg of water gone.
 */
export const plainBurn: HandMadeBurn = {
  waterC: ramp(99.5),
  fromS: 0,
  toS: 7800,
  everyS: 1,
  channels: [calibratedProbe],
  marks: [
    mark('lit', 300),
    mark('fed', 310, { massKg: 1 }),
    mark('fed', 1800, { massKg: 1 }),
    mark('fed', 3600, { massKg: 1 }),
    mark('fed', 5400, { massKg: 1 }),
    mark('fireOut', 7500),
  ],
  weighings: [
    { of: 'fuelPile', when: 'start', massKg: 5 },
    { of: 'fuelPile', when: 'end', massKg: 1 },
    { of: 'char', when: 'end', massKg: 0.1, standardUncertaintyKg: 0.005 },
    { of: 'water', when: 'start', massKg: 20, tempC: 20 },
    { of: 'water', when: 'end', massKg: 19, tempC: 99.5, lidOn: true },
  ],
};
