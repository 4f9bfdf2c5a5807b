import { type ChannelMistake, explainChannels } from '../../firmware-protocol/explain-channels.ts';
import type { ChannelMessage, HelloMessage } from '../../firmware-protocol/lines.ts';
import type { BoardChannel } from './events.ts';

/** Collects a board's description of itself: one hello, then one line per channel. */
export class BoardDescription {
  #hello: HelloMessage | null = null;
  #channels = new Map<number, ChannelMessage>();
  /**
   * Channels described since this start of the board; the description from before stays valid until they are complete.
   */
  #current = new Set<number>();
  #extra = new Set<number>();

  get hello(): HelloMessage | null {
    return this.#hello;
  }

  /** Hello and all channel lines have been received. */
  get complete(): boolean {
    return this.#hello !== null && this.#channels.size === this.#hello.channels;
  }

  /** Every channel has been described since this start of the board. */
  get whole(): boolean {
    return this.#hello !== null && this.missing.length === 0;
  }

  /** Channels not described yet since this start of the board, counted from 1. */
  get missing(): number[] {
    const count = this.#hello?.channels ?? 0;
    return Array.from({ length: count }, (_, index) => index + 1).filter((index) => !this.#current.has(index));
  }

  /** Channels described beyond the number in the hello, counted from 1. */
  get extra(): number[] {
    return [...this.#extra];
  }

  get channels(): BoardChannel[] {
    return this.#sorted().map((c) => ({
      index: c.index - 1,
      quantity: c.quantity,
      unit: c.unit,
      scale: c.scale,
      probe: c.probe,
      resolution: c.resolution,
      form: c.form.kind === 'value' ? c.form : { ...c.form, coldJunction: c.form.coldJunction - 1 },
      label: c.label.replaceAll('_', ' '),
    }));
  }

  /** Contradictions in the description. */
  mistakes(): ChannelMistake[] {
    return explainChannels(this.#sorted());
  }

  /** @returns whether this is another start of the board, or another program on it */
  takeHello(hello: HelloMessage): boolean {
    const before = this.#hello;
    const isSame =
      before !== null && (['boot', 'channels', 'name', 'firmware'] as const).every((key) => before[key] === hello[key]);
    this.#hello = hello;
    if (isSame) return false;
    this.#current.clear();
    this.#extra.clear();
    for (const index of this.#channels.keys()) if (index > hello.channels) this.#channels.delete(index);
    return true;
  }

  takeChannel(channel: ChannelMessage): void {
    if (this.#hello && channel.index > this.#hello.channels) {
      this.#extra.add(channel.index);
      return;
    }
    this.#current.add(channel.index);
    this.#channels.set(channel.index, channel);
  }

  setPeriod(periodMs: number): void {
    if (this.#hello) this.#hello = { ...this.#hello, periodMs };
  }

  #sorted(): ChannelMessage[] {
    return [...this.#channels.values()].sort((a, b) => a.index - b.index);
  }
}
