/** The main number of the running burn, and sentences on its trend. */

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { startDateMs } from '../../../shared/contract/burn-date.ts';
import type { Channel } from '../../../shared/contract/burn-record.ts';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { Estimate } from '../../../shared/contract/live-estimates.ts';
import type { BurnState, ShownMark } from '../../burn/burn-state.ts';
import { translate } from '../../language/catalogue.ts';
import { clock, duration, shown, text } from '../../language/figures.ts';
import { burnNowAtTickUs } from '../../state/ages.ts';
import { link } from '../../state/connection.ts';
import { MarkedUpText, plain } from '../kit/marked-up-text.tsx';
import type { MeasuredWater } from './measured-water.ts';

/** Factor from a standard uncertainty to the interval with 95 % coverage. */
const coverage95 = 1.96;
/** A slower change is called steady: it is within the scatter of the rate. */
const steadyKPerMin = 0.05;
/** A screen reader announces the number at most this often. */
const spokenEveryMs = 30_000;

export function Reading({
  detail,
  estimate,
  measured,
  state,
  marks,
}: {
  detail: BurnDetail;
  estimate: Estimate | undefined;
  measured: MeasuredWater | undefined;
  state: BurnState;
  marks: readonly ShownMark[];
}): VNode {
  const words = translate().run;
  const water = detail.burn.channels.filter(({ role }) => role === 'water');
  const byBoard = water.filter(({ handRead }) => !handRead);
  const isByHand = estimate?.waterReadUs !== undefined || (byBoard.length === 0 && water.length > 0);
  const read = isByHand ? handReading(water, estimate, marks) : undefined;
  const temp = isByHand ? read?.tempC : measured?.tempC;
  const isUnheard = link.value === 'lost' && !estimate;
  const old = isByHand || !measured?.isOld ? undefined : words.ago({ time: duration(measured.ageS) });
  // Readings of the person are known here, even without the service.
  const noWater = isByHand
    ? translate().hand.waterNotRead
    : isUnheard
      ? words.unheard
      : byBoard.length > 0
        ? words.waiting
        : words.noWater;
  const sentences = outlook(detail, estimate, state);
  return (
    <section class={old ? 'reading old' : 'reading'} aria-label={words.water}>
      <p class="caption">
        {read ? (
          <ReadAgo burnId={detail.burn.id} readUs={read.readUs} />
        ) : byBoard.length > 0 ? (
          words.waterMean({ count: byBoard.length })
        ) : (
          words.water
        )}
        {old && <b class="age">{old}</b>}
      </p>
      {temp === undefined ? (
        <p class="no-water">
          {noWater} {noWater === words.noWater && <a href="#/rig">{words.noWaterHelp}</a>}
        </p>
      ) : (
        <BigNumber tempC={temp} standardUncertaintyK={estimate?.standardUncertaintyK} />
      )}
      <p class="outlook">
        {sentences.map((sentence) => (
          <span key={sentence}>
            <MarkedUpText text={sentence} />{' '}
          </span>
        ))}
      </p>
      <Spoken
        key={temp === undefined ? 'none' : 'some'}
        words={[
          temp === undefined ? noWater : [text('temperature', temp), old].filter(Boolean).join(', '),
          ...sentences,
        ]
          .map(plain)
          .join(' ')}
      />
    </section>
  );
}

/** The last reading of a person: saved by the service, or entered here and still waiting. */
function handReading(
  water: readonly Channel[],
  estimate: Estimate | undefined,
  marks: readonly ShownMark[],
): { tempC: number; readUs: number } | undefined {
  const typed = marks.flatMap(({ mark }) =>
    mark.kind === 'reading' && water.some(({ id }) => id === mark.channelId) ? [mark] : [],
  );
  const newest = typed.at(-1);
  const { waterReadUs, waterTempC } = estimate ?? {};
  const isKnown = waterReadUs !== undefined && waterTempC !== undefined;
  // A reading withdrawn here is no longer shown, even if the service still sends it.
  if (isKnown && newest?.elapsedUs === waterReadUs) return { tempC: waterTempC, readUs: waterReadUs };
  return newest && { tempC: newest.value, readUs: newest.elapsedUs };
}

function ReadAgo({ burnId, readUs }: { burnId: string; readUs: number }): VNode {
  const words = translate().hand;
  const agoS = Math.max(0, (burnNowAtTickUs(burnId) ?? readUs) - readUs) / 1e6;
  return <MarkedUpText text={agoS < 60 ? words.readNow : words.readAgo({ time: duration(agoS) })} />;
}

