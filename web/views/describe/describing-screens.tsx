/** The screens for describing, fetched as one part. */
import '../../styles/compare.css';

export { BurnForm } from './burn-form.tsx';
export { Shelf } from './shelf.tsx';
