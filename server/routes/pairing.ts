import type { IncomingMessage } from 'node:http';
import { z } from 'zod';
import {
  type Pairing as PairingAnswer,
  pairDeviceSchema,
  pairedDeviceSchema,
  pairingCodeSchema,
  pairingSchema,
} from '../../shared/contract/pairing.ts';
import { AppError } from '../base/app-error.ts';
import type { Network } from '../network/network.ts';
import type { Pairing } from '../pairing/pairing.ts';
import { idParam, problems } from './bodies.ts';
import type { App } from './validation.ts';

const tags = ['pairing'];

export function pairingRoutes(app: App, pairing: Pairing, network: Network | undefined): void {
  function requireClient(request: IncomingMessage): void {
    if (pairing.visitor(request).kind !== 'bench') throw new AppError('pairing/bench-only');
  }

  /** A stranger learns nothing but that there is a door. */
  function answerTo(request: IncomingMessage): PairingAnswer {
    const you = pairing.visitor(request).kind;
    const open = network && { secure: network.secure, addresses: network.addresses() };
    if (you === 'stranger') return { you };
    if (you === 'paired') return { you, ...(open && { network: open }) };
    const code = pairing.currentCode();
    return { you, ...(open && { network: open }), ...(code && { code }), devices: pairing.devices() };
  }

  app.get('/api/pairing', { schema: { tags, response: { 200: pairingSchema, ...problems } } }, async ({ raw }) =>
    answerTo(raw),
  );

  app.post(
    '/api/pairing',
    { schema: { tags, body: pairDeviceSchema, response: { 201: pairedDeviceSchema, ...problems } } },
    async ({ raw, body }, reply) => {
      const { device, cookie } = pairing.pair(raw, body.code, body.name);
      return reply.code(201).header('set-cookie', cookie).send(device);
    },
  );

  app.post(
    '/api/pairing/code',
    { schema: { tags, response: { 201: pairingCodeSchema, ...problems } } },
    async ({ raw }, reply) => {
      requireClient(raw);
      return reply.code(201).send(pairing.openCode());
    },
  );

  app.delete(
    '/api/pairing/code',
    { schema: { tags, response: { 204: z.null(), ...problems } } },
    async ({ raw }, reply) => {
      requireClient(raw);
      pairing.closeCode();
      return reply.code(204).send(null);
    },
  );

  app.delete(
    '/api/pairing/devices/:id',
    { schema: { tags, params: idParam, response: { 204: z.null(), ...problems } } },
    async ({ raw, params }, reply) => {
      requireClient(raw);
      pairing.revoke(params.id);
      return reply.code(204).send(null);
    },
  );
}
