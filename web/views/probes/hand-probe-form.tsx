/** A thermometer, scale or gauge that the person reads: its quantity, its place, its stated uncertainty. */
import type { VNode } from 'preact';
import type { HandProbe } from '../../../shared/contract/hand-probes.ts';
import { handUnits } from '../../../shared/contract/ucum-units.ts';
import { translate } from '../../language/catalogue.ts';
import { uuid7 } from '../../outbox/uuid7.ts';
import { placeHandProbe, takeHandProbeAway } from '../../state/hand-probes.ts';
import { choice, type DraftOf, needed } from '../forms/field-spec.ts';
import { useDraft } from '../forms/use-draft.ts';
import { useForm } from '../forms/use-form.tsx';
import { trustDraft, trustFields, trustOf, uncertaintiesFrom } from './hand-trust.ts';
import { rolesFor } from './roles.ts';
import { sittingFields } from './sitting-fields.ts';

type Role = HandProbe['role'];
type Unit = HandProbe['unit'];

function probeFields({ unit, role }: { unit: Unit; role: Role }) {
  const words = translate().hand;
  return {
    unit: needed(
      choice(
        { label: words.quantity },
        handUnits.map((each) => [each, words.quantities[each]]),
      ),
    ),
    ...sittingFields(unit, role),
    ...trustFields(unit),
  };
}

interface Draft extends DraftOf<ReturnType<typeof probeFields>> {
  readonly id: string;
  readonly unit: Unit;
  readonly role: Role;
}

export function HandProbeForm({ probe, onDone }: { probe: HandProbe | undefined; onDone: () => void }): VNode {
  const words = translate().hand;
  const roles = translate().burns.roles;
  const { draft, forget } = useDraft<Draft>(`hand-probe.${probe?.id ?? 'new'}`, {
    id: probe?.id ?? uuid7(),
    unit: probe?.unit ?? 'Cel',
    role: probe?.role ?? 'water',
    position: probe?.position ?? '',
    name: probe?.name ?? roles.water,
    ...trustDraft(probe?.unit ?? 'Cel', probe),
  });
  const change = (fields: Partial<Draft>) => {
    const before = draft.value;
    let next = { ...before, ...fields };
    if (next.unit !== before.unit)
      next = { ...next, role: rolesFor(next.unit)[0]!, ...trustDraft(next.unit, undefined) };
    // A default name follows the place of the probe.
    if (next.role !== before.role && before.name === roles[before.role]) next = { ...next, name: roles[next.role] };
    draft.value = next;
  };
  const known = probe && probe.unit === draft.value.unit ? trustOf(probe) : undefined;
  const form = useForm(probeFields(draft.value), draft.value, (fields) => change(fields as Partial<Draft>), known);
  const done = () => {
    forget();
    onDone();
  };
  const save = form.submit(async ({ off, step, ...sitting }) => {
    const { id } = draft.value;
    const dial = sitting.unit === 'Cel' && { probe: { kind: 'dial' as const } };
    await placeHandProbe({ id, ...sitting, ...dial, ...uncertaintiesFrom(off, step) });
    done();
  });
  const takeAway = async (id: string) => {
    await takeHandProbeAway(id);
    done();
  };
  return (
    <form onSubmit={save}>
      {(['unit', 'role', 'position', 'name', 'off', 'step'] as const).map((key) => form.field(key))}
      <p class="problem" role="alert">
        {form.refusal}
      </p>
      <p class="row">
        <button type="submit" class="primary">
          {probe ? translate().save : words.place}
        </button>
        {probe && (
          <button type="button" onClick={() => void form.attempt(() => takeAway(probe.id))}>
            {words.takeAway}
          </button>
        )}
      </p>
      {probe && <p class="hint">{words.takeAwaySure}</p>}
    </form>
  );
}
