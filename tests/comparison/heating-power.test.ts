import { expect, test } from 'vitest';
import { heatingPowerW, potLoadOf } from '../../shared/comparison/heating-power.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';

const weighed = (massKg: number) => [{ id: 'w', of: 'water', when: 'start', massKg }] as unknown as Weighing[];
const mark = (kind: Mark['kind'], minute: number, fields: object) =>
  ({ id: kind, kind, elapsedUs: minute * 60e6, ...fields }) as unknown as Mark;

// Worked by hand: 20 kg of water take 4189 J a kilogram and kelvin, so 1.5 K a minute is 20 · 4189 · 1.5 / 60 = 2094.5 W.
test('a rate of heating is a power by the heat capacity of the water', () => {
  const load = potLoadOf({ weighings: weighed(20), marks: [] });
  const power = load && heatingPowerW([0, 60, 120], [1.5, null, -0.3], load);
  expect(power).toEqual([expect.closeTo(2094.5, 6), null, expect.closeTo(-418.9, 6)]);
});

// 10 kg of water and 5 kg of goods at 2000 J/(kg K): 51 890 J/K; with 2 kg of water more 60 268, with as much less 51
// 890 again.
test('goods count, and water added or ladled out counts from its moment on', () => {
  const load = potLoadOf({
    weighings: weighed(10),
    contents: [{ id: 'g', name: 'jars', massKg: 5, specificHeatJPerKgK: 2000 }],
    marks: [mark('waterOut', 20, { massKg: 2, tempC: 60 }), mark('waterIn', 10, { massKg: 2, tempC: 15 })],
  });
  const power = load && heatingPowerW([0, 599, 600, 1199, 1200], [6, 6, 6, 6, 6], load);
  expect(power?.map((watts) => watts && Math.round(watts))).toEqual([5189, 5189, 6027, 6027, 5189]);
});

test('goods taken out remove their own heat capacity and that of the water they carry', () => {
  const load = potLoadOf({
    weighings: weighed(10),
    marks: [
      mark('goodsIn', 1, { massKg: 3, tempC: 15, specificHeatJPerKgK: 1360 }),
      mark('goodsOut', 2, { massKg: 1, waterCarriedOutKg: 2, tempC: 90 }),
    ],
  });
  expect(load?.changes).toEqual([
    { atS: 60, jPerK: 4080 },
    { atS: 120, jPerK: -1400 - 2 * 4189 },
  ]);
});

test('without the water weighed before the burn there is no power', () => {
  expect(potLoadOf({ weighings: [], marks: [] })).toBeUndefined();
});
