/** Which burns can be compared with each other, and why the others cannot. Each burn left out has a reason. */
import type { Message } from '../contract/results.ts';
import type { ComparedBurn, Side } from './compared-burn.ts';

export interface Selected {
  a: ComparedBurn[];
  b: ComparedBurn[];
  setAside: { burnId: string; side: Side; reason: Message }[];
  /**
   * Burns of the further revisions of a stove that were made under the same test conditions, and why the others cannot
   * be compared.
   */
  others: ComparedBurn[][];
  othersAside: { burnId: string; reason: Message }[];
}

/**
 * Selects burns made under the same test conditions: same start of the body (cold and hot are never pooled), same
 * target, same hold, same method. Of several sets of conditions, the one that both revisions were most often burnt
 * under is taken.
 */
export function selectComparable(
  a: readonly ComparedBurn[],
  b: readonly ComparedBurn[],
  others: readonly (readonly ComparedBurn[])[] = [],
): Selected {
  const aside = new Map<string, Message>();
  const unlessAside = (burns: readonly ComparedBurn[], reasonOf: (compared: ComparedBurn) => Message | undefined) =>
    burns.filter((compared) => {
      const reason = reasonOf(compared);
      if (reason) aside.set(compared.burn.id, reason);
      return reason === undefined;
    });
  const usable = [a, b, ...others].map((burns) => unlessAside(burns, ownReason));
  const question = commonestQuestion(usable[0]!, usable[1]!);
  const [storedA, storedB, ...otherStored] = usable.map((burns) =>
    unlessAside(burns, (compared) => (question === undefined ? undefined : otherQuestion(compared, question))),
  ) as [ComparedBurn[], ComparedBurn[], ...ComparedBurn[][]];
  const reasons = (burns: readonly ComparedBurn[]) =>
    burns.flatMap(({ burn }) => {
      const reason = aside.get(burn.id);
      return reason ? [{ burnId: burn.id, reason }] : [];
    });
  return {
    a: storedA,
    b: storedB,
    setAside: [
      ...reasons(a).map((each) => ({ ...each, side: 'a' as const })),
      ...reasons(b).map((each) => ({ ...each, side: 'b' as const })),
    ],
    others: otherStored,
    othersAside: reasons(others.flat()),
  };
}

function ownReason({ burn }: ComparedBurn): Message | undefined {
  if (burn.status === 'setAside') return { code: 'aside/byPerson', params: { reason: burn.setAsideReason ?? '' } };
  if (burn.purpose === 'cooling') return { code: 'aside/coolingRun', params: {} };
  if (burn.status === 'planned') return { code: 'aside/notBurnt', params: {} };
  if (burn.status === 'running') return { code: 'aside/stillRunning', params: {} };
  return undefined;
}

/** The test conditions of a burn, as one comparable text per aspect. */
function questionOf({ burn, analysis }: ComparedBurn): Record<'startKind' | 'target' | 'hold' | 'method', string> {
  return {
    startKind: burn.startKind ?? 'unknown',
    target: burn.target.kind === 'boil' ? 'boil' : `${burn.target.tempC}`,
    hold: `${burn.hold?.durationS ?? 0}`,
    method: analysis.method,
  };
}

const reasonCodes = {
  startKind: 'aside/otherStartKind',
  target: 'aside/otherTarget',
  hold: 'aside/otherHold',
  method: 'aside/otherMethod',
} as const;

type Question = ReturnType<typeof questionOf>;

/** Whether a burn has the wanted test conditions. A burn whose start was not recorded matches any start. */
function matchesQuestion(own: Question, wanted: Question, aspect: keyof Question): boolean {
  return own[aspect] === wanted[aspect] || (aspect === 'startKind' && own.startKind === 'unknown');
}

const aspects = Object.keys(reasonCodes) as (keyof Question)[];

function otherQuestion(compared: ComparedBurn, wanted: Question): Message | undefined {
  const own = questionOf(compared);
  const aspect = aspects.find((key) => !matchesQuestion(own, wanted, key));
  if (aspect === undefined) return undefined;
  return { code: reasonCodes[aspect], params: { own: own[aspect], wanted: wanted[aspect] } };
}

/**
 * The test conditions with the most burns on the side that has fewer; of equal ones, those with the most burns in all.
 */
function commonestQuestion(a: readonly ComparedBurn[], b: readonly ComparedBurn[]): Question | undefined {
  const asked = new Map<string, { question: Question; a: number; b: number }>();
  for (const [side, burns] of [['a', a] as const, ['b', b] as const]) {
    for (const compared of burns) {
      const question = questionOf(compared);
      const key = Object.values(question).join('\n');
      const known = asked.get(key) ?? { question, a: 0, b: 0 };
      known[side] += 1;
      asked.set(key, known);
    }
  }
  // Far fewer than burns: all of a stove are burnt under a few sets of conditions.
  const sets = [...asked.values()];
  const tallies = sets.map(({ question: wanted }) => {
    const matching = sets.filter(({ question: own }) =>
      aspects.every((aspect) => matchesQuestion(own, wanted, aspect)),
    );
    const count = (side: Side) => matching.reduce((sum, set) => sum + set[side], 0);
    return { wanted, a: count('a'), b: count('b') };
  });
  tallies.sort((x, y) => Math.min(y.a, y.b) - Math.min(x.a, x.b) || y.a + y.b - (x.a + x.b));
  return tallies[0]?.wanted;
}
