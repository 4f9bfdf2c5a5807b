// Redraws the pictures of the build guide: the wiring from the firmware's configuration headers, and the places of the
// probes.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { guidePictures } from './guide/pictures.ts';

const folder = join(import.meta.dirname, '../firmware-protocol/guide');
for (const [name, svg] of guidePictures()) writeFileSync(join(folder, name), svg);
