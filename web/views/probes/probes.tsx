/** The setup of the bench: boards on their ports, probes on their boards. */
import '../../styles/lists.css';
import '../../styles/probes.css';
import type { VNode } from 'preact';
import { translate, translateProbes } from '../../language/catalogue.ts';
import { language } from '../../preferences/preferences.ts';
import { boards, handProbes, isSetupKnown } from '../../state/setup.ts';
import { Attach } from './attach.tsx';
import { BoardView } from './board.tsx';
import { HandProbes } from './hand-probes.tsx';

export function Probes(): VNode {
  const words = translateProbes();
  return (
    <div class="page">
      <header class="page-head">
        <h1>{words.title}</h1>
      </header>
      {isSetupKnown.value && boards.value.length === 0 && (
        <p>
          {words.none} {handProbes.value.length > 0 ? translate().hand.noBoardNeeded : words.noneHelp}{' '}
          <a href={`/guide.${language.value}.html`}>{words.guide}</a>
        </p>
      )}
      {boards.value.map((board) => (
        <BoardView key={board.id} board={board} />
      ))}
      <HandProbes />
      <Attach />
    </div>
  );
}
