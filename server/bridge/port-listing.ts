import type { ListedPort, PortFactory } from './port.ts';

export interface PortListing {
  ports: ListedPort[];
  /** Set when this system cannot tell its ports: a sentence that says what to do instead, and its own words. */
  problem: { code: 'ports-not-listed'; message: string; raw: string } | null;
}

/** Ports known to the system. Never rejects: where it cannot tell, a person can still type the name of the port. */
export async function listPorts(factory: PortFactory): Promise<PortListing> {
  try {
    return { ports: await factory.list(), problem: null };
  } catch (error) {
    const raw = error instanceof Error ? error.message : String(error);
    const message =
      'This system cannot list its serial ports. Type the path of the port instead, for example /dev/ttyUSB0, /dev/ttyACM0 or COM3.';
    return { ports: [], problem: { code: 'ports-not-listed', message, raw } };
  }
}
