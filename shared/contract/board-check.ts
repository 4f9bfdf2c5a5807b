/** A check of one board: findings about its lines, its description, its clock and its probes, good ones included. */
import { z } from 'zod';
import { faultCodes } from './burn-record.ts';
import { messageSchema } from './results.ts';

/**
 * Findings about a refused line. `params`: `line` as received, `found`, `expected`, `count` of such lines, `field`
 * where there is one.
 */
export const lineFindings = [
  'line/no-checksum',
  'line/other-mark',
  'line/mark-twice',
  'line/no-blank-before-checksum',
  'line/checksum-lower-case',
  'line/checksum-not-padded',
  'line/checksum-prefixed',
  'line/checksum-decimal',
  'line/checksum-without-blank',
  'line/checksum-after-first-word',
  'line/checksum-with-line-end',
  'line/checksum-with-mark',
  'line/checksum-byte-order',
  'line/checksum-not-inverted',
  'line/checksum-other-kind',
  'line/checksum-not-begun-anew',
  'line/checksum-too-short',
  'line/text-after-checksum',
  'line/damaged',
  'line/too-long',
  'line/not-ascii',
  'line/carriage-return-only',
  'line/tab',
  'line/two-blanks',
  'line/blank-at-start',
  'line/other-text',
  'line/unknown-word',
  'line/word-capitals',
  'line/number-with-point',
  'line/number-with-comma',
  'line/number-leading-zeros',
  'line/number-plus-sign',
  'line/number-negative',
  'line/number-exponent',
  'line/number-hexadecimal',
  'line/number-too-large',
  'line/number-not-finite',
  'line/not-a-number',
  'line/fault-unknown',
  'line/fault-capitals',
  'line/too-few-words',
  'line/too-few-readings',
  'line/too-many-readings',
  'line/key-missing',
  'line/key-twice',
  'line/key-capitals',
  'line/word-without-key',
  'line/value-empty',
  'line/name-too-long',
  'line/scale-fraction',
  'line/decimal-comma',
  'line/decimal-form',
  'line/not-above-zero',
  'line/out-of-bounds',
  'line/uuid-capitals',
  'line/uuid-form',
  'line/form-unknown',
  'line/command-unknown',
  'line/reason-unknown',
  'line/protocol-other',
  'line/echo',
  'line/not-understood',
] as const;

/** Findings about the channels that the board declares. `params`: `found`, `expected`, `label`. */
export const channelFindings = [
  'channel/line-missing',
  'channel/line-too-many',
  'channel/unit-coulomb',
  'channel/unit-farad',
  'channel/unit-misspelt',
  'channel/unit-unknown',
  'channel/unit-of-other-quantity',
  'channel/cold-junction-missing',
  'channel/cold-junction-itself',
  'channel/cold-junction-no-temperature',
  'channel/form-and-unit',
  'channel/label-twice',
] as const;

/** Findings about the board as a whole. */
export const boardFindings = [
  'board/prints-numbers',
  'board/prints-text',
  'board/silent',
  'board/wrong-speed',
  'board/lines-good',
  'board/described',
  'board/no-answer',
  'board/no-ok',
  'board/no-scans',
  'board/period-kept',
  'board/period-differs',
  'board/jitter',
  'board/clock-good',
  'board/clock-off',
  'board/clock-wrong',
  'board/numbering-good',
  'board/numbers-skipped',
  'board/numbers-repeated',
  'board/first-number-not-zero',
  'board/resends',
  'board/resends-nothing',
  'board/resend-unanswered',
  'board/resend-differs',
  'board/reset-loop',
  'board/restarts',
  'board/boot-changes',
  'board/boot-unchanged',
  'board/identity-kept',
  'board/identity-not-kept',
  'board/identity-forgotten',
] as const;

/**
 * Findings about one probe, from its readings and from the tests that a person does. `params`: `number`, `label`, and
 * figures in °C, K, kg and s.
 */
