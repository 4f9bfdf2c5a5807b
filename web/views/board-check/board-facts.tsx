/** The board's description of itself, the statistics of its lines, and the last lines as received. */
import type { VNode } from 'preact';
import type { BoardCheck } from '../../../shared/contract/board-check.ts';
import { translateBoardCheck } from '../../language/catalogue.ts';
import { number } from '../../language/figures.ts';

export function BoardFacts({ check }: { check: BoardCheck }): VNode {
  const words = translateBoardCheck();
  const { board, lines, rate, recentLines } = check;
  const seconds = (ms: number) => `${number(ms / 1000, 2)}\u00a0s`;
  const facts: readonly (readonly [string, string | undefined])[] = [
    [words.fact.name, board?.name],
    [words.fact.firmware, board?.firmware],
    [words.fact.identity, board?.identity],
    [words.fact.boot, board?.boot === undefined ? undefined : String(board.boot)],
    [words.fact.good, number(lines.good, 0)],
    [words.fact.refused, number(lines.refused, 0)],
    [words.fact.discarded, number(lines.discardedBytes, 0)],
    [words.fact.stated, rate?.statedMs === undefined ? undefined : seconds(rate.statedMs)],
    [words.fact.measured, rate && seconds(rate.measuredMs)],
    [words.fact.jitter, rate && `${number(rate.jitterMs, 0)}\u00a0ms`],
  ];
  return (
    <section aria-labelledby="board-facts">
      <h2 id="board-facts">{words.facts}</h2>
      <dl class="board-facts">
        {facts.map(
          ([name, value]) =>
            value !== undefined && (
              <div key={name}>
                <dt>{name}</dt>
                <dd>{value}</dd>
              </div>
            ),
        )}
      </dl>
      {recentLines.length > 0 && (
        <details>
          <summary>{words.lines}</summary>
          <ol class="recent-lines">
            {recentLines.map((line, place) => (
              <li key={place}>
                <code>{line}</code>
              </li>
            ))}
          </ol>
        </details>
      )}
    </section>
  );
}
