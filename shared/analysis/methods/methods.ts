/** Every method set by its name. */
import type { MethodSet } from '../../contract/burn-record.ts';
import type { Method } from '../engine/definition.ts';
import { bench1 } from './bench-1.ts';
import { isoMethods } from './iso-19867.ts';
import { waterBoilMethods } from './water-boil.ts';

const methods: readonly Method[] = [bench1, ...waterBoilMethods, ...isoMethods];

export function methodNamed(name: MethodSet): Method {
  return methods.find((method) => method.name === name)!;
}
