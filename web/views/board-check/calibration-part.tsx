/** Turns the tests in ice and boiling water into a calibration: passes their points to the calibration form. */
import type { VNode } from 'preact';
import type { BoardCheck, CheckedProbe } from '../../../shared/contract/board-check.ts';
import { translateBoardCheck } from '../../language/catalogue.ts';
import { text } from '../../language/figures.ts';
import { boards } from '../../state/setup.ts';
import { Calibrate } from '../probes/calibrate.tsx';
import type { CalibrationPoint } from '../probes/calibration.ts';
import { Sheet } from '../sheets/sheet.tsx';
import { useOpenSheet } from '../sheets/use-open-sheet.ts';
import { probeNamed } from './test-words.ts';

/** @param runs whether the check is running: the channels of its board are then not available to the bench */
export function CalibrationPart({ check, runs }: { check: BoardCheck; runs: boolean }): VNode {
  const words = translateBoardCheck();
  const picked = useOpenSheet('boardCheck.calibrate');
  const tested = check.probes
    .map((probe) => ({ probe, points: pointsOf(probe) }))
    .filter(({ points }) => points.length > 0);
  const attached =
    boards.value.find(({ id }) => id === check.board?.identity) ?? boards.value.find(({ path }) => path === check.path);
  const channelOf = ({ channel }: CheckedProbe) => attached?.channels.find(({ index }) => index === channel);
  const open = tested.find(({ probe }) => String(probe.channel) === picked.which);
  const channel = open && channelOf(open.probe);
  return (
    <section aria-labelledby="check-calibration">
      <h2 id="check-calibration">{words.calibration}</h2>
      <p class="quiet">{tested.length === 0 ? words.noPoints : words.calibrationHelp}</p>
      <ul class="check-calibration">
        {tested.map(({ probe, points }) => (
          <li key={probe.channel}>
            <b>{words.probe({ number: probe.channel + 1 })}</b>{' '}
            {points
              .map(({ kind, indicated, truth }) =>
                words.point[kind]({
                  reading: text('temperature', indicated, 2),
                  truth: text('temperature', truth, 2),
                }),
              )
              .join(', ')}
            {!runs && channelOf(probe) && (
              <p>
                <button type="button" onClick={() => picked.show(String(probe.channel))}>
                  {words.calibrate({ probe: probeNamed(probe) })}
                </button>
              </p>
            )}
          </li>
        ))}
      </ul>
      {tested.length > 0 && runs && <p>{words.endFirst}</p>}
      {tested.length > 0 && !runs && !attached && (
        <p>
          {words.attachFirst} <a href="#/rig">{words.toProbes}</a>
        </p>
      )}
      {open && channel && (
        <Sheet title={words.calibrate({ probe: probeNamed(open.probe) })} onClose={picked.close}>
          <Calibrate channel={channel} taken={open.points} />
        </Sheet>
      )}
    </section>
  );
}

function pointsOf({ tests, noise = 0 }: CheckedProbe): CalibrationPoint[] {
  return (['ice', 'boil'] as const).flatMap((kind) => {
    const { indicated, expected, expectedUncertaintyK } = tests[kind] ?? {};
    if (indicated === undefined || expected === undefined || expectedUncertaintyK === undefined) return [];
    return { kind, indicated, truth: expected, standardUncertainty: Math.hypot(expectedUncertaintyK, noise) };
  });
}
