import type { ChannelMessage, HelloMessage } from '../../firmware-protocol/lines.ts';
import type { BoardChannel } from './events.ts';

/** Collects what a board says about itself: one hello, then one line a channel. */
export class BoardDescription {
  #hello: HelloMessage | null = null;
  #channels = new Map<number, ChannelMessage>();

  get hello(): HelloMessage | null {
    return this.#hello;
  }

  /** Hello and all channel lines are there. */
  get complete(): boolean {
    return this.#hello !== null && this.#channels.size === this.#hello.channels;
  }

  get channels(): BoardChannel[] {
    return [...this.#channels.values()]
      .sort((a, b) => a.index - b.index)
      .map((c) => ({
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

  takeHello(hello: HelloMessage): void {
    this.#hello = hello;
    for (const index of this.#channels.keys()) if (index > hello.channels) this.#channels.delete(index);
  }

  takeChannel(channel: ChannelMessage): void {
    this.#channels.set(channel.index, channel);
  }

  setPeriod(periodMs: number): void {
    if (this.#hello) this.#hello = { ...this.#hello, periodMs };
  }
}
