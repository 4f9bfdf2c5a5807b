/** One thing to weigh: its figure, what it stands in, and for water how it was measured. */
import type { VNode } from 'preact';
import type { WeighField as Field } from '../../lib/weigh-fields.ts';
import { translate } from '../../state/catalogue.ts';
import { text, unit } from '../../state/figures.ts';
import { CheckField, Choice, TextField } from '../kit/field.tsx';
import type { ReadWeighing, WeighContext, WeighDraft, WeighProblems } from './weigh-entries.ts';

export function WeighField({
  field,
  draft,
  read,
  context,
  problems,
  onChange,
}: {
  field: Field;
  draft: WeighDraft;
  read: ReadWeighing;
  context: WeighContext;
  problems: WeighProblems;
  onChange: (fields: Partial<WeighDraft>) => void;
}): VNode {
  const words = translate().read.wrap;
  const { of, when, lot, shown } = field;
  const { measured, isLater, inContainer } = draft;
  const title = lot ? words.of({ what: words[of], lot: lot.name }) : words[of];
  const help =
    when === 'start' && (of === 'fuelPile' || of === 'water' || of === 'char')
      ? words[`${of}StartHelp`]
      : words[`${of}Help`];
  const weighing = read.ok ? read.weighing : undefined;
  const hasPot = of === 'water' && context.potKg !== undefined;
  return (
    <fieldset class="weigh-field" aria-label={title}>
      {of === 'water' && (
        <Choice
          label={words.water}
          value={measured}
          options={[
            ['mass', words.asMass],
            ['volume', words.asVolume],
            ['dip', words.asDip],
          ]}
          onChange={(value) => onChange({ measured: value, amount: '' })}
        />
      )}
      {!isLater && (
        <TextField
          decimal
          label={of === 'water' ? amountLabels()[measured] : title}
          unit={measured === 'dip' ? 'mm' : unit(measured === 'volume' ? 'volume' : 'mass')}
          hint={help}
          value={draft.amount}
          problem={problems.amount}
          onInput={(amount) => onChange({ amount })}
        />
      )}
      {isLater && (
        <p>
          <b>{title}</b>
        </p>
      )}
      <div class="weigh-ticks">
        {measured === 'mass' && !isLater && (
          <CheckField
            label={hasPot ? words.inPot({ mass: text('mass', context.potKg ?? 0) }) : words.inBucket}
            checked={inContainer}
            onChange={(on) => onChange({ inContainer: on })}
          />
        )}
        {of === 'char' && when === 'end' && (
          <CheckField label={words.later} checked={isLater} onChange={(on) => onChange({ isLater: on })} />
        )}
        {inContainer && measured === 'mass' && weighing?.massKg !== undefined && (
          <output class="weigh-net">{words.netMass({ mass: text('mass', weighing.massKg) })}</output>
        )}
        {measured === 'dip' && weighing?.volumeL !== undefined && (
          <output class="weigh-net">{words.dipGives({ volume: text('volume', weighing.volumeL) })}</output>
        )}
      </div>
      {of === 'water' && (
        <TextField
          decimal
          label={words.tempAt}
          unit={unit('temperature')}
          value={draft.temp}
          problem={problems.temp}
          onInput={(temp) => onChange({ temp })}
        />
      )}
      {of === 'water' && when === 'end' && (
        <CheckField label={words.lidOn} checked={draft.lidOn} onChange={(lidOn) => onChange({ lidOn })} />
      )}
      {shown?.state === 'waiting' && <p class="quiet">{translate().marks.waiting}</p>}
    </fieldset>
  );
}

function amountLabels(): Record<WeighDraft['measured'], string> {
  const words = translate().read.wrap;
  return { mass: words.mass, volume: words.asVolume, dip: words.dip };
}
