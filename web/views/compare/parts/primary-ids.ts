import { translate } from '../../../language/catalogue.ts';

export type PrimaryId = keyof ReturnType<typeof translate>['describe']['primaries'];

/** Results that a burn can be made for, as the form of a burn lists them. */
export function primaryIds(): PrimaryId[] {
  return Object.keys(translate().describe.primaries) as PrimaryId[];
}
