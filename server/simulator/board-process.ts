/**
 * A simulated board in a process of its own, on a real pseudo-terminal.
 *
 *   board-process.ts [--burn live|1..8] [--practice] [--seed TEXT] [--link PATH] [--identity UUID] [--boot N]
 *
 * Speed: STOVEBENCH_TIME_SCALE. One JSON object per line: events on standard output (`plugged` with the path to open,
 * `action` for everything the simulated person does, `weighed` with the exact masses after fire out, `unplugged`,
 * `refused`), commands on standard input (see board-commands.ts). Ends with `quit`, or when standard input closes. With
 * --practice no person is simulated: the stove waits for `perform`, and `raked` reports the scale readings once the
 * fire is out.
 */
import { rm, symlink } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import { parseArgs } from 'node:util';
import { createRealClock, readTimeScale } from '../base/clock.ts';
import { isRaking, obeyCommand, readBoardCommand } from './board-commands.ts';
import { createBoardOnCable, createPracticeBoard } from './board-on-cable.ts';
import { exactMasses } from './exact-masses.ts';
import { heronBoardId, heronBurns, heronLiveBurn } from './heron.ts';
import type { Action } from './operator.ts';
import { openPseudoTerminal } from './pseudo-terminal.ts';

const { values } = parseArgs({
  options: {
    burn: { type: 'string', default: 'live' },
    practice: { type: 'boolean', default: false },
    seed: { type: 'string' },
    link: { type: 'string' },
    identity: { type: 'string', default: heronBoardId },
    boot: { type: 'string', default: '0' },
  },
});

const publish = (event: Record<string, unknown>) => process.stdout.write(`${JSON.stringify(event)}\n`);
const refuse = (reason: string, exitCode: number): never => {
  publish({ event: 'refused', reason });
  process.exit(exitCode);
};
const chosen = values.burn === 'live' ? heronLiveBurn(0) : heronBurns()[Number(values.burn) - 1];
if (!chosen) throw refuse(`There is no burn "${values.burn}". Choose live or a number from 1 to 8.`, 2);

const { scenario } = chosen;
const clock = createRealClock(timeScale());
const actions: Action[] = [];
const common = {
  scenario,
  seed: values.seed ?? chosen.seed,
  errors: chosen.errors,
  clock,
  settings: { identity: values.identity, boot: Number(values.boot) },
};
const practice = values.practice ? createPracticeBoard(common) : undefined;
const board =
  practice ??
  createBoardOnCable({
    ...common,
    onAction(action) {
      actions.push(action);
      publish({ event: 'action', action });
      if (action.kind === 'fireOut') clock.setTimer(scenario.plan.weighWaterAfterS * 1000, weigh);
    },
  });
let plugged = false;

function weigh() {
  const { waterKg, waterMeanC } = board.bench.model;
  publish({ event: 'weighed', masses: exactMasses(scenario, actions, { massKg: waterKg, tempC: waterMeanC }) });
}

function timeScale(): number {
  try {
    return readTimeScale(process.env.STOVEBENCH_TIME_SCALE);
  } catch (error) {
    throw refuse((error as Error).message, 2);
  }
}

/** A fixed name for the terminal, whose number changes each time the cable is plugged in. */
async function plugIn() {
  const terminal = await openPseudoTerminal();
  if (!terminal.available) throw refuse(terminal.reason, 3);
  board.plugInto(terminal);
  if (values.link) {
    await rm(values.link, { force: true });
    await symlink(terminal.path, values.link);
  }
  plugged = true;
  publish({ event: 'plugged', path: values.link ?? terminal.path, terminal: terminal.path, simulated: true });
}

async function unplug() {
  if (values.link) await rm(values.link, { force: true });
  await board.unplug();
  plugged = false;
  publish({ event: 'unplugged' });
}

async function quit() {
  await board.switchOff();
  if (values.link) await rm(values.link, { force: true });
  process.exit(0);
}

await plugIn();
board.board.switchOn();

for await (const line of createInterface({ input: process.stdin })) {
  if (line.trim() === '') continue;
  const command = readBoardCommand(line);
  if ('refused' in command) publish({ event: 'refused', reason: command.refused });
  else if (command.command === 'quit') break;
  else if (command.command === 'unplug') {
    if (plugged) await unplug();
    else publish({ event: 'refused', reason: 'The lead is already pulled.' });
  } else if (command.command === 'replug') {
    if (plugged) publish({ event: 'refused', reason: 'The lead is already plugged in.' });
    else await plugIn();
  } else {
    obeyCommand(command, board);
    if (practice && isRaking(command)) publish({ event: 'raked', scales: practice.bench.weigh() });
  }
}
await quit();
