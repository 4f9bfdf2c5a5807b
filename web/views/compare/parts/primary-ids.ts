import { say } from '../../../state/catalogue.ts';

export type PrimaryId = keyof ReturnType<typeof say>['describe']['primaries'];

/** Results that a burn can be made for, as the form of a burn lists them. */
export function primaryIds(): PrimaryId[] {
  return Object.keys(say().describe.primaries) as PrimaryId[];
}
