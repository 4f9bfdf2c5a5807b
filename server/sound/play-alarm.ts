import { spawn } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { alarmWave } from './alarm-tone.ts';

type Player = readonly [program: string, ...args: string[]];

/** Programs that play a sound on each system; the first that works is used from then on. */
function playersOf(platform: NodeJS.Platform, file: string): Player[] {
  if (platform === 'darwin') return [['afplay', file]];
  if (platform === 'win32') {
    const quoted = file.replaceAll("'", "''");
    return [['powershell', '-NoProfile', '-Command', `(New-Object Media.SoundPlayer '${quoted}').PlaySync()`]];
  }
  return [
    ['pw-play', file],
    ['paplay', file],
    ['aplay', '-q', file],
  ];
}

export interface SoundOptions {
  /** Where the sound file may be written. */
  folder: string;
  platform: NodeJS.Platform;
  /** Rings the bell of the terminal, where there is one. */
  bell(): void;
  /** Runs a program. @returns whether it exists and succeeded */
  run(program: string, args: readonly string[]): Promise<boolean>;
}

/** Sounds the bench machine: the bell of the terminal, and a short sound where the system can play one. */
export function createAlarmPlayer({ folder, platform, bell, run }: SoundOptions): () => Promise<void> {
  const file = join(folder, 'call.wav');
  let players = playersOf(platform, file);
  let playing: Promise<void> | undefined;

  async function play(): Promise<void> {
    if (!existsSync(file)) writeFileSync(file, alarmWave());
    for (const [program, ...args] of players) {
      if (!(await run(program, args))) continue;
      players = players.filter(([each]) => each === program);
      return;
    }
  }

  return async () => {
    bell();
    // One at a time: calls during a sound are dropped. Errors are ignored, since the alarm is shown as well.
    playing ??= play()
      .catch(() => {})
      .finally(() => {
        playing = undefined;
      });
    await playing;
  };
}

/** The sound of this machine; silent with STOVEBENCH_SOUND=off. */
export function alarmPlayerOf(env: NodeJS.ProcessEnv, folder: string): () => void {
  if (env.STOVEBENCH_SOUND?.trim().toLowerCase() === 'off') return () => {};
  const sound = createAlarmPlayer({
    folder,
    platform: process.platform,
    bell: () => {
      if (process.stderr.isTTY) process.stderr.write('\u0007');
    },
    run: (program, args) =>
      new Promise((resolve) => {
        const child = spawn(program, args, { stdio: 'ignore', windowsHide: true });
        child.on('error', () => resolve(false));
        child.on('exit', (code) => resolve(code === 0));
      }),
  });
  return () => void sound();
}
