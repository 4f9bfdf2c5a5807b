/** The screens for describing, fetched as one part. */
import '../../styles/lists.css';

export { Inventory } from '../stoves/inventory.tsx';
export { BurnForm } from './burn-form.tsx';
