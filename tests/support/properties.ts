/**
 * fast-check, drawing the same cases in every run: whether a commit passes is a fact about the commit and not about the day.
 * Other cases are drawn by `npm run study -- properties`, or by any other whole number as PROPERTY_SEED.
 */
import { configureGlobal } from 'fast-check';

configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 1) });

export { default } from 'fast-check';
