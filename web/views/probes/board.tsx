import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { Board, SetupChannel } from '../../../shared/contract/boards.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate, translateBoardCheck, translateProbes } from '../../language/catalogue.ts';
import { number } from '../../language/figures.ts';
import { call } from '../../requests/service.ts';
import { announce } from '../../state/announce.ts';
import { forgetBoard } from '../../state/setup.ts';
import { latestReading } from '../kit/latest-reading.tsx';
import { rateText, stepText } from '../kit/reading-words.ts';
import { sentenceFor } from '../kit/use-load.ts';
import { WideTable } from '../kit/wide-table.tsx';
import { Sheet } from '../sheets/sheet.tsx';
import { useOpenSheet } from '../sheets/use-open-sheet.ts';
import { boardErrorSentence } from './board-error-sentence.ts';
import { ChannelForm } from './channel-form.tsx';

export function BoardView({ board }: { board: Board }): VNode {
  const words = translateProbes();
  const picked = useOpenSheet(`board.${board.id}`);
  const channel = board.channels.find(({ id }) => id === picked.which);
  return (
    <section class="board" aria-label={board.name ?? board.path}>
      <header class="board-head">
        <h2>{board.name ?? board.path}</h2>
        <p class="quiet">
          {[
            words.state[board.state],
            board.simulated && words.simulated,
            board.name && board.path,
            board.firmware,
            board.periodMs !== undefined && words.period({ seconds: `${number(board.periodMs / 1000, 1)}\u00a0s` }),
            board.repeatDepthScans !== undefined && words.repeats({ count: board.repeatDepthScans }),
          ]
            .filter(Boolean)
            .join(' · ')}
        </p>
      </header>
      {board.problem && <p class="problem">{boardErrorSentence(board.problem)}</p>}
      <ChannelTable board={board} onEdit={picked.show} />
      <BoardActions board={board} />
      <details>
        <summary>{words.counters}</summary>
        <table class="figures">
          <tbody>
            {Object.entries(board.counters).map(([name, count]) => (
              <tr key={name}>
                <th scope="row">{words.counterNames[name as keyof typeof words.counterNames]}</th>
                <td>{number(count, 0)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
      {channel && (
        <Sheet title={words.edit({ name: channel.name })} onClose={picked.close}>
          <ChannelForm channel={channel} onSaved={picked.close} />
        </Sheet>
      )}
    </section>
  );
}

function ChannelTable({ board, onEdit }: { board: Board; onEdit: (channelId: string) => void }): VNode {
  const words = translateProbes();
  return (
    <WideTable label={words.channels}>
      <table class="channels">
        <thead>
          <tr>
            <th scope="col">{words.probe}</th>
            <th scope="col">{words.value}</th>
            <th scope="col">{words.role}</th>
            <th scope="col" class="wide-only">
              {words.noise}
            </th>
            <th scope="col" class="wide-only">
              {words.rate}
            </th>
          </tr>
        </thead>
        <tbody>
          {board.channels.map((each) => (
            <ChannelLine key={each.id} channel={each} periodMs={board.periodMs} onEdit={() => onEdit(each.id)} />
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}

function BoardActions({ board }: { board: Board }): VNode {
  const words = translateProbes();
  const asking = useSignal(false);
  const problem = useSignal<string | undefined>(undefined);
  const attempt = async (act: () => Promise<unknown>) => {
    problem.value = undefined;
    try {
      await act();
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  const blink = () =>
    attempt(async () => {
      await call('POST /boards/:id/blink', { params: { id: board.id } });
      announce(words.blinking);
    });
  const detach = () =>
    attempt(async () => {
      await call('DELETE /boards/:id', { params: { id: board.id } });
      forgetBoard(board.id);
    });
  return (
    <>
      <p class="row">
        {board.mode === 'protocol' && (
          <button type="button" disabled={board.state !== 'live'} onClick={() => void blink()}>
            {words.blink}
          </button>
        )}
        <button
          type="button"
          onClick={() => {
            asking.value = true;
          }}
        >
          {words.detach}
        </button>
        {board.mode === 'protocol' && (
          <a class="button" href={routeHash({ at: 'boardCheck', path: board.path, baudRate: String(board.baudRate) })}>
            {translateBoardCheck().open}
          </a>
        )}
      </p>
      <p class="problem" role="alert">
        {problem.value}
      </p>
      {asking.value && (
        <Sheet
          title={words.detach}
          onClose={() => {
            asking.value = false;
          }}
        >
          <p>{words.detachSure}</p>
          <button type="button" class="primary" onClick={() => void detach()}>
            {words.detach}
          </button>
        </Sheet>
      )}
    </>
  );
}

function ChannelLine({
  channel,
  periodMs,
  onEdit,
}: {
  channel: SetupChannel;
  periodMs: number | undefined;
  onEdit: () => void;
}): VNode {
  const words = translateProbes();
  const { isPast, hasFault, shown } = latestReading(channel, periodMs);
  const position = channel.position && words.positions[channel.position];
  return (
    <tr class={isPast ? 'old' : undefined}>
      <th scope="row">
        <button
          type="button"
          class="plain channel-name"
          onClick={onEdit}
          aria-label={words.edit({ name: channel.name })}
        >
          {channel.name}
        </button>
      </th>
      <td class={hasFault ? 'bad' : 'now-value'}>{shown}</td>
      <td>{[translate().burns.roles[channel.role], position].filter(Boolean).join(', ')}</td>
      <td class="wide-only">
        {channel.latest?.noise === undefined ? '' : `± ${stepText(channel, channel.latest.noise)}`}
      </td>
      <td class="wide-only">
        {channel.latest?.ratePerMin === undefined ? '' : rateText(channel, channel.latest.ratePerMin)}
      </td>
    </tr>
  );
}
