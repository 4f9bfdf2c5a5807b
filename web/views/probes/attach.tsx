/** Attaching a board: one of the ports to be seen, or a typed path; with its columns when it only prints numbers. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { AttachBoard, PlainFormat } from '../../../shared/contract/boards.ts';
import { translate, translateProbes } from '../../language/catalogue.ts';
import { call } from '../../requests/service.ts';
import { saveBoard } from '../../state/setup.ts';
import { CheckField, SelectField, TextField } from '../forms/field.tsx';
import { forgetDraft, useDraft } from '../forms/use-draft.ts';
import { sentenceFor, useLoad } from '../kit/use-load.ts';
import { PlainColumns } from './plain-columns.tsx';
import { PutFirmware } from './put-firmware.tsx';
import { columnsDraft } from './use-columns.ts';

interface AttachDraft {
  readonly path: string;
  readonly speed: (typeof speeds)[number];
  readonly isPlain: boolean;
}

const speeds = ['9600', '19200', '38400', '57600', '115200', '230400'] as const;

const blank: AttachDraft = { path: '', speed: '115200', isPlain: false };

export function Attach(): VNode {
  const words = translateProbes();
  const ports = useLoad('ports', () => call('GET /ports'));
  const { draft, forget } = useDraft<AttachDraft>('attach', blank);
  const change = (fields: Partial<AttachDraft>) => {
    draft.value = { ...draft.value, ...fields };
  };
  const { path, speed, isPlain } = draft.value;
  const format = useSignal<PlainFormat | undefined>(undefined);
  const problem = useSignal<string | undefined>(undefined);
  const attach = async (event: Event) => {
    event.preventDefault();
    problem.value = undefined;
    if (path.trim() === '') {
      problem.value = translate().describe.number.text;
      return;
    }
    if (isPlain && !format.value) {
      problem.value = words.mapNone;
      return;
    }
    const request: AttachBoard = {
      path: path.trim(),
      baudRate: Number(speed),
      ...(isPlain && format.value && { plain: format.value }),
    };
    try {
      saveBoard(await call('POST /boards', { body: request }));
      change(blank);
      forget();
      forgetDraft(columnsDraft);
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  const found = ports.value.value?.ports ?? [];
  return (
    <section class="attach" aria-labelledby="attach-title">
      <h2 id="attach-title">{words.attach}</h2>
      <h3>{words.ports}</h3>
      {ports.value.value && found.length === 0 && <p class="quiet">{words.noPorts}</p>}
      <p class="row">
        {found.map((port) => (
          <button
            type="button"
            key={port.path}
            aria-pressed={path === port.path}
            onClick={() => change({ path: port.path })}
          >
            {port.label ? `${port.label} · ${port.path}` : port.path}
          </button>
        ))}
        <button type="button" class="plain" onClick={ports.reload}>
          {translate().again}
        </button>
      </p>
      <form onSubmit={attach}>
        <div class="row-form">
          <TextField
            label={words.path}
            hint={words.pathHelp}
            value={path}
            problem={problem.value}
            onInput={(value) => change({ path: value })}
          />
          <SelectField
            label={words.speed}
            value={speed}
            options={speeds.map((each) => [each, each])}
            onChange={(value) => change({ speed: value })}
          />
        </div>
        <CheckField label={words.plain} checked={isPlain} onChange={(on) => change({ isPlain: on })} />
        {isPlain && (
          <PlainColumns
            path={path.trim()}
            baudRate={Number(speed)}
            onFormat={(next) => {
              format.value = next;
            }}
          />
        )}
        <button type="submit" class="primary">
          {words.attachButton}
        </button>
      </form>
      <PutFirmware path={path.trim()} />
    </section>
  );
}
