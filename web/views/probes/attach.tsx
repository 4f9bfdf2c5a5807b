/** Attaches a board: one of the listed ports, or a typed path; with its columns when it only prints numbers. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { AttachBoard, GuessedFormat } from '../../../shared/contract/boards.ts';
import { USUAL_BAUD_RATE } from '../../../shared/contract/usual-baud-rate.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate, translateBoardCheck, translateProbes } from '../../language/catalogue.ts';
import { call } from '../../requests/service.ts';
import { saveBoard } from '../../state/setup.ts';
import { CheckField, TextField } from '../forms/field.tsx';
import { forgetDraft, useDraft } from '../forms/use-draft.ts';
import { sentenceFor, useLoad } from '../kit/use-load.ts';
import { PlainColumns } from './plain-columns.tsx';
import { PutFirmware } from './put-firmware.tsx';
import { columnsDraft } from './use-columns.ts';

interface AttachDraft {
  readonly path: string;
  readonly speed: string;
  readonly isPlain: boolean;
}

/** Common speeds; a microcontroller at 16 MHz generates 250,000 and its multiples exactly. */
const speeds = ['9600', '19200', '38400', '57600', '115200', '230400', '250000', '500000', '1000000'] as const;
const SPEED = { low: 50, high: 4_000_000 };

const blank: AttachDraft = { path: '', speed: String(USUAL_BAUD_RATE), isPlain: false };

export function Attach(): VNode {
  const words = translateProbes();
  const ports = useLoad('ports', () => call('GET /ports'));
  const { draft, forget } = useDraft<AttachDraft>('attach', blank);
  const change = (fields: Partial<AttachDraft>) => {
    draft.value = { ...draft.value, ...fields };
  };
  const { path, speed, isPlain } = draft.value;
  const format = useSignal<GuessedFormat | undefined>(undefined);
  const speedProblem = useSignal<string | undefined>(undefined);
  const problem = useSignal<string | undefined>(undefined);
  const attach = async (event: Event) => {
    event.preventDefault();
    problem.value = undefined;
    if (path.trim() === '') {
      problem.value = translate().describe.number.text;
      return;
    }
    speedProblem.value = isSpeed(speed) ? undefined : words.speedWrong;
    if (speedProblem.value) return;
    if (isPlain && !format.value) {
      problem.value = words.mapNone;
      return;
    }
    // The fieldset shows which columns still need their unit.
    if (isPlain && format.value?.columns.some(({ unit }) => unit === undefined)) return;
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
          <TextField
            decimal
            label={words.speed}
            hint={words.speedHelp}
            value={speed}
            problem={speedProblem.value}
            suggestions={speeds}
            onInput={(value) => change({ speed: value })}
          />
        </div>
        <CheckField label={words.plain} checked={isPlain} onChange={(on) => change({ isPlain: on })} />
        {isPlain && (
          <PlainColumns
            path={path.trim()}
            baudRate={isSpeed(speed) ? Number(speed) : 0}
            onFormat={(next) => {
              format.value = next;
            }}
          />
        )}
        <button type="submit" class="primary">
          {words.attachButton}
        </button>
      </form>
      <p>
        <a href={checkAddress(path.trim(), speed)}>{translateBoardCheck().openPort}</a>
      </p>
      <PutFirmware path={path.trim()} />
    </section>
  );
}

/** The address of the check of the selected port; of the check in general, while none is selected. */
function checkAddress(path: string, speed: string): string {
  return routeHash({ at: 'boardCheck', ...(path !== '' && { path, ...(isSpeed(speed) && { baudRate: speed }) }) });
}

function isSpeed(text: string): boolean {
  const baud = Number(text);
  return Number.isInteger(baud) && baud >= SPEED.low && baud <= SPEED.high;
}
