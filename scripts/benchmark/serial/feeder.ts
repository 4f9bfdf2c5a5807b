import { encodeLine, type ScanMessage } from '../../../firmware-protocol/lines.ts';
import { openPseudoTerminal } from '../../../server/simulator/pseudo-terminal.ts';

/**
 * A process of its own that holds the device's end of a pseudo-terminal and pushes scan lines of eight channels into it as
 * fast as they are taken. Says `{path}` or `{reason}` when it is ready, begins when told the number of lines.
 */
const LINES_AT_ONCE = 200;

const HELLO = encodeLine({
  kind: 'hello',
  protocol: 1,
  identity: '01995f3a-7c2e-7d41-9b1e-3f60a2c4d581',
  boot: 7,
  name: 'Feeder',
  firmware: '1',
  repeatDepth: 0,
  periodMs: 100,
  channels: 8,
});

function scanLine(sequence: number): string {
  const scan: ScanMessage = {
    kind: 'scan',
    repeated: false,
    boot: 7,
    sequence,
    uptimeMs: (sequence * 100) % 2 ** 32,
    readings: Array.from({ length: 8 }, (_, channel) => 1000 + ((sequence * (channel + 3)) % 900)),
  };
  return `${encodeLine(scan)}\n`;
}

const terminal = await openPseudoTerminal();
if (!terminal.available) {
  process.send!({ reason: terminal.reason });
  process.disconnect();
} else {
  process.on('message', (count: number) => {
    // Made beforehand, so that making them costs the reader nothing.
    const portions = [`${HELLO}\n`];
    for (let first = 0; first < count; first += LINES_AT_ONCE) {
      const length = Math.min(LINES_AT_ONCE, count - first);
      portions.push(Array.from({ length }, (_, i) => scanLine(first + i)).join(''));
    }
    let next = 0;
    const push = (): void => {
      while (next < portions.length && terminal.write(portions[next]!)) next++;
      if (next < portions.length) setImmediate(push);
    };
    push();
  });
  process.on('disconnect', () => void terminal.unplug());
  process.send!({ path: terminal.path });
}
