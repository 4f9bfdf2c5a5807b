/** The screens for describing, fetched as one part. */
export { BurnForm } from './burn-form.tsx';
export { Shelf } from './shelf.tsx';
