/** A dozen burns that together take every path of the analysis. Simulated or made by hand; invented data. */
import { toBurnRecord } from '../../../server/simulator/burn-record.ts';
import { heronBurns } from '../../../server/simulator/heron.ts';
import { simulateBurn } from '../../../server/simulator/simulate-burn.ts';
import type { BurnRecord, Channel } from '../../../shared/contract/burn-record.ts';
import {
  calibratedProbe,
  dryWood,
  id,
  makeBurn,
  mark,
  place,
  plainBurn,
  ramp,
  secondProbe,
} from '../support/hand-made-burn.ts';

const sideChannel = (number: number, role: Channel['role'], more: Partial<Channel> = {}): Channel => ({
  id: id(number),
  boardId: id(50),
  index: number,
  name: role,
  role,
  unit: 'Cel',
  scale: 0.01,
  ...more,
});

const holding = { hold: { durationS: 1800, onDrop: 'pause' as const } };
/** A scan every five seconds, so that the records are small. */
const sparse = { ...plainBurn, everyS: 5 };

function simulated(number: number): BurnRecord {
  const { scenario, seed, errors, description } = heronBurns()[number]!;
  const slower = { ...scenario, timing: { ...scenario.timing, readingEveryS: 5 } };
  return toBurnRecord(simulateBurn(slower, seed, errors), description);
}

/**
 * Two probes of which one drops out for a while, weighed on scales without a stated uncertainty, with moisture on dry
 * basis.
 */
function littleStated(): BurnRecord {
  const probe = (channel: Channel): Channel => {
    const { calibration: _calibration, timeConstantS: _timeConstant, ...rest } = channel;
    return { ...rest, probe: { kind: 'resistance', nominalOhm: 100 } };
  };
  const low = probe(calibratedProbe);
  const high = probe(secondProbe);
  return makeBurn({
    ...sparse,
    channels: [low, high],
    reads: (channel, atS) =>
      channel.id === high.id
        ? atS > 2000 && atS < 2200
          ? null
          : ramp(99.6)(atS) + Math.min(1.2, Math.max(0, atS - 300) / 1000)
        : ramp(99.4)(atS),
    marks: sparse.marks.map(({ standardUncertaintyS: _u, ...rest }) => rest),
    weighings: [
      { of: 'fuelPile', when: 'start', massKg: 5 },
      { of: 'fuelPile', when: 'end', massKg: 1 },
      { of: 'brands', when: 'end', massKg: 0.3 },
      { of: 'char', when: 'end', massKg: 0.1 },
      { of: 'char', when: 'start', massKg: 0.02 },
      { of: 'water', when: 'start', volumeL: 20 },
      { of: 'water', when: 'end', massKg: 18.6, tempC: 80 },
    ],
    record: {
      scales: [],
      fuelLots: [
        {
          id: id(300),
          name: 'ash',
          kind: 'wood',
          species: 'ash',
          moisture: { fraction: 0.2, basis: 'dry', how: 'meter' },
        },
      ],
      place: { id: id(200), name: 'yard', altitudeM: 300 },
      ...holding,
    },
  });
}

/** No marks: lit and fire out follow from the riser, the boiling point from a plateau. */
function nothingMarked(): BurnRecord {
  const riser = sideChannel(120, 'riser');
  return makeBurn({
    ...sparse,
    waterC: (atS) => (atS < 7500 ? ramp(97.3)(atS) : 97.3 - (atS - 7500) / 200),
    toS: 9000,
    channels: [calibratedProbe, riser],
    reads: (channel, atS) =>
      channel.role === 'riser'
        ? 20 + (atS < 300 ? 0 : atS < 7500 ? 600 : 600 * Math.exp(-(atS - 7500) / 400))
        : atS < 7500
          ? ramp(97.3)(atS)
          : 97.3 - (atS - 7500) / 200,
    marks: [],
    weighings: sparse.weighings.filter(({ of }) => of !== 'char'),
    record: { place: { id: id(200), name: 'somewhere' } },
  });
}

