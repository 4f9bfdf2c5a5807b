/** Reads the entries of the burn form: figures into SI, with a sentence for each that cannot be right. */

import type { Content } from '../../../shared/contract/burn-record.ts';
import type { CreateBurn } from '../../../shared/contract/burns.ts';
import type { Weighing } from '../../../shared/contract/weighings.ts';
import { type BurnDraft, pilesOf, pileTyped } from '../../lib/burn-draft.ts';
import type { GoodsDraft } from '../../lib/goods.ts';
import { translate } from '../../state/catalogue.ts';
import { type Entry, number, readNumber, readQuantity } from '../../state/figures.ts';

/** By field; those of goods by `goodsField`, of a pile under `pile` and its lot. */
export type FormProblems = Partial<Record<string, string>>;

export type ReadDraft =
  | { ok: true; burn: CreateBurn; weighings: Omit<Weighing, 'id'>[] }
  | { ok: false; problems: FormProblems };

/** @param title taken when the person gave none */
export function readDraft(draft: BurnDraft, title: string): ReadDraft {
  const problems: FormProblems = {};
  const optional = (field: keyof BurnDraft, entry: () => Entry<number>): number | undefined => {
    if (String(draft[field]).trim() === '') return undefined;
    const read = entry();
    if (read.ok) return read.value;
    problems[field] = read.problem;
    return undefined;
  };
  const holdS = optional('holdMinutes', () => readHold(draft.holdMinutes));
  const airTempC = optional('airTemp', () => readQuantity('temperature', draft.airTemp, { low: -50, high: 60 }));
  const bodyStartTempC = optional('bodyTemp', () =>
    readQuantity('temperature', draft.bodyTemp, { low: -50, high: 900 }),
  );
  const stationPressurePa = optional('pressure', () =>
    readQuantity('pressure', draft.pressure, { low: 40_000, high: 110_000 }),
  );
  const waterKg = optional('water', () => readQuantity('mass', draft.water, { positive: true, high: 500 }));
  const waterTempC = optional('waterTemp', () => readQuantity('temperature', draft.waterTemp, { low: -5, high: 110 }));
  const piles = pilesOf(draft).flatMap((lot) => {
    const entry = pileTyped(draft, lot);
    if (entry.trim() === '') return [];
    const mass = readQuantity('mass', entry, { positive: true, high: 500 });
    if (mass.ok) return [{ massKg: mass.value, ...(lot && { fuelLotId: lot }) }];
    problems[`pile ${lot}`] = mass.problem;
    return [];
  });
  const contents = readGoods(draft.goods, problems);
  const target = readTarget(draft);
  if (!target.ok) problems.targetTemp = target.problem;
  if (!target.ok || Object.keys(problems).length > 0) return { ok: false, problems };
  const scale = draft.scaleId && { scaleId: draft.scaleId };
  return {
    ok: true,
    burn: {
      title: draft.title.trim() || title,
      target: target.value,
      fuelLotIds: [...draft.fuelLotIds],
      scaleIds: draft.scaleId ? [draft.scaleId] : [],
      primaryResult: draft.primaryResult,
      // An empty list takes away what was there; a burn that never had goods needs none.
      ...((contents.length > 0 || draft.goods.length > 0) && { contents }),
      ...(holdS !== undefined && { hold: { durationS: holdS, onDrop: draft.onDrop } }),
      ...(draft.revisionId && { revisionId: draft.revisionId }),
      ...(draft.vesselId && { vesselId: draft.vesselId }),
      ...(draft.placeId && { placeId: draft.placeId }),
      ...(draft.startKind && { startKind: draft.startKind }),
      ...(draft.operator.trim() && { operator: draft.operator.trim() }),
      ...(draft.weather.trim() && { weatherNote: draft.weather.trim() }),
      ...(stationPressurePa !== undefined && { stationPressurePa }),
      ...(airTempC !== undefined && { airTempC }),
      ...(bodyStartTempC !== undefined && { bodyStartTempC }),
    },
    weighings: [
      ...(waterKg === undefined
        ? []
        : [
            {
              of: 'water' as const,
              when: 'start' as const,
              massKg: waterKg,
              ...(waterTempC !== undefined && { tempC: waterTempC }),
              ...scale,
            },
          ]),
      ...piles.map((pile) => ({ of: 'fuelPile' as const, when: 'start' as const, ...pile, ...scale })),
    ],
  };
}

/** The name under which a problem with one field of goods is kept. */
export function goodsField(id: string, field: 'name' | 'mass' | 'specificHeat' | 'startTemp'): string {
  return `goods ${id} ${field}`;
}

/** @param problems takes what is wrong with each field; the contents then count for nothing */
function readGoods(goods: readonly GoodsDraft[], problems: FormProblems): Content[] {
  return goods.map(({ id, name, mass, specificHeat, startTemp, rest }) => {
    const take = (field: Parameters<typeof goodsField>[1], entry: Entry<number>): number => {
      if (entry.ok) return entry.value;
      problems[goodsField(id, field)] = entry.problem;
      return Number.NaN;
    };
    if (name.trim() === '') problems[goodsField(id, 'name')] = translate().describe.number.text;
    return {
      ...rest,
      id,
      name: name.trim(),
      massKg: take('mass', readQuantity('mass', mass, { positive: true, high: 500 })),
      specificHeatJPerKgK: take('specificHeat', readSpecificHeat(specificHeat)) * 1000,
      ...(startTemp.trim() !== '' && {
        startTempC: take('startTemp', readQuantity('temperature', startTemp, { low: -40, high: 150 })),
      }),
    };
  });
}

/** From dry wood and glass (about 0.8) to water (4.19): beyond that the unit was taken for another. */
function readSpecificHeat(typed: string): Entry<number> {
  const heat = readNumber(typed);
  const words = translate().describe.number;
  if (heat.ok && heat.value < 0.3) return { ok: false, problem: words.tooLow({ low: number(0.3, 1) }) };
  if (heat.ok && heat.value > 4.5) return { ok: false, problem: words.tooHigh({ high: number(4.5, 1) }) };
  return heat;
}

function readTarget(draft: BurnDraft): Entry<NonNullable<CreateBurn['target']>> {
  if (draft.targetKind === 'boil') return { ok: true, value: { kind: 'boil' } };
  const temp = readQuantity('temperature', draft.targetTemp, { low: 20, high: 300 });
  return temp.ok ? { ok: true, value: { kind: 'temperature', tempC: temp.value } } : temp;
}

function readHold(text: string): Entry<number> {
  const minutes = readNumber(text);
  if (!minutes.ok) return minutes;
  const words = translate().describe.number;
  if (minutes.value <= 0) return { ok: false, problem: words.notPositive };
  if (minutes.value > 1440) return { ok: false, problem: words.tooHigh({ high: `${number(1440, 0)} min` }) };
  return { ok: true, value: minutes.value * 60 };
}
