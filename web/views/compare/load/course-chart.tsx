/** The predicted course to the target: the median curve of new burns, and the band that contains nine of ten. */
import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { Prediction } from '../../../../shared/contract/prediction.ts';
import type { CurveStyle } from '../../../../shared/plot/curve-styles.ts';
import type { TimeChartModel } from '../../../charts/time-chart-model.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { onScreen } from '../../../language/figures.ts';
import { language, units } from '../../../preferences/preferences.ts';
import { useWide } from '../../kit/use-wide.ts';
import { LineSample } from '../../time-chart/line-sample.tsx';
import { levelsOf, timeChartBase } from '../../time-chart/time-chart-data.ts';
import { TimeChartView } from '../../time-chart/time-chart-view.tsx';

type Course = Prediction['course'];

const middleStyle: CurveStyle = { ink: 'water', dash: [7, 4], width: 2 };

export function CourseChart({ course }: { course: Course }): VNode | null {
  const words = translateCompare().answer;
  const wide = useWide();
  // numbers and words follow the units and the language of this device
  const model = useMemo(() => courseModel(course), [course, units.value, language.value]);
  if (course.length === 0) return null;
  return (
    <TimeChartView
      label={words.course}
      model={model}
      limits={wide ? { lowest: 240, highest: 340 } : { lowest: 180, highest: 260 }}
    >
      <ul class="strip-key">
        <li>
          <LineSample style={middleStyle} /> {words.half}
        </li>
        <li>
          <svg class="line-sample" viewBox="0 0 44 12" aria-hidden="true">
            <rect class="area-sample" width="44" height="12" />
          </svg>
          {words.nineOfTen}
        </li>
      </ul>
    </TimeChartView>
  );
}

/** The outline of the band goes up along the early side and back along the late one. */
export function courseModel(course: Course): TimeChartModel {
  const value = (tempC: number) => onScreen('temperature', tempC);
  const along = (pick: (step: Course[number]) => number) =>
    course.map((step) => [pick(step) / 60, value(step.tempC)] as const);
  const curve = {
    id: 'course',
    label: translateCompare().answer.half,
    panel: 'plot',
    style: middleStyle,
    x: course.map((step) => step.value / 60),
    y: course.map(({ tempC }) => value(tempC)),
  } as const;
  const late = along(({ interval90 }) => interval90[1]);
  const lastMin = late.at(-1)?.[0] ?? 30;
  return {
    ...timeChartBase([curve], [], { fromMin: 0, toMin: Math.max(10, Math.ceil(lastMin / 5) * 5) }),
    area: [...along(({ interval90 }) => interval90[0]), ...late.reverse()],
    levels: levelsOf({ boilingC: undefined, targetC: course.at(-1)?.tempC, floorC: undefined }),
  };
}
