/**
 * Determines when the stove (or the bench) needs the person. Pure: takes the present situation and returns alarms, the
 * most urgent first.
 */

import type { Alarm as AlarmInForce } from '../../contract/alarms.ts';
import type { FaultCode } from '../../contract/burn-record.ts';
import type { Estimate } from '../../contract/live-estimates.ts';

type WithoutIdentity<T> = T extends unknown ? Omit<T, 'id' | 'sinceUs'> : never;
/** An alarm without its identity. */
export type Alarm = WithoutIdentity<AlarmInForce>;

/** Five minutes are enough to walk back to the stove. */
const nearlyThereS = 300;
/**
 * Multiple of the usual time between feeds: an alarm before the usual time is over would be a nuisance; long after it
 * the fire is already low.
 */
const woodOverdue = 1.15;
/** With readings further apart, half a kelvin at the boil is minutes ("common practice, no source"). */
const readingDueAfterS = 600;

export interface Situation {
  readonly estimate: Estimate | undefined;
  readonly fireIsOut: boolean;
  readonly isLit: boolean;
  readonly goneBoards: readonly string[];
  /** Boards that send lines that do not become readings. */
  readonly unrecordedBoards: readonly string[];
  /** Time since the last reading of the water by a person, s, where a person reads it. */
  readonly sinceReadingS?: number | undefined;
  readonly faultyProbes: readonly { readonly name: string; readonly fault: FaultCode }[];
}

/** Returns the active alarms. */
export function alarmsFor(situation: Situation): Alarm[] {
  const { estimate, fireIsOut, isLit, goneBoards, unrecordedBoards, faultyProbes, sinceReadingS } = situation;
  const alarms: Alarm[] = goneBoards.map((subject) => ({ kind: 'boardGone', subject }));
  alarms.push(...unrecordedBoards.map((subject): Alarm => ({ kind: 'notRecorded', subject })));
  alarms.push(...faultyProbes.map(({ name, fault }): Alarm => ({ kind: 'probe', subject: name, fault })));
  if (!estimate || fireIsOut || !isLit) return alarms;
  const isHoldOver = estimate.hold?.state === 'done' || estimate.hold?.state === 'ended';
  if (sinceReadingS !== undefined && sinceReadingS >= readingDueAfterS && !isHoldOver)
    alarms.push({ kind: 'readingDue', sinceS: sinceReadingS });
  const { hold, toTargetS, sinceAttentionS, usualAttentionS, waterTempC, targetTempC } = estimate;
  if (hold?.state === 'dropped') alarms.push({ kind: 'holdLow', floorTempC: hold.floorTempC });
  if (hold?.state === 'done') alarms.push({ kind: 'holdDone' });
  const reached = waterTempC !== undefined && targetTempC !== undefined && waterTempC >= targetTempC - 0.5;
  if (reached && (!hold || (hold.state === 'counting' && hold.countedS < nearlyThereS)))
    alarms.push({ kind: 'target' });
  else if (toTargetS && toTargetS.value <= nearlyThereS && !hold?.countedS)
    alarms.push({ kind: 'nearlyThere', leftS: toTargetS.value });
  if (
    sinceAttentionS !== undefined &&
    usualAttentionS !== undefined &&
    sinceAttentionS > usualAttentionS * woodOverdue &&
    !isHoldOver
  )
    alarms.push({ kind: 'needsWood', sinceS: sinceAttentionS });
  return alarms;
}

/** Returns the key by which two alarms are the same, so that each sounds once. */
export function alarmKey(alarm: Alarm): string {
  return 'subject' in alarm ? `${alarm.kind} ${alarm.subject}` : alarm.kind;
}
