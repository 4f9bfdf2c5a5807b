/** The sheets of the running burn: wood, a reading, any other mark. */
import type { VNode } from 'preact';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { MarkKind } from '../../../shared/contract/marks.ts';
import type { BurnState, ShownMark } from '../../burn/burn-state.ts';
import { pileDropKg } from '../../burn/pile.ts';
import type { OpenSheet } from '../sheets/use-open-sheet.ts';
import { FeedSheet } from './feed-sheet.tsx';
import { OtherSheet } from './other-sheet.tsx';
import { ReadingSheet } from './reading-sheet.tsx';

export type LoggedMark = [kind: MarkKind, details?: object, agoS?: number];

export function LiveSheets({
  detail,
  marks,
  state,
  open,
  pile,
  isHoldDone,
  onLog,
}: {
  detail: BurnDetail;
  marks: readonly ShownMark[];
  state: BurnState;
  open: OpenSheet;
  /** The scale under the wood pile. */
  pile: Parameters<typeof pileDropKg>[0] | undefined;
  isHoldDone: boolean;
  onLog: (...mark: LoggedMark) => void;
}): VNode {
  return (
    <>
      {open.which === 'feed' && (
        <FeedSheet
          detail={detail}
          marks={marks}
          pileDropKg={pile && pileDropKg(pile, (state.lastFed?.elapsedUs ?? Number.NEGATIVE_INFINITY) / 1e6)}
          onClose={open.close}
          onLog={({ agoS, ...details }) => onLog('fed', details, agoS)}
        />
      )}
      {open.which === 'reading' && (
        <ReadingSheet
          detail={detail}
          probes={detail.burn.channels.filter(({ handRead }) => handRead)}
          marks={marks}
          onClose={open.close}
          onLog={({ agoS, ...details }) => onLog('reading', details, agoS)}
        />
      )}
      {(open.which === 'other' || open.which === 'note') && (
        <OtherSheet
          detail={detail}
          state={state}
          isHoldDone={isHoldDone}
          first={open.which === 'note' ? 'note' : undefined}
          onClose={open.close}
          onLog={onLog}
        />
      )}
    </>
  );
}
