import type { Language } from '../language.ts';
import { servicePartEn } from './service-part.en.ts';
import { servicePartFr } from './service-part.fr.ts';

/** The sentences of the service and its command line in every language, since one service serves readers of each. */
export const serviceParts: Readonly<Record<Language, typeof servicePartEn>> = { en: servicePartEn, fr: servicePartFr };
