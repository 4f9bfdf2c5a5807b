/** Two rising notes, 16-bit mono: RIFF/WAVE, "Multimedia Programming Interface and Data Specifications 1.0", 1991. */
const RATE_HZ = 22_050;
const NOTES_HZ = [660, 880];
const NOTE_S = 0.35;
const LOUDNESS = 0.6;

export function alarmWave(): Buffer {
  const perNote = Math.round(RATE_HZ * NOTE_S);
  const samples = Buffer.alloc(2 * perNote * NOTES_HZ.length);
  for (const [index, hertz] of NOTES_HZ.entries()) {
    for (let at = 0; at < perNote; at++) {
      // Fades at both ends prevent clicks of the loudspeaker.
      const fade = Math.min(1, at / 200, (perNote - at) / 2000);
      const value = LOUDNESS * fade * Math.sin((2 * Math.PI * hertz * at) / RATE_HZ);
      samples.writeInt16LE(Math.round(value * 32_767), 2 * (index * perNote + at));
    }
  }
  const head = Buffer.alloc(44);
  head.write('RIFF', 0, 'latin1');
  head.writeUInt32LE(36 + samples.length, 4);
  head.write('WAVEfmt ', 8, 'latin1');
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(RATE_HZ, 24);
  head.writeUInt32LE(2 * RATE_HZ, 28);
  head.writeUInt16LE(2, 32);
  head.writeUInt16LE(16, 34);
  head.write('data', 36, 'latin1');
  head.writeUInt32LE(samples.length, 40);
  return Buffer.concat([head, samples]);
}
