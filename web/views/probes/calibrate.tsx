/** Guided calibration: ice point and local boiling point, each taken only when the reading is steady. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import { localBoilingPoint } from '../../../shared/board-check/boiling-point.ts';
import { indicatedFrom } from '../../../shared/board-check/indicated.ts';
import { BATH_UNCERTAINTY_K, STEADY_K, STEADY_READINGS } from '../../../shared/board-check/steadiness.ts';
import type { SetupChannel } from '../../../shared/contract/boards.ts';
import { translate, translateProbes } from '../../language/catalogue.ts';
import { duration, readQuantity, text, typed, unit } from '../../language/figures.ts';
import { health } from '../../requests/service.ts';
import { isOld, readingAgeS } from '../../state/ages.ts';
import { onLive } from '../../state/connection.ts';
import { currentInventory } from '../../state/inventory.ts';
import { placeChannel } from '../../state/place-channel.ts';
import { latest, slowestPeriodMs } from '../../state/setup.ts';
import { TextField } from '../forms/field.tsx';
import { useDraft } from '../forms/use-draft.ts';
import { sentenceFor } from '../kit/use-load.ts';
import { type CalibrationPoint, calibrationFrom, spreadOf } from './calibration.ts';

const suspiciousK = 5;

interface CalibrationDraft {
  readonly bath: 'ice' | 'boil' | '';
  /** As typed. */
  readonly truth: string;
  readonly points: readonly CalibrationPoint[];
}

function usualTruth(kind: 'ice' | 'boil'): string {
  // Of the first place in the inventory; the person may type a better value.
  const boilC = localBoilingPoint(currentInventory.value?.places[0])?.tempC;
  return typed('temperature', kind === 'ice' ? 0 : boilC, 2);
}

/** @param taken points of a check of the board, which replace points of the same kind taken here */
export function Calibrate({
  channel,
  taken = [],
}: {
  channel: SetupChannel;
  taken?: readonly CalibrationPoint[];
}): VNode {
  const words = translateProbes();
  // A bath takes minutes to become steady: a reload must not lose the point taken before it.
  const { draft, forget } = useDraft<CalibrationDraft>(`calibration.${channel.id}`, {
    bath: '',
    truth: '',
    points: [],
  });
  const change = (fields: Partial<CalibrationDraft>) => {
    draft.value = { ...draft.value, ...fields };
  };
  const { bath, points } = draft.value;
  // once: points taken here afterwards count
  useEffect(() => {
    const others = points.filter(({ kind }) => !taken.some((point) => point.kind === kind));
    if (taken.length > 0) change({ points: [...others, ...taken] });
  }, []);
  const problem = useSignal<string | undefined>(undefined);
  const made = calibrationFrom(points);
  const correction = made && Math.max(...points.map(({ truth, indicated }) => Math.abs(truth - indicated)));
  const apply = async () => {
    if (!made) return;
    try {
      const madeAtUtcMs = health.value?.serviceUtcMs;
      await placeChannel(channel, { calibration: { ...made, ...(madeAtUtcMs !== undefined && { madeAtUtcMs }) } });
      change({ bath: '', points: [] });
      forget();
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  return (
    <div class="calibrate">
      <p class="row">
        {(['ice', 'boil'] as const).map((kind) => (
          <button
            type="button"
            key={kind}
            aria-pressed={bath === kind}
            onClick={() => change({ bath: kind, truth: usualTruth(kind) })}
          >
            {kind === 'ice' ? words.icePoint : words.boilingPoint}
          </button>
        ))}
      </p>
      {bath && (
        <Bath
          key={bath}
          kind={bath}
          channel={channel}
          truthText={draft.value.truth}
          onTruth={(truth) => change({ truth })}
          onTake={(point) => change({ bath: '', points: [...points.filter(({ kind }) => kind !== point.kind), point] })}
        />
      )}
      <ul>
        {points.map(({ kind, indicated, truth }) => (
          <li key={kind}>
            {kind === 'ice' ? words.icePoint : words.boilingPoint}:{' '}
            {words.taken({ reading: text('temperature', indicated, 2), truth: text('temperature', truth, 2) })}
          </li>
        ))}
      </ul>
      {correction !== undefined && correction > suspiciousK && <p class="problem">{words.bigCorrection}</p>}
      <p class="problem" role="alert">
        {problem.value}
      </p>
      {made && (
        <button type="button" class="primary" onClick={() => void apply()}>
          {words.apply}
        </button>
      )}
    </div>
  );
}

function Bath({
  kind,
  channel,
  truthText,
  onTruth,
  onTake,
}: {
  kind: 'ice' | 'boil';
  channel: SetupChannel;
  truthText: string;
  onTruth: (typed: string) => void;
  onTake: (point: CalibrationPoint) => void;
}): VNode {
  const words = translateProbes();
  const readings = useSignal<readonly number[]>([]);
  useEffect(
    () =>
      onLive('scan', ({ values }) => {
        const value = values[channel.id];
        if (value !== undefined) readings.value = [...readings.value.slice(-STEADY_READINGS * 2), value];
      }),
    [channel.id, readings],
  );
  const spread = spreadOf(readings.value);
  const latestReading = latest.value.get(channel.id);
  // A reading from before the board fell silent is not one of the present bath.
  const isPast = latestReading !== undefined && isOld(readingAgeS(latestReading), slowestPeriodMs([channel]));
  const isSteady = spread !== undefined && spread <= STEADY_K && !isPast;
  const now = readings.value.at(-1);
  const truth = readQuantity('temperature', truthText, { low: -5, high: 120 });
  const take = () => {
    if (!truth.ok) return;
    const window = readings.value.slice(-STEADY_READINGS);
    const mean = window.reduce((sum, value) => sum + value, 0) / window.length;
    onTake({
      kind,
      indicated: indicatedFrom(mean, channel.calibration),
      truth: truth.value,
      standardUncertainty: Math.hypot(BATH_UNCERTAINTY_K[kind], (spread ?? 0) / Math.sqrt(12)),
    });
  };
  return (
    <div class="bath">
      <p>{kind === 'ice' ? words.iceHelp : words.boilHelp}</p>
      <p aria-live="polite">
        <b class={isPast ? 'quiet' : undefined}>{now === undefined ? '–' : text('temperature', now, 2)}</b>{' '}
        <span class="quiet">
          {latestReading && isPast
            ? translate().run.ago({ time: duration(readingAgeS(latestReading)) })
            : isSteady
              ? words.steady
              : words.notSteady({ spread: spread === undefined ? '…' : text('temperatureDifference', spread, 2) })}
        </span>
      </p>
      <TextField
        decimal
        label={words.reference}
        unit={unit('temperature')}
        value={truthText}
        problem={truth.ok ? undefined : truth.problem}
        onInput={onTruth}
      />
      <button type="button" disabled={!isSteady || !truth.ok} onClick={take}>
        {words.take}
      </button>
    </div>
  );
}
