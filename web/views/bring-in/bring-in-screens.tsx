/** The screens for bringing data in, fetched as one part with their look. */
import '../../styles/bring-in.css';
import '../../styles/lists.css';

export { BringIn } from './bring-in.tsx';
