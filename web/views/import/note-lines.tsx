import type { VNode } from 'preact';
import type { NotesPreview } from '../../../shared/contract/imports.ts';
import { translateImport } from '../../language/catalogue.ts';
import { number, text } from '../../language/figures.ts';
import { WideTable } from '../kit/wide-table.tsx';

/** Each line as written and as interpreted. */
export function NoteLines({
  notes: { format, lines },
  names,
}: {
  notes: NotesPreview;
  names: readonly string[];
}): VNode {
  const words = translateImport().notes;
  const shown = (value: number) => text('temperature', format.unit === '[degF]' ? ((value - 32) * 5) / 9 : value);
  return (
    <WideTable label={words.text}>
      <table class="cells">
        <thead>
          <tr>
            <th scope="col">{translateImport().table.line}</th>
            <th scope="col" class="words">
              {words.written}
            </th>
            <th scope="col">{words.at}</th>
            {names.map((name, index) => (
              <th scope="col" key={index}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr key={line.line} class={line.problem ? 'wrong-line' : ''}>
              <th scope="row">{line.line}</th>
              <td class="words written">{line.text}</td>
              <td>{line.elapsedS === undefined ? '' : number(line.elapsedS / 60, 1)}</td>
              {names.map((_, index) => (
                <td key={index}>{line.values[index] === undefined ? '' : shown(line.values[index])}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}
