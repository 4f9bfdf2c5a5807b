import { expect, it } from 'vitest';
import type { GapEvent } from '../../server/bridge/bridge.ts';
import { createFakeBench } from '../support/fake-bench.ts';
import fc from '../support/properties.ts';
import { ScriptedBoard } from '../support/scripted-board.ts';

const PATH = '/dev/fake';

const happening = fc.oneof(
  { weight: 8, arbitrary: fc.constant('scan' as const) },
  {
    weight: 6,
    arbitrary: fc.constantFrom(
      'lost',
      'damaged',
      'twice',
      'noise',
      'half line',
      'damage next repeats',
      'busy' as const,
    ),
  },
  { weight: 3, arbitrary: fc.constantFrom('unplug', 'replug', 'reset', 'sleep', 'deaf', 'hears' as const) },
);

/** Whether this scan is inside a published gap, that is, after its start and before its end. */
function inGap(gaps: readonly GapEvent[], boot: number, sequence: number): boolean {
  return gaps.some(({ from, to }) => {
    const afterNear = from === null || boot > from.boot || (boot === from.boot && sequence > from.sequence);
    const beforeFar = boot < to.boot || (boot === to.boot && sequence < to.sequence);
    return afterNear && beforeFar;
  });
}

it('Whatever happens on the cable, each scan is published once with its own content, or the board no longer has it and it is in a gap', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(happening, { minLength: 5, maxLength: 60 }),
      fc.constantFrom(0, 3, 200),
      async (happenings, repeatDepth) => {
        const bench = createFakeBench();
        const board = new ScriptedBoard({ repeatDepth });
        let device = bench.ports.plug(PATH);
        let plugged = true;
        board.connect(device);
        bench.bridge.attach({ path: PATH, mode: 'protocol' });
        await bench.scan(board, 1);
        const made = new Map([['1 0', '80,80']]);
        const scan = (fate: 'sent' | 'lost' = 'sent') => {
          const value = made.size;
          const { boot, sequence } = board.scan([value, -value], fate);
          made.set(`${boot} ${sequence}`, `${value},${-value}`);
        };
        for (const each of happenings) {
          await bench.clock.advanceAsync(1000);
          if (each === 'scan') scan();
          else if (each === 'lost') scan('lost');
          else if (each === 'damaged') {
            scan('lost');
            board.sendRaw(`scan 1 1 99 1 2 ~DEADBEEF\n`);
          } else if (each === 'twice') {
            const { boot, sequence, deviceUptimeMs, counts } = bench.scans.at(-1)!;
            const readings = counts as number[];
            board.send({ kind: 'scan', repeated: false, boot, sequence, uptimeMs: deviceUptimeMs, readings });
          } else if (each === 'noise') board.sendRaw(Uint8Array.from([0xff, 0x80, 0x0a, 0xc3]));
          else if (each === 'half line') board.sendRaw('scan 1 2 ');
          else if (each === 'damage next repeats') board.damagedRepeats = 2;
          else if (each === 'busy') board.busy = 1;
          else if (each === 'deaf') board.deaf = true;
          else if (each === 'hears') board.deaf = false;
          else if (each === 'sleep') bench.clock.leap(20_000);
          else if (each === 'reset') board.reset();
          else if (each === 'unplug' && plugged) {
            device.unplug();
            plugged = false;
          } else if (each === 'replug' && !plugged) {
            device = bench.ports.plug(PATH);
            board.connect(device);
            plugged = true;
          }
        }
        if (!plugged) board.connect(bench.ports.plug(PATH));
        board.deaf = false;
        // Longer than the pause after a request without success.
        for (let i = 0; i < 90; i++) {
          await bench.clock.advanceAsync(1000);
          scan();
        }
        const held = new Set(board.held.map(({ boot, sequence }) => `${boot} ${sequence}`));
        await bench.bridge.detach(bench.bridge.boards()[0]!.id);

        const given = bench.scans.map(
          ({ boot, sequence, counts }) => [`${boot} ${sequence}`, counts.join(',')] as const,
        );
        expect(new Set(given.map(([number]) => number)).size).toBe(given.length);
        for (const [number, content] of given) expect(content).toBe(made.get(number));
        for (const number of made.keys()) {
          const [boot, sequence] = number.split(' ').map(Number) as [number, number];
          const isGiven = given.some(([each]) => each === number);
          // A gap over a scan that the board still has would be a loss.
          expect(isGiven || (!held.has(number) && inGap(bench.gaps, boot, sequence)), `scan ${number}`).toBe(true);
        }
        const live = bench.scans.filter((each) => !each.repeated);
        for (let i = 1; i < live.length; i++) expect(live[i]!.hostUs).toBeGreaterThan(live[i - 1]!.hostUs);
      },
    ),
    { numRuns: 150 },
  );
});
