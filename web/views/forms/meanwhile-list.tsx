/**
 * Changes saved by another person while a form was open, next to the entries in it: field by field, each to be chosen.
 */
import type { VNode } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { translate } from '../../language/catalogue.ts';
import { isSame, type VersionedDraft } from './merge-draft.ts';

export function MeanwhileList<T extends object>({
  meanwhile,
  fields,
  textOf,
  onChoose,
}: Pick<VersionedDraft<T>, 'meanwhile' | 'fields'> & {
  /** The label of a field, and one of its entries in words. */
  textOf: <K extends keyof T & string>(key: K, value: T[K]) => { label: string; text: string };
  onChoose: (fields: Partial<T>) => void;
}): VNode | null {
  const words = translate().describe.meanwhile;
  const list = useRef<HTMLElement>(null);
  const keys = Object.keys(meanwhile) as (keyof T & string)[];
  const isThere = keys.length > 0;
  useEffect(() => {
    if (isThere) list.current?.scrollIntoView({ block: 'start' });
  }, [isThere]);
  if (!isThere) return null;
  return (
    <section class="meanwhile" role="alert" ref={list}>
      <p>{words.intro}</p>
      {keys.map((key) => {
        const now = fields[key];
        const { mine, theirs } = meanwhile[key]!;
        const choices = [
          // What was typed here after the choice counts as our entry too.
          [words.mine, isSame(now, theirs) ? mine : now],
          [words.theirs, theirs],
        ] as const;
        return (
          <fieldset key={key}>
            <legend>{textOf(key, theirs).label}</legend>
            <div class="meanwhile-row">
              {choices.map(([whose, value]) => (
                <button
                  type="button"
                  key={whose}
                  aria-pressed={isSame(now, value)}
                  onClick={() => onChoose({ [key]: value } as unknown as Partial<T>)}
                >
                  <small>{whose}</small> <b>{textOf(key, value).text || words.empty}</b>
                </button>
              ))}
            </div>
          </fieldset>
        );
      })}
    </section>
  );
}
