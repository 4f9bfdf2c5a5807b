/** The place of a probe, its name, and its stated uncertainty. */
import type { VNode } from 'preact';
import type { SetupChannel } from '../../../shared/contract/boards.ts';
import { translate, translateProbes } from '../../language/catalogue.ts';
import { text } from '../../language/figures.ts';
import { placeChannel } from '../../state/place-channel.ts';
import { setupChannels } from '../../state/setup.ts';
import { askedIf, draftOf, figure, quantity, select } from '../forms/field-spec.ts';
import { useDraft } from '../forms/use-draft.ts';
import { useForm } from '../forms/use-form.tsx';
import { isTemperature } from '../kit/reading-words.ts';
import { Calibrate } from './calibrate.tsx';
import { choiceOf, classesOf, isThermocouple, type ProbeChoice, probeChoices, probeFrom } from './probe-kinds.ts';
import { sittingFields } from './sitting-fields.ts';

/** The fields for the stated uncertainty of a temperature probe. */
function trustFields(channel: SetupChannel, choice: ProbeChoice) {
  const words = translateProbes();
  const isTemp = isTemperature(channel);
  const none = ['', translate().describe.none] as const;
  const classes = classesOf(choice);
  return {
    choice: askedIf(
      isTemp,
      select(
        { label: words.probeKind },
        probeChoices.map((each) => [each, kindText(each)]),
      ),
    ),
    toleranceClass: askedIf(
      isTemp && classes.length > 0,
      select({ label: words.toleranceClass }, [none, ...classes.map((each) => [each, each] as const)]),
    ),
    standardUncertainty: askedIf(
      isTemp,
      quantity('temperatureDifference', { label: words.uncertainty, positive: true, high: 50 }),
    ),
    truncationStep: askedIf(
      isTemp && channel.unit === 'Cel',
      quantity('temperatureDifference', {
        label: words.truncationStep,
        hint: words.truncationStepHint,
        positive: true,
        high: 20,
      }),
    ),
    timeConstantS: askedIf(isTemp, figure({ label: words.lag, unit: 's', positive: true })),
  };
}

function kindText(choice: ProbeChoice): string {
  const words = translateProbes();
  if (choice === '') return translate().describe.none;
  if (isThermocouple(choice)) return words.thermocouple({ type: choice });
  if (choice === 'Pt100' || choice === 'Pt1000') return choice;
  return words.probeKinds[choice];
}

export function ChannelForm({ channel: given, onSaved }: { channel: SetupChannel; onSaved: () => void }): VNode {
  const channel = setupChannels.value.find(({ id }) => id === given.id) ?? given;
  const fieldsFor = (role: SetupChannel['role'], choice: ProbeChoice) => ({
    ...sittingFields(channel.unit, role),
    ...trustFields(channel, choice),
  });
  const known = { ...channel, ...choiceOf(channel.probe) };
  const { draft, forget } = useDraft(`channel.${channel.id}`, draftOf(fieldsFor(channel.role, known.choice), known));
  const { role, choice } = draft.value;
  const fields = fieldsFor(role || channel.role, choice);
  const onChange = (entries: Partial<typeof draft.value>) => {
    draft.value = { ...draft.value, ...entries };
  };
  const { field, submit, refusal } = useForm(fields, draft.value, onChange, known);
  const save = submit(async ({ choice = '', toleranceClass = '', ...placement }) => {
    const probe = isTemperature(channel) ? probeFrom(choice, toleranceClass, channel.probe) : channel.probe;
    await placeChannel(channel, { ...placement, ...(probe && { probe }) });
    forget();
    onSaved();
  });
  return (
    <>
      <form onSubmit={save}>
        {field('role')}
        {field('position')}
        {field('name')}
        <div class="row-form">
          {field('choice')}
          {field('toleranceClass')}
        </div>
        {field('standardUncertainty')}
        {field('truncationStep')}
        {field('timeConstantS')}
        <p class="problem" role="alert">
          {refusal}
        </p>
        <button type="submit" class="primary">
          {translate().save}
        </button>
      </form>
      {isTemperature(channel) && <CalibrationPart channel={channel} />}
    </>
  );
}

function CalibrationPart({ channel }: { channel: SetupChannel }): VNode {
  const words = translateProbes();
  const { calibration } = channel;
  return (
    <section>
      <h3>{words.calibration}</h3>
      <p>
        {calibration
          ? words.calibrated({
              offset: text('temperatureDifference', calibration.offset, 2),
              uncertainty: text('temperatureDifference', calibration.standardUncertainty, 2),
            })
          : words.notCalibrated}
      </p>
      <Calibrate channel={channel} />
    </section>
  );
}
