/** What is asked about another load. Only the water must be said. */
import type { VNode } from 'preact';
import { say, sayCompare } from '../../state/catalogue.ts';
import { unit } from '../../state/figures.ts';
import { Cautions } from '../cautions.tsx';
import { Choice, SelectField, TextField } from '../kit/field.tsx';
import { blankGoods, blankLoad, type GoodsDraft, goodsKinds, type LoadDraft, type LoadProblems } from './load-draft.ts';

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

interface LoadFieldsProps {
  draft: LoadDraft;
  problems: LoadProblems;
  onChange: (fields: Partial<LoadDraft>) => void;
}

export function LoadFields(props: LoadFieldsProps): VNode {
  const { draft, problems, onChange } = props;
  const words = sayCompare().load;
  // What was said before, or cannot be right, must be seen.
  const opened = more.some((field) => draft[field] !== blankLoad[field] || problems[field] !== undefined);
  return (
    <>
      <div class="row-form">
        <TextField
          decimal
          label={words.water}
          unit={unit('mass')}
          value={draft.water}
          problem={problems.water}
          onInput={(water) => onChange({ water })}
        />
        <TextField
          decimal
          label={words.startTemp}
          unit={unit('temperature')}
          placeholder={words.asInBurns}
          value={draft.startTemp}
          problem={problems.startTemp}
          onInput={(startTemp) => onChange({ startTemp })}
        />
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
  const words = sayCompare().load;
  const change = (place: number, fields: Partial<GoodsDraft>) =>
    onChange({ goods: draft.goods.map((goods, at) => (at === place ? { ...goods, ...fields } : goods)) });
  return (
    <fieldset class="group">
      <legend>{words.goods}</legend>
      {draft.goods.map((goods, place) => (
        <div class="row-form goods" key={place}>
          <SelectField
            label={words.goodsKind}
            value={goods.kind}
            options={goodsKinds.map((kind) => [kind, words.goodsKinds[kind]] as const)}
            onChange={(kind) => change(place, { kind })}
          />
          <TextField
            decimal
            label={words.goodsMass}
            unit={unit('mass')}
            value={goods.mass}
            problem={problems[`goods ${place} mass`]}
            onInput={(mass) => change(place, { mass })}
          />
          {goods.kind === 'own' && (
            <TextField
              decimal
              label={words.specificHeat}
              unit="kJ/(kg K)"
              value={goods.specificHeat}
              problem={problems[`goods ${place} specificHeat`]}
              onInput={(specificHeat) => change(place, { specificHeat })}
            />
          )}
          <TextField
            decimal
            label={words.goodsDiameter}
            unit={unit('length')}
            value={goods.diameter}
            problem={problems[`goods ${place} diameter`]}
            onInput={(diameter) => change(place, { diameter })}
          />
          <button
            type="button"
            class="plain"
            onClick={() => onChange({ goods: draft.goods.filter((_, at) => at !== place) })}
          >
            {words.removeGoods}
          </button>
        </div>
      ))}
      <button type="button" onClick={() => onChange({ goods: [...draft.goods, blankGoods] })}>
        {words.addGoods}
      </button>
      {draft.goods.length > 0 && <p class="hint">{words.goodsHelp}</p>}
      {draft.goods.some(({ kind }) => edible.includes(kind)) && <Cautions of={['food']} />}
    </fieldset>
  );
}

function Aim({ draft, problems, onChange }: LoadFieldsProps): VNode {
  const words = sayCompare().load;
  return (
    <div class="group">
      <Choice
        label={say().describe.target}
        value={draft.targetKind}
        options={[
          ['', words.asInBurns],
          ['boil', say().describe.boil],
          ['temperature', say().describe.temperature],
        ]}
        onChange={(targetKind) => onChange({ targetKind })}
      />
      {draft.targetKind === 'temperature' && (
        <TextField
          decimal
          label={say().describe.targetTemp}
          unit={unit('temperature')}
          value={draft.targetTemp}
          problem={problems.targetTemp}
          onInput={(targetTemp) => onChange({ targetTemp })}
        />
      )}
      <TextField
        decimal
        label={say().describe.holdMinutes}
        unit="min"
        placeholder={say().describe.holdNone}
        value={draft.holdMinutes}
        problem={problems.holdMinutes}
        onInput={(holdMinutes) => onChange({ holdMinutes })}
      />
      <Choice
        label={words.lid}
        value={draft.lid}
        options={[
          ['', words.asInBurns],
          ['on', words.lidOn],
          ['off', words.lidOff],
        ]}
        onChange={(lid) => onChange({ lid })}
      />
    </div>
  );
}

function Circumstances({ draft, problems, onChange }: LoadFieldsProps): VNode {
  const words = sayCompare().load;
  return (
    <div class="group">
      <Choice
        label={say().describe.place}
        value={draft.placeKind}
        options={[
          ['', words.asInBurns],
          ['altitude', say().describe.fields.altitudeM],
          ['pressure', words.pressure],
        ]}
        onChange={(placeKind) => onChange({ placeKind })}
      />
      {draft.placeKind === 'altitude' && (
        <TextField
          decimal
          label={say().describe.fields.altitudeM}
          unit="m"
          value={draft.altitude}
          problem={problems.altitude}
          onInput={(altitude) => onChange({ altitude })}
        />
      )}
      {draft.placeKind === 'pressure' && (
        <TextField
          decimal
          label={words.pressure}
          unit={unit('pressure')}
          hint={say().describe.fields.pressureHelp}
          value={draft.pressure}
          problem={problems.pressure}
          onInput={(pressure) => onChange({ pressure })}
        />
      )}
      <div class="row-form">
        <TextField
          decimal
          label={say().describe.airTemp}
          unit={unit('temperature')}
          placeholder={words.asInBurns}
          value={draft.airTemp}
          problem={problems.airTemp}
          onInput={(airTemp) => onChange({ airTemp })}
        />
        <TextField
          decimal
          label={words.moisture}
          unit="%"
          placeholder={words.asInBurns}
          value={draft.moisture}
          problem={problems.moisture}
          onInput={(moisture) => onChange({ moisture })}
        />
        <Choice
          label={say().describe.fields.basis}
          value={draft.moistureBasis}
          options={[
            ['wet', say().describe.fields.bases.wet],
            ['dry', say().describe.fields.bases.dry],
          ]}
          onChange={(moistureBasis) => onChange({ moistureBasis })}
        />
      </div>
      <Choice
        label={say().describe.startKind}
        value={draft.startKind}
        options={[
          ['', words.asInBurns],
          ['cold', say().describe.cold],
          ['hot', say().describe.hot],
        ]}
        onChange={(startKind) => onChange({ startKind })}
      />
    </div>
  );
}

function OtherVessel({ draft, problems, onChange }: LoadFieldsProps): VNode {
  const words = sayCompare().load;
  return (
    <div class="group">
      <Choice
        label={say().describe.vessel}
        value={draft.vesselKind}
        options={[
          ['', words.asInBurns],
          ['other', words.otherVessel],
        ]}
        onChange={(vesselKind) => onChange({ vesselKind })}
      />
      {draft.vesselKind === 'other' && (
        <div class="row-form">
          <TextField
            decimal
            label={say().describe.fields.massKg}
            unit={unit('mass')}
            value={draft.vesselMass}
            problem={problems.vesselMass}
            onInput={(vesselMass) => onChange({ vesselMass })}
          />
          <TextField
            decimal
            label={say().describe.fields.innerDiameterM}
            unit={unit('length')}
            value={draft.vesselDiameter}
            problem={problems.vesselDiameter}
            onInput={(vesselDiameter) => onChange({ vesselDiameter })}
          />
        </div>
      )}
    </div>
  );
}
