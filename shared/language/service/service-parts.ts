import type { Language } from '../language.ts';
import { servicePartEn } from './service-part.en.ts';
import { servicePartFr } from './service-part.fr.ts';

/** What the service and its command line say, in every language at once: a service answers readers of each. */
export const serviceParts: Readonly<Record<Language, typeof servicePartEn>> = { en: servicePartEn, fr: servicePartFr };
