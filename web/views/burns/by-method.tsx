/** The same burn by every method set, next to each other; fetched when opened. */
import type { VNode } from 'preact';
import { byMethods, type MethodsRow } from '../../../shared/analysis/by-methods.ts';
import type { MethodSet } from '../../../shared/contract/burn-record.ts';
import { translateResult } from '../../language/catalogue.ts';
import { percent } from '../../language/figures.ts';
import { fetchAnalysis } from '../../requests/analyses.ts';
import { Fetching } from '../kit/fetching.tsx';
import { Folded } from '../kit/folded.tsx';
import { figure, intervalText, resultName } from '../kit/result-words.ts';
import { useLoad } from '../kit/use-load.ts';
import { WideTable } from '../kit/wide-table.tsx';

export function ByMethod({ burnId, changes }: { burnId: string; changes: string }): VNode {
  return (
    <Folded class="by-method" summary={translateResult().byMethod.title}>
      {() => <EveryMethod burnId={burnId} changes={changes} />}
    </Folded>
  );
}

function EveryMethod({ burnId, changes }: { burnId: string; changes: string }): VNode {
  const { byMethod: words, methods } = translateResult();
  const names = Object.keys(methods) as MethodSet[];
  const loaded = useLoad(`${burnId} ${changes}`, () =>
    Promise.all(names.map((method) => fetchAnalysis(burnId, method))),
  );
  const analyses = loaded.value.value;
  if (!analyses) return <Fetching of={loaded} />;
  return (
    <>
      <p class="quiet">
        {words.intro} {words.spreadHelp}
      </p>
      <WideTable label={words.title}>
        <table class="every-method">
          <thead>
            <tr>
              <th scope="col">{words.result}</th>
              <th scope="col">{words.spread}</th>
              {names.map((method) => (
                <th scope="col" key={method}>
                  {methods[method]}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {byMethods(analyses).map((row) => (
              <Row key={`${row.id} ${row.unit}`} row={row} names={names} />
            ))}
          </tbody>
        </table>
      </WideTable>
    </>
  );
}

function Row({ row, names }: { row: MethodsRow; names: readonly MethodSet[] }): VNode {
  const { byMethod: words, windows } = translateResult();
  return (
    <tr>
      <th scope="row">{resultName(row.id)}</th>
      <td>{row.spread && percent(row.spread.share, 0)}</td>
      {row.cells.map((cell, index) => (
        <td key={names[index]}>
          {cell ? figure(cell.value, cell.unit, cell.id) : words.none}
          {cell && (
            <small class="quiet">
              {intervalText(cell)}
              <br />
              {windows[cell.window]}
            </small>
          )}
        </td>
      ))}
    </tr>
  );
}
