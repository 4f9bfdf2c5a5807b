/** The screens for comparing, fetched as one part. */
export { Compare } from './compare.tsx';
export { Overlay } from './overlay.tsx';
