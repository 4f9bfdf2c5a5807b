/** Char left when the fire was raked out, as mass and as net heat. */
import type { Message } from '../../contract/results.ts';
import { each } from '../engine/columns.ts';
import { bestOfSum, type Input, ownError, type Sum } from '../engine/declaration.ts';
import { byDefault, missing, remark } from '../messages/messages.ts';
import { fact, quantity } from './declare.ts';
import { fuelMJ } from './fuel.ts';
import { charHeatingValue } from './fuel-lots.ts';
import { fuelMasses } from './fuel-masses.ts';
import { weighedSum, weighingReading } from './masses.ts';

/**
 * Char continues to burn between raking out and weighing: up to this much (tens of grams; common practice, no source).
 */
const BURNS_ON_KG = 0.04;
/** Char not yet weighed is between zero and this share of the fuel burnt ("common practice, no source"). */
const PENDING_CHAR_SHARE = 0.1;

type LeftChar =
  | { readonly missing: Message }
  | { readonly missing?: undefined; readonly kg: Sum; readonly remarks: readonly Message[] };

/** Char raked out less old char that was in the firebox before. */
const leftChar = fact('char left', [fuelMasses], (given): LeftChar => {
  const record = given.subject;
  const { found, missing: why } = given.fact(fuelMasses);
  if (why) return { missing: why };
  const { lots, burntKg } = found!;
  const weighed = record.weighings.filter(({ of }) => of === 'char');
  const end = weighed.filter(({ when }) => when === 'end');
  const start = weighed.filter(({ when }) => when === 'start');
  const old = weighedSum(
    record,
    'oldChar',
    start.flatMap((weighing) => weighingReading(weighing, 1) ?? []),
  );
  const leavesChar = lots.some(({ fuel }) => fuel.lot.kind !== 'gas' && fuel.lot.kind !== 'firelighter');
  if (end.length === 0 && leavesChar) return { missing: missing('charNotWeighed') };
  if (end.some((weighing) => weighing.massKg === undefined)) {
    const middleKg = (PENDING_CHAR_SHARE / 2) * burntKg;
    const pending: Input = {
      ...ownError('char.pending', middleKg / Math.sqrt(3), { distribution: 'rectangular' }),
      value: middleKg,
    };
    const remarks = [remark('charPending', { mostKg: PENDING_CHAR_SHARE * burntKg })];
    return { kg: less({ constant: 0, terms: [{ input: pending, weight: 1 }] }, old), remarks };
  }
  const left = weighedSum(
    record,
    'char',
    end.flatMap((weighing) => weighingReading(weighing, 1) ?? []),
  );
  const isStated = end.every((weighing) => weighing.standardUncertaintyKg !== undefined);
  if (isStated) return { kg: less(left, old), remarks: [] };
  const burntOn = ownError('char.burnsOn', BURNS_ON_KG / Math.sqrt(12), {
    distribution: 'oneSided',
    defaults: [byDefault('charBurnsOn', { mostKg: BURNS_ON_KG })],
  });
  const terms = [...left.terms, { input: burntOn, weight: 1 }];
  return { kg: less({ constant: left.constant, terms }, old), remarks: [] };
});

function less(one: Sum, other: Sum): Sum {
  return {
    constant: one.constant - other.constant,
    terms: [...one.terms, ...other.terms.map(({ input, weight }) => ({ input, weight: -weight }))],
  };
}

export const charMJPerKg = quantity({
  name: 'charMJPerKg',
  symbol: 'q_char',
  unit: 'MJ/kg',
  formula: 'net heating value of the char that the main lot leaves',
  source: 'as stated with the lot, else a typical value',
  needs: [fuelMasses],
  state(given) {
    const { found, missing: why } = given.fact(fuelMasses);
    if (why) return { missing: why };
    return { measured: [charHeatingValue(found!.main.fuel.lot)] };
  },
});

export const charMJ = quantity({
  name: 'charMJ',
  symbol: 'E_char',
  unit: 'MJ',
  formula: 'm_char·q_char',
  source: 'bench-1 definition',
  needs: [leftChar, charMJPerKg, fuelMJ],
  state(given) {
    const left = given.fact(leftChar);
    if (left.missing) return { missing: left.missing };
    const ofFuel = given.best(fuelMJ);
    const isWet = given.whyMissing(fuelMJ);
    return {
      from: [charMJPerKg],
      measured: [left.kg],
      compute: each((MJPerKg, kg) => kg * MJPerKg),
      refuse: (MJ) => (!isWet && MJ >= ofFuel ? missing('charExceedsFuel', { charMJ: MJ, fuelMJ: ofFuel }) : undefined),
      remarks: left.remarks,
      numbers: [{ name: 'charKg', symbol: 'm_char', value: bestOfSum(left.kg), unit: 'kg' }],
    };
  },
});

/** Known where the heat of the char is. */
export const charKg = quantity({
  name: 'charKg',
  symbol: 'm_char',
  unit: 'kg',
  formula: 'char raked out less old char that lay in the firebox',
  source: 'weighed',
  needs: [leftChar, charMJ],
  state(given) {
    const why = given.whyMissing(charMJ);
    const left = given.fact(leftChar);
    if (why || left.missing !== undefined) return { missing: (why ?? left.missing)! };
    return { measured: [left.kg], remarks: left.remarks };
  },
});
