import { finished } from 'node:stream';
import type { FastifyRequest } from 'fastify';
import { AppError } from '../base/app-error.ts';
import type { Visitor } from '../pairing/pairing.ts';
import type { App } from './validation.ts';

/** Whole burns are read, computed or written for these. */
const HEAVY_TAGS = new Set(['exports', 'reports', 'comparison', 'imports']);
/** The same, beside requests that take little. */
const HEAVY_ADDRESSES = new Set(['POST /api/photos', 'POST /api/backups']);

/** Heavy requests that a device has worked on at once; so many more of it wait. The bench's own page is one device. */
const HEAVY_AT_ONCE = { bench: 4, paired: 2 } as const;
const HEAVY_WAITING = { bench: 64, paired: 16 } as const;

/**
 * Gives each device its share of the heavy work, so that none of them keeps another one out. What a device asks beyond it waits for its
 * own earlier requests; what it asks beyond that is refused.
 */
export function limitDevices(app: App, visitorOf: (request: FastifyRequest) => Visitor): void {
  const turns = new Map<string, ReturnType<typeof createTurns>>();
  app.addHook('onRequest', async (request, reply) => {
    const visitor = visitorOf(request);
    if (visitor.kind === 'stranger' || !isHeavy(request)) return;
    const device = visitor.kind === 'paired' ? visitor.device.id : visitor.kind;
    const own = turns.get(device) ?? createTurns(HEAVY_AT_ONCE[visitor.kind], HEAVY_WAITING[visitor.kind]);
    turns.set(device, own);
    const turn = own.take();
    if (!turn) throw new AppError('request/too-many-at-once');
    // Whoever goes away before the turn comes gives it back all the same.
    finished(reply.raw, () => {
      turn.giveBack();
      if (own.isIdle()) turns.delete(device);
    });
    await turn.come;
  });
}

function isHeavy({ method, routeOptions: { url, schema } }: FastifyRequest): boolean {
  const { tags = [] } = (schema ?? {}) as { tags?: readonly string[] };
  return tags.some((tag) => HEAVY_TAGS.has(tag)) || HEAVY_ADDRESSES.has(`${method} ${url}`);
}

interface Turn {
  /** Settles when the work may begin. */
  readonly come: Promise<void>;
  giveBack(): void;
}

/** A few at a time, in the order in which they came. */
function createTurns(atOnce: number, mostWaiting: number) {
  const waiting: (() => void)[] = [];
  let running = 0;

  function giveBack(): void {
    const next = waiting.shift();
    if (next) next();
    else running -= 1;
  }

  return {
    isIdle: () => running === 0,
    /** Undefined where too many wait already. */
    take(): Turn | undefined {
      if (running < atOnce) {
        running += 1;
        return { come: Promise.resolve(), giveBack };
      }
      if (waiting.length >= mostWaiting) return undefined;
      const { promise, resolve } = Promise.withResolvers<void>();
      waiting.push(resolve);
      return {
        come: promise,
        giveBack() {
          const at = waiting.indexOf(resolve);
          if (at < 0) giveBack();
          else waiting.splice(at, 1);
        },
      };
    },
  };
}
