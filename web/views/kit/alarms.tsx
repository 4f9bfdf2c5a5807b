/** Alarms: on every screen until dismissed, and sounded once. */
import type { VNode } from 'preact';
import type { Alarm } from '../../../shared/contract/alarms.ts';
import type { Estimate } from '../../../shared/contract/live-estimates.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate } from '../../language/catalogue.ts';
import { duration, text } from '../../language/figures.ts';
import { burnNowAtTickUs } from '../../state/ages.ts';
import { alarms as inForce, seenAlarms, silence } from '../../state/alarms.ts';
import { burns } from '../../state/burns.ts';

/** The alarms of one burn, on its own screen. */
export function Alarms({ burnId, estimate }: { burnId: string; estimate: Estimate | undefined }): VNode {
  return (
    <div class="calls" role="status">
      {unseen(burnId).map((alarm) => (
        <AlarmLine key={alarm.id} burnId={burnId} alarm={alarm} estimate={estimate} />
      ))}
    </div>
  );
}

/** The alarms of all burns except the one whose screen shows them itself; each leads to its burn. */
export function AlarmsElsewhere({ here }: { here?: string | undefined }): VNode | null {
  const others = [...inForce.value.keys()].filter((burnId) => burnId !== here);
  const open = others.flatMap((burnId) => unseen(burnId).map((alarm) => ({ burnId, alarm })));
  return (
    <div class="calls calls-elsewhere" role="status">
      {open.map(({ burnId, alarm }) => (
        <AlarmLine key={alarm.id} burnId={burnId} alarm={alarm} opens={titleOf(burnId)} />
      ))}
    </div>
  );
}

function unseen(burnId: string): readonly Alarm[] {
  return (inForce.value.get(burnId) ?? []).filter(({ id }) => !seenAlarms.value.has(id));
}

function titleOf(burnId: string): string {
  return burns.value?.find(({ id }) => id === burnId)?.title ?? translate().nav.now;
}

function AlarmLine({
  burnId,
  alarm,
  estimate,
  opens,
}: {
  burnId: string;
  alarm: Alarm;
  estimate?: Estimate | undefined;
  opens?: string;
}): VNode {
  return (
    <p class={`call ${alarm.kind}`}>
      <span>
        {alarmWords(alarm, sinceCalledS(burnId, alarm), estimate)}{' '}
        {opens !== undefined && <a href={routeHash({ at: 'run', id: burnId })}>{opens}</a>}
      </span>
      <button type="button" onClick={() => silence(alarm.id)}>
        {translate().alarms.hush}
      </button>
    </p>
  );
}

/** Time since the alarm was raised: its numbers are that old. */
function sinceCalledS(burnId: string, { sinceUs }: Alarm): number {
  return Math.max(0, ((burnNowAtTickUs(burnId) ?? sinceUs) - sinceUs) / 1e6);
}

/**
 * @param estimate the present one, where known here; elsewhere the numbers of the alarm are extrapolated by the clock
 */
function alarmWords(alarm: Alarm, agoS: number, estimate: Estimate | undefined): string {
  const words = translate().alarms;
  switch (alarm.kind) {
    case 'boardGone':
      return words.boardGone({ name: alarm.subject });
    case 'notRecorded':
      return words.notRecorded({ name: alarm.subject });
    case 'probe':
      return words.probe({ name: alarm.subject, fault: translate().faults[alarm.fault] });
    case 'holdLow':
      return words.holdLow({ floor: text('temperature', alarm.floorTempC) });
    case 'needsWood':
      return words.needsWood({ time: duration(alarm.sinceS + agoS) });
    case 'readingDue':
      if (estimate && estimate.waterReadUs === undefined) return translate().hand.firstDue;
      return words.readingDue({ time: duration(alarm.sinceS + agoS) });
    case 'nearlyThere':
      return words.nearlyThere({ time: duration(estimate?.toTargetS?.value ?? Math.max(0, alarm.leftS - agoS)) });
    default:
      return words[alarm.kind];
  }
}
