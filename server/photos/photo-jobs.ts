/** Jobs of the worker on photos. */
import type { Job } from '../worker/job.ts';
import type { CleanPhoto } from './clean-photo.ts';

// A picture may be crafted so that parsing it takes long.
export const cleanPhotoJob: Job<Uint8Array, CleanPhoto> = { name: 'clean photo', queue: 'foreign' };
