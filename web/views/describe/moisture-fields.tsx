import type { VNode } from 'preact';
import { moistureContradiction } from '../../../shared/analysis/plausibility/moisture.ts';
import { translate, translateResult } from '../../state/catalogue.ts';
import { percent } from '../../state/figures.ts';
import { Choice, TextField } from '../kit/field.tsx';
import type { InventoryDraft, Problems } from './inventory-fields.ts';
import { type Moisture, moistureDraft, moistureOf, moistureReadings, spreadOfMoisture } from './moisture.ts';

/** Readings of a lot, what they come to, what they are reckoned on and how they were got. */
export function MoistureFields({
  draft,
  problems,
  known,
  set,
}: {
  draft: InventoryDraft;
  problems: Problems;
  known: Moisture | undefined;
  set: (key: string) => (text: string) => void;
}): VNode {
  const words = translate().describe.fields;
  return (
    <fieldset class="group">
      <legend>{words.moisture}</legend>
      <TextField
        // The number keys of many phones have no blank.
        label={words.moistureReadings}
        unit="%"
        hint={words.moistureReadingsHelp}
        value={draft.moisture ?? ''}
        problem={problems.moisture}
        onInput={set('moisture')}
      />
      <p class="comes-to" aria-live="polite">
        {comesTo(draft.moisture ?? '', known)}
      </p>
      <Choice
        label={words.basis}
        value={draft.basis ?? ''}
        options={[
          ['wet', words.bases.wet],
          ['dry', words.bases.dry],
        ]}
        hint={words.basisHelp}
        problem={problems.basis}
        onChange={set('basis')}
      />
      <Choice
        label={words.how}
        value={draft.how ?? 'meter'}
        options={[
          ['meter', words.hows.meter],
          ['ovenDry', words.hows.ovenDry],
          ['guess', words.hows.guess],
        ]}
        onChange={set('how')}
      />
      <p class="remark" aria-live="polite">
        {contradicting(draft, known)}
      </p>
    </fieldset>
  );
}

/** What speaks against the basis that was chosen. */
function contradicting(draft: InventoryDraft, known: Moisture | undefined): string | undefined {
  const read = moistureOf(draft, known);
  const found = read.ok && read.value && moistureContradiction(draft.name ?? '', read.value);
  return found ? translateResult().remarks(found) : undefined;
}

/** Mean and scatter of what is typed, in words. */
function comesTo(typed: string, known: Moisture | undefined): string {
  const words = translate().describe.fields;
  if (known?.standardUncertainty !== undefined && !known.readings && typed === moistureDraft(known).moisture)
    return words.moistureKept({ mean: percent(known.fraction), uncertainty: percent(known.standardUncertainty) });
  const readings = moistureReadings(typed);
  const found = readings.ok ? spreadOfMoisture(readings.value) : undefined;
  if (found?.spread === undefined) return '';
  const { count, mean, spread, standardUncertainty } = found;
  return [
    words.moistureMean({ mean: percent(mean), count, spread: percent(spread) }),
    standardUncertainty === undefined
      ? spread === 0 && count > 2
        ? words.moistureEqual
        : words.moistureTooFew
      : words.moistureKnownTo({ uncertainty: percent(standardUncertainty) }),
  ].join(' ');
}
