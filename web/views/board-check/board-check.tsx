/** The check of one board: its verdict, its findings, and the tests of its probes one by one. */
import '../../styles/board-check.css';
import '../../styles/probes.css';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { BoardCheck as Check, ProbeTestKind } from '../../../shared/contract/board-check.ts';
import { translate, translateBoardCheck } from '../../language/catalogue.ts';
import { duration } from '../../language/figures.ts';
import { boardErrorSentence } from '../probes/board-error-sentence.ts';
import { useOpenSheet } from '../sheets/use-open-sheet.ts';
import { BeginCheck } from './begin-check.tsx';
import { BoardFacts } from './board-facts.tsx';
import { CalibrationPart } from './calibration-part.tsx';
import { FindingList } from './finding-list.tsx';
import { ProbeTable } from './probe-table.tsx';
import { TestSheet } from './test-sheet.tsx';
import type { ProbeTestHere } from './test-words.ts';
import { type BoardCheckHere, isRunning, useBoardCheck } from './use-board-check.ts';

export function BoardCheck({ path, baudRate }: { path: string | undefined; baudRate: string | undefined }): VNode {
  const words = translateBoardCheck();
  const here = useBoardCheck();
  const check = here.check.value;
  const runs = isRunning(check);
  const isOfThisPort = path !== undefined && check?.path === path;
  return (
    <div class="page board-check">
      <header class="page-head">
        <h1>{words.title}</h1>
        {check && <p class="quiet">{[words.ofPath(check), check.board?.name].filter(Boolean).join(' · ')}</p>}
      </header>
      {check && <Verdict check={check} />}
      <p class="problem" role="alert">
        {here.problem.value}
      </p>
      {runs && path !== undefined && !isOfThisPort && <p>{words.elsewhere({ path: check?.path ?? '' })}</p>}
      {!here.isLoaded.value && !here.problem.value && <p>{translate().loading}</p>}
      {here.isLoaded.value && !check && <p>{words.intro}</p>}
      {here.isLoaded.value && !runs && !isOfThisPort && (
        <BeginCheck
          key={path}
          path={path}
          baudRate={baudRate}
          onBegin={(asked, rate) => void here.begin(asked, rate)}
        />
      )}
      {check && <Report check={check} here={here} />}
    </div>
  );
}

function Verdict({ check }: { check: Check }): VNode {
  const words = translateBoardCheck();
  const { state, verdict, elapsedS, findings, probes, problem } = check;
  const tests = probes.flatMap((probe) => Object.values(probe.tests));
  const count = (level: Check['findings'][number]['level']) => findings.filter((each) => each.level === level).length;
  const time = duration(elapsedS);
  return (
    <section class={`verdict ${verdict}`} aria-label={words.title}>
      <p class="lead" role="status">
        {state === 'failed' ? words.state.failed : words.verdict[verdict]}
      </p>
      <p>
        {words.counted({ bad: count('bad'), doubtful: count('doubtful') })}{' '}
        {tests.length > 0 && words.tested({ done: tests.filter((each) => each.finding).length, all: tests.length })}
      </p>
      {problem && <p class="problem">{boardErrorSentence(problem)}</p>}
      {state !== 'failed' && (
        <p class="quiet">{state === 'opening' ? words.state.opening : words.state[state]({ time })}</p>
      )}
    </section>
  );
}

function Report({ check, here }: { check: Check; here: BoardCheckHere }): VNode {
  const words = translateBoardCheck();
  const runs = isRunning(check);
  const picked = useOpenSheet('boardCheck');
  const { test } = check;
  const running = test && sheetOf(test);
  // The instruction is shown on every device that shows the check, and again after a reload.
  useEffect(() => {
    if (running !== undefined && running !== picked.which) picked.show(running);
  }, [running]);
  const [channel = '', kind] = picked.which.split('.') as [string, ProbeTestKind | undefined];
  const probe = kind && check.probes.find((each) => String(each.channel) === channel);
  const state = kind && probe?.tests[kind]?.state;
  const begin = async (next: ProbeTestHere) => {
    await here.beginTest(next.channel, next.kind);
    if (here.problem.value === undefined) picked.show(sheetOf(next));
  };
  const close = async () => {
    if (running === picked.which && test) await here.cancelTest(test.channel);
    picked.close();
  };
  return (
    <>
      <p class="row">
        {runs ? (
          <button type="button" onClick={() => void here.end()}>
            {words.end}
          </button>
        ) : (
          <button type="button" onClick={() => void here.begin(check.path, check.baudRate)}>
            {words.beginAgain}
          </button>
        )}
        <button type="button" onClick={() => print()}>
          {words.print}
        </button>
      </p>
      <FindingList findings={check.findings} />
      <ProbeTable check={check} onBegin={runs ? (next) => void begin(next) : undefined} />
      <CalibrationPart check={check} runs={runs} />
      <BoardFacts check={check} />
      {probe && kind && state && state !== 'notTried' && (
        <TestSheet
          key={picked.which}
          check={check}
          probe={probe}
          kind={kind}
          problem={here.problem.value}
          onBegin={(next) => void begin(next)}
          onClose={() => void close()}
        />
      )}
    </>
  );
}

/** The name of the sheet of a test. */
function sheetOf({ channel, kind }: ProbeTestHere): string {
  return `${channel}.${kind}`;
}