function BigNumber({
  tempC,
  standardUncertaintyK,
}: {
  tempC: number;
  standardUncertaintyK: number | undefined;
}): VNode {
  const { figure, unit } = shown('temperature', tempC);
  const plusMinus =
    standardUncertaintyK === undefined ? undefined : shown('temperatureDifference', standardUncertaintyK * coverage95);
  return (
    <p class="number">
      <span class="figure">{figure}</span>
      <span class="number-side">
        {plusMinus && <span class="plus-minus" title={translate().run.about95}>{`±\u202f${plusMinus.figure}`}</span>}
        <span class="number-unit">{unit}</span>
      </span>
    </p>
  );
}

/** The sentences under the number: the trend, then what comes next. */
function outlook(detail: BurnDetail, estimate: Estimate | undefined, state: BurnState): string[] {
  const words = translate().run;
  if (state.litUs === undefined) return [words.notLit];
  const sentences = [trend(estimate)];
  const nowUs = estimate?.elapsedUs ?? detail.elapsedUs ?? 0;
  if (state.fireOutUs !== undefined)
    sentences.push(words.fireIsOut({ ago: duration(Math.max(0, nowUs - state.fireOutUs) / 1e6) }));
  else if (!state.potIsOn) sentences.push(words.potIsOff);
  if (state.isAway) sentences.push(words.youAreAway);
  if (estimate?.aboveBoilK !== undefined)
    sentences.push(words.aboveBoil({ over: text('temperatureDifference', estimate.aboveBoilK) }));
  const hold = estimate?.hold;
  if (hold && hold.state !== 'notYet') sentences.push(...holdSentences(hold));
  else if (estimate?.toTargetS && state.fireOutUs === undefined) sentences.push(arrival(detail, estimate));
  else if (estimate && estimate.targetTempC === undefined) sentences.push(words.boilUnknown);
  return sentences.filter((sentence) => sentence !== '');
}

function trend(estimate: Estimate | undefined): string {
  const words = translate().run;
  const rate = estimate?.rateKPerMin;
  if (rate === undefined) return '';
  if (Math.abs(rate) < steadyKPerMin) return words.steady;
  const perMinute = text('temperatureRate', Math.abs(rate));
  return rate > 0 ? words.rising({ rate: perMinute }) : words.falling({ rate: perMinute });
}

function arrival(detail: BurnDetail, estimate: Estimate): string {
  const words = translate().run;
  if (!estimate.toTargetS) return '';
  const { value, interval95 } = estimate.toTargetS;
  const minutes = (seconds: number) => String(Math.max(0, Math.round(seconds / 60)));
  const started = startDateMs(detail.burn);
  const when = {
    time: duration(Math.max(1, Math.round(value / 60)) * 60),
    low: minutes(interval95[0]),
    high: minutes(interval95[1]),
    clock: started === undefined ? '' : clock(started + estimate.elapsedUs / 1000 + value * 1000, detail.burn.zone),
  };
  const target = detail.burn.target;
  return target.kind === 'boil'
    ? words.boilsIn(when)
    : words.targetIn({ ...when, target: text('temperature', target.tempC, 0) });
}

function holdSentences(hold: NonNullable<Estimate['hold']>): string[] {
  const words = translate().run;
  const floor = text('temperature', hold.floorTempC);
  const held = duration(hold.countedS);
  const needed = duration(hold.neededS);
  switch (hold.state) {
    case 'counting':
      return [words.holding({ held, needed }), words.holdAbove({ floor })];
    case 'dropped':
      return [words.dropped({ floor, held })];
    case 'paused':
      return [words.paused({ held, needed })];
    case 'done':
      return [words.held({ needed })];
    case 'ended':
      return [words.holdEnded];
    default:
      return [];
  }
}

/** The reading for screen readers: updated at intervals, and never during an announcement. */
function Spoken({ words }: { words: string }): VNode {
  const spoken = useSignal(words);
  const latest = useRef(words);
  latest.current = words;
  useEffect(() => {
    const timer = setInterval(() => {
      spoken.value = latest.current;
    }, spokenEveryMs);
    return () => clearInterval(timer);
  }, [spoken]);
  return (
    <p class="unseen" aria-live="polite">
      {spoken.value}
    </p>
  );
}
