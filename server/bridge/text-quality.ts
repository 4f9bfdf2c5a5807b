/** Above this share of bytes that do not occur in text, the speed is wrong (or the device sends no text at all). */
const NOISE_SHARE = 0.15;

/** Classifies the bytes that arrive, to report what is wrong with a board that sends nothing valid. */
export class TextQuality {
  #bytes = 0;
  #noise = 0;

  add(chunk: Uint8Array): void {
    this.#bytes += chunk.length;
    for (const byte of chunk) {
      const text = (byte >= 0x20 && byte < 0x7f) || byte === 0x0a || byte === 0x0d || byte === 0x09;
      if (!text) this.#noise++;
    }
  }

  /** Restarts the count, after something valid was received. */
  reset(): void {
    this.#bytes = 0;
    this.#noise = 0;
  }

  classify(): 'silent' | 'noise' | 'text' {
    if (this.#bytes === 0) return 'silent';
    return this.#noise / this.#bytes > NOISE_SHARE ? 'noise' : 'text';
  }
}
