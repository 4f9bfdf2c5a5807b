import { createRandom, type Random } from '../../shared/statistics/random.ts';
import type { Uptime } from './board.ts';

export const FAULTS = [
  'kill',
  'restart',
  'mute',
  'hang',
  'replug',
  'rename',
  'reset',
  'corrupt',
  'flood',
  'full disk',
  'clock step',
  'end',
] as const;
export type Fault = (typeof FAULTS)[number];

export interface Step {
  fault: Fault;
  /** Duration, ms of the board's time. */
  forMs: number;
  /** Start it in the middle of the repair after an outage of this duration, ms of the board's time. */
  afterOutageMs?: number;
  /** Wait until every scan is stored or reported before the next fault, or continue after a moment. */
  waitForIdle: boolean;
  /** Random choice where the kind of fault leaves one; uniform from 0 to 1. */
  dice: number;
}

export interface History {
  name: string;
  periodMs: number;
  /** Scans that the board can send again. */
  depth: number;
  repeatsPerS: number;
  /** The board has an identity, or is given one. */
  known: boolean;
  /** Lines sent while no service has the port open wait in the terminal, instead of being lost as on most cables. */
  buffersLines: boolean;
  /** Sequence number of its first scan. */
  firstSequence: number;
  uptime: Uptime;
  timeScale: number;
  steps: readonly Step[];
}

const USUAL: Readonly<Record<Fault, number>> = {
  kill: 200,
  restart: 24,
  mute: 200,
  hang: 24,
  replug: 100,
  rename: 24,
  reset: 24,
  corrupt: 24,
  flood: 24,
  'full disk': 24,
  'clock step': 24,
  end: 40,
};
const STEPS_A_HISTORY = 12;

/** A board without peculiarities. */
const ORDINARY = {
  periodMs: 100,
  depth: 3600,
  repeatsPerS: 60,
  known: true,
  buffersLines: false,
  firstSequence: 0,
  uptime: 'milliseconds',
  timeScale: 1,
} as const;

/** Shortest and longest duration, ms. */
const LASTS: Readonly<Record<Fault, readonly [number, number]>> = {
  kill: [1, 8_000],
  restart: [1, 8_000],
  mute: [1_000, 120_000],
  hang: [1_000, 60_000],
  replug: [300, 40_000],
  rename: [300, 20_000],
  reset: [1, 1],
  corrupt: [2_000, 20_000],
  flood: [1_000, 8_000],
  'full disk': [3_000, 15_000],
  'clock step': [1, 1],
  end: [1, 5_000],
};

/**
 * Every history of a run: each kind of fault as often as required, in an order that the seed determines, half at 1 and
 * half at 10 Hz.
 */
export function usualPlan(seed: number): History[] {
  const random = createRandom(`${seed}/plan`);
  const steps = shuffled(
    FAULTS.flatMap((fault) => Array.from({ length: USUAL[fault] }, () => stepOf(fault, random))),
    random,
  );
  return Array.from({ length: Math.ceil(steps.length / STEPS_A_HISTORY) }, (_, index) => ({
    ...ORDINARY,
    name: `${seed}/${index}`,
    periodMs: index % 2 === 0 ? 100 : 1000,
    depth: pick([40, 256, 3600, 3600], random),
    repeatsPerS: pick([60, 150], random),
    known: random.uniform() < 0.7,
    buffersLines: random.uniform() < 0.4,
    firstSequence: random.uniform() < 0.1 ? 4_294_967_250 : 0,
    uptime: random.uniform() < 0.85 ? 'milliseconds' : pick(['seconds', 'microseconds', 'nothing'], random),
    steps: steps.slice(index * STEPS_A_HISTORY, (index + 1) * STEPS_A_HISTORY),
  }));
}

function stepOf(fault: Fault, random: Random): Step {
  const [least, most] = LASTS[fault];
  const canInterrupt = fault === 'kill' || fault === 'restart' || fault === 'end';
  return {
    fault,
    // As many short ones as long ones: uniform in the logarithm.
    forMs: Math.round(least * (most / least) ** random.uniform()),
    ...(canInterrupt && random.uniform() < 0.4 && { afterOutageMs: Math.round(3_000 * 10 ** random.uniform()) }),
    waitForIdle: random.uniform() < 0.6,
    dice: random.uniform(),
  };
}

/**
 * Every fault at least once, a kill during a repair and a burn ended during one, in a few histories that take seconds.
 */
export function quickPlan(seed: number): History[] {
  const step = (fault: Fault, forMs: number, more: Partial<Step> = {}): Step => ({
    fault,
    forMs,
    waitForIdle: true,
    dice: createRandom(`${seed}/${fault}`).uniform(),
    ...more,
  });
  const history = (name: string, steps: readonly Step[]): History => ({ ...ORDINARY, name: `${seed}/${name}`, steps });
  return [
    history('repair', [
      step('kill', 200, { afterOutageMs: 3_000 }),
      step('end', 1, { afterOutageMs: 3_000 }),
      step('clock step', 1),
    ]),
    history('lead', [
      step('mute', 5_000),
      step('replug', 500),
      step('corrupt', 1_500),
      step('flood', 1_000),
      step('rename', 300),
    ]),
    history('board', [step('hang', 1_000), step('reset', 1), step('full disk', 1_500), step('restart', 1)]),
  ];
}

/**
 * One history defined by a person, to examine what another found.
 * @param text steps separated by commas, each a fault, its ms, and optionally `repair` and `on` (do not wait for the
 *   end of it)
 */
export function ownPlan(seed: number, text: string, board: Partial<History>): History[] {
  const steps = text.split(',').map((words): Step => {
    const [, fault, forMs, more] = /^\s*([a-z ]+?) (\d+)((?: repair| on)*)\s*$/.exec(words) ?? [];
    if (!FAULTS.includes(fault as Fault))
      throw new Error(`"${words}" is no step. Write for example "mute 28000" or "full disk 3000 on".`);
    return {
      fault: fault as Fault,
      forMs: Number(forMs),
      ...(more!.includes('repair') && { afterOutageMs: 10_000 }),
      waitForIdle: !more!.includes('on'),
      dice: createRandom(`${seed}/${words}`).uniform(),
    };
  });
  return [{ ...ORDINARY, ...board, name: `${seed}/own`, steps }];
}

function pick<T>(from: readonly T[], random: Random): T {
  return from[Math.floor(random.uniform() * from.length)]!;
}

function shuffled<T>(things: readonly T[], random: Random): T[] {
  return things
    .map((thing) => ({ thing, place: random.uniform() }))
    .sort((a, b) => a.place - b.place)
    .map(({ thing }) => thing);
}
