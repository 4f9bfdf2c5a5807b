/** Logging wood: one tap for a mass fed before, or the keypad; when it was, from which lot, by whom. */
import type { VNode } from 'preact';
import type { BurnDetail } from '../../../shared/contract/api.ts';
import { lastMasses, type ShownMark } from '../../lib/burn-state.ts';
import { say } from '../../state/catalogue.ts';
import { number, onScreen, readQuantity, text, unit } from '../../state/figures.ts';
import { person } from '../../state/preferences.ts';
import { shelves } from '../../state/shelf.ts';
import { Choice, SelectField, TextField } from '../kit/field.tsx';
import { Sheet } from '../kit/sheet.tsx';
import { useDraft } from '../kit/use-draft.ts';
import { Keypad } from './keypad.tsx';

/** Nobody lifts more than this into a firebox at once; a slipped decimal mark does. */
const heaviestKg = 20;
const minutesAgo = ['0', '2', '5', '10', '20'] as const;

/** As typed and chosen; outlives a reload, not the closing of the sheet. */
interface FeedDraft {
  readonly mass: string;
  readonly ago: (typeof minutesAgo)[number];
  readonly lot: string;
  readonly by: string;
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
  /** What left the scale under the wood pile since the last feed. */
  pileDropKg: number | undefined;
  onLog: (entry: FeedEntry) => void;
  onClose: () => void;
}): VNode {
  const words = say().feed;
  const lots = detail.burn.fuelLotIds;
  const { draft, forget } = useDraft<FeedDraft>(`feed.${detail.burn.id}`, {
    mass: '',
    ago: '0',
    lot: '',
    by: person.value,
  });
  const set = (fields: Partial<FeedDraft>) => {
    draft.value = { ...draft.value, ...fields };
  };
  const { mass, ago, by } = draft.value;
  // The shelf may come later than this sheet.
  const lot = draft.value.lot || firstWoodLot(lots);
  const reading = mass === '' ? undefined : readQuantity('mass', mass, { positive: true, high: heaviestKg });
  const log = (massKg?: number) => {
    forget();
    onLog({
      ...(massKg !== undefined && { massKg }),
      agoS: Number(ago) * 60,
      ...(by.trim() && { by: by.trim() }),
      ...(lot && { fuelLotId: lot }),
    });
  };
  const close = () => {
    forget();
    onClose();
  };
  return (
    <Sheet title={words.title} onClose={close}>
      <div class="feed">
        <output class="feed-mass" aria-live="polite">
          <span>{mass || number(0, 2)}</span> {unit('mass')}
        </output>
        <p class="problem" role="alert">
          {reading && !reading.ok && reading.problem}
        </p>
        <fieldset class="chips" aria-label={words.last}>
          {pileDropKg !== undefined && (
            <button type="button" onClick={() => log(pileDropKg)}>
              {words.fromScale({ mass: text('mass', pileDropKg) })}
            </button>
          )}
          {lastMasses(marks, 3).map((massKg) => (
            <button type="button" key={massKg} onClick={() => log(massKg)}>
              {text('mass', massKg)}
            </button>
          ))}
          <button type="button" onClick={() => log()}>
            {words.notWeighed}
          </button>
        </fieldset>
        <Choice
          label={words.when}
          value={ago}
          onChange={(value) => set({ ago: value })}
          options={minutesAgo.map((minutes) => [
            minutes,
            minutes === '0' ? words.now : words.minutesAgo({ minutes: Number(minutes) }),
          ])}
        />
        <details class="feed-more">
          <summary>{[lots.length > 0 && lotName(lot), by || `${words.who} …`].filter(Boolean).join(' · ')}</summary>
          {lots.length > 1 && (
            <SelectField
              label={words.lot}
              value={lot}
              onChange={(value) => set({ lot: value })}
              options={lots.map((id) => [id, lotName(id)])}
            />
          )}
          <TextField label={words.who} value={by} onInput={(value) => set({ by: value })} />
        </details>
        <Keypad value={mass} onInput={(value) => set({ mass: value })} />
        <button
          type="button"
          class="primary log"
          disabled={!reading?.ok}
          onClick={() => reading?.ok && log(reading.value)}
        >
          {reading?.ok
            ? words.log({ mass: `${number(onScreen('mass', reading.value), 2)}\u00a0${unit('mass')}` })
            : words.logEmpty}
        </button>
      </div>
    </Sheet>
  );
}

function firstWoodLot(ids: readonly string[]): string {
  const known = shelves.value?.fuelLots ?? [];
  return ids.find((id) => known.find((lot) => lot.id === id)?.kind === 'wood') ?? ids[0] ?? '';
}

function lotName(id: string): string {
  return shelves.value?.fuelLots.find((lot) => lot.id === id)?.name ?? id;
}
