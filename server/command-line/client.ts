/**
 * Access to the data on which a command works, with the same requests in both cases: to the service running on them, or
 * to the same code in this process when no service is running.
 */
import { join } from 'node:path';
import { addAbortSignal, Readable } from 'node:stream';
import { buffer, json } from 'node:stream/consumers';
import type { ReadableStream } from 'node:stream/web';
import type { Problem } from '../../shared/contract/problem.ts';
import type { Work } from '../../shared/contract/work.ts';
import { buildApp } from '../app.ts';
import { AppError, isAppError } from '../base/app-error.ts';
import { createRealClock } from '../base/clock.ts';
import { printError, word } from '../base/command-options.ts';
import { ownAddress, readConfig } from '../base/config.ts';
import { newId } from '../base/identifiers.ts';
import { reasonOf } from '../base/reason-of.ts';
import { terminalLanguage } from '../base/start-up.ts';
import { serialPortFactory } from '../bridge/serial-port-factory.ts';
import { requireBench } from '../store/data-folder.ts';
import { lockFolder } from '../store/instance-lock.ts';
import { withInterruption } from './interruption.ts';
import { ServiceRefusal } from './service-refusal.ts';
import { whileWaiting } from './while-waiting.ts';

export interface ClientRequest {
  json?: unknown;
  /** Sent unchanged. */
  bytes?: Readable | Uint8Array;
}

/** An answer of the service, with the burns it omitted from those requested. */
export type Answer = Readable & { leftOut?: { id: string; title: string; reason: string }[] };

export interface Client {
  /**
   * Sends a request to the HTTP interface of the service.
   * @throws ServiceRefusal with the sentence of the service; AppError command/service-silent
   */
  request(method: 'GET' | 'POST' | 'PUT' | 'DELETE', path: string, body?: ClientRequest): Promise<Answer>;
  /** The address of the service; undefined when none is running and this process does its work. */
  address: string | undefined;
  close(): Promise<void>;
}

export interface ClientOptions {
  data?: string | undefined;
  service?: string | undefined;
}

export const clientOptions = { data: { type: 'string' }, service: { type: 'string' } } as const;

export function dataFolder({ data }: ClientOptions): string {
  return readConfig(data === undefined ? process.env : { ...process.env, STOVEBENCH_DATA: data }).folder;
}

/**
 * Opens the bench, does `work` on it and closes it, also after an error. Ctrl-C cancels the work of the service.
 * @throws AppError command/cancelled, and what `work` throws
 */
export async function withClient<T>(choice: ClientOptions, work: (client: Client) => Promise<T>): Promise<T> {
  return withInterruption(async (interrupted) => {
    const workId = newId(Date.now());
    const client = await openClient(choice, workId);
    const look = async () => {
      const { work: underWay } = await answered<{ work: Work[] }>(client.request('GET', '/api/work'));
      return underWay.find(({ id }) => id === workId);
    };
    const cancel = () => void client.request('DELETE', `/api/work/${workId}`).catch(() => undefined);
    interrupted.addEventListener('abort', cancel);
    const request: Client['request'] = async (...asked) => {
      interrupted.throwIfAborted();
      const answer = await whileWaiting(client.request(...asked), look);
      return addAbortSignal(interrupted, answer);
    };
    try {
      return await work({ ...client, request });
    } catch (error) {
      // Whatever an answer that was cut short looked like.
      interrupted.throwIfAborted();
      throw error;
    } finally {
      await client.close();
    }
  });
}

async function openClient(choice: ClientOptions, workId: string): Promise<Client> {
  const headers = { 'accept-language': terminalLanguage, [WORK]: workId };
  if (choice.service !== undefined) return remoteClient(choice.service.replace(/\/$/, ''), headers);
  try {
    return await localClient(dataFolder(choice), headers);
  } catch (error) {
    const address = isAppError(error, 'store/in-use') ? error.params.address : undefined;
    if (typeof address !== 'string') throw error;
    printError(word('asking', { address }));
    return remoteClient(address, headers);
  }
}

/**
 * For commands that read a bench.
 * @throws AppError store/no-bench
 */
export function requireBenchOf(choice: ClientOptions): void {
  if (choice.service === undefined) requireBench(dataFolder(choice));
}

/** The address of the service: the one named, the one that holds the data, else the one in the settings. */
export function serviceAddress(choice: ClientOptions): string {
  if (choice.service !== undefined) return choice.service.replace(/\/$/, '');
  try {
    lockFolder(dataFolder(choice)).release();
  } catch (error) {
    const address = isAppError(error, 'store/in-use') ? error.params.address : undefined;
    if (typeof address === 'string') return address;
  }
  return ownAddress(readConfig(process.env));
}

const LEFT_OUT = 'stovebench-left-out';
/** By which a request names the work that it asks for. */
const WORK = 'stovebench-work';

type Headers = Readonly<Record<string, string>>;

async function localClient(folder: string, headers: Headers): Promise<Client> {
  const { app } = await buildApp({
    folder,
    pageFolder: join(import.meta.dirname, 'no-page'),
    clock: createRealClock(),
    // Nothing is resumed: a port is opened only when the command requests it.
    ports: serialPortFactory,
  });
  return {
    address: undefined,
    close: async () => void (await app.close()),
    async request(method, path, body = {}) {
      const response = await app.inject({ method, url: path, payloadAsStream: true, ...asSent(body, headers) });
      return accepted(response.statusCode, response.stream(), String(response.headers[LEFT_OUT] ?? ''));
    },
  };
}

function remoteClient(address: string, headers: Headers): Client {
  return {
    address,
    close: async () => {},
    async request(method, path, body = {}) {
      const { payload, headers: sent } = asSent(body, headers);
      let response: Response;
      try {
        response = await fetch(`${address}${path}`, {
          method,
          headers: sent,
          ...(payload !== undefined && { body: payload as NonNullable<RequestInit['body']>, duplex: 'half' }),
        } as RequestInit);
      } catch (error) {
        throw new AppError('command/service-silent', { address, raw: reasonOf(error) }, { cause: error });
      }
      const answer = response.body ? Readable.fromWeb(response.body as ReadableStream) : Readable.from([]);
      return accepted(response.status, answer, response.headers.get(LEFT_OUT) ?? '');
    },
  };
}

function asSent({ json: value, bytes }: ClientRequest, headers: Headers) {
  if (value !== undefined) {
    return { payload: JSON.stringify(value), headers: { ...headers, 'content-type': 'application/json' } };
  }
  if (bytes === undefined) return { headers };
  const payload = bytes instanceof Readable ? bytes : Readable.from([Buffer.from(bytes)], { objectMode: false });
  return { payload, headers: { ...headers, 'content-type': 'application/octet-stream' } };
}

/** @param leftOut as the service writes it (`server/routes/exports.ts`) */
async function accepted(status: number, answer: Readable, leftOut: string): Promise<Answer> {
  if (status < 400)
    return leftOut === '' ? answer : Object.assign(answer, { leftOut: JSON.parse(decodeURIComponent(leftOut)) });
  const text = (await buffer(answer)).toString();
  throw new ServiceRefusal(asProblem(text, status));
}

function asProblem(text: string, status: number): Problem {
  try {
    return JSON.parse(text) as Problem;
  } catch {
    return { code: 'request/failed', message: `HTTP ${status}` };
  }
}

/** The JSON of an answer. */
export async function answered<T>(answer: Promise<Readable>): Promise<T> {
  return (await json(await answer)) as T;
}
