/** All the other marks: a tap for the plain ones, one more entry for those that carry a figure. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnDetail } from '../../../shared/contract/api.ts';
import type { Mark, MarkKind } from '../../../shared/contract/marks.ts';
import type { BurnState } from '../../lib/burn-state.ts';
import { say } from '../../state/catalogue.ts';
import { readQuantity, unit } from '../../state/figures.ts';
import { TextField } from '../kit/field.tsx';
import { PhotoField } from '../kit/photo.tsx';
import { Sheet } from '../kit/sheet.tsx';

type LogOther = (kind: MarkKind, details: Record<string, unknown>) => void;
type Asking = Extract<
  MarkKind,
  'waterIn' | 'waterOut' | 'goodsIn' | 'goodsOut' | 'logOut' | 'probeMoved' | 'wind' | 'rain' | 'note' | 'photo'
>;

const asking: readonly MarkKind[] = [
  'waterIn',
  'waterOut',
  'goodsIn',
  'goodsOut',
  'logOut',
  'probeMoved',
  'wind',
  'rain',
  'note',
  'photo',
];

export function OtherSheet({
  detail,
  state,
  first,
  onLog,
  onClose,
}: {
  detail: BurnDetail;
  state: BurnState;
  /** Open at once at the entry for this kind. */
  first?: Asking | undefined;
  onLog: LogOther;
  onClose: () => void;
}): VNode {
  const words = say().other;
  const names = say().marks.names;
  const chosen = useSignal<Asking | undefined>(first);
  const groups: readonly (readonly [string, readonly MarkKind[]])[] = [
    [words.groups.fire, [state.litUs === undefined ? 'lit' : 'relit', 'fed', 'nudged', 'logOut', 'fireOut']],
    [words.groups.pot, [state.potIsOn ? 'potOff' : 'potOn', 'targetReached', 'holdStart', 'holdEnd']],
    [words.groups.water, ['waterIn', 'waterOut', 'goodsIn', 'goodsOut']],
    [words.groups.bench, ['note', 'photo', 'probeMoved', 'wind', 'rain', state.isAway ? 'back' : 'away']],
  ];
  const choose = (kind: MarkKind) => {
    if (asking.includes(kind)) chosen.value = kind as Asking;
    else onLog(kind, {});
  };
  return (
    <Sheet title={chosen.value ? names[chosen.value] : words.title} onClose={onClose}>
      {chosen.value ? (
        <Ask kind={chosen.value} detail={detail} onLog={onLog} />
      ) : (
        groups.map(([title, kinds]) => (
          <section class="kinds" key={title}>
            <h3>{title}</h3>
            <div class="kinds-row">
              {kinds
                .filter((kind) => kind !== 'fed' && kind !== 'nudged')
                .map((kind) => (
                  <button type="button" key={kind} onClick={() => choose(kind)}>
                    {names[kind]}
                  </button>
                ))}
            </div>
          </section>
        ))
      )}
    </Sheet>
  );
}

function Ask({ kind, detail, onLog }: { kind: Asking; detail: BurnDetail; onLog: LogOther }): VNode {
  switch (kind) {
    case 'wind':
    case 'rain':
      return <AskStep onPick={(step) => onLog(kind, { step })} />;
    case 'probeMoved':
      return <AskProbe detail={detail} onPick={(channelId) => onLog(kind, { channelId })} />;
    case 'note':
      return <AskNote onLog={(note) => onLog(kind, { note })} />;
    case 'photo':
      return <PhotoField onPhoto={(photo) => onLog(kind, { photo })} />;
    default:
      return <AskMass kind={kind} onLog={(details) => onLog(kind, details)} />;
  }
}

function AskStep({ onPick }: { onPick: (step: number) => void }): VNode {
  return (
    <div class="kinds-row tall">
      {say().other.steps.map((text, step) => (
        <button type="button" key={text} onClick={() => onPick(step)}>
          {text}
        </button>
      ))}
    </div>
  );
}

function AskProbe({ detail, onPick }: { detail: BurnDetail; onPick: (channelId: string) => void }): VNode {
  return (
    <>
      <p>{say().other.whichProbe}</p>
      <div class="kinds-row tall">
        {detail.burn.channels.map(({ id, name }) => (
          <button type="button" key={id} onClick={() => onPick(id)}>
            {name}
          </button>
        ))}
      </div>
    </>
  );
}

function AskNote({ onLog }: { onLog: (note: string) => void }): VNode {
  const text = useSignal('');
  const tried = useSignal(false);
  const problem = tried.value && text.value.trim() === '' ? say().describe.number.text : undefined;
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        tried.value = true;
        if (text.value.trim() !== '') onLog(text.value.trim());
      }}
    >
      <TextField
        label={say().other.text}
        lines={4}
        value={text.value}
        problem={problem}
        onInput={(value) => {
          text.value = value;
        }}
      />
      <button type="submit" class="primary log">
        {say().other.log}
      </button>
    </form>
  );
}

/** What each kind asks besides the mass. */
const asksTemp: readonly MarkKind[] = ['waterIn', 'waterOut', 'goodsIn', 'goodsOut'];

function AskMass({ kind, onLog }: { kind: Mark['kind']; onLog: (details: Record<string, unknown>) => void }): VNode {
  const words = say().other;
  const entries = useSignal({ mass: '', temp: '', carried: '' });
  const tried = useSignal(false);
  const set = (field: 'mass' | 'temp' | 'carried') => (value: string) => {
    entries.value = { ...entries.value, [field]: value };
  };
  const mass = readQuantity('mass', entries.value.mass, { positive: true, high: 200 });
  const temp = readQuantity('temperature', entries.value.temp, { low: -40, high: 300 });
  const carried = readQuantity('mass', entries.value.carried, { low: 0, high: 200 });
  const needsTemp = asksTemp.includes(kind);
  const wantsCarried = kind === 'goodsOut' && entries.value.carried.trim() !== '';
  // A log pulled out of the fire is seldom weighed on the spot.
  const massMayMiss = kind === 'logOut' && entries.value.mass.trim() === '';
  const problemOf = (entry: { ok: true } | { ok: false; problem: string }) =>
    tried.value && !entry.ok ? entry.problem : undefined;
  const submit = (event: Event) => {
    event.preventDefault();
    tried.value = true;
    if ((!mass.ok && !massMayMiss) || (needsTemp && !temp.ok) || (wantsCarried && !carried.ok)) return;
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
        value={entries.value.mass}
        hint={kind === 'logOut' ? say().describe.fields.optional : undefined}
        problem={massMayMiss ? undefined : problemOf(mass)}
        onInput={set('mass')}
      />
      {needsTemp && (
        <TextField
          decimal
          label={words.temp}
          unit={unit('temperature')}
          value={entries.value.temp}
          problem={problemOf(temp)}
          onInput={set('temp')}
        />
      )}
      {kind === 'goodsOut' && (
        <TextField
          decimal
          label={words.carriedOut}
          unit={unit('mass')}
          hint={say().describe.fields.optional}
          value={entries.value.carried}
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