/** Thermocouples with the cold junction of their board, flue gas, a stove body, and a pressure sensor. */
function manyChannels(): BurnRecord {
  const { calibration: _calibration, ...bare } = calibratedProbe;
  const coldJunction = sideChannel(130, 'coldJunction', { standardUncertainty: 0.4 });
  const thermocouple = (number: number): Channel => ({
    ...bare,
    id: id(number),
    index: number,
    name: `water ${number}`,
    probe: { kind: 'thermocouple', type: 'K' },
    coldJunctionChannelId: coldJunction.id,
    timeConstantS: 4,
  });
  const values: Readonly<Partial<Record<Channel['role'], (atS: number) => number>>> = {
    coldJunction: () => 22,
    ambient: (atS) => 14 + atS / 3600,
    flue: (atS) => (atS > 300 ? 180 + 20 * Math.sin(atS / 300) : 15),
    oxygen: () => 14,
    body: (atS) => 20 + Math.min(150, Math.max(0, atS - 300) / 20),
    stationPressure: () => 98_400,
  };
  return makeBurn({
    ...sparse,
    channels: [
      thermocouple(101),
      thermocouple(102),
      coldJunction,
      sideChannel(131, 'ambient'),
      sideChannel(132, 'flue'),
      sideChannel(133, 'oxygen', { unit: '%' }),
      sideChannel(134, 'body'),
      sideChannel(135, 'body'),
      sideChannel(136, 'stationPressure', { unit: 'Pa', scale: 1 }),
    ],
    reads: ({ role }, atS) => values[role]?.(atS) ?? ramp(99.1)(atS),
    record: { revision: { id: id(600), name: '1', stoveId: id(601), stoveName: 'Heron', bodyMassKg: 12 } as never },
  });
}

/** Water and goods moved, contents, one of known shape, a vessel, kindling, char to be weighed later. */
function movedLoad(): BurnRecord {
  const kindling = { id: id(301), name: 'kindling', kind: 'kindling' as const };
  return makeBurn({
    ...sparse,
    channels: [calibratedProbe, secondProbe],
    marks: [
      ...sparse.marks,
      mark('potOn', 600),
      mark('waterIn', 6000, { massKg: 2, tempC: 15 }),
      mark('waterOut', 4000, { massKg: 1, tempC: 80 }),
      mark('goodsIn', 700, { massKg: 1.5, tempC: 15 }),
      mark('goodsOut', 7000, { massKg: 0.4, tempC: 90 }),
    ],
    weighings: [
      { of: 'fuelPile', when: 'start', massKg: 5 },
      { of: 'fuelPile', when: 'end', massKg: 1 },
      { of: 'fuelPile', when: 'start', massKg: 0.25, fuelLotId: kindling.id },
      { of: 'char', when: 'end' },
      { of: 'water', when: 'start', massKg: 20, tempC: 20 },
      { of: 'water', when: 'end', massKg: 19.5, tempC: 99, lidOn: true },
    ],
    record: {
      fuelLots: [dryWood, kindling],
      contents: [
        { id: id(500), name: 'yarn', massKg: 3, specificHeatJPerKgK: 1400 },
        { id: id(501), name: 'jars', massKg: 4, specificHeatJPerKgK: 3600, radiusM: 0.04, startTempC: 18 },
      ],
      vessel: { id: id(400), name: 'vat', massKg: 3 },
      ...holding,
    },
  });
}

/** Two lots of wood, weighed as it was fed, with heating values on other bases; the stove is on a scale. */
function onScale(): BurnRecord {
  const scale = sideChannel(150, 'stoveScale', { unit: 'kg', scale: 0.001, standardUncertainty: 0.005 });
  const burntKg = (atS: number) => (0.9 * Math.max(0, Math.min(atS, 7500) - 300)) / 3600;
  const evaporatedKg = (atS: number) => (0.5 * Math.max(0, Math.min(atS, 7500) - 5040)) / 3600;
  const fedKg = (atS: number) => [310, 1800, 3600, 5400].filter((feedS) => feedS <= atS).length;
  return makeBurn({
    ...sparse,
    channels: [calibratedProbe, scale],
    reads: ({ role }, atS) =>
      role === 'stoveScale' ? 80 + fedKg(atS) - burntKg(atS) - evaporatedKg(atS) : ramp(99.5)(atS),
    marks: sparse.marks.map((each, at) => (each.kind === 'fed' && at > 2 ? { ...each, fuelLotId: id(302) } : each)),
    weighings: sparse.weighings
      .filter(({ of }) => of !== 'fuelPile')
      .map((each) =>
        each.of === 'water' && each.when === 'end' ? { ...each, massKg: 20 - evaporatedKg(7500) } : each,
      ),
    record: {
      fuelLots: [
        { ...dryWood, heatingValue: { MJPerKg: 15.1, basis: 'netAsReceived' } },
        {
          id: id(302),
          name: 'spruce',
          kind: 'wood',
          moisture: { fraction: 0.18, basis: 'wet', how: 'guess' },
          heatingValue: { MJPerKg: 20.2, basis: 'grossDry' },
        },
      ],
      ...holding,
    },
  });
}

