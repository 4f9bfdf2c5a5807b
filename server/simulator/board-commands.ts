/** The commands that a simulated board accepts from outside, one JSON object per line, and their refusals. */
import { z } from 'zod';
import type { BoardOnCable } from './board-on-cable.ts';
import type { PracticeStove } from './practice-stove.ts';
import { deedSchema } from './practising-person.ts';

const share = z.number().min(0).max(1);
const sites = [
  'waterLow',
  'waterHigh',
  'contentCore',
  'flue',
  'riser',
  'airGap',
  'body',
  'ambient',
  'coldJunction',
  'oxygen',
] as const;
const probeFaults = [
  'open',
  'spike',
  'stuck',
  'outOfWater',
  'shortToGround',
  'shortToSupply',
  'outOfRange',
  'noAnswer',
] as const;

export const boardCommandSchema = z.discriminatedUnion('command', [
  z.strictObject({
    command: z.literal('fault'),
    site: z.enum(sites),
    kind: z.enum(probeFaults),
    forS: z.number().positive(),
  }),
  z.strictObject({ command: z.literal('disturb'), lost: share.optional(), corrupt: share.optional() }),
  z.strictObject({ command: z.literal('reset') }),
  z.strictObject({ command: z.literal('unplug') }),
  z.strictObject({ command: z.literal('replug') }),
  z.strictObject({ command: z.literal('feed'), massKg: z.number().positive().max(20) }),
  z.strictObject({ command: z.literal('perform'), deed: deedSchema }).describe('at a stove for practice only'),
  z.strictObject({ command: z.literal('renew') }).describe('at a stove for practice only'),
  z.strictObject({ command: z.literal('quit') }),
]);
export type BoardCommand = z.infer<typeof boardCommandSchema>;

/** Returns the command on a line, or a sentence that explains what is wrong with it. */
export function readBoardCommand(line: string): BoardCommand | { refused: string } {
  let json: unknown;
  try {
    json = JSON.parse(line);
  } catch {
    return {
      refused: `This line is not JSON: ${line.slice(0, 80)}. Write for example {"command":"feed","massKg":0.5}.`,
    };
  }
  const parsed = boardCommandSchema.safeParse(json);
  if (parsed.success) return parsed.data;
  const issue = parsed.error.issues[0]!;
  return { refused: `This command cannot be read: ${[...issue.path, issue.message].join(': ')}.` };
}

/**
 * Carries out commands that concern the board and the bench; plugging and quitting are up to the owner of the cable.
 */
export function obeyCommand(
  command: BoardCommand,
  { board, bench: setup }: BoardOnCable | BoardOnCable<PracticeStove>,
): void {
  switch (command.command) {
    case 'fault': {
      const { site, kind, forS } = command;
      setup.addFault({ site, kind, fromS: setup.elapsedS, toS: setup.elapsedS + forS });
      return;
    }
    case 'disturb': {
      const { lost, corrupt } = command;
      board.disturb({ ...(lost === undefined ? {} : { lost }), ...(corrupt === undefined ? {} : { corrupt }) });
      return;
    }
    case 'reset':
      board.reset();
      return;
    case 'feed':
      setup.feedNow(command.massKg);
      return;
    case 'perform':
      if ('perform' in setup) setup.perform(command.deed);
      return;
    case 'renew':
      if ('renew' in setup) setup.renew();
  }
}

/** Whether a command puts out a fire, so that what is left can be weighed. */
export function isRaking(command: BoardCommand): boolean {
  return command.command === 'perform' && command.deed.kind === 'fireOut';
}
