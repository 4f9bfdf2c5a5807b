import type { VNode } from 'preact';
import type { ShownMark } from '../../burn/burn-state.ts';
import { minuteLabel } from '../../charts/axis-labels.ts';
import { translate } from '../../language/catalogue.ts';
import { Photo } from '../forms/photo.tsx';

/** The photos of a burn, in the order of time. */
export function BurnPhotos({ marks, zeroUs }: { marks: readonly ShownMark[]; zeroUs: number }): VNode | null {
  const photos = marks.flatMap(({ mark }) => (mark.kind === 'photo' ? [mark] : []));
  if (photos.length === 0) return null;
  return (
    <section class="burn-photos" aria-labelledby="photos-title">
      <h2 id="photos-title">{translate().burns.burn.photos}</h2>
      <ul>
        {photos.map(({ id, photo, note, elapsedUs }) => (
          <li key={id}>
            <Photo name={photo} />
            <span class="quiet">
              {`${minuteLabel(Math.round((elapsedUs - zeroUs) / 60e6))}\u00a0min`} {note}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
