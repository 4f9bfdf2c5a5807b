/** The fields for the place and the name of a probe. */
import type { SetupChannel } from '../../../shared/contract/boards.ts';
import { translate, translateProbes } from '../../language/catalogue.ts';
import { askedIf, choice, line, needed, select } from '../forms/field-spec.ts';
import { rolesFor } from './roles.ts';

export function sittingFields(unit: SetupChannel['unit'], role: SetupChannel['role']) {
  const words = translateProbes();
  const positions = ['low', 'middle', 'high'] as const;
  return {
    role: needed(
      select(
        { label: words.role, hint: role === 'water' ? words.waterHint : undefined },
        rolesFor(unit).map((each) => [each, translate().burns.roles[each]]),
      ),
    ),
    position: askedIf(
      role === 'water',
      choice(
        { label: words.position },
        positions.map((each) => [each, words.positions[each]]),
      ),
    ),
    name: needed(line({ label: words.name })),
  };
}
