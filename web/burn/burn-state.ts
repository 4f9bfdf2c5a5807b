/** The state of a burn, derived from its marks. Pure. */
import { ATTENTIONS } from '../../shared/contract/mark-kinds.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import type { Shown } from '../outbox/entries.ts';

/** A mark as the page shows it: saved by the service, still waiting to be delivered, or refused. */
export interface ShownMark extends Omit<Shown<Mark>, 'thing'> {
  readonly mark: Mark;
}

export interface BurnState {
  readonly litUs?: number;
  readonly fireOutUs?: number;
  readonly potIsOn: boolean;
  readonly lidIsOn: boolean;
  readonly isAway: boolean;
  readonly lastFed?: Extract<Mark, { kind: 'fed' }>;
  readonly lastAttentionUs?: number;
}

/** Marks in the order in which things happened. */
export function inOrder(marks: readonly ShownMark[]): ShownMark[] {
  return [...marks].sort((a, b) => a.mark.elapsedUs - b.mark.elapsedUs);
}

/**
 * Derive the state from the marks.
 * A pot without a mark is on the stove; a lid without a mark is on it: both are the usual case.
 */
export function burnState(marks: readonly ShownMark[]): BurnState {
  let state: BurnState = { potIsOn: true, lidIsOn: true, isAway: false };
  for (const { mark } of inOrder(marks)) {
    const at = mark.elapsedUs;
    if (ATTENTIONS.has(mark.kind)) state = { ...state, lastAttentionUs: at };
    switch (mark.kind) {
      case 'lit':
        state = { ...state, litUs: state.litUs ?? at };
        break;
      case 'fireOut':
        state = { ...state, fireOutUs: at };
        break;
      case 'relit':
        state = withoutFireOut(state);
        break;
      case 'potOn':
      case 'potOff':
        state = { ...state, potIsOn: mark.kind === 'potOn' };
        break;
      case 'lidOn':
      case 'lidOff':
        state = { ...state, lidIsOn: mark.kind === 'lidOn' };
        break;
      case 'away':
      case 'back':
        state = { ...state, isAway: mark.kind === 'away' };
        break;
      case 'fed':
        state = { ...state, lastFed: mark };
        break;
    }
  }
  return state;
}

/** Whether the lid was on when the fire went out, and was not taken off since. */
export function lidStayedOn(marks: readonly ShownMark[]): boolean {
  const { fireOutUs = Number.POSITIVE_INFINITY } = burnState(marks);
  const before = marks.filter(({ mark }) => mark.elapsedUs <= fireOutUs);
  return burnState(before).lidIsOn && !marks.some(({ mark }) => mark.kind === 'lidOff' && mark.elapsedUs > fireOutUs);
}

function withoutFireOut({ fireOutUs: _, ...rest }: BurnState): BurnState {
  return rest;
}

/** The last different masses fed, newest first: the next charge probably weighs as much as one of them. */
export function lastMasses(marks: readonly ShownMark[], count: number): number[] {
  const masses = inOrder(marks)
    .reverse()
    .flatMap(({ mark }) => (mark.kind === 'fed' && mark.massKg !== undefined ? [mark.massKg] : []));
  return [...new Set(masses)].slice(0, count);
}
