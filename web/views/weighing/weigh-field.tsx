/** One thing to weigh: its mass, its container, and for water how it was measured. */
import type { VNode } from 'preact';
import { translate } from '../../language/catalogue.ts';
import { text } from '../../language/figures.ts';
import { CheckField, Choice } from '../forms/field.tsx';
import { FieldView, fieldViews } from '../forms/use-form.tsx';
import { moistureFields } from '../stoves/moisture.ts';
import type { WeighEntry } from './use-weigh-up.ts';
import { amountField, tempField, type WeighContext, type WeighDraft } from './weigh-entries.ts';

export function WeighField({
  field,
  draft,
  read,
  context,
  problems,
  change,
}: WeighEntry & { context: WeighContext }): VNode {
  const words = translate().burns.wrap;
  const { of, when, lot, shown } = field;
  const { measured, isLater, inContainer } = draft;
  const asked = amountField(measured, context.innerDiameterM);
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
          onChange={(value) => change({ measured: value, amount: '' })}
        />
      )}
      {!isLater && (
        <FieldView
          field={{ ...asked, label: of === 'water' ? asked.label : title, hint: help }}
          text={draft.amount}
          problem={problems.amount}
          onInput={(amount) => change({ amount })}
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
            onChange={(on) => change({ inContainer: on })}
          />
        )}
        {of === 'char' && when === 'end' && (
          <CheckField label={words.later} checked={isLater} onChange={(on) => change({ isLater: on })} />
        )}
        {inContainer && measured === 'mass' && weighing?.massKg !== undefined && (
          <output class="weigh-net">{words.netMass({ mass: text('mass', weighing.massKg) })}</output>
        )}
        {measured === 'dip' && weighing?.volumeL !== undefined && (
          <output class="weigh-net">{words.dipGives({ volume: text('volume', weighing.volumeL) })}</output>
        )}
      </div>
      {of === 'brands' && !isLater && (
        <BrandsMoisture draft={draft.moisture} problems={problems.moisture ?? {}} change={change} />
      )}
      {of === 'water' && (
        <FieldView field={tempField()} text={draft.temp} problem={problems.temp} onInput={(temp) => change({ temp })} />
      )}
      {of === 'water' && when === 'end' && (
        <CheckField label={words.lidOn} checked={draft.lidOn} onChange={(lidOn) => change({ lidOn })} />
      )}
      {shown?.state === 'waiting' && <p class="quiet">{translate().marks.waiting}</p>}
    </fieldset>
  );
}

/** Moisture of half-burnt wood; its basis and method are asked for once there is a value. */
function BrandsMoisture({
  draft,
  problems,
  change,
}: {
  draft: WeighDraft['moisture'];
  problems: Readonly<Record<string, string>>;
  change: WeighEntry['change'];
}): VNode {
  const words = translate().burns.wrap;
  const field = fieldViews(moistureFields(), {
    draft,
    problems,
    onChange: (entered) => change({ moisture: { ...draft, ...entered } }),
  });
  return (
    <>
      {field('moisture', { label: words.brandsMoisture, hint: words.brandsMoistureHelp })}
      {draft.moisture.trim() !== '' && (
        <>
          {field('basis')}
          {field('how')}
        </>
      )}
    </>
  );
}
