/** Goods in the water: jars, yarn and other things heated with it. */
import type { VNode } from 'preact';
import { translate } from '../../language/catalogue.ts';
import { uuid7 } from '../../outbox/uuid7.ts';
import type { Problems } from '../forms/field-spec.ts';
import { fieldViews } from '../forms/use-form.tsx';
import { Cautions } from '../kit/cautions.tsx';
import { type GoodsDraft, goodsFields, goodsPrefix, newGoods } from './goods-fields.ts';

export function Goods({
  goods,
  problems,
  onChange,
}: {
  goods: readonly GoodsDraft[];
  problems: Problems;
  onChange: (goods: readonly GoodsDraft[]) => void;
}): VNode {
  const words = translate().describe;
  const viewsOf = (draft: GoodsDraft) =>
    fieldViews(
      goodsFields(),
      {
        draft,
        problems,
        onChange: (entries) => onChange(goods.map((each) => (each === draft ? { ...each, ...entries } : each))),
      },
      goodsPrefix(draft.id),
    );
  return (
    <fieldset class="group">
      <legend>{words.contents}</legend>
      <p class="hint">{words.contentsHelp}</p>
      {goods.map((each) => (
        <div class="row-form" key={each.id} data-of={each.name || words.contents}>
          {(['name', 'massKg', 'specificHeatJPerKgK', 'startTempC'] as const).map((key) => viewsOf(each)(key))}
          <button type="button" class="plain" onClick={() => onChange(goods.filter(({ id }) => id !== each.id))}>
            {words.fields.removeDimension({ name: each.name })}
          </button>
        </div>
      ))}
      <button type="button" onClick={() => onChange([...goods, newGoods(uuid7())])}>
        {words.addGoods}
      </button>
      {goods.length > 0 && <Cautions of={['food']} />}
    </fieldset>
  );
}
