import type { IncomingMessage } from 'node:http';

/** Names that only this machine itself has. */
const LOOPBACK_NAME = /^(localhost|127(?:\.\d{1,3}){3}|\[::1\])$/;
const LOOPBACK_ADDRESS = /^(127(?:\.\d{1,3}){3}|::1)$/;
/**
 * Headers by which somebody passes on what others sent; then the sender is not where it seems to be. `Forwarded` is RFC 7239, `Via`
 * RFC 9110, `CDN-Loop` RFC 8586, `traceparent` W3C Trace Context; all others of the kind have names of their own, mostly with an x in
 * front, which neither a browser nor the command line sends by itself.
 */
const PASSED_ON =
  /^(x-.*|forwarded|via|cdn-loop|traceparent|tracestate|client-ip|.*-client-ip|.*-connecting-ip|.*-real-ip|(proxy|cf|tailscale|ngrok|fly|fastly)-.*|front-end-https)$/;

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
  return fromHere && byOwnName && !Object.keys(request.headers).some((header) => PASSED_ON.test(header));
}

/** A socket for both kinds of addresses writes 192.168.1.7 as ::ffff:192.168.1.7. */
function plainAddress(address: string | undefined): string | undefined {
  return address?.replace(/^::ffff:(?=\d+\.)/, '').toLowerCase();
}
