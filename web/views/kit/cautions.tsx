import type { VNode } from 'preact';
import { translate } from '../../language/catalogue.ts';

export type CautionName = 'lighting' | 'scrap' | 'hot' | 'char' | 'unattended' | 'food' | 'defer';
const all: readonly CautionName[] = ['lighting', 'scrap', 'hot', 'char', 'unattended', 'food', 'defer'];

/** Cautions, shown where they apply. */
export function Cautions({ of }: { of: readonly CautionName[] }): VNode {
  const words = translate().cautions;
  return (
    <div class="cautions" role="note" aria-label={words.title}>
      {of.map((name) => (
        <p key={name}>{words[name]}</p>
      ))}
    </div>
  );
}

export function CautionsScreen(): VNode {
  return (
    <div class="page narrow">
      <h1>{translate().cautions.title}</h1>
      <Cautions of={all} />
    </div>
  );
}
