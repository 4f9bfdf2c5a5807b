/** The screens for bringing data in, fetched as one part with their look. */
import '../../styles/import.css';
import '../../styles/lists.css';

export { ImportPage } from './import-page.tsx';
