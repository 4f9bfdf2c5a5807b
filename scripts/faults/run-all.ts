import { type Outcome, runHistory } from './history.ts';
import type { History } from './plan.ts';

/** Runs all histories, a given number at a time. @param print prints a line of progress */
export async function runAll(
  plan: readonly History[],
  atOnce: number,
  print: (line: string) => void,
): Promise<Outcome[]> {
  const outcomes: Outcome[] = [];
  const waiting = [...plan];
  async function work(): Promise<void> {
    for (let history = waiting.shift(); history; history = waiting.shift()) {
      const beganMs = performance.now();
      const outcome = await runHistory(history, print);
      outcomes.push(outcome);
      print(`${history.name} took ${((performance.now() - beganMs) / 1000).toFixed(0)} s, ${waiting.length} to come`);
    }
  }
  await Promise.all(Array.from({ length: Math.min(atOnce, plan.length) }, work));
  return outcomes;
}
