/** Options that change the comparison: the primary result, blocks, common conditions. */
import type { VNode } from 'preact';
import { blockChoices, type CompareOptions } from '../../../addresses/compare-route.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { Choice, SelectField } from '../../forms/field.tsx';
import { resultName } from '../../kit/result-words.ts';
import { primaryIds } from '../parts/primary-ids.ts';

export function CompareControls({
  options,
  primary,
  onChange,
}: {
  options: CompareOptions;
  primary: string;
  onChange: (options: CompareOptions) => void;
}): VNode {
  const words = translateCompare().controls;
  return (
    <details class="compare-controls">
      <summary>
        {words.line({
          parts: [
            words.summary({ result: resultName(primary as Parameters<typeof resultName>[0]) }),
            words.blocksSummary[options.blocks],
            options.adjust ? words.commonSummary : words.asBurntSummary,
          ].join(', '),
        })}
      </summary>
      <div class="laid-controls">
        <SelectField
          label={words.primary}
          value={primary}
          options={primaryIds().map((id) => [id, resultName(id)] as const)}
          onChange={(next) => onChange({ ...options, primary: next as NonNullable<CompareOptions['primary']> })}
        />
        <Choice
          label={words.blocks}
          value={options.blocks}
          options={blockChoices.map((kind) => [kind, words.blockKinds[kind]] as const)}
          hint={words.blocksHelp}
          onChange={(blocks) => onChange({ ...options, blocks })}
        />
        <Choice
          label={words.conditions}
          value={options.adjust ? 'common' : 'asBurnt'}
          options={[
            ['common', words.common],
            ['asBurnt', words.asBurnt],
          ]}
          hint={words.conditionsHelp}
          onChange={(next) => onChange({ ...options, adjust: next === 'common' })}
        />
      </div>
    </details>
  );
}
