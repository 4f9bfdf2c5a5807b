import type { VNode } from 'preact';
import type { SetupChannel } from '../../../shared/contract/boards.ts';
import { translate } from '../../language/catalogue.ts';
import { duration } from '../../language/figures.ts';
import { isOld, readingAgeS } from '../../state/ages.ts';
import { latest } from '../../state/setup.ts';
import { readingText } from './reading-words.ts';

/**
 * The latest reading of a probe, with its age where it is no longer current.
 * @param periodMs between two scans of its board
 */
export function latestReading(
  channel: SetupChannel,
  periodMs: number | undefined,
): { isPast: boolean; hasFault: boolean; shown: VNode } {
  const now = latest.value.get(channel.id);
  const ageS = now ? readingAgeS(now) : 0;
  const isPast = isOld(ageS, periodMs);
  const shown = (
    <>
      {now?.fault ? translate().faults[now.fault] : now?.value === undefined ? '–' : readingText(channel, now.value)}
      {isPast && <small class="age">{translate().run.ago({ time: duration(ageS) })}</small>}
    </>
  );
  return { isPast, hasFault: now?.fault !== undefined, shown };
}
