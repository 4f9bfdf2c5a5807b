import { type EnvelopePoint, fitLowerEnvelope, type OffsetLine } from './lower-envelope.ts';
import { stepUint32 } from './sequence-numbers.ts';

/**
 * Maps a board's time stamps to the host's steady clock. A board stamps a scan with its own milliseconds since start;
 * the line arrives some time later. Deterministic: the same calls return the same values. The wall clock is not used.
 */
export type TimeMapping = ReturnType<typeof createTimeMapping>;

const WRAP_MS = 2 ** 32;
/** Only the fastest arrival of each stretch of this length is stored. */
const BLOCK_US = 10e6;
/** Sixty blocks are ten minutes: long compared with delays, short compared with the warming of a cheap resonator. */
const MOST_BLOCKS = 60;
/** Shortest span that separates a clock rate from delays: a delay shorter by 1 ms over a minute is 17 ppm. */
const RATE_SPAN_US = 60e6;
/** An offset that changes by more than this at once is no drift: one of the clocks stood still or was changed. */
const STEP_US = 1e6;
/** This many blocks in a row above the line by more than a step mean a step, not slow lines. */
const STEP_BLOCKS = 3;
const MOST_BOOTS = 8;

/** A stretch of one boot over which the two clocks ran steadily against each other. */
interface Stretch {
  fromDeviceUs: number;
  blocks: EnvelopePoint[];
  line: OffsetLine;
}

interface Boot {
  boot: number;
  /** Newest observed scan: uptime as sent, and unwrapped. */
  newestMs: number;
  newestUs: number;
  newestArrivalUs: number;
  stretches: Stretch[];
}

/**
 * @param scale how many times faster than real time board and host run: delays on the cable do not scale, so they are
 *   compared in real time
 */
export function createTimeMapping(scale = 1) {
  const usPerMs = 1000 / scale;
  const boots: Boot[] = [];
  let rate = 0;

  const observe = (boot: number, uptimeMs: number, scaledArrivalUs: number): void => {
    const arrivalUs = scaledArrivalUs / scale;
    let known = boots.find((b) => b.boot === boot);
    if (!known) {
      const deviceUs = uptimeMs * usPerMs;
      known = {
        boot,
        newestMs: uptimeMs,
        newestUs: deviceUs,
        newestArrivalUs: arrivalUs,
        stretches: [beginStretch({ deviceUs, offsetUs: arrivalUs - deviceUs }, rate)],
      };
      boots.push(known);
      if (boots.length > MOST_BOOTS) boots.shift();
      return;
    }
    const deviceUs = unwrapLive(known, uptimeMs, arrivalUs, rate, usPerMs);
    if (deviceUs >= known.newestUs) {
      known.newestMs = uptimeMs;
      known.newestUs = deviceUs;
      known.newestArrivalUs = arrivalUs;
    }
    addPoint(known, { deviceUs, offsetUs: arrivalUs - deviceUs }, rate);
    rate = known.stretches[known.stretches.length - 1]!.line.rate;
  };

  return {
    /**
     * Records that a live scan read at `uptimeMs` of this boot arrived at `arrivalUs`. Repeated scans are not observed:
     * their arrival carries no information. Scans that arrived in one chunk are all observed before the first is
     * mapped, because the last of them waited least.
     */
    observe,
    /** How much slower the board's clock runs than the host's, as a fraction; 0 until known. */
    rate: (): number => rate,
    /** Discards what was observed of a boot whose clock was found to run differently. */
    forget(boot: number): void {
      const at = boots.findIndex((b) => b.boot === boot);
      if (at >= 0) boots.splice(at, 1);
      rate = 0;
    },
    /** Host microseconds when the channels were read, or null when nothing of this boot was observed yet. */
    hostUs(boot: number, uptimeMs: number): number | null {
      const known = boots.find((b) => b.boot === boot);
      if (!known) return null;
      const deviceUs = known.newestUs + stepUint32(known.newestMs, uptimeMs) * usPerMs;
      let stretch = known.stretches[0]!;
      for (const next of known.stretches) if (next.fromDeviceUs <= deviceUs) stretch = next;
      return Math.round((deviceUs + offsetAt(stretch.line, deviceUs)) * scale);
    },
  };
}

function offsetAt(line: OffsetLine, deviceUs: number): number {
  return line.offsetUs + line.rate * (deviceUs - line.deviceUs);
}

function beginStretch(point: EnvelopePoint, rate: number): Stretch {
  return { fromDeviceUs: point.deviceUs, blocks: [point], line: { ...point, rate } };
}

/** The counter may have wrapped several times during a long outage: the host's clock shows how often. */
function unwrapLive(known: Boot, uptimeMs: number, arrivalUs: number, rate: number, usPerMs: number): number {
  const expectedUs = known.newestUs + (arrivalUs - known.newestArrivalUs) / (1 + rate);
  const wraps = Math.round((expectedUs / usPerMs - uptimeMs) / WRAP_MS);
  return (uptimeMs + Math.max(0, wraps) * WRAP_MS) * usPerMs;
}

function addPoint(known: Boot, point: EnvelopePoint, rate: number): void {
  const stretch = known.stretches[known.stretches.length - 1]!;
  if (stretch.blocks.length > 1 && point.offsetUs < offsetAt(stretch.line, point.deviceUs) - STEP_US) {
    // Arrived before it can have been read: the host's clock stood still in between (an undetected sleep). In the first
    // block it is rather the lines before that were late (a port read for the first time delivers buffered ones).
    known.stretches.push(beginStretch(point, rate));
    return;
  }
  const block = stretch.blocks[stretch.blocks.length - 1]!;
  if (blockOf(stretch, block) !== blockOf(stretch, point)) {
    if (steppedUp(known, stretch)) {
      addPoint(known, point, rate);
      return;
    }
    stretch.blocks.push(point);
    if (stretch.blocks.length > MOST_BLOCKS) stretch.blocks.shift();
  } else if (point.offsetUs - stretch.line.rate * (point.deviceUs - block.deviceUs) < block.offsetUs) {
    // Faster than the fastest of this block so far, corrected for the drift between the two.
    stretch.blocks[stretch.blocks.length - 1] = point;
  } else {
    return;
  }
  stretch.line = fitLowerEnvelope(stretch.blocks, stretch.line.rate, RATE_SPAN_US);
}

function blockOf(stretch: Stretch, point: EnvelopePoint): number {
  return Math.floor((point.deviceUs - stretch.fromDeviceUs) / BLOCK_US);
}

/** When the last whole blocks are all far above the line through the ones before them, begins a stretch with them. */
function steppedUp(known: Boot, stretch: Stretch): boolean {
  const before = stretch.blocks.slice(0, -STEP_BLOCKS);
  const recent = stretch.blocks.slice(-STEP_BLOCKS);
  if (before.length === 0) return false;
  const rate = stretch.line.rate;
  const line = fitLowerEnvelope(before, before.length > STEP_BLOCKS ? 0 : rate, RATE_SPAN_US);
  if (!recent.every((p) => p.offsetUs > offsetAt(line, p.deviceUs) + STEP_US)) return false;
  // Lines that were delayed and then arrived all at once are high too, but each by its own delay.
  const offsets = recent.map((p) => p.offsetUs);
  if (Math.max(...offsets) - Math.min(...offsets) > STEP_US / 2) return false;
  stretch.blocks = before;
  stretch.line = line;
  const next: Stretch = { fromDeviceUs: recent[0]!.deviceUs, blocks: recent, line };
  next.line = fitLowerEnvelope(recent, line.rate, RATE_SPAN_US);
  known.stretches.push(next);
  return true;
}
