/** All the other marks: a tap for the plain ones, one more entry for those that carry a figure. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useId } from 'preact/hooks';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { Mark, MarkKind } from '../../../shared/contract/marks.ts';
import type { BurnState } from '../../lib/burn-state.ts';
import { translate } from '../../state/catalogue.ts';
import { readQuantity, unit } from '../../state/figures.ts';
import { TextField } from '../kit/field.tsx';
import { focusFirstWrong } from '../kit/focus-first-wrong.ts';
import { PhotoField } from '../kit/photo.tsx';
import { Sheet } from '../kit/sheet.tsx';
import { useDraft } from '../kit/use-draft.ts';
import { type MinutesAgo, MinutesAgoChoice } from './minutes-ago.tsx';

type LogOther = (kind: MarkKind, details: Record<string, unknown>) => void;
/** Marks that carry more than a tap can say. */
const asking = ['waterIn', 'waterOut', 'goodsIn', 'goodsOut', 'logOut', 'note', 'photo'] as const;
type Asking = (typeof asking)[number];

/** As typed and chosen; outlives a reload, not the closing of the sheet. */
interface OtherDraft {
  readonly chosen: Asking | '';
  readonly ago: MinutesAgo;
  readonly mass: string;
  readonly temp: string;
  readonly carried: string;
  readonly note: string;
}

interface AskProps {
  draft: OtherDraft;
  onChange: (fields: Partial<OtherDraft>) => void;
}

export function OtherSheet({
  detail,
  state,
  offersNudged,
  first,
  onLog,
  onClose,
}: {
  detail: BurnDetail;
  state: BurnState;
  /** When the thumb finds another mark in its place. */
  offersNudged: boolean;
  /** Open at once at the entry for this kind. */
  first?: Asking | undefined;
  onLog: (...logged: [...Parameters<LogOther>, agoS: number]) => void;
  onClose: () => void;
}): VNode {
  const words = translate().other;
  const names = translate().marks.names;
  const { draft, forget } = useDraft<OtherDraft>(`other.${detail.burn.id}`, {
    chosen: first ?? '',
    ago: '0',
    mass: '',
    temp: '',
    carried: '',
    note: '',
  });
  const onChange = (fields: Partial<OtherDraft>) => {
    draft.value = { ...draft.value, ...fields };
  };
  const { chosen, ago } = draft.value;
  const log: LogOther = (kind, details) => {
    forget();
    onLog(kind, details, Number(ago) * 60);
  };
  const close = () => {
    forget();
    onClose();
  };
  const plain = (kind: MarkKind) => ({ key: kind, label: names[kind], act: () => log(kind, {}) });
  const ask = (kind: Asking, label: string = names[kind]) => ({
    key: `${kind} …`,
    label,
    act: () => onChange({ chosen: kind }),
  });
  const steps = (kind: 'wind' | 'rain') =>
    words.steps.map((label, step) => ({ key: label, label, act: () => log(kind, { step }) }));
  return (
    <Sheet title={chosen ? names[chosen] : words.title} onClose={close}>
      <MinutesAgoChoice value={ago} onChange={(value) => onChange({ ago: value })} />
      {chosen ? (
        <Ask kind={chosen} draft={draft.value} onChange={onChange} onLog={log} />
      ) : (
        <>
          <Kinds
            title={words.groups.fire}
            choices={[
              plain(state.litUs === undefined ? 'lit' : 'relit'),
              plain('fireOut'),
              ...(offersNudged ? [plain('nudged')] : []),
              plain('logOut'),
              ask('logOut', words.logOutWeighed),
            ]}
          />
          <Kinds
            title={words.groups.pot}
            choices={[
              plain(state.potIsOn ? 'potOff' : 'potOn'),
              plain('targetReached'),
              plain('holdStart'),
              plain('holdEnd'),
            ]}
          />
          <Kinds
            title={words.groups.water}
            choices={[ask('waterIn'), ask('waterOut'), ask('goodsIn'), ask('goodsOut')]}
          />
          <Kinds
            title={words.groups.bench}
            choices={[ask('note'), ask('photo'), plain(state.isAway ? 'back' : 'away')]}
          />
          <Kinds title={names.wind} choices={steps('wind')} areSteps />
          <Kinds title={names.rain} choices={steps('rain')} areSteps />
          <Kinds
            title={names.probeMoved}
            choices={detail.burn.channels.map(({ id, name }) => ({
              key: id,
              label: name,
              act: () => log('probeMoved', { channelId: id }),
            }))}
          />
        </>
      )}
    </Sheet>
  );
}

