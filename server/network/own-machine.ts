import type { IncomingMessage } from 'node:http';

/** Names that only this machine itself has. */
const LOOPBACK_NAME = /^(localhost|127(?:\.\d{1,3}){3}|\[::1\])$/;
const LOOPBACK_ADDRESS = /^(127(?:\.\d{1,3}){3}|::1)$/;
/**
 * Headers with which a proxy forwards requests of others; the sender is then not the machine that connects. `Forwarded`
 * is RFC 7239, `Via` RFC 9110, `CDN-Loop` RFC 8586, `traceparent` W3C Trace Context; all others of the kind have names
 * of their own, mostly beginning with an x, which neither a browser nor the command line sends by itself.
 */
const PASSED_ON =
  /^(x-.*|forwarded|via|cdn-loop|traceparent|tracestate|client-ip|.*-client-ip|.*-connecting-ip|.*-real-ip|(proxy|cf|tailscale|ngrok|fly|fastly)-.*|front-end-https)$/;

/** The host name of a request, without its port, as in the address bar. */
export function nameAsked({ headers }: IncomingMessage): string {
  return (headers.host ?? '').replace(/:\d+$/, '').toLowerCase();
}

export function isLoopbackName(name: string): boolean {
  return LOOPBACK_NAME.test(name);
}

/**
 * Whether the name is an address of this machine: the one at which the connection arrived. A foreign web site can point
 * its own name at this machine, but not an address.
 */
export function isAddressAsked({ socket }: IncomingMessage, name: string): boolean {
  const address = plainAddress(socket.localAddress);
  return address !== undefined && name === (address.includes(':') ? `[${address}]` : address);
}

/**
 * Whether a browser or a program on this machine sent the request, to one of its own addresses, and not on behalf of
 * another.
 */
export function isOwnMachine(request: IncomingMessage): boolean {
  const remote = plainAddress(request.socket.remoteAddress);
  const fromHere =
    remote !== undefined && (LOOPBACK_ADDRESS.test(remote) || remote === plainAddress(request.socket.localAddress));
  const name = nameAsked(request);
  const byOwnName = isLoopbackName(name) || isAddressAsked(request, name);
  return fromHere && byOwnName && !Object.keys(request.headers).some((header) => PASSED_ON.test(header));
}

/** A socket for both kinds of addresses writes 192.168.1.7 as ::ffff:192.168.1.7. */
function plainAddress(address: string | undefined): string | undefined {
  return address?.replace(/^::ffff:(?=\d+\.)/, '').toLowerCase();
}
