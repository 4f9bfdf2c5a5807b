/** Enters a reading of a dial: which probe, its value, and when it was read. */

import type { VNode } from 'preact';
import { startDateMs } from '../../../shared/contract/burn-date.ts';
import type { Channel } from '../../../shared/contract/burn-record.ts';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { ShownMark } from '../../burn/burn-state.ts';
import { agoSOf } from '../../burn/time-of-day.ts';
import { translate } from '../../language/catalogue.ts';
import { duration, type Entry, number } from '../../language/figures.ts';
import { burnNowUs } from '../../state/open-burn.ts';
import { Choice, TimeOfDayField } from '../forms/field.tsx';
import { readingField } from '../forms/reading-field.ts';
import { useDraft } from '../forms/use-draft.ts';
import { readingText } from '../kit/reading-words.ts';
import { Sheet } from '../sheets/sheet.tsx';
import { Keypad } from './keypad.tsx';
import { minutesAgoWords } from './minutes-ago.tsx';

const whens = ['0', '2', '5', '10', 'clock'] as const;

/** As typed and chosen; outlasts a reload, not the closing of the sheet. */
interface ReadingDraft {
  readonly probe: string;
  readonly figure: string;
  readonly when: (typeof whens)[number];
  readonly clock: string;
}

export interface ReadingEntry {
  channelId: string;
  value: number;
  agoS: number;
}

export function ReadingSheet({
  detail,
  probes,
  marks,
  onLog,
  onClose,
}: {
  detail: BurnDetail;
  probes: readonly Channel[];
  marks: readonly ShownMark[];
  onLog: (entry: ReadingEntry) => void;
  onClose: () => void;
}): VNode | null {
  const words = translate().hand;
  const { draft, forget } = useDraft<ReadingDraft>(`reading.${detail.burn.id}`, {
    probe: '',
    figure: '',
    when: '0',
    clock: '',
  });
  const set = (fields: Partial<ReadingDraft>) => {
    draft.value = { ...draft.value, ...fields };
  };
  const { figure, when, clock } = draft.value;
  const probe = probes.find(({ id }) => id === draft.value.probe) ?? mostWanted(probes);
  if (!probe) return null;
  const dial = readingField(probe);
  const reading = figure === '' ? undefined : dial.read(figure);
  const ago = agoOf(detail, when, clock);
  const close = () => {
    forget();
    onClose();
  };
  const log = () => {
    if (!reading?.ok || !ago.ok) return;
    forget();
    onLog({ channelId: probe.id, value: reading.value, agoS: ago.value });
  };
  return (
    <Sheet title={words.sheetTitle} onClose={close} fits>
      <div class="feed reading-sheet">
        <div class="feed-what">
          {probes.length > 1 && (
            <Choice
              label={words.which}
              value={probe.id}
              onChange={(id) => set({ probe: id, figure: '' })}
              options={probes.map(({ id, name }) => [id, name])}
            />
          )}
          <Figure probe={probe} figure={figure} onFigure={(typed) => set({ figure: typed })} />
          <p class="quiet">{lastRead(detail, probe, marks)}</p>
          <p class="problem" role="alert">
            {figure !== '-' && reading && !reading.ok && reading.problem}
          </p>
          <When detail={detail} draft={draft.value} problem={ago.ok ? undefined : ago.problem} onChange={set} />
        </div>
        <div class="feed-keys">
          <Keypad value={figure} onInput={(value) => set({ figure: value })} />
          <button type="button" class="primary log" disabled={!reading?.ok || !ago.ok} onClick={log}>
            {reading?.ok ? words.log({ value: readingText(probe, reading.value) }) : words.typeIt}
          </button>
        </div>
      </div>
    </Sheet>
  );
}

/** The entry, with a button for the sign, which the keys lack. */
function Figure({
  probe,
  figure,
  onFigure,
}: {
  probe: Channel;
  figure: string;
  onFigure: (figure: string) => void;
}): VNode {
  const isBelowZero = figure.startsWith('-');
  return (
    <p class="hand-figure">
      <output class="feed-mass" aria-live="polite">
        <span>{figure.replace('-', '\u2212') || number(0, 0)}</span> {readingField(probe).unit}
      </output>
      {probe.unit === 'Cel' && (
        <button
          type="button"
          aria-pressed={isBelowZero}
          onClick={() => onFigure(isBelowZero ? figure.slice(1) : `-${figure}`)}
        >
          {translate().hand.belowZero}
        </button>
      )}
    </p>
  );
}

function When({
  detail,
  draft: { when, clock },
  problem,
  onChange,
}: {
  detail: BurnDetail;
  draft: ReadingDraft;
  problem: string | undefined;
  onChange: (fields: Partial<ReadingDraft>) => void;
}): VNode {
  const words = translate().hand;
  return (
    <>
      <div class="when">
        <Choice
          label={translate().feed.when}
          value={when}
          onChange={(value) => onChange({ when: value })}
          options={whens
            .filter((each) => each !== 'clock' || startDateMs(detail.burn) !== undefined)
            .map((each) => [each, each === 'clock' ? words.atClock : minutesAgoWords(each)])}
        />
      </div>
      {when === 'clock' && (
        <TimeOfDayField
          label={words.clock}
          value={clock}
          problem={problem}
          onInput={(value) => onChange({ clock: value })}
        />
      )}
    </>
  );
}

/** The water first, since it is the most important. */
function mostWanted(probes: readonly Channel[]): Channel | undefined {
  return probes.find(({ role }) => role === 'water') ?? probes[0];
}

function agoOf({ burn }: BurnDetail, when: (typeof whens)[number], clock: string): Entry<number> {
  if (when !== 'clock') return { ok: true, value: Number(when) * 60 };
  const nowUs = burnNowUs(burn.id);
  const startMs = startDateMs(burn);
  if (clock === '' || startMs === undefined || nowUs === undefined)
    return { ok: false, problem: translate().hand.clockEmpty };
  const agoS = agoSOf(clock, startMs + nowUs / 1000, burn.zone);
  return agoS === undefined ? { ok: false, problem: translate().hand.clockAhead } : { ok: true, value: agoS };
}

function lastRead({ burn }: BurnDetail, probe: Channel, marks: readonly ShownMark[]): string {
  const words = translate().hand;
  const last = marks.filter(({ mark }) => mark.kind === 'reading' && mark.channelId === probe.id).at(-1)?.mark;
  const nowUs = burnNowUs(burn.id);
  if (last?.kind !== 'reading' || nowUs === undefined) return words.notYet;
  const time = duration((nowUs - last.elapsedUs) / 1e6);
  return words.last({ value: readingText(probe, last.value), time });
}
