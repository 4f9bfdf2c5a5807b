/** One port that may carry a board. */
export interface Carrier {
  /** Its port is open and not silent, so the board may be connected to it. */
  connected(): boolean;
  /** The board was found on another port. */
  release(): void;
}

interface Pending {
  boardKey: string;
  carrier: Carrier;
  decide: (outcome: 'granted' | 'shared') => void;
}

/**
 * Decides which port carries a board when two of them report the same identity. Either the board was moved and the
 * first port has not noticed yet (unplugging is not always reported), or a memory was copied and there are two boards.
 * The first port decides it: it falls silent, or it continues to send.
 */
export class IdentityClaims {
  readonly #carriers = new Map<string, Carrier>();
  readonly #pending = new Set<Pending>();

  claim(boardKey: string, carrier: Carrier): Promise<'granted' | 'shared'> {
    const holder = this.#carriers.get(boardKey);
    if (holder === undefined || holder === carrier || !holder.connected()) {
      this.#grant(boardKey, carrier);
      return Promise.resolve('granted');
    }
    return new Promise((resolve) => {
      const pending: Pending = {
        boardKey,
        carrier,
        decide: (outcome) => {
          this.#pending.delete(pending);
          if (outcome === 'granted') this.#grant(boardKey, carrier);
          resolve(outcome);
        },
      };
      this.#pending.add(pending);
    });
  }

  /**
   * A scan was received through this port: its board is there, and any other port with that identity has another board.
   */
  onIdentity(carrier: Carrier): void {
    this.#settleClaimsOn(carrier, 'shared');
  }

  /** This port fell silent. */
  silent(carrier: Carrier): void {
    this.#settleClaimsOn(carrier, 'granted');
  }

  /** The connection on this port ended: the next board there may be another one. */
  ended(carrier: Carrier): void {
    this.#settleClaimsOn(carrier, 'granted');
    for (const pending of this.#pending) if (pending.carrier === carrier) pending.decide('shared');
    for (const [key, holder] of this.#carriers) if (holder === carrier) this.#carriers.delete(key);
  }

  #settleClaimsOn(carrier: Carrier, outcome: 'granted' | 'shared'): void {
    for (const pending of this.#pending) {
      if (this.#carriers.get(pending.boardKey) === carrier) pending.decide(outcome);
    }
  }

  #grant(boardKey: string, carrier: Carrier): void {
    const holder = this.#carriers.get(boardKey);
    if (holder && holder !== carrier) holder.release();
    this.#carriers.set(boardKey, carrier);
  }
}
