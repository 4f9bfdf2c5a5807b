/** Every probe of the board under check: its present reading, and a button for each of its tests. */
import type { VNode } from 'preact';
import type { BoardCheck, CheckedProbe, ProbeTestKind } from '../../../shared/contract/board-check.ts';
import { translateBoardCheck } from '../../language/catalogue.ts';
import { type ProbeTestHere, probeNamed, probeReading, testName, testsOf } from './test-words.ts';

/** @param onBegin omitted when the check has ended */
export function ProbeTable({
  check,
  onBegin,
}: {
  check: BoardCheck;
  onBegin: ((test: ProbeTestHere) => void) | undefined;
}): VNode {
  const words = translateBoardCheck();
  return (
    <section aria-labelledby="checked-probes">
      <h2 id="checked-probes">{words.probes}</h2>
      {check.probes.length === 0 ? (
        <p class="quiet">{words.noProbes}</p>
      ) : (
        <>
          <p class="quiet">{words.probesHelp}</p>
          <ul class="checked-probes">
            {check.probes.map((probe) => (
              <li key={probe.channel}>
                <h3>
                  {words.probe({ number: probe.channel + 1 })} <span class="quiet">{probe.label}</span>
                </h3>
                <p class={probe.fault ? 'bad' : 'now-value'}>{probeReading(probe)}</p>
                <ul class="probe-tests" aria-label={words.tests}>
                  {testsOf(probe).map((kind) => (
                    <li key={kind}>
                      <TestButton probe={probe} kind={kind} onBegin={onBegin} />
                    </li>
                  ))}
                </ul>
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

/** A button while the test can be started; on paper, and after the check, only the state. */
function TestButton({
  probe,
  kind,
  onBegin,
}: {
  probe: CheckedProbe;
  kind: ProbeTestKind;
  onBegin: ((test: ProbeTestHere) => void) | undefined;
}): VNode {
  const words = translateBoardCheck();
  const { state } = probe.tests[kind]!;
  const name = testName(probe, kind);
  return (
    <>
      {onBegin && (
        <button
          type="button"
          aria-label={words.begun({ test: name, probe: probeNamed(probe) })}
          onClick={() => onBegin({ channel: probe.channel, kind })}
        >
          {name}
        </button>
      )}
      <span class={`test-state ${state}`}>
        {onBegin ? words.testState[state] : words.tried({ test: name, state: words.testState[state] })}
      </span>
    </>
  );
}
