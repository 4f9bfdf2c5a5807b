/** The fields of another load. Only the water is required. */
import type { VNode } from 'preact';
import { translateCompare } from '../../../language/catalogue.ts';
import { type DraftProps, fieldViews } from '../../forms/use-form.tsx';
import { Cautions } from '../../kit/cautions.tsx';
import {
  blankGoods,
  blankLoad,
  type GoodsDraft,
  goodsFields,
  goodsPrefix,
  type LoadDraft,
  loadFields,
} from './load-draft.ts';

/** Goods that may be food: a person who heats jars must read the caution. */
const edible: readonly GoodsDraft['kind'][] = ['vegetables', 'glass', 'own'];

/** Shown only on request: usually their values are the same as in the burns. */
const more = [
  'placeKind',
  'airTempC',
  'moistureWet',
  'startKind',
  'vesselKind',
  'stationPressurePa',
  'altitudeM',
  'vesselMassKg',
  'vesselDiameterM',
] as const;

export function LoadFields(props: DraftProps<LoadDraft>): VNode {
  const { draft, problems } = props;
  const field = fieldViews(loadFields(draft), props);
  // Fields with an earlier entry or a problem must be visible.
  const opened = more.some((key) => draft[key] !== blankLoad[key] || problems[key] !== undefined);
  return (
    <>
      <div class="row-form">
        {field('waterKg')}
        {field('startTempC')}
      </div>
      <Goods {...props} />
      <div class="group">
        {field('targetKind')}
        {field('targetTempC')}
        {field('holdDurationS')}
        {field('lid')}
      </div>
      <details class="load-more" open={opened}>
        <summary>{translateCompare().load.more}</summary>
        <div class="group">
          {field('placeKind')}
          {field('altitudeM')}
          {field('stationPressurePa')}
          <div class="row-form">
            {field('airTempC')}
            {field('moistureWet')}
            {field('moistureBasis')}
          </div>
          {field('startKind')}
        </div>
        <div class="group">
          {field('vesselKind')}
          {draft.vesselKind === 'other' && (
            <div class="row-form">
              {field('vesselMassKg')}
              {field('vesselDiameterM')}
            </div>
          )}
        </div>
      </details>
    </>
  );
}

function Goods({ draft: { goods }, problems, onChange }: DraftProps<LoadDraft>): VNode {
  const words = translateCompare().load;
  const viewsOf = (draft: GoodsDraft, index: number) =>
    fieldViews(
      goodsFields(draft),
      {
        draft,
        problems,
        onChange: (fields) =>
          onChange({ goods: goods.map((each) => (each === draft ? { ...each, ...fields } : each)) }),
      },
      goodsPrefix(index),
    );
  return (
    <fieldset class="group">
      <legend>{words.goods}</legend>
      {goods.map((each, index) => {
        const field = viewsOf(each, index);
        return (
          <div class="row-form goods" key={index}>
            {field('kind')}
            {field('massKg')}
            {field('specificHeatJPerKgK')}
            {field('diameterM')}
            <button
              type="button"
              class="plain"
              onClick={() => onChange({ goods: goods.filter((_, at) => at !== index) })}
            >
              {words.removeGoods}
            </button>
          </div>
        );
      })}
      <button type="button" onClick={() => onChange({ goods: [...goods, { ...blankGoods }] })}>
        {words.addGoods}
      </button>
      {goods.length > 0 && <p class="hint">{words.goodsHelp}</p>}
      {goods.some(({ kind }) => edible.includes(kind)) && <Cautions of={['food']} />}
    </fieldset>
  );
}
