/** The findings of the check, the worst first, each with what to do. */
import type { VNode } from 'preact';
import type { Finding } from '../../../shared/contract/board-check.ts';
import { translateBoardCheck, translateFinding } from '../../language/catalogue.ts';

const levels = ['bad', 'doubtful', 'good'] as const;

export function FindingList({ findings }: { findings: readonly Finding[] }): VNode {
  const words = translateBoardCheck();
  return (
    <section aria-labelledby="board-findings">
      <h2 id="board-findings">{words.findings}</h2>
      {findings.length === 0 && <p class="quiet">{words.noFindings}</p>}
      <ul class="board-findings">
        {levels.flatMap((level) =>
          findings
            .filter((finding) => finding.level === level)
            .map((finding) => <FindingItem key={JSON.stringify(finding)} finding={finding} />),
        )}
      </ul>
    </section>
  );
}

function FindingItem({ finding }: { finding: Finding }): VNode {
  const { sentence, help } = translateFinding(finding);
  return (
    <li class={finding.level}>
      <b class="finding-level">{translateBoardCheck().level[finding.level]}</b>
      <div>
        <p>{sentence}</p>
        {finding.level !== 'good' && help && <p class="quiet">{help}</p>}
      </div>
    </li>
  );
}
