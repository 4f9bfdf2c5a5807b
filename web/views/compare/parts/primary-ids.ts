import { translate } from '../../../language/catalogue.ts';

export type PrimaryId = keyof ReturnType<typeof translate>['describe']['primaries'];

/** Results that can be the primary result of a burn, as listed in the form of a burn. */
export function primaryIds(): PrimaryId[] {
  return Object.keys(translate().describe.primaries) as PrimaryId[];
}
