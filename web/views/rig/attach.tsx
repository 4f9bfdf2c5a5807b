/** Attaching a board: one of the ports to be seen, or a typed path; with its columns when it only prints numbers. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { AttachBoard, Board, PlainFormat } from '../../../shared/contract/api.ts';
import { keepBoard } from '../../state/bench.ts';
import { say } from '../../state/catalogue.ts';
import { call } from '../../state/service.ts';
import { CheckField, SelectField, TextField } from '../kit/field.tsx';
import { sentenceFor, useLoad } from '../kit/use-load.ts';
import { PlainColumns } from './plain-columns.tsx';

interface PortsAnswer {
  ports: { path: string; label?: string }[];
  problem?: { code: string; params: Record<string, string | number> };
}

const speeds = ['9600', '19200', '38400', '57600', '115200', '230400'] as const;

export function Attach(): VNode {
  const words = say().rig;
  const ports = useLoad('ports', () => call<PortsAnswer>('GET', '/ports'));
  const path = useSignal('');
  const speed = useSignal<(typeof speeds)[number]>('115200');
  const isPlain = useSignal(false);
  const format = useSignal<PlainFormat | undefined>(undefined);
  const problem = useSignal<string | undefined>(undefined);
  const attach = async (event: Event) => {
    event.preventDefault();
    problem.value = undefined;
    if (path.value.trim() === '') {
      problem.value = say().describe.number.text;
      return;
    }
    if (isPlain.value && !format.value) {
      problem.value = words.mapNone;
      return;
    }
    const request: AttachBoard = {
      path: path.value.trim(),
      baudRate: Number(speed.value),
      ...(isPlain.value && format.value && { plain: format.value }),
    };
    try {
      keepBoard(await call<Board>('POST', '/boards', request));
      path.value = '';
      isPlain.value = false;
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
            aria-pressed={path.value === port.path}
            onClick={() => {
              path.value = port.path;
            }}
          >
            {port.label ? `${port.label} · ${port.path}` : port.path}
          </button>
        ))}
        <button type="button" class="plain" onClick={ports.reload}>
          {say().again}
        </button>
      </p>
      <form onSubmit={attach}>
        <div class="row-form">
          <TextField
            label={words.path}
            hint={words.pathHelp}
            value={path.value}
            problem={problem.value}
            onInput={(value) => {
              path.value = value;
            }}
          />
          <SelectField
            label={words.speed}
            value={speed.value}
            options={speeds.map((each) => [each, each])}
            onChange={(value) => {
              speed.value = value;
            }}
          />
        </div>
        <CheckField
          label={words.plain}
          checked={isPlain.value}
          onChange={(on) => {
            isPlain.value = on;
          }}
        />
        {isPlain.value && (
          <PlainColumns
            path={path.value.trim()}
            baudRate={Number(speed.value)}
            onFormat={(next) => {
              format.value = next;
            }}
          />
        )}
        <button type="submit" class="primary">
          {words.attachButton}
        </button>
      </form>
    </section>
  );
}
