/** The screens of burns and of weighing what is left, loaded as one part. */
import '../../styles/burn-page.css';
import '../../styles/compare.css';
import '../../styles/lists.css';
import '../../styles/weighing.css';

export { WeighPage } from '../weighing/weigh-page.tsx';
export { BurnPage } from './burn-page.tsx';
export { BurnsList } from './burns-list.tsx';
export { LastBurn } from './last-burn.tsx';
