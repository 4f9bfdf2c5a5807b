/** Creates a mark from an action of the person: adds id, moment and name, and puts it into the outbox. */
import type { Mark, MarkKind } from '../../shared/contract/marks.ts';
import { uuid7 } from '../outbox/uuid7.ts';
import { person } from '../preferences/preferences.ts';
import { burnNowUs } from './open-burn.ts';
import { type Outcome, sendMark } from './outbox.ts';

type Details<K extends MarkKind> = Omit<Extract<Mark, { kind: K }>, 'id' | 'kind' | 'elapsedUs'>;

/**
 * Log a mark at the present moment of the burn's clock, or some time before.
 * The moment is computed on this device, so that it stays right when the entry has to wait for the service.
 */
export async function logMark<K extends MarkKind>(
  burnId: string,
  kind: K,
  details: Details<K>,
  agoS = 0,
): Promise<{ mark: Mark; outcome: Outcome }> {
  const nowUs = burnNowUs(burnId);
  if (nowUs === undefined) throw new Error('the burn must be open before a mark can be put on its clock');
  const by = details.by ?? (person.value.trim() || undefined);
  const mark = {
    id: uuid7(),
    kind,
    elapsedUs: Math.round(nowUs - agoS * 1e6),
    ...details,
    ...(by && { by }),
    // "Some minutes ago" is accurate to about a minute.
    ...(agoS > 0 && { standardUncertaintyS: 60 }),
  } as unknown as Mark;
  return { mark, outcome: await sendMark(burnId, mark) };
}
