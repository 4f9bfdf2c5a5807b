import type { VNode } from 'preact';
import type { Burn } from '../../../shared/contract/burns.ts';
import { translate } from '../../language/catalogue.ts';
import { link } from '../../state/connection.ts';
import { boards, isSetupKnown } from '../../state/setup.ts';

/** One word on the boards from which a burn records: all is well, or which is the worst. */
export function BoardStatus({ burn }: { burn: Burn }): VNode | null {
  // The state of the boards is unknown here then, or not loaded yet.
  if (link.value === 'lost' || !isSetupKnown.value) return null;
  const words = translate().run;
  // The others are read by a person.
  const sent = burn.channels.filter(({ handRead }) => !handRead);
  if (sent.length === 0 && burn.channels.length > 0) return <span>{translate().hand.wordNoBoard}</span>;
  const present = new Set(sent.map(({ boardId }) => boardId));
  const used = boards.value.filter(({ id }) => present.has(id));
  const missing = [...present].some((id) => id !== undefined && !used.some((board) => board.id === id));
  if (used.length === 0) return <span class="bad">{missing ? words.boardLost : words.noBoard}</span>;
  if (missing || used.some(({ state }) => state === 'lost' || state === 'searching'))
    return <span class="bad">{words.boardLost}</span>;
  if (used.some(({ state }) => state !== 'live')) return <span class="bad">{words.boardSilent}</span>;
  return <span>{used.length === 1 ? words.boardOk : words.boardsOk({ count: used.length })}</span>;
}
