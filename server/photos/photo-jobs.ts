/** Jobs of the worker on photos. */
import type { Job } from '../worker/job.ts';
import type { CleanPhoto } from './clean-photo.ts';

// Crafted or not, the largest picture takes some 0.1 s, and must not wait for a file that is being imported.
export const cleanPhotoJob: Job<Uint8Array, CleanPhoto> = { name: 'clean photo', queue: 'live' };
