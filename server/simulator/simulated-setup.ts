/** Stove, person and probes combined: advances in steps and can be read like the terminals of a board. */
import { createRandom } from '../../shared/statistics/random.ts';
import { type BurnModel, createBurnModel } from './burn-model.ts';
import { exactMeasurement, type MeasurementErrors } from './measurement-errors.ts';
import { type Action, createOperator } from './operator.ts';
import { createProbe, type ProbeFault, type SimulatedReading } from './probes.ts';
import type { Scenario } from './scenario.ts';

export type SimulatedSetup = Omit<ReturnType<typeof createSimulatedSetup>, 'person'>;

/** The person at the stove. */
interface Person {
  /** Must be called after every step of the model. */
  act(): void;
  /** Wood fed outside the plan, by someone at a command line. */
  feedNow(massKg: number): void;
}

/** With a person who follows the scenario's plan. */
export function createSimulatedSetup(
  scenario: Scenario,
  seed: number | string,
  onAction: (action: Action) => void,
  errors: MeasurementErrors = exactMeasurement,
) {
  return createSetupWith(createOperator, scenario, seed, onAction, errors);
}

/** @param createPerson creates the person at the stove */
export function createSetupWith<P extends Person>(
  createPerson: (scenario: Scenario, model: BurnModel, seed: number | string, done: (action: Action) => void) => P,
  scenario: Scenario,
  seed: number | string,
  onAction: (action: Action) => void,
  errors: MeasurementErrors,
) {
  const model = createBurnModel(scenario, seed);
  const { stepS, recordAfterFireOutS } = scenario.timing;
  let fireOutAtS = Number.POSITIVE_INFINITY;
  const person = createPerson(scenario, model, seed, (action) => {
    if (action.kind === 'fireOut') fireOutAtS = action.elapsedS;
    onAction(action);
  });
  let sites = model.sites();
  const probes = scenario.channels.map((channel) =>
    createProbe(
      channel,
      errors.probe(channel.site),
      errors.coldJunctionK,
      scenario.probeFaults,
      sites,
      createRandom(`${seed}/probe ${channel.site}`),
    ),
  );

  return {
    model,
    person,
    get elapsedS(): number {
      return model.elapsedS;
    },
    /** Whether the fire is out and the planned recording after it is over. */
    get over(): boolean {
      return model.elapsedS >= fireOutAtS + recordAfterFireOutS;
    },
    /** One step of the physics and of the person's actions. */
    advance(): void {
      model.step(stepS);
      person.act();
      sites = model.sites();
      for (const probe of probes) probe.follow(stepS, sites, model.elapsedS);
    },
    /** One reading of every channel, in the order of the scenario's channels. */
    scan: (): SimulatedReading[] => probes.map((probe) => probe.read(model.elapsedS, sites)),
    addFault(fault: ProbeFault): void {
      for (const probe of probes) probe.addFault(fault);
    },
    /** A charge outside the plan; ignored before lighting and after fire out. */
    feedNow: (massKg: number): void => person.feedNow(massKg),
  };
}
