/** The form before a cooling run, and how to set it up. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useRef } from 'preact/hooks';
import { translate, translateCooling } from '../../language/catalogue.ts';
import { uuid7 } from '../../outbox/uuid7.ts';
import { call } from '../../requests/service.ts';
import { currentInventory } from '../../state/inventory.ts';
import { logMark } from '../../state/log-mark.ts';
import { saveDetail } from '../../state/open-burn.ts';
import { sendWeighUp } from '../../state/outbox.ts';
import { goOn } from '../../state/route.ts';
import { choice, type DraftOf, needed, quantity, readFields, select, type ValuesOf } from '../forms/field-spec.ts';
import { useDraft } from '../forms/use-draft.ts';
import { fieldViews } from '../forms/use-form.tsx';
import { useInventory } from '../forms/use-inventory.ts';
import { useRefused } from '../forms/use-refused.ts';
import { Cautions } from '../kit/cautions.tsx';
import { sentenceFor } from '../kit/use-load.ts';
import { inventoryOptions } from '../stoves/inventory-names.ts';

type CoolingFields = ReturnType<typeof coolingFields>;

function coolingFields() {
  const words = translateCooling();
  const pots = inventoryOptions('vessels');
  return {
    vesselId: needed(
      select({ label: words.pot, hint: pots.length === 0 ? words.noPot : undefined }, [
        ['', translate().describe.none],
        ...pots,
      ]),
    ),
    waterKg: needed(quantity('mass', { label: words.water, hint: words.waterHelp, positive: true, high: 500 })),
    lid: needed(
      choice<'on' | 'off'>({ label: words.lid }, [
        ['on', words.lidOn],
        ['off', words.lidOff],
      ]),
    ),
    airTempC: quantity('temperature', { label: words.air, hint: words.airHelp, low: -50, high: 60, decimals: 1 }),
  };
}

export function CoolingForm(): VNode {
  const words = translateCooling();
  useInventory();
  const form = useRef<HTMLFormElement>(null);
  const { draft, forget } = useDraft<DraftOf<CoolingFields>>('cooling', {
    vesselId: '',
    waterKg: '',
    lid: '',
    airTempC: '',
  });
  const fields = coolingFields();
  const read = readFields(fields, draft.value);
  const problems = useRefused(read.ok ? {} : read.problems);
  const refusal = useSignal<string | undefined>(undefined);
  const field = fieldViews(fields, {
    draft: draft.value,
    problems: problems.shown,
    onChange: (entered) => {
      draft.value = { ...draft.value, ...entered };
    },
  });
  const start = async () => {
    refusal.value = undefined;
    if (!read.ok) return form.current && problems.refuse(form.current);
    try {
      const id = await begin(read.values);
      forget();
      goOn({ at: 'run', id });
    } catch (cause) {
      refusal.value = sentenceFor(cause);
    }
  };
  return (
    <div class="page narrow">
      <header class="page-head">
        <h1>{words.title}</h1>
      </header>
      <p>{words.intro}</p>
      <ol class="cooling-steps">
        {words.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <Cautions of={['hot']} />
      <form
        class="cooling-form"
        ref={form}
        onSubmit={(event) => {
          event.preventDefault();
          void start();
        }}
      >
        {field('vesselId')}
        {field('waterKg')}
        {field('lid')}
        {field('airTempC')}
        <p class="problem" role="alert">
          {refusal.value}
        </p>
        <p class="row form-end">
          <button type="submit" class="primary">
            {words.start}
          </button>
        </p>
      </form>
    </div>
  );
}

/** Begins to record, with the values entered. */
async function begin({ vesselId, waterKg, lid, airTempC }: ValuesOf<CoolingFields>): Promise<string> {
  const words = translateCooling();
  const pot = currentInventory.value?.vessels.find(({ id }) => id === vesselId)?.name ?? '';
  const { burn } = saveDetail(
    await call('POST /burns', {
      body: {
        id: uuid7(),
        purpose: 'cooling',
        status: 'running',
        title: words.runTitle({ pot, lid: lid === 'on' ? words.lidOn : words.lidOff }),
        vesselId,
        ...(airTempC !== undefined && { airTempC }),
        zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
      },
    }),
  );
  await logMark(burn.id, 'potOff', {});
  await logMark(burn.id, lid === 'on' ? 'lidOn' : 'lidOff', {});
  await sendWeighUp(burn.id, {
    weighings: [{ weighing: { id: uuid7(), of: 'water', when: 'start', massKg: waterKg } }],
  });
  return burn.id;
}
