/** Weighing what is left, in the order of the yard, and what was weighed before: one sheet, saved at once. */
import type { VNode } from 'preact';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import { routeHash } from '../../addresses/router.ts';
import { pileSum } from '../../burn/pile-sums.ts';
import { translate } from '../../language/catalogue.ts';
import { burnSignal, loadBurn } from '../../state/open-burn.ts';
import { FieldView } from '../forms/use-form.tsx';
import { useInventory } from '../forms/use-inventory.ts';
import { Cautions } from '../kit/cautions.tsx';
import { Fetching } from '../kit/fetching.tsx';
import { PracticeScales } from '../kit/practice-scales.tsx';
import { useLoad } from '../kit/use-load.ts';
import { AfterWeighing } from './after-weighing.tsx';
import { PileLine } from './pile-line.tsx';
import { useWeighUp, type WeighEntry } from './use-weigh-up.ts';
import { bucketField } from './weigh-entries.ts';
import { WeighField } from './weigh-field.tsx';

export function WeighPage({ id }: { id: string }): VNode {
  const loading = useLoad(id, () => loadBurn(id));
  const detail = burnSignal(id).value;
  if (!detail) return <Fetching of={loading} />;
  return <WeighSheet key={id} detail={detail} />;
}

function WeighSheet({ detail }: { detail: BurnDetail }): VNode {
  const words = translate().burns.wrap;
  const { burn } = detail;
  useInventory();
  const { after, before, context, marks, isPending, next, bucket, change, refusal, isSending, save } =
    useWeighUp(detail);
  const beforeOf = (pile: WeighEntry) =>
    before.find(({ field: { of, lot } }) => of === 'fuelPile' && lot?.id === pile.field.lot?.id);
  // The weighings before lighting are folded, unless one is missing or wrong.
  const needsBefore = before.some(
    ({ field, problems, isTouched }) =>
      (field.of !== 'char' && !field.shown) || Object.keys(problems).length > 0 || isTouched,
  );
  return (
    <div class="page">
      <header class="page-head">
        <h1>{words.title}</h1>
        <p class="quiet facts">
          <a href={routeHash({ at: 'burn', id: burn.id })}>{burn.title}</a>
        </p>
      </header>
      <p>{words.intro}</p>
      <Cautions of={['char', 'hot']} />
      {burn.origin === 'simulated' && <PracticeScales burnId={burn.id} />}
      <form
        class="weigh-up"
        onSubmit={(event) => {
          event.preventDefault();
          void save(event.currentTarget);
        }}
      >
        <div>
          <section aria-labelledby="after-title">
            <h2 id="after-title">{words.endTitle}</h2>
            <FieldView
              field={bucketField()}
              text={bucket.text}
              problem={bucket.problem}
              onInput={(text) => change({ bucket: text })}
            />
            {after.map((entry) => (
              <div key={entry.field.key} class="weigh-item">
                <WeighField {...entry} context={context} />
                {entry.field.of === 'fuelPile' && (
                  <PileLine
                    sum={pileSum(
                      marks,
                      { lotId: entry.field.lot?.id, isFirst: entry.field.isFirst },
                      { beforeKg: massIn(beforeOf(entry)), afterKg: massIn(entry) },
                    )}
                  />
                )}
              </div>
            ))}
            <p class="quiet">
              <b>{words.goods}.</b> {words.goodsHelp}
            </p>
          </section>
          <section aria-labelledby="before-title">
            <details open={needsBefore}>
              <summary>
                <h2 id="before-title">{words.startTitle}</h2>
              </summary>
              {before.map((entry) => (
                <div key={entry.field.key} class="weigh-item">
                  <WeighField {...entry} context={context} />
                </div>
              ))}
            </details>
          </section>
          <p>
            <a class="button" href={routeHash({ at: 'burn', id: burn.id })}>
              {words.correct}
            </a>
          </p>
        </div>
        <div class="form-aside">
          <AfterWeighing
            status={burn.status}
            isPending={isPending}
            next={next}
            onNext={(chosen) => change({ next: chosen })}
          />
          <p class="problem" role="alert">
            {refusal}
          </p>
          <p class="row form-end">
            <button type="submit" class="primary" disabled={isSending}>
              {isSending ? translate().sending : translate().save}
            </button>
          </p>
        </div>
      </form>
    </div>
  );
}

function massIn(entry: WeighEntry | undefined): number | undefined {
  return entry?.read.ok ? entry.read.weighing?.massKg : undefined;
}
