/** Where a probe sits, what it is called, how far it is trusted. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BenchChannel } from '../../../shared/contract/boards.ts';
import { choiceOf, probeFrom } from '../../lib/probe-kinds.ts';
import { benchChannels } from '../../state/bench.ts';
import { translate, translateRig } from '../../state/catalogue.ts';
import { readNumber, readQuantity, text, typed, unit } from '../../state/figures.ts';
import { placeChannel } from '../../state/placing.ts';
import { Choice, SelectField, TextField } from '../kit/field.tsx';
import { isTemperature } from '../kit/reading-words.ts';
import { useRefused } from '../kit/refused-form.tsx';
import { useDraft } from '../kit/use-draft.ts';
import { sentenceFor } from '../kit/use-load.ts';
import { Calibrate } from './calibrate.tsx';
import { ProbeKind } from './probe-kind.tsx';
import { rolesFor } from './roles.ts';

type Position = NonNullable<BenchChannel['position']>;

export function ChannelForm({ channel: given, onSaved }: { channel: BenchChannel; onSaved: () => void }): VNode {
  const words = translateRig();
  const channel = benchChannels.value.find(({ id }) => id === given.id) ?? given;
  const { draft: entries, forget } = useDraft(`channel.${channel.id}`, {
    name: channel.name,
    role: channel.role,
    position: (channel.position ?? '') as Position | '',
    ...choiceOf(channel.probe),
    uncertainty: typed('temperatureDifference', channel.standardUncertainty),
    lag: channel.timeConstantS === undefined ? '' : String(channel.timeConstantS),
  });
  const refusal = useSignal<string | undefined>(undefined);
  const set =
    <K extends keyof typeof entries.value>(field: K) =>
    (value: (typeof entries.value)[K]) => {
      entries.value = { ...entries.value, [field]: value };
    };
  const isTemp = isTemperature(channel);
  const { name, role, position, choice, toleranceClass, uncertainty, lag } = entries.value;
  const u =
    uncertainty.trim() === ''
      ? undefined
      : readQuantity('temperatureDifference', uncertainty, { positive: true, high: 50 });
  const tau = lag.trim() === '' ? undefined : readNumber(lag);
  const found = {
    ...(name.trim() === '' && { name: translate().describe.number.text }),
    ...(u && !u.ok && { uncertainty: u.problem }),
    ...(tau && !tau.ok && { lag: tau.problem }),
    ...(tau?.ok && tau.value <= 0 && { lag: translate().describe.number.notPositive }),
  };
  const problems = useRefused(found);
  const save = async (event: Event) => {
    event.preventDefault();
    refusal.value = undefined;
    if (Object.keys(found).length > 0) return problems.refuse(event.currentTarget as HTMLFormElement);
    const probe = probeFrom(choice, toleranceClass, channel.probe);
    try {
      await placeChannel(channel, {
        name: name.trim(),
        role,
        ...(position && role === 'water' && { position }),
        ...(probe && { probe }),
        ...(u?.ok && { standardUncertainty: u.value }),
        ...(tau?.ok && { timeConstantS: tau.value }),
      });
      forget();
      onSaved();
    } catch (cause) {
      refusal.value = sentenceFor(cause);
    }
  };
  const roles = rolesFor(channel.unit);
  return (
    <>
      <form onSubmit={save}>
        <SelectField
          label={words.role}
          value={entries.value.role}
          options={roles.map((role) => [role, translate().read.roles[role]])}
          hint={entries.value.role === 'water' ? words.waterHint : undefined}
          onChange={set('role')}
        />
        {entries.value.role === 'water' && (
          <Choice<Position | ''>
            label={words.position}
            value={entries.value.position}
            options={(['low', 'middle', 'high'] as const).map((position) => [position, words.positions[position]])}
            onChange={set('position')}
          />
        )}
        <TextField label={words.name} value={entries.value.name} problem={problems.shown.name} onInput={set('name')} />
        {isTemp && (
          <>
            <ProbeKind
              choice={entries.value.choice}
              toleranceClass={entries.value.toleranceClass}
              onChoice={set('choice')}
              onClass={set('toleranceClass')}
            />
            <TextField
              decimal
              label={words.uncertainty}
              unit={unit('temperatureDifference')}
              value={entries.value.uncertainty}
              problem={problems.shown.uncertainty}
              onInput={set('uncertainty')}
            />
            <TextField
              decimal
              label={words.lag}
              unit="s"
              value={entries.value.lag}
              problem={problems.shown.lag}
              onInput={set('lag')}
            />
          </>
        )}
        <p class="problem" role="alert">
          {refusal.value}
        </p>
        <button type="submit" class="primary">
          {translate().save}
        </button>
      </form>
      {isTemp && (
        <section>
          <h3>{words.calibration}</h3>
          <p>
            {channel.calibration
              ? words.calibrated({
                  offset: text('temperatureDifference', channel.calibration.offset, 2),
                  uncertainty: text('temperatureDifference', channel.calibration.standardUncertainty, 2),
                })
              : words.notCalibrated}
          </p>
          <Calibrate channel={channel} />
        </section>
      )}
    </>
  );
}
