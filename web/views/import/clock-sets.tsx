/** Places where the clock may have been set in between: the assumption made, to be changed. */
import type { VNode } from 'preact';
import type { ClockStep } from '../../../shared/contract/imports.ts';
import { translateImport } from '../../language/catalogue.ts';
import { SelectField } from '../forms/field.tsx';

export function ClockSets({
  sets,
  steps,
  onChange,
}: {
  sets: readonly ClockStep[];
  /** Steps for which the assumption holds. */
  steps: readonly ClockStep[];
  onChange: (steps: ClockStep[]) => void;
}): VNode | null {
  const words = translateImport().table;
  if (sets.length === 0) return null;
  return (
    <div class="fields">
      {sets.map(({ line, byS }) => (
        <SelectField
          key={line}
          label={words.clockSet({ line })}
          value={steps.some((step) => step.line === line) ? 'set' : 'passed'}
          options={[
            ['set', byS > 0 ? words.clockForward : words.clockBack],
            ['passed', byS > 0 ? words.hourPassed : words.hourBefore],
          ]}
          onChange={(what) => {
            const others = steps.filter((step) => step.line !== line);
            onChange(what === 'set' ? [...others, { line, byS }].sort((a, b) => a.line - b.line) : others);
          }}
        />
      ))}
    </div>
  );
}
