/** The check of a board, polled from the service, and the requests of the person. */
import { type Signal, useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { BoardCheck, ProbeTestKind } from '../../../shared/contract/board-check.ts';
import { translate } from '../../language/catalogue.ts';
import { Refusal } from '../../requests/http.ts';
import { call } from '../../requests/service.ts';
import { sentenceFor } from '../kit/use-load.ts';

/** Interval of polling: while a check runs, and while none does (one may be started on another device). */
const LOOK_AGAIN_MS = { running: 400, idle: 3000 } as const;

export interface BoardCheckHere {
  readonly check: Signal<BoardCheck | undefined>;
  /** Why the last request was refused, or could not be sent. */
  readonly problem: Signal<string | undefined>;
  /** Whether the service has answered yet. */
  readonly isLoaded: Signal<boolean>;
  begin(path: string, baudRate: number): Promise<void>;
  beginTest(channel: number, kind: ProbeTestKind): Promise<void>;
  cancelTest(channel: number): Promise<void>;
  end(): Promise<void>;
}

export function isRunning(check: BoardCheck | undefined): boolean {
  return check?.state === 'opening' || check?.state === 'running';
}

export function useBoardCheck(): BoardCheckHere {
  const check = useSignal<BoardCheck | undefined>(undefined);
  const problem = useSignal<string | undefined>(undefined);
  const isLoaded = useSignal(false);
  const asked = useRef(0);

  /** An answer to an earlier request that arrives later is ignored. */
  async function take(asking: () => Promise<BoardCheck | undefined>): Promise<void> {
    asked.current += 1;
    const turn = asked.current;
    const answer = await asking();
    if (turn !== asked.current) return;
    check.value = answer;
    isLoaded.value = true;
  }

  async function attempt(asking: () => Promise<BoardCheck | undefined>): Promise<void> {
    problem.value = undefined;
    try {
      await take(asking);
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  }

  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let isOpen = true;
    const look = async () => {
      try {
        await take(async () => (await call('GET /board-check')).check);
        if (problem.peek() === translate().serviceAwayYet) problem.value = undefined;
      } catch (cause) {
        problem.value = cause instanceof Refusal ? sentenceFor(cause) : translate().serviceAwayYet;
      }
      if (isOpen) timer = setTimeout(look, LOOK_AGAIN_MS[isRunning(check.peek()) ? 'running' : 'idle']);
    };
    void look();
    return () => {
      isOpen = false;
      clearTimeout(timer);
    };
  }, []);

  return {
    check,
    problem,
    isLoaded,
    begin: (path, baudRate) => attempt(() => call('POST /board-check', { body: { path, baudRate } })),
    beginTest: (channel, kind) => attempt(() => call('POST /board-check/test', { body: { channel, kind } })),
    cancelTest: (channel) => attempt(() => call('POST /board-check/test', { body: { channel } })),
    end: () => attempt(async () => (await call('DELETE /board-check')).check),
  };
}
