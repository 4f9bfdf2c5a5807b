/**
 * Days of revisions as numbers: scatter from day to day, from burn to burn within a day, and errors of wood lots that
 * match their stated uncertainty.
 */
import type { ComparedValue } from '../../../shared/comparison/contributions.ts';
import { type DayValue, dayValues } from '../../../shared/comparison/days.ts';
import type { Random } from '../../../shared/statistics/random.ts';

/**
 * crossed: each pair of days from one lot; inTurn: a lot lasts three days, whichever revision is burnt; nested: one lot
 * per revision.
 */
export type Lots = 'crossed' | 'inTurn' | 'nested';

export interface Design {
  lots: Lots;
  /** Standard deviations, relative. */
  dayScatter: number;
  burnScatter: number;
  burnsADay: number;
  /** Factor by which the scatter of every second revision is larger. */
  ratio: number;
}

/** Uncertainty of one lot, from its moisture and heating value together: about that of an oven or a good meter. */
const LOT_U = 0.034;

export type Burn = ComparedValue & { day: string };

/** The burns of the revisions so far. Lots are drawn once, when they are first used. */
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

  /** Adds a day for every revision, one after the other. */
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
