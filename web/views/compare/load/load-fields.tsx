/** What is asked about another load. Only the water must be said. */
import type { VNode } from 'preact';
import { translate, translateCompare } from '../../../state/catalogue.ts';
import { unit } from '../../../state/figures.ts';
import { Cautions } from '../../kit/cautions.tsx';
import { type DraftProps, draftFields } from '../../kit/draft-fields.tsx';
import { blankGoods, blankLoad, type GoodsDraft, goodsKinds, type LoadDraft } from './load-draft.ts';

/** What may be food: whoever heats jars must know what this is not. */
const edible: readonly GoodsDraft['kind'][] = ['vegetables', 'glass', 'own'];

/** Asked about only on request: usually all of it is as it was. */
const more = [
  'placeKind',
  'airTemp',
  'moisture',
  'startKind',
  'vesselKind',
  'pressure',
  'altitude',
  'vesselMass',
  'vesselDiameter',
] as const;

type LoadFieldsProps = DraftProps<LoadDraft>;

export function LoadFields(props: LoadFieldsProps): VNode {
  const { draft, problems } = props;
  const words = translateCompare().load;
  const { figure } = draftFields(props);
  // What was said before, or cannot be right, must be seen.
  const opened = more.some((field) => draft[field] !== blankLoad[field] || problems[field] !== undefined);
  return (
    <>
      <div class="row-form">
        {figure('water', words.water, unit('mass'))}
        {figure('startTemp', words.startTemp, unit('temperature'), { placeholder: words.asInBurns })}
      </div>
      <Goods {...props} />
      <Aim {...props} />
      <details class="load-more" open={opened}>
        <summary>{words.more}</summary>
        <Circumstances {...props} />
        <OtherVessel {...props} />
      </details>
    </>
  );
}

function Goods({ draft, problems, onChange }: LoadFieldsProps): VNode {
  const words = translateCompare().load;
  return (
    <fieldset class="group">
      <legend>{words.goods}</legend>
      {draft.goods.map((goods, index) => {
        const wrong = (field: keyof GoodsDraft) => problems[`goods ${index} ${field}`];
        const { figure, select } = draftFields<GoodsDraft>({
          draft: goods,
          problems: { mass: wrong('mass'), specificHeat: wrong('specificHeat'), diameter: wrong('diameter') },
          onChange: (fields) =>
            onChange({ goods: draft.goods.map((other, at) => (at === index ? { ...other, ...fields } : other)) }),
        });
        return (
          <div class="row-form goods" key={index}>
            {select(
              'kind',
              words.goodsKind,
              goodsKinds.map((kind) => [kind, words.goodsKinds[kind]] as const),
            )}
            {figure('mass', words.goodsMass, unit('mass'))}
            {goods.kind === 'own' && figure('specificHeat', words.specificHeat, 'kJ/(kg K)')}
            {figure('diameter', words.goodsDiameter, unit('length'))}
            <button
              type="button"
              class="plain"
              onClick={() => onChange({ goods: draft.goods.filter((_, at) => at !== index) })}
            >
              {words.removeGoods}
            </button>
          </div>
        );
      })}
      <button type="button" onClick={() => onChange({ goods: [...draft.goods, blankGoods] })}>
        {words.addGoods}
      </button>
      {draft.goods.length > 0 && <p class="hint">{words.goodsHelp}</p>}
      {draft.goods.some(({ kind }) => edible.includes(kind)) && <Cautions of={['food']} />}
    </fieldset>
  );
}

function Aim(props: LoadFieldsProps): VNode {
  const words = translateCompare().load;
  const described = translate().describe;
  const { figure, choice } = draftFields(props);
  return (
    <div class="group">
      {choice('targetKind', described.target, [
        ['', words.asInBurns],
        ['boil', described.boil],
        ['temperature', described.temperature],
      ])}
      {props.draft.targetKind === 'temperature' && figure('targetTemp', described.targetTemp, unit('temperature'))}
      {figure('holdMinutes', described.holdMinutes, 'min', { placeholder: described.holdNone })}
      {choice('lid', words.lid, [
        ['', words.asInBurns],
        ['on', words.lidOn],
        ['off', words.lidOff],
      ])}
    </div>
  );
}

function Circumstances(props: LoadFieldsProps): VNode {
  const words = translateCompare().load;
  const described = translate().describe;
  const { placeKind } = props.draft;
  const { figure, choice } = draftFields(props);
  return (
    <div class="group">
      {choice('placeKind', described.place, [
        ['', words.asInBurns],
        ['altitude', described.fields.altitudeM],
        ['pressure', words.pressure],
      ])}
      {placeKind === 'altitude' && figure('altitude', described.fields.altitudeM, 'm')}
      {placeKind === 'pressure' &&
        figure('pressure', words.pressure, unit('pressure'), { hint: described.fields.pressureHelp })}
      <div class="row-form">
        {figure('airTemp', described.airTemp, unit('temperature'), { placeholder: words.asInBurns })}
        {figure('moisture', words.moisture, '%', { placeholder: words.asInBurns })}
        {choice('moistureBasis', described.fields.basis, [
          ['wet', described.fields.bases.wet],
          ['dry', described.fields.bases.dry],
        ])}
      </div>
      {choice('startKind', described.startKind, [
        ['', words.asInBurns],
        ['cold', described.cold],
        ['hot', described.hot],
      ])}
    </div>
  );
}

function OtherVessel(props: LoadFieldsProps): VNode {
  const words = translateCompare().load;
  const described = translate().describe;
  const { figure, choice } = draftFields(props);
  return (
    <div class="group">
      {choice('vesselKind', described.vessel, [
        ['', words.asInBurns],
        ['other', words.otherVessel],
      ])}
      {props.draft.vesselKind === 'other' && (
        <div class="row-form">
          {figure('vesselMass', described.fields.massKg, unit('mass'))}
          {figure('vesselDiameter', described.fields.innerDiameterM, unit('length'))}
        </div>
      )}
    </div>
  );
}
