/** A short sound made on the spot (no file), and a shake where the device can. */
import { sound } from './preferences.ts';

let context: AudioContext | undefined;

/** Browsers allow sound only after a touch: get ready at the first one. Call once. */
export function prepareChime(): void {
  addEventListener(
    'pointerdown',
    () => {
      context ??= new AudioContext();
      void context.resume();
    },
    { once: true },
  );
}

/** Two rising notes, loud enough for a yard. */
export function chime(): void {
  if (sound.value === 'off') return;
  if (context?.state !== 'running') return;
  navigator.vibrate?.([200, 100, 200]);
  for (const [place, hertz] of [660, 880].entries()) {
    const from = context.currentTime + place * 0.22;
    const tone = context.createOscillator();
    const level = context.createGain();
    tone.frequency.value = hertz;
    level.gain.setValueAtTime(0.0001, from);
    level.gain.exponentialRampToValueAtTime(0.6, from + 0.02);
    level.gain.exponentialRampToValueAtTime(0.0001, from + 0.2);
    tone.connect(level).connect(context.destination);
    tone.start(from);
    tone.stop(from + 0.22);
  }
}
