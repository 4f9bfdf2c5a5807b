/** The readings of the scales of the simulated stove: in a practice there is nothing to put on a real one. */
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import { translate } from '../../language/catalogue.ts';
import { text } from '../../language/figures.ts';
import { loadPractice, practice } from '../../state/practice.ts';

export function PracticeScales({ burnId }: { burnId: string }): VNode | null {
  // Published before this page subscribed, if it was opened later.
  useEffect(() => void loadPractice().catch(() => undefined), [burnId]);
  const { burnId: ofBurn, scales } = practice.value ?? {};
  if (ofBurn !== burnId || !scales) return null;
  const words = translate().practiceScales;
  const rows = [
    [words.water, `${text('mass', scales.waterKg)}, ${text('temperature', scales.waterTempC)}`],
    [words.wood, text('mass', scales.woodKg)],
    [words.kindling, text('mass', scales.kindlingKg)],
    [words.brands, text('mass', scales.brandsKg)],
    [words.char, text('mass', scales.charKg)],
  ] as const;
  return (
    <section class="practice-scales">
      <h2>{words.title}</h2>
      <dl class="now-probes">
        {rows.map(([name, figure]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{figure}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
