import type { IncomingMessage } from 'node:http';

/** Names that only this machine itself has. */
const LOOPBACK_NAME = /^(localhost|127(?:\.\d{1,3}){3}|\[::1\])$/;
const LOOPBACK_ADDRESS = /^(127(?:\.\d{1,3}){3}|::1)$/;
/** Somebody passes on what others sent; then the sender is not where it seems to be. */
const PASSED_ON = ['forwarded', 'x-forwarded-for', 'via'] as const;

/** The name a request was sent to, without its port: what stands in the address bar. */
export function nameAsked({ headers }: IncomingMessage): string {
  return (headers.host ?? '').replace(/:\d+$/, '').toLowerCase();
}

export function isLoopbackName(name: string): boolean {
  return LOOPBACK_NAME.test(name);
}

/**
 * Whether the name is an address of this machine: the very one that the connection came in at. A foreign web site can
 * point its own name at this machine, but no address.
 */
export function isAddressAsked({ socket }: IncomingMessage, name: string): boolean {
  const address = plainAddress(socket.localAddress);
  return address !== undefined && name === (address.includes(':') ? `[${address}]` : address);
}

/** Whether a browser or a program on this machine asks, by one of its own addresses, and for itself. */
export function isOwnMachine(request: IncomingMessage): boolean {
  const remote = plainAddress(request.socket.remoteAddress);
  const fromHere =
    remote !== undefined && (LOOPBACK_ADDRESS.test(remote) || remote === plainAddress(request.socket.localAddress));
  const name = nameAsked(request);
  const byOwnName = isLoopbackName(name) || isAddressAsked(request, name);
  return fromHere && byOwnName && PASSED_ON.every((header) => request.headers[header] === undefined);
}

/** A socket for both kinds of addresses writes 192.168.1.7 as ::ffff:192.168.1.7. */
function plainAddress(address: string | undefined): string | undefined {
  return address?.replace(/^::ffff:(?=\d+\.)/, '').toLowerCase();
}
