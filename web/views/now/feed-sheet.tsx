/** Logs wood: one tap for a mass fed before, or the keypad; when it was, from which lot, by whom. */
import type { VNode } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import { lastMasses, type ShownMark } from '../../burn/burn-state.ts';
import { largestFeedKg, looksTooHeavy } from '../../burn/heavy-feed.ts';
import { translate } from '../../language/catalogue.ts';
import { number, onScreen, readQuantity, text, typed, unit } from '../../language/figures.ts';
import { person } from '../../preferences/preferences.ts';
import { TextField } from '../forms/field.tsx';
import { firstWoodLot, LotField, lotName } from '../forms/lot-field.tsx';
import { useDraft } from '../forms/use-draft.ts';
import { MarkedUpText } from '../kit/marked-up-text.tsx';
import { Sheet } from '../sheets/sheet.tsx';
import { Keypad } from './keypad.tsx';
import { type MinutesAgo, MinutesAgoChoice } from './minutes-ago.tsx';

/** More than is put into a firebox at once; a misplaced decimal mark exceeds it. */
const heaviestKg = 20;
/** Buttons in the row of masses, including "not weighed"; the reading of the scale takes two places. */
const places = 4;

/** As typed and chosen; outlasts a reload, not the closing of the sheet. */
interface FeedDraft {
  readonly mass: string;
  readonly ago: MinutesAgo;
  readonly lot: string;
  readonly by: string;
  /** The mass is so much more than any before that a confirmation is asked for. */
  readonly isDoubted: boolean;
}

export interface FeedEntry {
  massKg?: number;
  agoS: number;
  by?: string;
  fuelLotId?: string;
}

export function FeedSheet({
  detail,
  marks,
  pileDropKg,
  onLog,
  onClose,
}: {
  detail: BurnDetail;
  marks: readonly ShownMark[];
  /** The mass removed from the scale under the wood pile since the last feed. */
  pileDropKg: number | undefined;
  onLog: (entry: FeedEntry) => void;
  onClose: () => void;
}): VNode {
  const words = translate().feed;
  const lots = detail.burn.fuelLotIds;
  const { draft, forget } = useDraft<FeedDraft>(`feed.${detail.burn.id}`, {
    mass: '',
    ago: '0',
    lot: '',
    by: person.value,
    isDoubted: false,
  });
  const set = (fields: Partial<FeedDraft>) => {
    draft.value = { ...draft.value, ...fields };
  };
  const { mass, ago, by, isDoubted } = draft.value;
  // The inventory may load later than this sheet.
  const lot = draft.value.lot || firstWoodLot(lots);
  const reading = mass === '' ? undefined : readQuantity('mass', mass, { positive: true, high: heaviestKg });
  const largestKg = largestFeedKg(marks, detail.largestFeedKg);
  const save = (massKg?: number) => {
    forget();
    onLog({
      ...(massKg !== undefined && { massKg }),
      agoS: Number(ago) * 60,
      ...(by.trim() && { by: by.trim() }),
      ...(lot && { fuelLotId: lot }),
    });
  };
  const log = (massKg: number) => {
    if (looksTooHeavy(massKg, largestKg)) set({ mass: typed('mass', massKg), isDoubted: true });
    else save(massKg);
  };
  const close = () => {
    forget();
    onClose();
  };
  return (
    <Sheet title={words.title} onClose={close} fits>
      <div class="feed">
        <div class="feed-what">
          <output class="feed-mass" aria-live="polite">
            <span>{mass || number(0, 2)}</span> {unit('mass')}
          </output>
          <p class="problem" role="alert">
            {reading && !reading.ok && reading.problem}
          </p>
          <UsualMasses
            marks={marks}
            pileDropKg={pileDropKg}
            isDisabled={isDoubted}
            onMass={log}
            onNotWeighed={() => save()}
          />
          <MinutesAgoChoice value={ago} onChange={(value) => set({ ago: value })} />
          <details class="feed-more">
            <summary>{[lots.length > 0 && lotName(lot), by || `${words.who} …`].filter(Boolean).join(' · ')}</summary>
            <LotField lotIds={lots} value={lot} onChange={(value) => set({ lot: value })} />
            <TextField label={words.who} value={by} onInput={(value) => set({ by: value })} />
          </details>
        </div>
        {isDoubted && reading?.ok && largestKg !== undefined ? (
          <Doubt
            massKg={reading.value}
            largestKg={largestKg}
            onSave={() => save(reading.value)}
            onChange={() => set({ isDoubted: false })}
          />
        ) : (
          <div class="feed-keys">
            <Keypad value={mass} onInput={(value) => set({ mass: value })} />
            <button
              type="button"
              class="primary log"
              disabled={!reading?.ok}
              onClick={() => reading?.ok && log(reading.value)}
            >
              {reading?.ok ? words.log({ mass: typedMass(reading.value) }) : words.logEmpty}
            </button>
          </div>
        )}
      </div>
    </Sheet>
  );
}

/** One tap for a mass: removed from the scale, fed before, or none. */
function UsualMasses({
  marks,
  pileDropKg,
  isDisabled,
  onMass,
  onNotWeighed,
}: {
  marks: readonly ShownMark[];
  pileDropKg: number | undefined;
  isDisabled: boolean;
  onMass: (massKg: number) => void;
  onNotWeighed: () => void;
}): VNode {
  const words = translate().feed;
  return (
    <fieldset class="chips" aria-label={words.last} disabled={isDisabled}>
      {pileDropKg !== undefined && (
        <button type="button" class="from-scale" onClick={() => onMass(pileDropKg)}>
          {words.fromScale({ mass: text('mass', pileDropKg) })}
        </button>
      )}
      {lastMasses(marks, pileDropKg === undefined ? places - 1 : places - 3).map((massKg) => (
        <button type="button" key={massKg} onClick={() => onMass(massKg)}>
          {text('mass', massKg)}
        </button>
      ))}
      <button type="button" onClick={onNotWeighed}>
        {words.notWeighed}
      </button>
    </fieldset>
  );
}

/**
 * Asks for confirmation. The cancel button is where the button just pressed was, for a second tap of the same thumb.
 */
function Doubt({
  massKg,
  largestKg,
  onSave,
  onChange,
}: {
  massKg: number;
  largestKg: number;
  onSave: () => void;
  onChange: () => void;
}): VNode {
  const words = translate().feed;
  const question = useRef<HTMLDivElement>(null);
  useEffect(() => question.current?.focus(), []);
  const mass = typedMass(massKg);
  return (
    <div class="feed-keys doubt" role="alertdialog" aria-labelledby="doubt-question" tabIndex={-1} ref={question}>
      <p id="doubt-question">
        <MarkedUpText text={words.heavy({ mass, largest: text('mass', largestKg) })} />
      </p>
      <button type="button" class="log" onClick={onSave}>
        {words.heavyYes({ mass })}
      </button>
      <button type="button" class="primary log" onClick={onChange}>
        {words.heavyNo}
      </button>
    </div>
  );
}

/** To the last digit that the keys allow for most scales. */
function typedMass(massKg: number): string {
  return `${number(onScreen('mass', massKg), 2)}\u00a0${unit('mass')}`;
}
