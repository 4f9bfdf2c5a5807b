/** Days of revisions as numbers: scatter from day to day, from burn to burn within a day, and errors of wood lots that are declared as large as they are. */
import type { ComparedValue } from '../../../shared/comparison/contributions.ts';
import { type DayValue, dayValues } from '../../../shared/comparison/days.ts';
import type { Random } from '../../../shared/statistics/random.ts';

/** crossed: each pair of days from one lot; inTurn: a lot lasts three days, whichever revision is burnt; nested: one lot a revision. */
export type Lots = 'crossed' | 'inTurn' | 'nested';

export interface Design {
  lots: Lots;
  /** Standard deviations, relative. */
  dayScatter: number;
  burnScatter: number;
  burnsADay: number;
  /** By how much the scatter of every second revision is larger. */
  ratio: number;
}

/** Of one lot, from its moisture and heating value together: about what an oven or a good meter leaves. */
const LOT_U = 0.034;

export type Burn = ComparedValue & { day: string };

/** What revisions have been burnt so far. Lots are drawn once, whenever they are first used. */
export class SimulatedDays {
  readonly #random: Random;
  readonly #design: Design;
  readonly #lots = new Map<string, number>();
  readonly burns: Burn[][];

  constructor(random: Random, design: Design, revisions: number) {
    this.#random = random;
    this.#design = design;
    this.burns = Array.from({ length: revisions }, () => []);
  }

  /** One more day of every revision, one after the other. */
  burnADayOfEach(levels: readonly number[] = []): void {
    const { dayScatter, burnScatter, burnsADay, ratio } = this.#design;
    const round = this.burns[0]!.length / burnsADay;
    this.burns.forEach((burns, index) => {
      const day = round * this.burns.length + index;
      const scale = index % 2 === 1 ? ratio : 1;
      const lot = this.#lotOf(index, round, day);
      const ofDay = (levels[index] ?? 0) + this.#lotError(lot) + scale * dayScatter * this.#random.normal();
      for (let burn = 0; burn < burnsADay; burn++) {
        burns.push({
          burnId: `${index} ${day} ${burn}`,
          day: `${1000 + day}`,
          value: ofDay + scale * burnScatter * this.#random.normal(),
          shared: new Map([[`fuelLot ${lot} fuelLot.moisture`, LOT_U]]),
          ownVariance: 0,
        });
      }
    });
  }

  days(index: number): DayValue[] {
    return dayValues(this.burns[index]!);
  }

  #lotOf(index: number, round: number, day: number): string {
    switch (this.#design.lots) {
      case 'crossed':
        return `pair ${round}`;
      case 'inTurn':
        return `turn ${Math.floor(day / 3)}`;
      case 'nested':
        return `revision ${index}`;
    }
  }

  #lotError(lot: string): number {
    const error = this.#lots.get(lot) ?? LOT_U * this.#random.normal();
    this.#lots.set(lot, error);
    return error;
  }
}
