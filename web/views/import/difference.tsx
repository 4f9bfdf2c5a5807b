/** Two copies of one thing: the fields that differ, in two columns, and the choice between them. */
import type { VNode } from 'preact';
import { useId } from 'preact/hooks';
import type { ImportChoice, ImportItem } from '../../../shared/contract/imports.ts';
import { translateImport } from '../../language/catalogue.ts';
import { clock, day, duration, number, percent, text } from '../../language/figures.ts';
import { WideTable } from '../kit/wide-table.tsx';
import { differingFields, type Leaf } from './differing-fields.ts';
import { itemWords } from './item-words.ts';

export function Difference({
  item,
  burnTitle,
  taken,
  onTake,
}: {
  item: ImportItem;
  burnTitle: string | undefined;
  taken: ImportChoice | undefined;
  onTake: (choice: ImportChoice) => void;
}): VNode {
  const words = translateImport().merge;
  const what = itemWords(item);
  const title = burnTitle === undefined || item.kind === 'burn' ? what : words.of({ what, burn: burnTitle });
  return (
    <div class={taken === undefined && item.choices?.length !== 1 ? 'difference undecided' : 'difference'}>
      <h3>{title}</h3>
      <WideTable label={title}>
        <table class="sides">
          <thead>
            <tr>
              <th scope="col">{words.field}</th>
              <th scope="col">{words.mineHead}</th>
              <th scope="col">{words.theirsHead}</th>
            </tr>
          </thead>
          <tbody>
            {rowsOf(item).map(({ name, mine, theirs }) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td class={taken === 'theirs' ? 'given-up' : ''}>{mine}</td>
                <td class={taken === 'mine' ? 'given-up' : ''}>{theirs}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </WideTable>
      {item.choices?.length === 1 ? (
        <p class="quiet">{words.onlyMine}</p>
      ) : (
        <WhichStays label={words.choice({ what: title })} taken={taken} onTake={onTake} />
      )}
    </div>
  );
}

function WhichStays({
  label,
  taken,
  onTake,
}: {
  label: string;
  taken: ImportChoice | undefined;
  onTake: (choice: ImportChoice) => void;
}): VNode {
  const words = translateImport().merge;
  const name = useId();
  return (
    <fieldset class="choice">
      <legend class="unseen">{label}</legend>
      <div class="choice-row">
        {(['mine', 'theirs'] as const).map((choice) => (
          <label key={choice}>
            <input type="radio" name={name} value={choice} checked={taken === choice} onChange={() => onTake(choice)} />
            <span>{words[choice]}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

function rowsOf({ mine, theirs }: ImportItem): { name: string; mine: string; theirs: string }[] {
  const words = translateImport();
  return differingFields(mine, theirs).map(({ path, ...sides }) => {
    const side = (which: 'mine' | 'theirs') => {
      const value = sides[which];
      if (value !== undefined) return leafText(path, value);
      return { mine, theirs }[which] === null ? words.merge.withdrawn : '–';
    };
    return {
      name: path.map((part) => words.fields[part] ?? part).join(' · '),
      mine: side('mine'),
      theirs: side('theirs'),
    };
  });
}

/** A plain value, in the unit that its name contains. */
function leafText(path: readonly string[], value: Leaf): string {
  const name = path.at(-1) ?? '';
  if (typeof value !== 'number') return String(value);
  if (name.endsWith('UtcMs')) return `${day(value)}, ${clock(value)}`;
  if (name.endsWith('ElapsedUs') || name === 'elapsedUs') return `${number(value / 60e6, 2)}\u00a0min`;
  if (name.endsWith('TempC') || name === 'tempC') return text('temperature', value);
  if (name.endsWith('Kg')) return text('mass', value, 3);
  if (name === 'altitudeM') return text('altitude', value);
  if (name.endsWith('M') || path.includes('dimensionsM')) return text('length', value);
  if (name.endsWith('Pa')) return text('pressure', value, 1);
  if (name === 'durationS') return duration(value);
  if (name === 'fraction') return percent(value, 2);
  return number(value, decimalsOf(value));
}

/** As many decimals as were given, up to a limit. */
function decimalsOf(value: number): number {
  return /\.(\d+)$/.exec(String(Number(value.toFixed(6))))?.[1]?.length ?? 0;
}
