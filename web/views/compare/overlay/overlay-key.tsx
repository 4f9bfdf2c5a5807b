/** The key of the burns: a sample of the line, the name, the value at the cursor; each burn can be hidden. */

import type { Signal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnDetail } from '../../../../shared/contract/burns.ts';
import { type CurveStyle, overlayStyle } from '../../../../shared/plot/curve-styles.ts';
import { routeHash } from '../../../addresses/router.ts';
import type { TimeChartCurve } from '../../../charts/time-chart-model.ts';
import { valueAt } from '../../../charts/value-at.ts';
import { burnDay } from '../../../language/burn-day.ts';
import { translate, translateCompare } from '../../../language/catalogue.ts';
import { number, unit } from '../../../language/figures.ts';
import { LineSample } from '../../time-chart/line-sample.tsx';
import type { OverlayBurn, OverlayGroup } from './overlay-burns.ts';

interface OverlayKeyProps {
  burns: readonly OverlayBurn[];
  groups: readonly OverlayGroup[];
  styleBy: 'burn' | 'group';
  hidden: Signal<readonly string[]>;
  aside?: ((burnId: string) => string | undefined) | undefined;
  /** Minute at the cursor; read by each line alone, so that moving it redraws only numbers. */
  cursor: Signal<number | undefined>;
  curves: readonly TimeChartCurve[];
}

export function OverlayKey({ burns, groups, styleBy, ...props }: OverlayKeyProps): VNode {
  if (styleBy === 'burn')
    return (
      <ul class="key">
        {burns.map((burn) => (
          <KeyLine key={burn.detail.burn.id} burn={burn} style={overlayStyle(burn.place)} {...props} />
        ))}
      </ul>
    );
  return (
    <div class="key-groups">
      {groups.map((group) => (
        <section key={group.name}>
          <h3>
            <LineSample style={group.style} /> {group.name}
          </h3>
          <ul>
            {burns
              .filter(({ detail }) => group.burnIds.includes(detail.burn.id))
              .map((burn) => (
                <KeyLine key={burn.detail.burn.id} burn={burn} style={undefined} {...props} />
              ))}
          </ul>
        </section>
      ))}
    </div>
  );
}

function KeyLine({
  burn: { detail, name, number },
  style,
  hidden,
  aside,
  cursor,
  curves,
}: Omit<OverlayKeyProps, 'burns' | 'groups' | 'styleBy'> & {
  burn: OverlayBurn;
  style: CurveStyle | undefined;
}): VNode {
  const { id } = detail.burn;
  const why = aside?.(id);
  return (
    <li class={why ? 'aside' : ''}>
      <label class="check">
        <input
          type="checkbox"
          checked={!hidden.value.includes(id)}
          aria-label={translateCompare().overlay.show({ title: `${name} (${number})` })}
          onChange={(event) => {
            const others = hidden.value.filter((other) => other !== id);
            hidden.value = event.currentTarget.checked ? others : [...others, id];
          }}
        />
        {style && <LineSample style={style} />}
      </label>
      <span class="key-words">
        <span class="key-name">
          {number}. <a href={routeHash({ at: 'burn', id })}>{name}</a>
          <Reading curve={curves.find((curve) => curve.id === `${id} water`)} cursor={cursor} />
        </span>
        <span class="quiet">{factsOf(detail, why === undefined)}</span>
        {why && <span class="key-why">{why}</span>}
      </span>
    </li>
  );
}

/** The water temperature of a burn at the cursor; empty without a cursor or in a gap. */
function Reading({
  curve,
  cursor,
}: {
  curve: TimeChartCurve | undefined;
  cursor: Signal<number | undefined>;
}): VNode | null {
  const value = curve && cursor.value !== undefined ? valueAt(curve, cursor.value) : undefined;
  if (value === undefined) return null;
  return (
    <b class="key-reading">
      {number(value, 1)}&nbsp;{unit('temperature')}
    </b>
  );
}

function factsOf({ burn, summary }: BurnDetail, withReason: boolean): string {
  return [
    summary.revision && translateCompare().revision({ label: summary.revision.label }),
    burnDay(burn),
    burn.operator,
    withReason && burn.setAsideReason && translate().burns.burn.setAsideBecause({ reason: burn.setAsideReason }),
  ]
    .filter(Boolean)
    .join(' · ');
}
