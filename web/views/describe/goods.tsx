/** Goods in the water: jars, yarn, whatever is heated with it. */
import type { VNode } from 'preact';
import type { GoodsDraft } from '../../lib/goods.ts';
import { uuid7 } from '../../lib/uuid7.ts';
import { translate } from '../../state/catalogue.ts';
import { number, unit } from '../../state/figures.ts';
import { Cautions } from '../kit/cautions.tsx';
import { TextField } from '../kit/field.tsx';
import type { FieldProblems } from '../kit/refused-form.tsx';
import { goodsField } from './burn-entries.ts';

/** Most goods are mostly water. */
const usualHeat = 4;

export function Goods({
  goods,
  problems,
  onChange,
}: {
  goods: readonly GoodsDraft[];
  problems: FieldProblems;
  onChange: (goods: readonly GoodsDraft[]) => void;
}): VNode {
  const words = translate().describe;
  const change = (id: string, fields: Partial<GoodsDraft>) =>
    onChange(goods.map((each) => (each.id === id ? { ...each, ...fields } : each)));
  return (
    <fieldset class="group">
      <legend>{words.contents}</legend>
      <p class="hint">{words.contentsHelp}</p>
      {goods.map((each) => (
        <div class="row-form" key={each.id} data-of={each.name || words.contents}>
          <TextField
            label={words.fields.name}
            value={each.name}
            problem={problems[goodsField(each.id, 'name')]}
            onInput={(name) => change(each.id, { name })}
          />
          <TextField
            decimal
            label={words.goodsMass}
            unit={unit('mass')}
            value={each.mass}
            problem={problems[goodsField(each.id, 'mass')]}
            onInput={(mass) => change(each.id, { mass })}
          />
          <TextField
            decimal
            label={words.goodsHeat}
            unit="kJ/(kg K)"
            value={each.specificHeat}
            problem={problems[goodsField(each.id, 'specificHeat')]}
            onInput={(specificHeat) => change(each.id, { specificHeat })}
          />
          <TextField
            decimal
            label={words.goodsTemp}
            unit={unit('temperature')}
            value={each.startTemp}
            problem={problems[goodsField(each.id, 'startTemp')]}
            onInput={(startTemp) => change(each.id, { startTemp })}
          />
          <button type="button" class="plain" onClick={() => onChange(goods.filter(({ id }) => id !== each.id))}>
            {words.fields.removeDimension({ name: each.name })}
          </button>
        </div>
      ))}
      <button
        type="button"
        onClick={() =>
          onChange([
            ...goods,
            { id: uuid7(), name: '', mass: '', specificHeat: number(usualHeat, 1), startTemp: '', rest: {} },
          ])
        }
      >
        {words.addGoods}
      </button>
      {goods.length > 0 && <Cautions of={['food']} />}
    </fieldset>
  );
}
