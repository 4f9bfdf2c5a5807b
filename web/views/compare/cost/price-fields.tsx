import type { VNode } from 'preact';
import { translateCompare } from '../../../language/catalogue.ts';
import { unit } from '../../../language/figures.ts';
import { prices, setPrices, type TypedPrices } from '../../../preferences/prices.ts';
import { SelectField, TextField } from '../../forms/field.tsx';
import type { PriceProblems } from './read-prices.ts';

const gases = ['bottledMixture', 'propane', 'butane'] as const;

/** Prices; an empty one is not used. They are stored in this browser. */
export function PriceFields({ problems }: { problems: PriceProblems }): VNode {
  const words = translateCompare().cost;
  const money = prices.value.currency.trim();
  const field = (key: Exclude<keyof TypedPrices, 'gasKind'>, label: string, unitText: string, hint?: string) => (
    <TextField
      decimal
      label={label}
      unit={unitText}
      hint={hint}
      value={prices.value[key]}
      problem={problems[key]}
      onInput={(value) => setPrices({ [key]: value })}
    />
  );
  const a = (what: string) => words.per({ money: money || words.money, what });
  return (
    <form class="price-fields" onSubmit={(event) => event.preventDefault()}>
      <p class="quiet">{words.stored}</p>
      <TextField
        label={words.currency}
        value={prices.value.currency}
        onInput={(currency) => setPrices({ currency: currency.slice(0, 10) })}
      />
      {field('wood', words.wood, a(unit('mass')), words.woodHelp)}
      {field('batches', words.batches, words.batchesUnit)}
      <fieldset class="group">
        <legend>{words.gas}</legend>
        {field('gas', words.price, a(unit('mass')))}
        <SelectField
          label={words.gasKind}
          value={prices.value.gasKind}
          options={gases.map((kind) => [kind, words.gasKinds[kind]] as const)}
          onChange={(gasKind) => setPrices({ gasKind })}
        />
        {field('gasEfficiency', words.efficiency, '%', words.efficiencyHelp)}
      </fieldset>
      <fieldset class="group">
        <legend>{words.electricity}</legend>
        {field('electricity', words.price, a('kWh'))}
        {field('electricityEfficiency', words.efficiency, '%')}
      </fieldset>
    </form>
  );
}