function Kinds({
  title,
  choices,
  areSteps = false,
}: {
  title: string;
  choices: readonly { key: string; label: string; act: () => void }[];
  /** More and more of the same, side by side. */
  areSteps?: boolean;
}): VNode | null {
  const id = useId();
  if (choices.length === 0) return null;
  return (
    <section class="kinds" aria-labelledby={id}>
      <h3 id={id}>{title}</h3>
      <div class={areSteps ? 'kinds-row steps-row' : 'kinds-row'}>
        {choices.map(({ key, label, act }) => (
          <button type="button" key={key} onClick={act}>
            {label}
          </button>
        ))}
      </div>
    </section>
  );
}

function Ask({ kind, onLog, ...props }: AskProps & { kind: Asking; onLog: LogOther }): VNode {
  switch (kind) {
    case 'note':
      return <AskNote {...props} onLog={(note) => onLog(kind, { note })} />;
    case 'photo':
      return <PhotoField opensAtOnce onPhoto={(photo) => onLog(kind, { photo })} />;
    default:
      return <AskMass {...props} kind={kind} onLog={(details) => onLog(kind, details)} />;
  }
}

function AskNote({ draft, onChange, onLog }: AskProps & { onLog: (note: string) => void }): VNode {
  const text = draft.note.trim();
  const tried = useSignal(false);
  const problem = tried.value && text === '' ? translate().describe.number.text : undefined;
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        tried.value = true;
        if (text !== '') onLog(text);
        else focusFirstWrong(event.currentTarget);
      }}
    >
      <TextField
        label={translate().other.text}
        lines={4}
        value={draft.note}
        problem={problem}
        onInput={(note) => onChange({ note })}
      />
      <button type="submit" class="primary log">
        {translate().other.log}
      </button>
    </form>
  );
}

/** What each kind asks besides the mass. */
const asksTemp: readonly MarkKind[] = ['waterIn', 'waterOut', 'goodsIn', 'goodsOut'];

function AskMass({
  draft,
  onChange,
  kind,
  onLog,
}: AskProps & { kind: Mark['kind']; onLog: (details: Record<string, unknown>) => void }): VNode {
  const words = translate().other;
  const tried = useSignal(false);
  const set = (field: 'mass' | 'temp' | 'carried') => (value: string) => onChange({ [field]: value });
  const mass = readQuantity('mass', draft.mass, { positive: true, high: 200 });
  const temp = readQuantity('temperature', draft.temp, { low: -30, high: 120 });
  const carried = readQuantity('mass', draft.carried, { low: 0, high: 200 });
  const needsTemp = asksTemp.includes(kind);
  const wantsCarried = kind === 'goodsOut' && draft.carried.trim() !== '';
  // A log pulled out of the fire is seldom weighed on the spot.
  const massMayMiss = kind === 'logOut' && draft.mass.trim() === '';
  const problemOf = (entry: { ok: true } | { ok: false; problem: string }) =>
    tried.value && !entry.ok ? entry.problem : undefined;
  const submit = (event: Event) => {
    event.preventDefault();
    tried.value = true;
    if ((!mass.ok && !massMayMiss) || (needsTemp && !temp.ok) || (wantsCarried && !carried.ok))
      return focusFirstWrong(event.currentTarget as HTMLFormElement);
    onLog({
      ...(mass.ok && { massKg: mass.value }),
      ...(needsTemp && temp.ok && { tempC: temp.value }),
      ...(wantsCarried && carried.ok && { waterCarriedOutKg: carried.value }),
    });
  };
  return (
    <form onSubmit={submit}>
      <TextField
        decimal
        label={words.mass}
        unit={unit('mass')}
        value={draft.mass}
        hint={kind === 'logOut' ? translate().describe.fields.optional : undefined}
        problem={massMayMiss ? undefined : problemOf(mass)}
        onInput={set('mass')}
      />
      {needsTemp && (
        <TextField
          decimal
          label={words.temp}
          unit={unit('temperature')}
          value={draft.temp}
          problem={problemOf(temp)}
          onInput={set('temp')}
        />
      )}
      {kind === 'goodsOut' && (
        <TextField
          decimal
          label={words.carriedOut}
          unit={unit('mass')}
          hint={translate().describe.fields.optional}
          value={draft.carried}
          problem={wantsCarried ? problemOf(carried) : undefined}
          onInput={set('carried')}
        />
      )}
      <button type="submit" class="primary log">
        {words.log}
      </button>
    </form>
  );
}
