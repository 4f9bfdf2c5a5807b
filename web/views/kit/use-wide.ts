import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';

const query = '(min-width: 60rem)';

/** Whether there is room beside the number: true on a laptop, false on a phone. Same limit as in the style sheets. */
export function useWide(): boolean {
  const wide = useSignal(matchMedia(query).matches);
  useEffect(() => {
    const media = matchMedia(query);
    const follow = () => {
      wide.value = media.matches;
    };
    media.addEventListener('change', follow);
    return () => media.removeEventListener('change', follow);
  }, [wide]);
  return wide.value;
}
