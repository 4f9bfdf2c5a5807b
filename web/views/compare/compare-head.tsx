import type { VNode } from 'preact';
import { sayCompare } from '../../state/catalogue.ts';
import { DotSample } from './burn-dot.tsx';
import type { Side, Sides } from './sides.ts';

/** What is set against what: one line of what was built for each side. */
export function CompareHead({ sides: { a, b } }: { sides: Sides }): VNode {
  const words = sayCompare();
  const stove = a.burns[0]?.stove;
  const sameStove = stove !== undefined && [...a.burns, ...b.burns].every((burn) => burn.stove?.id === stove.id);
  return (
    <header class="page-head">
      <h1>
        {sameStove && a.name !== 'A'
          ? words.headOneStove({ stove: stove.name, a: a.name, b: b.name })
          : words.head({ a: a.longName, b: b.longName })}
      </h1>
      <ul class="facts quiet side-facts">
        <SideFacts side={a} />
        <SideFacts side={b} />
      </ul>
    </header>
  );
}

function SideFacts({ side: { key, name, revision, burns } }: { side: Side }): VNode {
  return (
    <li>
      <DotSample side={key} /> {name}, {sayCompare().count({ count: burns.length })}
      {revision?.change && ` · ${revision.change}`}
    </li>
  );
}