export const probeFindings = [
  'probe/reads',
  'probe/fault',
  'probe/fault-comes-and-goes',
  'probe/no-temperature',
  'probe/impossible',
  'probe/stands-for-none',
  'probe/still',
  'probe/noisy',
  'probe/pressure-unit',
  'probe/looks-fahrenheit',
  'probe/looks-kelvin',
  'probe/hand-passed',
  'probe/hand-falls',
  'probe/hand-nothing',
  'probe/hand-too-warm',
  'probe/press-passed',
  'probe/press-falls',
  'probe/press-nothing',
  'probe/pull-passed',
  'probe/pull-number',
  'probe/pull-unseen',
  'probe/ice-passed',
  'probe/ice-off',
  'probe/ice-not-steady',
  'probe/ice-not-entered',
  'probe/boil-passed',
  'probe/boil-off',
  'probe/boil-not-steady',
  'probe/boil-not-entered',
  'probe/boil-no-place',
  'probe/reads-fahrenheit',
  'probe/reads-kelvin',
  'probe/other-moved',
  'probe/stopped',
  'probe/test-without-reading',
] as const;

export const findingCodes = [...lineFindings, ...channelFindings, ...boardFindings, ...probeFindings] as const;
export type FindingCode = (typeof findingCodes)[number];

export const findingSchema = messageSchema.extend({
  code: z.enum(findingCodes),
  level: z.enum(['good', 'doubtful', 'bad']),
  channel: z.int().nonnegative().optional().describe('which channel it is about, counted from 0'),
});
export type Finding = z.infer<typeof findingSchema>;

export const probeTestKinds = ['hand', 'fault', 'ice', 'boil'] as const;
export type ProbeTestKind = (typeof probeTestKinds)[number];

/** The progress of a test of a probe. Its outcome is also listed among the findings. */
const probeTestSchema = z.strictObject({
  state: z.enum(['notTried', 'running', 'passed', 'failed']),
  reached: z.number().optional().describe('what the reading came to, in `unit` of the probe'),
  expected: z.number().optional().describe('what it should come to, in `unit` of the probe'),
  expectedUncertaintyK: z.number().positive().optional().describe('standard uncertainty of `expected`'),
  indicated: z.number().optional().describe('`reached` as it is without the calibration in force'),
  finding: findingSchema.optional().describe('with which it ended'),
});

const checkedProbeSchema = z.strictObject({
  channel: z.int().nonnegative().describe('counted from 0'),
  label: z.string(),
  quantity: z.string(),
  unit: z.string().describe('of `value`, UCUM: Cel for every temperature'),
  value: z.number().optional(),
  fault: z.enum(faultCodes).optional(),
  noise: z.number().optional().describe('standard deviation of the last readings about their trend'),
  tests: z.partialRecord(z.enum(probeTestKinds), probeTestSchema).describe('those that this channel can have'),
});
export type CheckedProbe = z.infer<typeof checkedProbeSchema>;

export const boardCheckSchema = z.strictObject({
  path: z.string(),
  baudRate: z.int(),
  state: z.enum(['opening', 'running', 'ended', 'failed']),
  elapsedS: z.number().nonnegative(),
  board: z
    .strictObject({
      name: z.string().optional(),
      firmware: z.string().optional(),
      identity: z.uuid().optional(),
      boot: z.int().nonnegative().optional(),
    })
    .optional()
    .describe('what the board says of itself'),
  lines: z.strictObject({
    good: z.int().nonnegative(),
    refused: z.int().nonnegative(),
    discardedBytes: z.int().nonnegative(),
  }),
  rate: z
    .strictObject({
      statedMs: z.number().optional(),
      measuredMs: z.number(),
      jitterMs: z.number().describe('standard deviation of the time from scan to scan'),
      clockRatio: z.number().optional().describe('time of the board that goes by per time of arrival'),
    })
    .optional(),
  probes: z.array(checkedProbeSchema),
  test: z
    .strictObject({ channel: z.int().nonnegative(), kind: z.enum(probeTestKinds), sinceS: z.number().nonnegative() })
    .optional()
    .describe('what the person is asked to do now'),
  findings: z.array(findingSchema),
  verdict: z.enum(['watching', 'ready', 'usable', 'notUsable']),
  recentLines: z.array(z.string()).describe('the last lines as they came, the newest last'),
  problem: messageSchema.optional().describe('why the check could not be made'),
});
export type BoardCheck = z.infer<typeof boardCheckSchema>;

/** The running check, or the last one; left out when there was none. */
export const boardCheckAnswerSchema = z.strictObject({ check: boardCheckSchema.optional() });

export const beginBoardCheckSchema = z.strictObject({
  path: z.string().trim().min(1).max(512),
  baudRate: z.int().positive().optional().describe('left out: that of the board attached there, else 115200'),
});

/** `kind` left out ends the running test. */
export const testProbeSchema = z.strictObject({
  channel: z.int().nonnegative().max(31),
  kind: z.enum(probeTestKinds).optional(),
});
