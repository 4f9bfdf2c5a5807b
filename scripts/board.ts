// `npm run board`: a simulated bench board on a pseudo-terminal, to try the build guide with. At first its
// microcontroller contains only a boot loader; once flashed it runs the same hex file as a real board. `npm run board
// -- bench-board-19` has other chips.
import { rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { createInterface } from 'node:readline';
import { resetSocketOf } from '../server/bridge/simulated-reset.ts';
import { openPseudoTerminal } from '../server/simulator/pseudo-terminal.ts';
import { firmwareNames } from '../shared/contract/flashing.ts';
import { createAvrBoard } from './avr-board/board.ts';

const [name = 'bench-board-14', ...more] = process.argv.slice(2);
const firmware = firmwareNames.find((known) => known === name);
if (firmware === undefined || more.length > 0) {
  console.error(`"${[name, ...more].join(' ')}" is no board. Name one of: ${firmwareNames.join(', ')}.`);
  process.exit(2);
}
const board = createAvrBoard(firmware, 'boot loader');
const terminal = await openPseudoTerminal();
if (!terminal.available) throw new Error(terminal.reason);
board.chip.onByte = (byte) => terminal.write(Uint8Array.of(byte));
terminal.onData((bytes) => board.chip.receive(bytes));

const socket = resetSocketOf(terminal.path);
rmSync(socket, { force: true });
createServer((connection) => {
  board.chip.reset('external');
  connection.end();
}).listen(socket);
process.on('exit', () => rmSync(socket, { force: true }));
process.on('SIGINT', () => process.exit());

const STEP_MS = 10;
let aheadMs = performance.now();
setInterval(() => {
  // On a machine that is too slow the board falls behind, instead of catching up at once.
  for (let steps = 0; aheadMs < performance.now() && steps < 5; steps++, aheadMs += STEP_MS) board.run(STEP_MS * 1000);
  aheadMs = Math.max(aheadMs, performance.now() - 5 * STEP_MS);
}, STEP_MS);

const amplifiers = [...board.amplifiers14, ...board.amplifiers19];
amplifiers.forEach((amplifier, i) => {
  amplifier.hotC = 60 + i;
});
console.log(`A simulated board with an empty microcontroller is plugged in at ${terminal.path}
In another terminal: npm run stovebench -- flash ${terminal.path}
Here: "open 2" breaks the second thermocouple, "well 2" mends it, "heat 2 95" makes it 95 °C, Ctrl-C pulls the lead.`);

createInterface({ input: process.stdin }).on('line', (line) => {
  const [word, number, value] = line.trim().split(/\s+/);
  const amplifier = amplifiers[Number(number) - 1];
  if (!amplifier) console.log(`There are thermocouples 1 to ${amplifiers.length}.`);
  else if (word === 'open') amplifier.fault = 'open';
  else if (word === 'well') amplifier.fault = null;
  else if (word === 'heat' && Number.isFinite(Number(value))) amplifier.hotC = Number(value);
  else console.log('open N, well N, or heat N DEGREES');
});
