/** One weighing to enter or to correct. What was typed stays in the field until it is kept. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnDetail, KeptWeighing } from '../../../shared/contract/api.ts';
import type { Weighing } from '../../../shared/contract/weighings.ts';
import { Refusal } from '../../lib/api.ts';
import { dippedLitres } from '../../lib/dipstick.ts';
import { uuid7 } from '../../lib/uuid7.ts';
import { announce } from '../../state/announce.ts';
import { say } from '../../state/catalogue.ts';
import { type Entry, readNumber, readQuantity, text, typed, unit } from '../../state/figures.ts';
import { keepWeighing, loadBurn } from '../../state/open-burn.ts';
import { sendWeighing } from '../../state/outbox.ts';
import { call } from '../../state/service.ts';
import type { ShownWeighing } from '../../state/shown-marks.ts';
import { CheckField, Choice, TextField } from '../kit/field.tsx';
import { useDraft } from '../kit/use-draft.ts';
import { sentenceFor } from '../kit/use-load.ts';
import { weighingWords } from './weighings-list.tsx';

type Measured = 'mass' | 'volume' | 'dip';

export function WeighStep({
  detail,
  of,
  when,
  known,
  innerDiameterM,
  lot,
}: {
  detail: BurnDetail;
  of: Weighing['of'];
  when: Weighing['when'];
  known: ShownWeighing | undefined;
  innerDiameterM: number | undefined;
  /** Of which lot, where there are several. */
  lot?: { id: string; name: string };
}): VNode {
  const words = say().read.wrap;
  const title = lot ? words.of({ what: words[of], lot: lot.name }) : words[of];
  const help =
    when === 'start' && (of === 'fuelPile' || of === 'water' || of === 'char')
      ? words[`${of}StartHelp`]
      : words[`${of}Help`];
  const open = useSignal(false);
  const isOpen = open.value || !known;
  const close = (what: string) => {
    open.value = false;
    announce(words.saved({ what }));
  };
  return (
    <li class={known && !known.weighing.pending ? 'step done' : 'step'}>
      <h3>{title}</h3>
      <p class="hint">{help}</p>
      {known && (
        <p class="step-known">
          <b>{weighingWords(known.weighing)}</b>
          {known.state !== 'kept' && (
            <span class="quiet"> · {known.state === 'waiting' ? say().marks.waiting : say().marks.refused}</span>
          )}{' '}
          {!open.value && (
            <button
              type="button"
              class="plain"
              onClick={() => {
                open.value = true;
              }}
            >
              {words.change}
            </button>
          )}
        </p>
      )}
      {isOpen && (
        <WeighForm
          detail={detail}
          of={of}
          when={when}
          known={known}
          innerDiameterM={innerDiameterM}
          lotId={lot?.id}
          onKept={close}
        />
      )}
    </li>
  );
}

