/** A thermometer, scale or gauge that the person reads: what it shows, where it sits, how far it is trusted. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { type HandProbe, handUnits } from '../../../shared/contract/hand-probes.ts';
import { uuid7 } from '../../lib/uuid7.ts';
import { translate, translateRig } from '../../state/catalogue.ts';
import { placeHandProbe, takeHandProbeAway } from '../../state/hand-probes.ts';
import { draftFields } from '../kit/draft-fields.tsx';
import { useRefused } from '../kit/refused-form.tsx';
import { useDraft } from '../kit/use-draft.ts';
import { sentenceFor } from '../kit/use-load.ts';
import { readTrust, trustUnit, typedTrust, uncertaintiesFrom } from './hand-trust.ts';
import { rolesFor } from './roles.ts';

type Role = HandProbe['role'];
type Unit = HandProbe['unit'];

interface Draft {
  readonly id: string;
  readonly unit: Unit;
  readonly role: Role;
  readonly position: '' | NonNullable<HandProbe['position']>;
  readonly name: string;
  readonly off: string;
  readonly step: string;
}

export function HandProbeForm({ probe, onDone }: { probe: HandProbe | undefined; onDone: () => void }): VNode {
  const words = translate().hand;
  const roles = translate().read.roles;
  const { draft, forget } = useDraft<Draft>(`hand-probe.${probe?.id ?? 'new'}`, {
    id: probe?.id ?? uuid7(),
    unit: probe?.unit ?? 'Cel',
    role: probe?.role ?? 'water',
    position: probe?.position ?? '',
    name: probe?.name ?? roles.water,
    ...typedTrust(probe?.unit ?? 'Cel', probe),
  });
  const refusal = useSignal<string | undefined>(undefined);
  const { unit, role, position, name } = draft.value;
  const off = readTrust(unit, draft.value.off);
  const step = readTrust(unit, draft.value.step);
  const problems = useRefused({
    ...(name.trim() === '' && { name: translate().describe.number.text }),
    ...(!off.ok && { off: off.problem }),
    ...(!step.ok && { step: step.problem }),
  });
  const change = (fields: Partial<Draft>) => {
    const before = draft.value;
    let next = { ...before, ...fields };
    if (next.unit !== before.unit)
      next = { ...next, role: rolesFor(next.unit)[0]!, ...typedTrust(next.unit, undefined) };
    // A name nobody chose says where the probe sits.
    if (next.role !== before.role && before.name === roles[before.role]) next = { ...next, name: roles[next.role] };
    draft.value = next;
  };
  const save = async (event: Event) => {
    event.preventDefault();
    const { id } = draft.value;
    refusal.value = undefined;
    if (name.trim() === '' || !off.ok || !step.ok) return problems.refuse(event.currentTarget as HTMLFormElement);
    await attempt(() =>
      placeHandProbe({
        id,
        unit,
        role,
        name: name.trim(),
        ...(position && role === 'water' && { position }),
        ...(unit === 'Cel' && { probe: { kind: 'dial' } }),
        ...uncertaintiesFrom(off.value, step.value),
      }),
    );
  };
  const attempt = async (act: () => Promise<void>) => {
    try {
      await act();
      forget();
      onDone();
    } catch (cause) {
      refusal.value = sentenceFor(cause);
    }
  };
  const fields = draftFields<Draft>({ draft: draft.value, problems: problems.shown, onChange: change });
  return (
    <form onSubmit={save}>
      {fields.choice(
        'unit',
        words.quantity,
        handUnits.map((each) => [each, words.quantities[each]]),
      )}
      {fields.select(
        'role',
        translateRig().role,
        rolesFor(unit).map((each) => [each, roles[each]]),
        role === 'water' ? { hint: translateRig().waterHint } : {},
      )}
      {role === 'water' &&
        fields.choice(
          'position',
          translateRig().position,
          (['low', 'middle', 'high'] as const).map((each) => [each, translateRig().positions[each]]),
        )}
      {fields.line('name', translateRig().name)}
      {fields.figure('off', words.mayBeOff, `± ${trustUnit(unit)}`, unit === 'Cel' ? { hint: words.mayBeOffHelp } : {})}
      {fields.figure('step', words.step, trustUnit(unit))}
      <p class="problem" role="alert">
        {refusal.value}
      </p>
      <p class="row">
        <button type="submit" class="primary">
          {probe ? translate().save : words.place}
        </button>
        {probe && (
          <button type="button" onClick={() => void attempt(() => takeHandProbeAway(probe.id))}>
            {words.takeAway}
          </button>
        )}
      </p>
      {probe && <p class="hint">{words.takeAwaySure}</p>}
    </form>
  );
}
