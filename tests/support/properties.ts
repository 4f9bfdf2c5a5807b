/**
 * fast-check with the same cases in every run, so that whether a commit passes depends on the commit only. Other cases
 * are drawn by `npm run study -- properties`, or with another whole number as PROPERTY_SEED.
 */
import { configureGlobal } from 'fast-check';

configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 1) });

export { default } from 'fast-check';
