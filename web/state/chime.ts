/** A short synthesised sound (no file), and a vibration where the device supports it. */
import { sound } from '../preferences/preferences.ts';

let context: AudioContext | undefined;

/** Browsers allow sound only after a touch: prepare it at the first one. Call once. */
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

/** Two rising notes, loud enough for a yard, and a vibration, which a person who has turned sound off still notices. */
export function chime(): void {
  // A browser logs an error for a vibration before the first touch.
  if (navigator.userActivation?.hasBeenActive !== false) navigator.vibrate?.([200, 100, 200]);
  if (sound.value === 'off' || context?.state !== 'running') return;
  for (const [index, hertz] of [660, 880].entries()) {
    const from = context.currentTime + index * 0.22;
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
