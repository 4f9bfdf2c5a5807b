/** The screens for importing data, loaded as one part with their styles. */
import '../../styles/import.css';
import '../../styles/lists.css';

export { ImportPage } from './import-page.tsx';
