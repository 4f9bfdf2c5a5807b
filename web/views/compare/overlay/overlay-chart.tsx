/**
 * Burns overlaid on one time chart, with the choice of their zero, of the band below the water, and of the burns shown.
 */
import { type Signal, useSignal } from '@preact/signals';
import type { ComponentChildren, VNode } from 'preact';
import { useCallback, useMemo } from 'preact/hooks';
import type { Moment } from '../../../../shared/contract/results.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { readQuantity, typed, unit } from '../../../language/figures.ts';
import { language, units } from '../../../preferences/preferences.ts';
import { fetchAnalysis } from '../../../requests/analyses.ts';
import { Choice, TextField } from '../../forms/field.tsx';
import { Fetching } from '../../kit/fetching.tsx';
import { useLoad } from '../../kit/use-load.ts';
import { useWide } from '../../kit/use-wide.ts';
import { TimeChartKey } from '../../time-chart/time-chart-key.tsx';
import { TimeChartView } from '../../time-chart/time-chart-view.tsx';
import type { OverlayBurn, OverlayGroup } from './overlay-burns.ts';
import { OverlayKey } from './overlay-key.tsx';
import { type Band, bands, type OverlayChoices, overlayBurns } from './overlay-model.ts';

/** Above this number, burns are distinguished by their group: more line styles cannot be told from each other. */
const mostStyles = 8;

interface TypedChoices {
  readonly at: OverlayChoices['align']['at'];
  /** As typed, in the units of this device. */
  readonly temp: string;
  readonly band: Band;
  readonly styleBy: OverlayChoices['styleBy'];
}

export function OverlayTimeChart({
  label,
  burns,
  groups,
  styleBy = burns.length > mostStyles && groups.length > 1 ? 'group' : 'burn',
  aside,
  children,
}: {
  label: string;
  burns: readonly OverlayBurn[];
  groups: readonly OverlayGroup[];
  styleBy?: OverlayChoices['styleBy'];
  /** Why a burn does not count, to be shown next to its name. */
  aside?: (burnId: string) => string | undefined;
  children?: ComponentChildren;
}): VNode {
  const words = translateCompare().overlay;
  const wide = useWide();
  const choices = useSignal<TypedChoices>({
    at: 'lit',
    temp: typed('temperature', 60, 0),
    band: 'rate',
    styleBy,
  });
  // Burns that do not count are listed with their reason, and drawn on request.
  const hidden = useSignal<readonly string[]>(burns.map(({ detail }) => detail.burn.id).filter((id) => aside?.(id)));
  const cursor = useSignal<number | undefined>(undefined);
  const { at, temp, band } = choices.value;
  const tempC = readQuantity('temperature', temp, { low: 0, high: 300 });
  const ids = burns.map(({ detail }) => detail.burn.id);
  // Computing when each burn reached its target may take the service a moment; it is requested only when needed.
  const targets = useLoad(`targets ${at === 'target' ? ids.join(' ') : ''}`, () =>
    momentsOf(at === 'target' ? ids : []),
  );
  const moments = targets.value.value;
  const shown = useMemo(
    () => burns.filter(({ detail }) => !hidden.value.includes(detail.burn.id)),
    [burns, hidden.value],
  );
  const overlay = useMemo(() => {
    const align = at !== 'temperature' ? { at } : { at, tempC: tempC.ok ? tempC.value : Number.NaN };
    return overlayBurns(shown, groups, { align, band, styleBy: choices.value.styleBy }, (id) => moments?.get(id));
    // numbers and words follow the units and the language of this device
  }, [shown, groups, choices.value, moments, units.value, language.value]);
  const onBurn = useCallback(
    (minute: number | undefined) => {
      cursor.value = minute;
    },
    [cursor],
  );
  const waiting = at === 'target' && (moments === undefined || ids.some((id) => !moments.has(id)));
  return (
    <div class="laid">
      <OverlayControls choices={choices} hasGroups={groups.length > 1} problem={tempC.ok ? undefined : tempC.problem} />
      <p class="quiet" aria-live="polite">
        {at === 'temperature'
          ? words.aligned.temperature({ temp: `${temp}\u00a0${unit('temperature')}` })
          : words.aligned[at]}
      </p>
      {waiting ? (
        <Fetching of={targets} />
      ) : (
        <TimeChartView
          label={label}
          model={overlay.model}
          limits={wide ? { lowest: 300, highest: 460 } : { lowest: 220, highest: 320 }}
          onCursor={onBurn}
        >
          <TimeChartKey curves={[]} />
        </TimeChartView>
      )}
      {!waiting &&
        overlay.without.map(({ detail, name }) => (
          <p class="quiet" key={detail.burn.id}>
            {words.without({ title: name })}
          </p>
        ))}
      <OverlayKey
        burns={burns}
        groups={groups}
        styleBy={choices.value.styleBy}
        hidden={hidden}
        aside={aside}
        cursor={cursor}
        curves={overlay.model.curves}
      />
      {children}
    </div>
  );
}

function OverlayControls({
  choices,
  hasGroups,
  problem,
}: {
  choices: Signal<TypedChoices>;
  hasGroups: boolean;
  problem: string | undefined;
}): VNode {
  const words = translateCompare().overlay;
  const { at, temp, band, styleBy } = choices.value;
  const set = (changed: Partial<TypedChoices>) => {
    choices.value = { ...choices.value, ...changed };
  };
  return (
    <div class="laid-controls">
      <Choice
        label={words.align}
        value={at}
        options={[
          ['lit', words.lit],
          ['target', words.target],
          ['temperature', words.temperature],
        ]}
        onChange={(next) => set({ at: next })}
      />
      {at === 'temperature' && (
        <TextField
          decimal
          label={words.whichTemperature}
          unit={unit('temperature')}
          value={temp}
          problem={problem}
          onInput={(next) => set({ temp: next })}
        />
      )}
      <Choice
        label={words.below}
        value={band}
        options={bands.map((each) => [each, words.bands[each]] as const)}
        onChange={(next) => set({ band: next })}
      />
      {hasGroups && (
        <Choice
          label={words.styleBy}
          value={styleBy}
          options={[
            ['group', words.byGroup],
            ['burn', words.byBurn],
          ]}
          onChange={(next) => set({ styleBy: next })}
        />
      )}
    </div>
  );
}

async function momentsOf(burnIds: readonly string[]): Promise<ReadonlyMap<string, readonly Moment[]>> {
  const found = await Promise.all(burnIds.map(async (id) => [id, (await fetchAnalysis(id)).moments] as const));
  return new Map(found);
}
