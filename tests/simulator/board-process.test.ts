import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, readlink, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { SerialPort } from 'serialport';
import { afterEach, describe, expect, test } from 'vitest';
import { decodeLine, encodeLine, type Message } from '../../firmware-protocol/lines.ts';
import { heronBoardId } from '../../server/simulator/heron.ts';

// On a real pseudo-terminal, opened by the real serial library, at a hundred times the speed.

const program = fileURLToPath(new URL('../../server/simulator/board-process.ts', import.meta.url));
const running: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const stop of running.splice(0)) await stop();
});

/** A queue that a test can wait for until an item matches. */
function stream<T>() {
  const seen: T[] = [];
  let woken = () => {};
  return {
    put(item: T) {
      seen.push(item);
      woken();
    },
    async next(matches: (item: T) => boolean): Promise<T> {
      for (;;) {
        const index = seen.findIndex(matches);
        if (index >= 0) return seen.splice(0, index + 1).at(-1)!;
        await new Promise<void>((resolve) => {
          woken = resolve;
        });
      }
    },
  };
}

async function startBoard(timeScale: string, args: string[] = []) {
  const folder = await mkdtemp(join(tmpdir(), 'simulated-board-'));
  const link = join(folder, 'board');
  const child: ChildProcess = spawn(process.execPath, [program, '--link', link, ...args], {
    stdio: ['pipe', 'pipe', 'inherit'],
    env: { ...process.env, STOVEBENCH_TIME_SCALE: timeScale },
  });
  const exited = once(child, 'exit');
  const events = stream<Record<string, unknown>>();
  createInterface({ input: child.stdout! }).on('line', (line) => events.put(JSON.parse(line)));
  running.push(async () => {
    child.stdin!.end();
    await exited;
    await rm(folder, { recursive: true, force: true });
  });
  return {
    link,
    exited,
    event: (name: string) => events.next((event) => event.event === name),
    send: (command: object) => child.stdin!.write(`${JSON.stringify(command)}\n`),
  };
}

async function openPort(path: string) {
  const port = new SerialPort({ path, baudRate: 115200, autoOpen: false });
  await new Promise<void>((resolve, reject) => port.open((error) => (error ? reject(error) : resolve())));
  const lines = stream<Message>();
  let bad = 0;
  createInterface({ input: port }).on('line', (line) => {
    const message = decodeLine(line);
    if (message.kind === 'bad') bad += 1;
    else lines.put(message);
  });
  return {
    next: (kind: Message['kind']) => lines.next((message) => message.kind === kind),
    write: (text: string) => port.write(text),
    badLines: () => bad,
    close: () => new Promise<void>((resolve) => port.close(() => resolve())),
  };
}

describe.skipIf(process.platform !== 'linux')('on a pseudo-terminal (Linux has them, other systems skip this)', () => {
  test('a board in its own process answers on a real terminal, survives an unplugged cable and repeats missed scans', async () => {
    const board = await startBoard('100');
    const plugged = await board.event('plugged');
    expect(plugged).toMatchObject({ path: board.link, simulated: true });
    expect(await readlink(board.link)).toBe(plugged.terminal);

    const first = await openPort(board.link);
    first.write(`${encodeLine({ kind: 'describe' })}\n`);
    expect(await first.next('hello')).toMatchObject({ identity: heronBoardId, channels: 8 });
    const before = (await first.next('scan')) as Message & { kind: 'scan' };

    board.send({ command: 'unplug' });
    await board.event('unplugged');
    // An unplugged cable is not always reported to the host (a hung-up terminal may also just read empty): the host
    // closes the port itself.
    await first.close();
    board.send({ command: 'replug' });
    await board.event('plugged');

    const second = await openPort(board.link);
    const after = (await second.next('scan')) as Message & { kind: 'scan' };
    expect(after.boot).toBe(before.boot);
    expect(after.sequence).toBeGreaterThan(before.sequence);
    const missed = before.sequence + 1;
    second.write(`${encodeLine({ kind: 'resend', boot: after.boot, from: missed, to: missed })}\n`);
    expect(await second.next('ok')).toMatchObject({ command: 'resend' });
    let scan = (await second.next('scan')) as Message & { kind: 'scan' };
    while (!scan.repeated) scan = (await second.next('scan')) as Message & { kind: 'scan' };
    expect(scan.sequence).toBe(missed);
    await second.close();
  });

  test('the process prints what its person does, executes commands, refuses invalid ones with a sentence and ends on request', async () => {
    const board = await startBoard('200', ['--burn', '5']);
    const lit = await board.event('action');
    expect(lit).toMatchObject({ action: { kind: 'fed', wood: 'kindling' } });
    board.send({ command: 'feed', massKg: 0.432 });
    let fed = await board.event('action');
    while (JSON.stringify(fed).includes('"massKg":0.432') === false) fed = await board.event('action');
    board.send({ command: 'sing' });
    expect((await board.event('refused')).reason).toMatch(/cannot be read/);
    board.send({ command: 'replug' });
    expect((await board.event('refused')).reason).toMatch(/already plugged in/);
    board.send({ command: 'quit' });
    expect(await board.exited).toEqual([0, null]);
  });

  test('an unknown burn or an impossible speed is refused in one sentence before anything starts', async () => {
    const unknown = await startBoard('1', ['--burn', 'nine']);
    expect((await unknown.event('refused')).reason).toMatch(/no burn "nine"/);
    expect(await unknown.exited).toEqual([2, null]);
    const speed = await startBoard('fast');
    expect((await speed.event('refused')).reason).toMatch(/STOVEBENCH_TIME_SCALE/);
    expect(await speed.exited).toEqual([2, null]);
  });
});