/** A hold at 75 °C that drops once, with the moments that a person marked. */
function heldBelow(): BurnRecord {
  return makeBurn({
    ...sparse,
    channels: [{ ...calibratedProbe, timeConstantS: 12 }],
    waterC: (atS) => (atS > 5000 && atS < 5400 ? 73.5 : ramp(76)(atS) + 0.3 * Math.sin(atS / 200)),
    marks: [...sparse.marks, mark('targetReached', 3650), mark('holdEnd', 6900)],
    record: { target: { kind: 'temperature', tempC: 75 }, hold: { durationS: 2400, onDrop: 'pause' } },
  });
}

/** No probe at all: a clock, a dial read a few times, and a scale. */
function readByHand(): BurnRecord {
  const dial: Channel = { id: id(110), name: 'dial', role: 'water', unit: 'Cel', scale: 0.001, handRead: true };
  const minutes = [0, 4, 19, 34, 49, 64, 79, 82, 85, 88, 103, 118, 125];
  return {
    ...makeBurn({ ...sparse, channels: [] }),
    channels: [dial],
    readings: [
      {
        elapsedUs: minutes.map((minute) => minute * 60e6),
        columns: [{ channelId: dial.id, counts: minutes.map((minute) => Math.round(ramp(99.5)(minute * 60) * 1000)) }],
      },
    ],
  };
}

/** Taken off the fire at its end, with its probes in, and left to cool for an hour. */
function cooled(): BurnRecord {
  return makeBurn({
    ...sparse,
    toS: 11_100,
    channels: [calibratedProbe],
    waterC: (atS) => (atS < 7500 ? ramp(99.5)(atS) : 20 + 79.5 * Math.exp(-(atS - 7500) / 9000)),
    marks: [...sparse.marks, mark('potOff', 7500)],
    record: { vessel: { id: id(400), name: 'vat', massKg: 3 } },
  });
}

/** Read from two minutes after lighting on; half-burnt wood of which the moisture was measured. */
function readLate(): BurnRecord {
  return makeBurn({
    ...sparse,
    fromS: 420,
    weighings: [
      ...sparse.weighings,
      { of: 'brands', when: 'end', massKg: 0.3, moisture: { fraction: 0.12, basis: 'dry', how: 'meter' } },
    ],
    record: { place },
  });
}

/** A record of a cooling only: a pot of hot water off the fire, with its lid on. */
function coolingAlone(): BurnRecord {
  return makeBurn({
    ...sparse,
    toS: 2400,
    channels: [calibratedProbe],
    waterC: (atS) => 20 + 75 * Math.exp(-atS / 20_000),
    marks: [mark('potOff', 5), mark('lidOn', 6)],
    weighings: [{ of: 'water', when: 'start', massKg: 20 }],
    record: { purpose: 'cooling', fuelLots: [], vessel: { id: id(400), name: 'vat', massKg: 3 } },
  });
}

const unfinished = () =>
  makeBurn({
    ...sparse,
    toS: 3000,
    marks: [mark('lit', 300)],
    weighings: sparse.weighings.slice(0, 1),
    record: holding,
  });

const weighedWithoutProbes = () =>
  makeBurn({ ...sparse, channels: [], marks: [...sparse.marks, mark('targetReached', 5000)], record: { place } });

/** Functions by name, each of which makes a new record. */
export const goldenRecords: Readonly<Record<string, () => BurnRecord>> = {
  'plain, by hand': () => makeBurn(plainBurn),
  'simulated, first': () => simulated(0),
  'simulated, third': () => simulated(2),
  'simulated, sixth': () => simulated(5),
  'little stated': littleStated,
  'nothing marked': nothingMarked,
  'many channels': manyChannels,
  'moved load': movedLoad,
  'on a scale': onScale,
  'held below the boil': heldBelow,
  'read by hand': readByHand,
  'cooled off the fire': cooled,
  'read late': readLate,
  'cooling alone': coolingAlone,
  unfinished,
  'weighed, without probes': weighedWithoutProbes,
};
