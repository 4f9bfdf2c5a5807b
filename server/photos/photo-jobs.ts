/** What the worker does with photos. */
import type { Job } from '../worker/job.ts';
import type { CleanPhoto } from './clean-photo.ts';

// A picture may be built to be taken apart for a long time.
export const cleanPhotoJob: Job<Uint8Array, CleanPhoto> = { name: 'clean photo', queue: 'foreign' };
