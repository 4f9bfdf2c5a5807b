/**
 * A burn being described: the entries of the form, those copied from the burn before, and the burn that they describe.
 */
import type { Burn, CreateBurn } from '../../../shared/contract/burns.ts';
import type { Weighing } from '../../../shared/contract/weighings.ts';
import { translate } from '../../language/catalogue.ts';
import { entryText } from '../forms/entry-text.ts';
import { type DraftOf, draftOf, type Fields, type Known, type Problems, readFields } from '../forms/field-spec.ts';
import { inventoryOptions } from '../stoves/inventory-names.ts';
import { aimOf, usualAim } from './aim-fields.ts';
import { type BurnFields, burnFields } from './burn-fields.ts';
import { type GoodsDraft, goodsDraft, goodsPrefix, readGoods } from './goods-fields.ts';
import { type PilesDraft, pileFields, pilePrefix, pilesDraft } from './pile-fields.ts';

export interface BurnDraft extends DraftOf<BurnFields>, PilesDraft {
  readonly goods: readonly GoodsDraft[];
}

const usual = { primaryResult: 'dryWoodPerBatch' } as const;

/** Without a previous burn there is nothing to copy. */
export function blankDraft(): BurnDraft {
  return { ...draftOf(burnFields(usualAim), usual), ...usualAim, fuelLotIds: [], piles: {}, goods: [] };
}

/**
 * The entries copied from one burn to the next: everything that stays on the bench.
 * Weather, temperatures and weighings belong to their day and must be entered again.
 */
export function carriedOver(burn: Burn): BurnDraft {
  const { title, weatherNote, airTempC, bodyStartTempC, stationPressurePa, goods } = blankDraft();
  return { ...draftOfBurn(burn), title, weatherNote, airTempC, bodyStartTempC, stationPressurePa, goods };
}

/** An existing burn as entries of the form, for correction. */
export function draftOfBurn(burn: Burn): BurnDraft {
  const known: Known<BurnFields> = {
    ...burn,
    ...(burn.scaleIds[0] && { scaleId: burn.scaleIds[0] }),
    targetKind: burn.target.kind,
    ...(burn.target.kind === 'temperature' && { targetTempC: burn.target.tempC }),
    ...(burn.hold && { holdS: burn.hold.durationS, onDrop: burn.hold.onDrop }),
  };
  return {
    ...blankDraft(),
    ...draftOf(burnFields(usualAim), known),
    onDrop: burn.hold?.onDrop ?? usualAim.onDrop,
    fuelLotIds: burn.fuelLotIds,
    goods: (burn.contents ?? []).map(goodsDraft),
  };
}

export type ReadBurn =
  | { ok: true; burn: CreateBurn; weighings: Omit<Weighing, 'id'>[] }
  /** Problems of goods and piles have the prefixes of `goodsPrefix` and `pilePrefix`. */
  | { ok: false; problems: Problems };

/** @param title used when the person entered none */
export function readBurn(draft: BurnDraft, title: string): ReadBurn {
  const read = readFields(burnFields(draft), draft);
  const piles = readFields(pileFields(draft), pilesDraft(draft));
  const goods = draft.goods.map((each) => ({ prefix: goodsPrefix(each.id), ...readGoods(each) }));
  const problems = Object.fromEntries(
    [{ prefix: '', ...read }, ...goods, { prefix: pilePrefix, ...piles }].flatMap(({ prefix, ...part }) =>
      part.ok ? [] : Object.entries(part.problems).map(([key, problem]) => [prefix + key, problem]),
    ),
  );
  if (!read.ok || !piles.ok || Object.keys(problems).length > 0) return { ok: false, problems };
  const { scaleId, targetKind, targetTempC, holdS, onDrop, waterKg, waterTempC, startKind, ...own } = read.values;
  const contents = goods.flatMap((each) => (each.ok ? [each.content] : []));
  const scale = scaleId && { scaleId };
  return {
    ok: true,
    burn: {
      ...own,
      title: own.title ?? title,
      ...aimOf(read.values),
      fuelLotIds: [...draft.fuelLotIds],
      scaleIds: scaleId ? [scaleId] : [],
      ...(startKind && { startKind }),
      // An empty list removes existing goods; a burn that never had any needs none.
      ...((contents.length > 0 || draft.goods.length > 0) && { contents }),
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
      ...Object.entries(piles.values as Record<string, number>).map(([lot, massKg]) => ({
        of: 'fuelPile' as const,
        when: 'start' as const,
        massKg,
        ...(lot && { fuelLotId: lot }),
        ...scale,
      })),
    ],
  };
}

/** The label of a part of the description, and its entry as readable text; empty for an empty entry. */
export function burnEntryText<K extends keyof BurnDraft>(
  draft: BurnDraft,
  key: K,
  value: BurnDraft[K],
): { label: string; text: string } {
  const words = translate().describe;
  const mass = (typed: string) => entryText(burnFields(draft).waterKg, typed);
  if (key === 'fuelLotIds') {
    const names = new Map(inventoryOptions('fuelLots'));
    return { label: words.lots, text: (value as BurnDraft['fuelLotIds']).map((id) => names.get(id) ?? id).join(', ') };
  }
  if (key === 'goods')
    return {
      label: words.contents,
      text: (value as BurnDraft['goods']).map(({ name, massKg }) => `${name} ${mass(massKg)}`).join(', '),
    };
  if (key === 'piles') {
    const masses = Object.values(value as BurnDraft['piles']).map(mass);
    return { label: words.pile, text: masses.filter((text) => text !== '').join(', ') };
  }
  const field = (burnFields(draft) as Fields)[key]!;
  return { label: field.label, text: entryText(field, value as string) };
}
