/** Every method set by its name; their declarations are checked when this module is loaded. */
import type { BurnRecord, MethodSet } from '../../contract/burn-record.ts';
import { checkDeclarations, declarationsOf } from '../engine/graph.ts';
import { missing } from '../messages/messages.ts';
import { coolingTimeConstantS, lossCoefficientWPerK } from '../quantities/cooling.ts';
import { restMJ, restWithPotMJ } from '../quantities/heat-rest.ts';
import { bench1 } from './bench-1.ts';
import { isoMethods } from './iso-19867.ts';
import type { Method } from './method.ts';
import { waterBoilMethods } from './water-boil.ts';

export const methods: readonly Method[] = [bench1, ...waterBoilMethods, ...isoMethods];

/** Facts and quantities of every result of every method set, and of the diagram of the heat. */
export const declarations = declarationsOf([
  ...methods.flatMap(({ results }) => Object.values(results)),
  restMJ,
  restWithPotMJ,
]);
checkDeclarations(declarations);

/**
 * @param purpose purpose of the record: for a cooling without a fire, every method set has the results of the cooling
 * only
 */
export function methodNamed(name: MethodSet, purpose?: BurnRecord['purpose']): Method {
  const method = methods.find((each) => each.name === name)!;
  if (purpose === undefined) return method;
  const results = { coolingTimeConstant: coolingTimeConstantS, lossCoefficient: lossCoefficientWPerK };
  return { name, results, whyNoOthers: missing('nothingBurnt') };
}
