import type { ListedPort, PortFactory } from './port.ts';

export interface PortListing {
  ports: ListedPort[];
  /** Set when this system cannot tell its ports, with its own words. */
  problem: { code: 'ports-not-listed'; raw: string } | null;
}

/** Ports known to the system. Never rejects: where it cannot tell, a person can still type the name of the port. */
export async function listPorts(factory: PortFactory): Promise<PortListing> {
  try {
    return { ports: await factory.list(), problem: null };
  } catch (error) {
    const raw = error instanceof Error ? error.message : String(error);
    return { ports: [], problem: { code: 'ports-not-listed', raw } };
  }
}
