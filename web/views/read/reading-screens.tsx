/** The screens for reading and wrapping up, fetched as one part. */
import '../../styles/compare.css';
import '../../styles/lists.css';
import '../../styles/weigh-up.css';

export { BurnPage } from './burn-page.tsx';
export { BurnsList } from './burns-list.tsx';
export { WrapUp } from './wrap-up.tsx';
