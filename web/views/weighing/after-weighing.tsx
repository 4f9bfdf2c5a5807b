/** The status of a burn after it is weighed, shown in advance: a complete burn no longer records. */
import type { VNode } from 'preact';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { WeighUp } from '../../../shared/contract/entries.ts';
import { translate } from '../../language/catalogue.ts';
import { Choice } from '../forms/field.tsx';
import type { ReadWeighing } from './weigh-entries.ts';

export type Next = 'running' | 'ended' | 'complete';
type Status = BurnDetail['burn']['status'];

export function AfterWeighing({
  status,
  isPending,
  next,
  onNext,
}: {
  status: Status;
  /** Something is still to be weighed: then the burn cannot be complete. */
  isPending: boolean;
  next: Next;
  onNext: (next: Next) => void;
}): VNode | null {
  const words = translate().burns.wrap.next;
  if (!canMove(status)) return null;
  const runs = status === 'running';
  const options: (readonly [Next, string])[] = [
    ...(runs ? [['running', words.runsOn] as const] : []),
    ['ended', runs ? words.stops : words.staysOpen],
    ...(isPending ? [] : [['complete', runs ? words.stopsComplete : words.complete] as const]),
  ];
  if (options.length === 1) return <p>{words.charLater}</p>;
  return (
    <Choice
      label={words.title}
      value={allowed(next, isPending)}
      options={options}
      hint={isPending ? words.charLater : undefined}
      onChange={onNext}
    />
  );
}

/** The status to request from the service; undefined where it does not change. */
export function statusAfter(status: Status, next: Next, isPending: boolean): WeighUp['status'] {
  const after = allowed(next, isPending);
  return canMove(status) && after !== 'running' && after !== status ? after : undefined;
}

/** Complete once pile and char are weighed; a fire that is not out continues to be recorded. */
export function usualNext(
  status: Status,
  { isPending, isOut, after }: { isPending: boolean; isOut: boolean; after: readonly ReadWeighing[] },
): Next {
  if (status === 'running' && !isOut) return 'running';
  const isWeighed = (of: 'fuelPile' | 'char') => after.some((read) => read.ok && read.weighing?.of === of);
  const isWhole = status === 'complete' || (isWeighed('fuelPile') && isWeighed('char'));
  return isWhole && !isPending ? 'complete' : 'ended';
}

function allowed(next: Next, isPending: boolean): Next {
  return isPending && next === 'complete' ? 'ended' : next;
}

function canMove(status: Status): boolean {
  return status === 'running' || status === 'ended' || status === 'complete';
}
