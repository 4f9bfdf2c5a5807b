/** What somebody else saved while a form was open, beside what stands in it: field by field, each to be chosen. */
import type { VNode } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { isSame, type Meanwhile } from '../../lib/merge-drafts.ts';
import { translate } from '../../state/catalogue.ts';

export interface MeanwhileField {
  readonly key: string;
  readonly label: string;
  readonly values: Meanwhile<unknown>;
  /** What stands in the form now. */
  readonly now: unknown;
  write(value: unknown): string;
  choose(value: unknown): void;
}

export function MeanwhileList({ fields }: { fields: readonly MeanwhileField[] }): VNode | null {
  const words = translate().describe.meanwhile;
  const list = useRef<HTMLElement>(null);
  const isThere = fields.length > 0;
  useEffect(() => {
    if (isThere) list.current?.scrollIntoView({ block: 'start' });
  }, [isThere]);
  if (!isThere) return null;
  return (
    <section class="meanwhile" role="alert" ref={list}>
      <p>{words.lead}</p>
      {fields.map(({ key, label, values, now, write, choose }) => {
        // What was typed here after the choice is ours too.
        const mine = isSame(now, values.theirs) ? values.mine : now;
        return (
          <fieldset key={key}>
            <legend>{label}</legend>
            <div class="meanwhile-row">
              {(
                [
                  [words.mine, mine],
                  [words.theirs, values.theirs],
                ] as const
              ).map(([whose, value]) => (
                <button type="button" key={whose} aria-pressed={isSame(now, value)} onClick={() => choose(value)}>
                  <small>{whose}</small> <b>{write(value) || words.empty}</b>
                </button>
              ))}
            </div>
          </fieldset>
        );
      })}
    </section>
  );
}
