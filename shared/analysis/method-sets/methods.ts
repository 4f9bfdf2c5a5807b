/** Every method set by its name. */
import type { MethodSet } from '../../contract/burn-record.ts';
import { bench1 } from './bench-1.ts';
import type { Method } from './definition.ts';

const methods: readonly Method[] = [bench1];

export function methodNamed(name: MethodSet): Method {
  return methods.find((method) => method.name === name)!;
}
