/** All the other marks: a tap for the simple ones, one more entry for those with a number. */

import type { VNode } from 'preact';
import { useId } from 'preact/hooks';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import { type KindsWith, kindsWith, MARK_KINDS, type MarkProperties } from '../../../shared/contract/mark-kinds.ts';
import type { MarkKind } from '../../../shared/contract/marks.ts';
import type { BurnState } from '../../burn/burn-state.ts';
import { translate } from '../../language/catalogue.ts';
import { askedIf, type DraftOf, line, needed, quantity } from '../forms/field-spec.ts';
import { PhotoField } from '../forms/photo.tsx';
import { useDraft } from '../forms/use-draft.ts';
import { useForm } from '../forms/use-form.tsx';
import { Sheet } from '../sheets/sheet.tsx';
import { type MinutesAgo, MinutesAgoChoice } from './minutes-ago.tsx';

type LogOther = (kind: MarkKind, details: Record<string, unknown>) => void;
/** Marks with numbers or text, which are entered here. */
type Asking = Exclude<KindsWith<'entry', 'details' | 'either'>, 'fed' | 'reading' | 'wind' | 'rain' | 'probeMoved'>;

const groups = ['fire', 'pot', 'water', 'bench'] as const;
type Group = (typeof groups)[number];

/** The fields of each kind. */
function askedOf(kind: Asking | '') {
  const words = translate().other;
  const { optional } = translate().describe.fields;
  const isNote = kind === 'note';
  // A log pulled out of the fire is seldom weighed at once.
  const mayMiss = kind === 'logOut';
  const mass = quantity('mass', { label: words.mass, hint: mayMiss ? optional : undefined, positive: true, high: 200 });
  return {
    note: askedIf(isNote, needed(line({ label: words.text, lines: 4 }))),
    massKg: askedIf(!isNote, mayMiss ? mass : needed(mass)),
    tempC: askedIf(!isNote && !mayMiss, needed(quantity('temperature', { label: words.temp, low: -30, high: 120 }))),
    waterCarriedOutKg: askedIf(
      kind === 'goodsOut',
      quantity('mass', { label: words.carriedOut, hint: optional, low: 0, high: 200 }),
    ),
  };
}

/** As typed and chosen; outlasts a reload, not the closing of the sheet. */
interface OtherDraft extends DraftOf<ReturnType<typeof askedOf>> {
  readonly chosen: Asking | '';
  readonly ago: MinutesAgo;
}

export function OtherSheet({
  detail,
  state,
  isHoldDone,
  first,
  onLog,
  onClose,
}: {
  detail: BurnDetail;
  state: BurnState;
  isHoldDone: boolean;
  /** Opens directly at the entry of this kind. */
  first?: Asking | undefined;
  onLog: (...logged: [...Parameters<LogOther>, agoS: number]) => void;
  onClose: () => void;
}): VNode {
  const words = translate().other;
  const names = translate().marks.names;
  const { draft, forget } = useDraft<OtherDraft>(`other.${detail.burn.id}`, {
    chosen: first ?? '',
    ago: '0',
    note: '',
    massKg: '',
    tempC: '',
    waterCarriedOutKg: '',
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
  return (
    <Sheet title={chosen ? names[chosen] : words.title} onClose={close}>
      <MinutesAgoChoice value={ago} onChange={(value) => onChange({ ago: value })} />
      {chosen ? (
        <Ask kind={chosen} draft={draft.value} onChange={onChange} onLog={(details) => log(chosen, details)} />
      ) : (
        <AllKinds
          detail={detail}
          state={state}
          isHoldDone={isHoldDone}
          onLog={log}
          onAsk={(kind) => onChange({ chosen: kind })}
        />
      )}
    </Sheet>
  );
}

function AllKinds({
  detail,
  state,
  isHoldDone,
  onLog,
  onAsk,
}: {
  detail: BurnDetail;
  state: BurnState;
  isHoldDone: boolean;
  onLog: LogOther;
  onAsk: (kind: Asking) => void;
}): VNode {
  const words = translate().other;
  const names = translate().marks.names;
  const plain = (kind: MarkKind) => ({ key: kind, label: names[kind], act: () => onLog(kind, {}) });
  const ask = (kind: Asking, label: string = names[kind]) => ({
    key: `${kind} …`,
    label,
    act: () => onAsk(kind),
  });
  const offer = { isLit: state.litUs !== undefined, potIsOn: state.potIsOn, isAway: state.isAway, isHoldDone };
  const choicesOf = (group: Group) =>
    kindsWith('button', group).flatMap((kind) => {
      const { entry, isOffered }: MarkProperties = MARK_KINDS[kind];
      if (isOffered && !isOffered(offer)) return [];
      if (entry === 'tap') return [plain(kind)];
      const asked = kind as Asking;
      return entry === 'details' ? [ask(asked)] : [plain(kind), ask(asked, words.logOutWeighed)];
    });
  const steps = (kind: 'wind' | 'rain') =>
    words.steps.map((label, step) => ({ key: label, label, act: () => onLog(kind, { step }) }));
  return (
    <>
      {groups.map((group) => (
        <Kinds key={group} title={words.groups[group]} choices={choicesOf(group)} />
      ))}
      <Kinds title={names.wind} choices={steps('wind')} areSteps />
      <Kinds title={names.rain} choices={steps('rain')} areSteps />
      <Kinds
        title={names.probeMoved}
        choices={detail.burn.channels.map(({ id, name }) => ({
          key: id,
          label: name,
          act: () => onLog('probeMoved', { channelId: id }),
        }))}
      />
    </>
  );
}

function Kinds({
  title,
  choices,
  areSteps = false,
}: {
  title: string;
  choices: readonly { key: string; label: string; act: () => void }[];
  /** A choice of increasing steps, in a row. */
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

function Ask({
  kind,
  draft,
  onChange,
  onLog,
}: {
  kind: Asking;
  draft: OtherDraft;
  onChange: (fields: Partial<OtherDraft>) => void;
  onLog: (details: Record<string, unknown>) => void;
}): VNode {
  const { field, submit } = useForm(askedOf(kind), draft, onChange);
  if (kind === 'photo') return <PhotoField opensAtOnce onPhoto={(photo) => onLog({ photo })} />;
  return (
    <form onSubmit={submit(onLog)}>
      {field('note')}
      {field('massKg')}
      {field('tempC')}
      {field('waterCarriedOutKg')}
      <button type="submit" class="primary log">
        {translate().other.log}
      </button>
    </form>
  );
}
