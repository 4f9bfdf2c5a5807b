import { exactMeasurement, type MeasurementErrors } from './measurement-errors.ts';
import { createPractisingPerson, type Deed, type ScaleReadings } from './practising-person.ts';
import type { Scenario } from './scenario.ts';
import { createSetupWith, type SimulatedSetup } from './simulated-setup.ts';

export interface PracticeStove extends SimulatedSetup {
  /** Carries out at the stove what a person has entered. */
  perform(deed: Deed): void;
  /** A cold stove, fresh water and no wood: for the next burn. Time continues. */
  renew(): void;
  weigh(): ScaleReadings;
}

/** A stove that reacts to what is entered, and to nothing else. */
export function createPracticeStove(
  scenario: Scenario,
  seed: number | string,
  errors: MeasurementErrors = exactMeasurement,
): PracticeStove {
  let turn = 0;
  let renewedAtS = 0;
  const build = () => createSetupWith(createPractisingPerson, scenario, `${seed}/${turn}`, () => {}, errors);
  let now = build();
  return {
    get model() {
      return now.model;
    },
    get elapsedS() {
      return renewedAtS + now.elapsedS;
    },
    over: false,
    advance: () => now.advance(),
    scan: () => now.scan(),
    addFault: (fault) => now.addFault(fault),
    feedNow: (massKg) => now.feedNow(massKg),
    perform: (deed) => now.person.perform(deed),
    renew() {
      renewedAtS += now.elapsedS;
      turn += 1;
      now = build();
    },
    weigh: () => now.person.weigh(),
  };
}
