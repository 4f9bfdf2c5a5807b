/** The screens of a cooling run, loaded as one part. */
import '../../styles/cooling.css';

export { CoolingForm } from './cooling-form.tsx';
export { CoolingRun } from './cooling-run.tsx';
