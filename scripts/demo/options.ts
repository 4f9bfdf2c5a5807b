import { join, resolve } from 'node:path';
import { AppError } from '../../server/base/app-error.ts';
import { defaultFolder } from '../../server/base/config.ts';

/** An hour passes in two minutes: slow enough to read, fast enough to see the whole burn. */
export const USUAL_TIME_SCALE = '30';

export interface DemoOptions {
  /** Delete the data of an earlier demonstration, and start anew. */
  fresh: boolean;
  /** Delete them and do nothing else. */
  remove: boolean;
}

/** @throws AppError demo/option-unknown */
export function readOptions(args: readonly string[]): DemoOptions {
  const unknown = args.find((arg) => arg !== '--fresh' && arg !== '--remove');
  if (unknown !== undefined) throw new AppError('demo/option-unknown', { option: unknown });
  return { fresh: args.includes('--fresh'), remove: args.includes('--remove') };
}

/** A separate folder next to the person's real data, unless one was named. */
export function demoFolder(env: NodeJS.ProcessEnv): string {
  const named = env.STOVEBENCH_DATA?.trim();
  return named ? resolve(named) : join(defaultFolder(env, process.platform), 'demo');
}
