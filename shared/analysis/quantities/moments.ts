/** The uncertainty of the moments of the fire, and the duration of the fire. */
import type { FoundMoment } from '../curves/fire-moments.ts';
import { each } from '../engine/columns.ts';
import { type Input, ownError } from '../engine/declaration.ts';
import { byDefault, missing } from '../messages/messages.ts';
import { fireOut, lit } from './burn-curves.ts';
import { quantity } from './declare.ts';

const defaultCodes = {
  'mark.lit': { detected: 'litDetected', marked: 'litUncertainty' },
  'mark.fireOut': { detected: 'fireOutDetected', marked: 'fireOutUncertainty' },
  'mark.target': { detected: undefined, marked: 'targetMarkUncertainty' },
} as const;

/** Returns the error of a marked or detected moment, with the defaults used for what was not stated. */
export function momentError(name: keyof typeof defaultCodes, moment: FoundMoment): Input {
  const { detected, marked } = defaultCodes[name];
  const isDetected = moment.source === 'detected' && detected !== undefined;
  const code = isDetected ? detected : moment.uncertaintyStated ? undefined : marked;
  const { standardUncertaintyS } = moment;
  return {
    ...ownError(name, standardUncertaintyS),
    sharing: 'mark',
    sharedId: moment.markId,
    defaults: code === undefined ? [] : [byDefault(code, { standardUncertaintyS })],
  };
}

export const wholeS = quantity({
  name: 'wholeS',
  symbol: 'Δt',
  unit: 's',
  formula: 't_fireOut − t_lit',
  source: 'bench-1 definition',
  needs: [lit, fireOut],
  state(given) {
    const start = given.fact(lit);
    const end = given.fact(fireOut);
    if (!start) return { missing: missing('litUnknown') };
    if (!end) return { missing: missing('fireOutUnknown') };
    const lastsS = end.elapsedS - start.elapsedS;
    if (lastsS <= 0) return { missing: missing('windowEmpty') };
    return {
      measured: [momentError('mark.fireOut', end), momentError('mark.lit', start)],
      compute: each((endErrorS, startErrorS) => lastsS + endErrorS - startErrorS),
    };
  },
});
