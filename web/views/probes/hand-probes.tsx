/** Probes that the person reads, without a board or in addition to one. */
import type { VNode } from 'preact';
import type { HandProbe } from '../../../shared/contract/hand-probes.ts';
import { translate, translateProbes } from '../../language/catalogue.ts';
import { handProbes } from '../../state/setup.ts';
import { Sheet } from '../sheets/sheet.tsx';
import { useOpenSheet } from '../sheets/use-open-sheet.ts';
import { HandProbeForm } from './hand-probe-form.tsx';
import { figuresOfTrust } from './hand-trust.ts';

const another = 'another';

export function HandProbes(): VNode {
  const words = translate().hand;
  const open = useOpenSheet('hand-probes');
  const probes = handProbes.value;
  const picked = probes.find(({ id }) => id === open.which);
  return (
    <section class="hand-probes" aria-labelledby="hand-probes-title">
      <h2 id="hand-probes-title">{words.title}</h2>
      <p class="quiet">{words.help}</p>
      {probes.length > 0 && (
        <ul class="lines">
          {probes.map((probe) => (
            <HandProbeLine key={probe.id} probe={probe} onEdit={() => open.show(probe.id)} />
          ))}
        </ul>
      )}
      <p class="row">
        <button type="button" onClick={() => open.show(another)}>
          {probes.length === 0 ? words.offer : words.another}
        </button>
      </p>
      {(picked || open.which === another) && (
        <Sheet title={picked ? words.change({ name: picked.name }) : words.formTitle} onClose={open.close}>
          <HandProbeForm probe={picked} onDone={open.close} />
        </Sheet>
      )}
    </section>
  );
}

function HandProbeLine({ probe, onEdit }: { probe: HandProbe; onEdit: () => void }): VNode {
  const words = translate().hand;
  const { off, step } = figuresOfTrust(probe);
  const where = translate().burns.roles[probe.role];
  // Most are named after their place.
  const role = probe.name.toLowerCase() === where.toLowerCase() ? undefined : where;
  const position = probe.position && translateProbes().positions[probe.position];
  const trust = off !== undefined && step !== undefined ? words.trust({ off, step }) : undefined;
  return (
    <li>
      <button type="button" class="plain channel-name" onClick={onEdit} aria-label={words.change({ name: probe.name })}>
        {probe.name}
      </button>{' '}
      <span class="quiet">{[role, position, trust].filter((part) => part !== undefined).join(' · ')}</span>
    </li>
  );
}
