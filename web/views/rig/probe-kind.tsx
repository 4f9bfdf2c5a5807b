import type { VNode } from 'preact';
import { classesOf, isThermocouple, type ProbeChoice, probeChoices } from '../../lib/probe-kinds.ts';
import { translate, translateRig } from '../../state/catalogue.ts';
import { SelectField } from '../kit/field.tsx';

/** What kind of probe hangs there, and how well it was made: both decide how far its readings are trusted. */
export function ProbeKind({
  choice,
  toleranceClass,
  onChoice,
  onClass,
}: {
  choice: ProbeChoice;
  toleranceClass: string;
  onChoice: (choice: ProbeChoice) => void;
  onClass: (toleranceClass: string) => void;
}): VNode {
  const words = translateRig();
  const classes = classesOf(choice);
  return (
    <div class="row-form">
      <SelectField
        label={words.probeKind}
        value={choice}
        options={probeChoices.map((each) => [each, kindWords(each)])}
        onChange={onChoice}
      />
      {classes.length > 0 && (
        <SelectField
          label={words.toleranceClass}
          value={classes.includes(toleranceClass) ? toleranceClass : ''}
          options={[['', translate().describe.none], ...classes.map((each) => [each, each] as const)]}
          onChange={onClass}
        />
      )}
    </div>
  );
}

function kindWords(choice: ProbeChoice): string {
  const words = translateRig();
  if (choice === '') return translate().describe.none;
  if (isThermocouple(choice)) return words.thermocouple({ type: choice });
  if (choice === 'Pt100' || choice === 'Pt1000') return choice;
  return words.probeKinds[choice];
}
