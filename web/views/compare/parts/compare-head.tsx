import type { VNode } from 'preact';
import type { Comparison } from '../../../../shared/contract/comparison.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { DotSample } from './burn-dot.tsx';
import type { Side, Sides } from './sides.ts';

/** The sides of the comparison: one line for each, with what was built. */
export function CompareHead({
  sides: { a, b },
  counted,
}: {
  sides: Sides;
  /** Burns on which the verdict is based, once available. */
  counted: Comparison['burns'] | undefined;
}): VNode {
  const words = translateCompare();
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
        <SideFacts side={a} counted={counted?.a.length} />
        <SideFacts side={b} counted={counted?.b.length} />
      </ul>
    </header>
  );
}

function SideFacts({
  side: { key, name, revision, burns },
  counted,
}: {
  side: Side;
  counted: number | undefined;
}): VNode {
  const words = translateCompare();
  const all = burns.length;
  return (
    <li>
      <DotSample side={key} /> {name},{' '}
      {counted === undefined || counted === all ? words.count({ count: all }) : words.countOf({ count: counted, all })}
      {revision?.change && ` · ${revision.change}`}
    </li>
  );
}
