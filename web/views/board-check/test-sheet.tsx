/** One instruction at a time, large enough for a person at the probe, and then the result. */
import type { VNode } from 'preact';
import type { BoardCheck, CheckedProbe, ProbeTestKind } from '../../../shared/contract/board-check.ts';
import { translateBoardCheck, translateFinding } from '../../language/catalogue.ts';
import { duration } from '../../language/figures.ts';
import { Sheet } from '../sheets/sheet.tsx';
import { instruction, instructionKind, nextTest, type ProbeTestHere, probeNamed, probeReading } from './test-words.ts';

export function TestSheet({
  check,
  probe,
  kind,
  problem,
  onBegin,
  onClose,
}: {
  check: BoardCheck;
  probe: CheckedProbe;
  kind: ProbeTestKind;
  problem: string | undefined;
  onBegin: (test: ProbeTestHere) => void;
  onClose: () => void;
}): VNode {
  const words = translateBoardCheck();
  const { channel } = probe;
  const finding = probe.tests[kind]?.finding;
  return (
    <Sheet title={`${words.probe({ number: channel + 1 })} · ${probe.label}`} onClose={onClose} fits>
      <div class="test-sheet">
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard (WCAG 2.1.1) */}
        <section class="test-what" tabIndex={0} aria-label={words.tests}>
          {finding ? (
            <Outcome probe={probe} kind={kind} />
          ) : (
            <>
              <p class="instruction">{instruction(probe, kind)}</p>
              <p class={probe.fault ? 'test-value bad' : 'test-value'}>{probeReading(probe)}</p>
              <p>{words.hint[instructionKind(probe, kind)]}</p>
            </>
          )}
        </section>
        <p class="problem" role="alert">
          {problem}
        </p>
        {finding ? (
          <AfterTest
            next={isOff(probe, kind) ? undefined : nextTest(check)}
            check={check}
            here={{ channel, kind }}
            onBegin={onBegin}
            onClose={onClose}
          />
        ) : (
          <button type="button" class="log" onClick={onClose}>
            {words.cancel}
            <span class="test-since">{words.since({ time: duration(check.test?.sinceS ?? 0) })}</span>
          </button>
        )}
      </div>
    </Sheet>
  );
}

function Outcome({ probe, kind }: { probe: CheckedProbe; kind: ProbeTestKind }): VNode {
  const words = translateBoardCheck();
  const { state, finding } = probe.tests[kind]!;
  const { sentence, help } = translateFinding(finding!);
  return (
    <>
      <div role="status">
        <p class={`test-state ${state}`}>{words.testState[state]}</p>
        <p class="test-sentence">{sentence}</p>
        {finding!.level !== 'good' && <p>{help}</p>}
      </div>
      {kind === 'fault' && state === 'passed' && (
        <p class="instruction">
          {isOff(probe, kind)
            ? words.putBack({ probe: probeNamed(probe) })
            : words.isBack({ value: probeReading(probe) })}
        </p>
      )}
    </>
  );
}

/** Whether the probe was unplugged in the test and still is: first it must be plugged in again. */
function isOff(probe: CheckedProbe, kind: ProbeTestKind): boolean {
  return kind === 'fault' && probe.value === undefined;
}

/** @param next the next test that was not done yet */
function AfterTest({
  next,
  check,
  here,
  onBegin,
  onClose,
}: {
  next: ProbeTestHere | undefined;
  check: BoardCheck;
  here: ProbeTestHere;
  onBegin: (test: ProbeTestHere) => void;
  onClose: () => void;
}): VNode {
  const words = translateBoardCheck();
  const nextProbe = next && check.probes.find(({ channel }) => channel === next.channel);
  return (
    <div class="test-buttons">
      {next && nextProbe && (
        <button type="button" class="log primary" onClick={() => onBegin(next)}>
          {words.next({ instruction: instruction(nextProbe, next.kind) })}
        </button>
      )}
      <p class="row">
        <button type="button" onClick={() => onBegin(here)}>
          {words.again}
        </button>
        <button type="button" onClick={onClose}>
          {words.done}
        </button>
      </p>
    </div>
  );
}
