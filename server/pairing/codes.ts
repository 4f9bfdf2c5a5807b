import { randomInt } from 'node:crypto';
import { AppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';

const DIGITS = 6;
const VALID_S = 300;
/** Twenty guesses at a million codes: a chance of two in a hundred thousand. */
const MOST_WRONG = 20;
const MOST_WRONG_FROM_ONE = 5;
const FORGET_WRONG_S = 600;

/** The code shown on the bench machine. One at a time, valid for one device, for a few minutes and a few mistakes. */
export function createCodes(clock: Clock) {
  let open: { code: string; endsUs: number; wrong: number } | undefined;
  const wrongFrom = new Map<string, { count: number; untilUs: number }>();
  // A person does not type faster when the clock of the bench runs faster.
  const usOf = (seconds: number) => seconds * 1e6 * clock.scale;

  function current() {
    const nowUs = clock.monotonicUs();
    if (open && nowUs >= open.endsUs) open = undefined;
    return open;
  }

  const shown = ({ code, endsUs }: { code: string; endsUs: number }) => ({
    code,
    leftS: Math.round((endsUs - clock.monotonicUs()) / usOf(1)),
  });

  function noteWrong(from: string): void {
    const nowUs = clock.monotonicUs();
    for (const [address, { untilUs }] of wrongFrom) if (untilUs <= nowUs) wrongFrom.delete(address);
    const count = (wrongFrom.get(from)?.count ?? 0) + 1;
    wrongFrom.set(from, { count, untilUs: nowUs + usOf(FORGET_WRONG_S) });
  }

  return {
    /** Creates a code; the one before becomes invalid. */
    open(): { code: string; leftS: number } {
      const code = String(randomInt(10 ** DIGITS)).padStart(DIGITS, '0');
      open = { code, endsUs: clock.monotonicUs() + usOf(VALID_S), wrong: 0 };
      return shown(open);
    },
    /** The currently valid code. */
    current(): { code: string; leftS: number } | undefined {
      const now = current();
      return now && shown(now);
    },
    close(): void {
      open = undefined;
    },
    /**
     * Uses the code up.
     * @param from the address of the request
     * @throws AppError pairing/code-wrong, pairing/no-code, pairing/too-many-tries
     */
    spend(typed: string, from: string): void {
      const tries = wrongFrom.get(from);
      if (tries && tries.count >= MOST_WRONG_FROM_ONE && tries.untilUs > clock.monotonicUs()) {
        throw new AppError('pairing/too-many-tries', { minutes: FORGET_WRONG_S / 60 });
      }
      const now = current();
      if (!now) throw new AppError('pairing/no-code');
      if (typed.replace(/\D/g, '') === now.code) {
        open = undefined;
        wrongFrom.delete(from);
        return;
      }
      noteWrong(from);
      now.wrong++;
      if (now.wrong >= MOST_WRONG) open = undefined;
      throw new AppError('pairing/code-wrong');
    },
  };
}
