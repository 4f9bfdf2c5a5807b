import type { ListedPort, PortFactory } from './port.ts';

export interface PortListing {
  ports: ListedPort[];
  /** Set when this system cannot list its ports, with the system's own message. */
  problem: { code: 'ports-not-listed'; raw: string } | null;
}

/**
 * Lists the ports known to the system. Never rejects: where it cannot list them, a person can still type the name of
 * the port.
 */
export async function listPorts(factory: PortFactory): Promise<PortListing> {
  try {
    return { ports: withDistinctLabels(await factory.list()), problem: null };
  } catch (error) {
    const raw = error instanceof Error ? error.message : String(error);
    return { ports: [], problem: { code: 'ports-not-listed', raw } };
  }
}

/** Adapters without a serial number of their own share one stable name, which leads to one of them only. */
function withDistinctLabels(ports: ListedPort[]): ListedPort[] {
  const isShared = (name: string | null) => name !== null && ports.filter((p) => p.stablePath === name).length > 1;
  return ports.map((port) => (isShared(port.stablePath) ? { ...port, stablePath: null } : port));
}
