/** The screens for describing, fetched as one part. */
import '../../styles/lists.css';

export { BurnForm } from './burn-form.tsx';
export { Inventory } from './inventory.tsx';
