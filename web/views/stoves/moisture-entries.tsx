/** Readings of a lot's moisture, their mean, their basis and the method of measurement. */
import type { VNode } from 'preact';
import { moistureContradiction } from '../../../shared/analysis/plausibility/moisture.ts';
import type { Moisture } from '../../../shared/contract/moisture.ts';
import { translate, translateResult } from '../../language/catalogue.ts';
import { percent } from '../../language/figures.ts';
import { type DraftProps, fieldViews } from '../forms/use-form.tsx';
import type { InventoryDraft } from './inventory-fields.ts';
import { moistureDraft, moistureFields, moistureOf, moistureReadings, spreadOfMoisture } from './moisture.ts';

export function MoistureEntries({
  known,
  ...props
}: DraftProps<InventoryDraft> & { known: Moisture | undefined }): VNode {
  const { draft } = props;
  const field = fieldViews(moistureFields(), props as never);
  return (
    <fieldset class="group">
      <legend>{translate().describe.fields.moisture}</legend>
      {field('moisture')}
      <p class="comes-to" aria-live="polite">
        {comesTo(draft.moisture ?? '', known)}
      </p>
      {field('basis')}
      {field('how')}
      <p class="remark" aria-live="polite">
        {contradicting(draft, known)}
      </p>
    </fieldset>
  );
}

/** Evidence against the selected basis. */
function contradicting(draft: InventoryDraft, known: Moisture | undefined): string | undefined {
  const read = moistureOf(draft, known);
  const found = read.ok && read.value && moistureContradiction(draft.name ?? '', read.value);
  return found ? translateResult().remarks(found) : undefined;
}

/** Mean and scatter of the typed readings, in words. */
function comesTo(typed: string, known: Moisture | undefined): string {
  const words = translate().describe.fields;
  if (known?.standardUncertainty !== undefined && !known.readings && typed === moistureDraft(known).moisture)
    return words.moistureSaved({ mean: percent(known.fraction), uncertainty: percent(known.standardUncertainty) });
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
