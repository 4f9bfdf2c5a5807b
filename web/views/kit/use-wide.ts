import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';

/** Whether there is room next to the number: true on a laptop, false on a phone. Same limit as in the style sheets. */
export function useWide(): boolean {
  return useMedia('(min-width: 60rem)');
}

/** Whether this is a phone in landscape, where height is scarce. Same limits as in the style sheets. */
export function useLow(): boolean {
  return useMedia('(max-height: 30rem) and (min-width: 36rem) and (max-width: 59.99rem)');
}

function useMedia(query: string): boolean {
  const matching = useSignal(matchMedia(query).matches);
  useEffect(() => {
    const media = matchMedia(query);
    const follow = () => {
      matching.value = media.matches;
    };
    media.addEventListener('change', follow);
    return () => media.removeEventListener('change', follow);
  }, [matching, query]);
  return matching.value;
}
