/** The screens for describing burns and inventory, loaded as one part. */
import '../../styles/lists.css';

export { Inventory } from '../stoves/inventory.tsx';
export { BurnForm } from './burn-form.tsx';
