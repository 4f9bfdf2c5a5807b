/** Stretches of a probe that are not to be used, each with its reason. Readings themselves are never changed. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnDetail } from '../../../shared/contract/api.ts';
import { uuid7 } from '../../lib/uuid7.ts';
import { say } from '../../state/catalogue.ts';
import { number, readNumber } from '../../state/figures.ts';
import { loadBurn } from '../../state/open-burn.ts';
import { call } from '../../state/service.ts';
import { SelectField, TextField } from '../kit/field.tsx';
import { sentenceFor } from '../kit/use-load.ts';

export function Exclusions({ detail, zeroUs }: { detail: BurnDetail; zeroUs: number }): VNode | null {
  const words = say().read.burn;
  const { burn } = detail;
  const inForce = detail.exclusions.filter(({ withdrawn }) => !withdrawn);
  const blank = { channelId: burn.channels[0]?.id ?? '', from: '', to: '', reason: '' };
  const entries = useSignal(blank);
  const tried = useSignal(false);
  const problem = useSignal<string | undefined>(undefined);
  if (burn.channels.length === 0) return null;
  const set = (field: keyof typeof blank) => (value: string) => {
    entries.value = { ...entries.value, [field]: value };
  };
  const from = readNumber(entries.value.from);
  const to = readNumber(entries.value.to);
  const minute = (us: number) => number((us - zeroUs) / 60e6, 1);
  const us = (minutes: number) => Math.round(zeroUs + minutes * 60e6);
  const save = async (event: Event) => {
    event.preventDefault();
    tried.value = true;
    const reason = entries.value.reason.trim();
    if (!from.ok || !to.ok || reason === '') return;
    try {
      await call('POST', `/burns/${burn.id}/exclusions`, {
        id: uuid7(),
        channelId: entries.value.channelId,
        fromUs: us(from.value),
        toUs: us(to.value),
        reason,
      });
      entries.value = blank;
      tried.value = false;
      problem.value = undefined;
      await loadBurn(burn.id);
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  const takeBack = async (id: string, version: number) => {
    try {
      await call('DELETE', `/burns/${burn.id}/exclusions/${id}?expectedVersion=${version}`);
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
    await loadBurn(burn.id).catch(() => undefined);
  };
  const nameOf = (channelId: string) => burn.channels.find(({ id }) => id === channelId)?.name ?? channelId;
  return (
    <details class="exclusions" open={inForce.length > 0}>
      <summary>{inForce.length > 0 ? words.exclusions : words.exclude}</summary>
      <ul>
        {inForce.map(({ exclusion, version }) => (
          <li key={exclusion.id}>
            {nameOf(exclusion.channelId)}, {minute(exclusion.fromUs)}–{minute(exclusion.toUs)} min: {exclusion.reason}{' '}
            <button type="button" class="plain" onClick={() => void takeBack(exclusion.id, version)}>
              {say().marks.undo({ what: exclusion.reason })}
            </button>
          </li>
        ))}
      </ul>
      <form class="row-form" onSubmit={save}>
        <SelectField
          label={words.excludeWhich}
          value={entries.value.channelId}
          options={burn.channels.map(({ id, name }) => [id, name])}
          onChange={set('channelId')}
        />
        <TextField
          decimal
          label={words.excludeFrom}
          unit="min"
          value={entries.value.from}
          problem={tried.value && !from.ok ? from.problem : undefined}
          onInput={set('from')}
        />
        <TextField
          decimal
          label={words.excludeTo}
          unit="min"
          value={entries.value.to}
          problem={tried.value && !to.ok ? to.problem : undefined}
          onInput={set('to')}
        />
        <TextField
          label={words.excludeWhy}
          value={entries.value.reason}
          problem={tried.value && entries.value.reason.trim() === '' ? say().describe.number.text : undefined}
          onInput={set('reason')}
        />
        <button type="submit">{words.exclude}</button>
      </form>
      <p class="problem" role="alert">
        {problem.value}
      </p>
    </details>
  );
}
