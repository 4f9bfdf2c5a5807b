/** A burn being described: what the form holds, and what goes to the service. Pure. */
import type { Burn, CreateBurn } from '../../shared/contract/burns.ts';
import { type GoodsDraft, goodsDraft } from './goods.ts';

/** Choices and typed text of the form; figures stay as typed until they are sent. */
export interface BurnDraft {
  readonly title: string;
  readonly revisionId: string;
  readonly vesselId: string;
  readonly placeId: string;
  readonly scaleId: string;
  readonly fuelLotIds: readonly string[];
  readonly targetKind: 'boil' | 'temperature';
  readonly targetTemp: string;
  readonly holdMinutes: string;
  readonly onDrop: 'restart' | 'pause';
  readonly primaryResult: NonNullable<CreateBurn['primaryResult']>;
  readonly startKind: 'cold' | 'hot' | '';
  readonly operator: string;
  readonly airTemp: string;
  readonly bodyTemp: string;
  readonly pressure: string;
  readonly weather: string;
  readonly water: string;
  readonly waterTemp: string;
  /** Mass of each pile set out, by lot; under no lot where fewer than two are chosen. */
  readonly piles: Readonly<Record<string, string>>;
  readonly goods: readonly GoodsDraft[];
}

/** How figures are written into fields. */
export interface Writers {
  temp(tempC: number): string;
  minutes(seconds: number): string;
  pressure(pascal: number): string;
  mass(kg: number): string;
  heat(jPerGK: number): string;
}

export const blankDraft: BurnDraft = {
  title: '',
  revisionId: '',
  vesselId: '',
  placeId: '',
  scaleId: '',
  fuelLotIds: [],
  targetKind: 'boil',
  targetTemp: '',
  holdMinutes: '',
  onDrop: 'pause',
  primaryResult: 'dryWoodPerBatch',
  startKind: '',
  operator: '',
  airTemp: '',
  bodyTemp: '',
  pressure: '',
  weather: '',
  water: '',
  waterTemp: '',
  piles: {},
  goods: [],
};

/**
 * What carries over from one burn to the next: everything that stays on the bench.
 * Weather, temperatures and weighings belong to their day and are asked again.
 */
export function carriedOver(burn: Burn, write: Writers): BurnDraft {
  return {
    ...blankDraft,
    revisionId: burn.revisionId ?? '',
    vesselId: burn.vesselId ?? '',
    placeId: burn.placeId ?? '',
    scaleId: burn.scaleIds[0] ?? '',
    fuelLotIds: burn.fuelLotIds,
    targetKind: burn.target.kind,
    targetTemp: burn.target.kind === 'temperature' ? write.temp(burn.target.tempC) : '',
    holdMinutes: burn.hold ? write.minutes(burn.hold.durationS) : '',
    onDrop: burn.hold?.onDrop ?? 'pause',
    primaryResult: burn.primaryResult,
    startKind: burn.startKind ?? '',
    operator: burn.operator ?? '',
  };
}

/** A known burn as the form shows it for correction. */
export function draftOfBurn(burn: Burn, write: Writers): BurnDraft {
  return {
    ...carriedOver(burn, write),
    title: burn.title,
    goods: (burn.contents ?? []).map((content) => goodsDraft(content, write)),
    airTemp: burn.airTempC === undefined ? '' : write.temp(burn.airTempC),
    bodyTemp: burn.bodyStartTempC === undefined ? '' : write.temp(burn.bodyStartTempC),
    pressure: burn.stationPressurePa === undefined ? '' : write.pressure(burn.stationPressurePa),
    weather: burn.weatherNote ?? '',
  };
}

/** What a burn described like this will not be able to answer. */
export function costs(
  draft: BurnDraft,
  knows: { lotsHaveMoisture: boolean; placeIsKnown: boolean; asksWeighings: boolean; pileLots: readonly string[] },
): ('revision' | 'vessel' | 'place' | 'lots' | 'moisture' | 'water' | 'pile')[] {
  return (
    [
      ['revision', draft.revisionId === ''],
      ['vessel', draft.vesselId === ''],
      ['place', !knows.placeIsKnown && draft.pressure.trim() === ''],
      ['lots', draft.fuelLotIds.length === 0],
      ['moisture', draft.fuelLotIds.length > 0 && !knows.lotsHaveMoisture],
      ['water', knows.asksWeighings && draft.water.trim() === ''],
      ['pile', knows.asksWeighings && knows.pileLots.some((lot) => pileTyped(draft, lot).trim() === '')],
    ] as const
  ).flatMap(([cost, applies]) => (applies ? [cost] : []));
}

/** The piles that are weighed one by one: of each lot, or one of no lot in particular. */
export function pilesOf({ fuelLotIds }: Pick<BurnDraft, 'fuelLotIds'>): readonly string[] {
  return fuelLotIds.length > 1 ? fuelLotIds : [''];
}

/** What was typed for a pile; the figure of the only pile stays that of the first lot when a second is chosen, and back. */
export function pileTyped({ piles, fuelLotIds }: Pick<BurnDraft, 'piles' | 'fuelLotIds'>, lot: string): string {
  const first = fuelLotIds[0] ?? '';
  const before = lot === '' ? piles[first] : lot === first ? piles[''] : undefined;
  return piles[lot] ?? before ?? '';
}
