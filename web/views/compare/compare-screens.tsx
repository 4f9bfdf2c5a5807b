/** The screens for comparing, loaded as one part. */
import '../../styles/compare.css';
import '../../styles/lists.css';

export { Compare } from './compare.tsx';
export { Overlay } from './overlay/overlay.tsx';