function WeighForm({
  detail,
  of,
  when,
  known,
  innerDiameterM,
  lotId,
  onKept,
}: {
  detail: BurnDetail;
  of: Weighing['of'];
  when: Weighing['when'];
  known: ShownWeighing | undefined;
  innerDiameterM: number | undefined;
  lotId: string | undefined;
  onKept: (what: string) => void;
}): VNode {
  const words = say().read.wrap;
  const isWater = of === 'water';
  const was = known?.weighing;
  const { draft, forget } = useDraft(`weigh.${detail.burn.id}.${of}.${when}.${lotId ?? ''}.${known?.version ?? 0}`, {
    measured: (was?.volumeL === undefined ? 'mass' : 'volume') as Measured,
    amount: was?.volumeL === undefined ? typed('mass', was?.massKg) : typed('volume', was.volumeL),
    temp: typed('temperature', was?.tempC, 1),
    lidOn: was?.lidOn ?? true,
  });
  const { measured, amount, temp, lidOn } = draft.value;
  const change = (fields: Partial<typeof draft.value>) => {
    draft.value = { ...draft.value, ...fields };
  };
  const problems = useSignal<{ amount?: string | undefined; temp?: string | undefined; all?: string | undefined }>({});

  // What this form started from: a version that came from another screen meanwhile is shown before it is overwritten.
  const startedFrom = useSignal(known?.version);

  const send = async (fields: Partial<Weighing>) => {
    if (known?.version !== startedFrom.value) {
      startedFrom.value = known?.version;
      problems.value = { all: say().marks.conflict };
      return;
    }
    const {
      massKg: _m,
      volumeL: _v,
      pending: _p,
      tempC: _t,
      ...rest
    } = was ?? { id: uuid7(), of, when, ...(lotId && { fuelLotId: lotId }) };
    const weighing = { ...rest, ...fields } as Weighing;
    try {
      if (known && known.state === 'kept') {
        const kept = await call<KeptWeighing>('PUT', `/burns/${detail.burn.id}/weighings/${weighing.id}`, {
          weighing,
          expectedVersion: known.version,
        });
        keepWeighing(detail.burn.id, kept);
      } else await sendWeighing(detail.burn.id, weighing);
      forget();
      onKept(words[of]);
    } catch (cause) {
      if (cause instanceof Refusal && cause.status === 409) {
        await loadBurn(detail.burn.id).catch(() => undefined);
        problems.value = { all: say().marks.conflict };
      } else problems.value = { all: sentenceFor(cause) };
    }
  };
  const save = (event: Event) => {
    event.preventDefault();
    const entered = readAmount(measured, amount, innerDiameterM);
    const temperature =
      isWater && temp.trim() !== '' ? readQuantity('temperature', temp, { low: -5, high: 110 }) : undefined;
    problems.value = {
      amount: entered.ok ? undefined : entered.problem,
      temp: temperature && !temperature.ok ? temperature.problem : undefined,
    };
    if (!entered.ok || (temperature && !temperature.ok)) return;
    void send({
      ...entered.value,
      ...(temperature?.ok && { tempC: temperature.value }),
      ...(isWater && when === 'end' && { lidOn }),
    });
  };
  const dipped = measured === 'dip' ? readAmount('dip', amount, innerDiameterM) : undefined;
  return (
    <form class="weigh-form" onSubmit={save}>
      {isWater && (
        <Choice
          label={words.water}
          value={measured}
          options={[
            ['mass', words.asMass],
            ['volume', words.asVolume],
            ['dip', words.asDip],
          ]}
          onChange={(value) => {
            change({ measured: value, amount: '' });
          }}
        />
      )}
      <TextField
        decimal
        label={measured === 'dip' ? words.dip : measured === 'volume' ? words.asVolume : words.mass}
        unit={measured === 'dip' ? 'mm' : unit(measured === 'volume' ? 'volume' : 'mass')}
        hint={
          measured === 'mass'
            ? words.net
            : dipped?.ok && dipped.value.volumeL !== undefined
              ? words.dipGives({ volume: text('volume', dipped.value.volumeL) })
              : undefined
        }
        value={amount}
        problem={problems.value.amount}
        onInput={(value) => {
          change({ amount: value });
        }}
      />
      {isWater && (
        <TextField
          decimal
          label={words.tempAt}
          unit={unit('temperature')}
          value={temp}
          problem={problems.value.temp}
          onInput={(value) => {
            change({ temp: value });
          }}
        />
      )}
      {isWater && when === 'end' && (
        <CheckField
          label={words.lidOn}
          checked={lidOn}
          onChange={(on) => {
            change({ lidOn: on });
          }}
        />
      )}
      <p class="row">
        <button type="submit" class="primary">
          {say().save}
        </button>
        {of === 'char' && when === 'end' && !was?.pending && (
          <button type="button" onClick={() => void send({ pending: true })}>
            {words.pendingButton}
          </button>
        )}
      </p>
      <p class="problem" role="alert">
        {problems.value.all}
      </p>
    </form>
  );
}

function readAmount(
  measured: Measured,
  typedText: string,
  innerDiameterM: number | undefined,
): Entry<Pick<Weighing, 'massKg' | 'volumeL'>> {
  if (measured === 'mass') {
    const mass = readQuantity('mass', typedText, { low: 0, high: 500 });
    return mass.ok ? { ok: true, value: { massKg: mass.value } } : mass;
  }
  if (measured === 'volume') {
    const volume = readQuantity('volume', typedText, { positive: true, high: 500 });
    return volume.ok ? { ok: true, value: { volumeL: volume.value } } : volume;
  }
  if (innerDiameterM === undefined) return { ok: false, problem: say().read.wrap.dipNeedsPot };
  const depth = readNumber(typedText);
  if (!depth.ok) return depth;
  if (depth.value <= 0) return { ok: false, problem: say().describe.number.notPositive };
  return { ok: true, value: { volumeL: dippedLitres(depth.value / 1000, innerDiameterM) } };
}
