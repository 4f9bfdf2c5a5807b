/**
 * Writes the sample burn record that is published together with the record's schema: one simulated burn, read every 10
 * s.
 */
import { writeFileSync } from 'node:fs';
import { toBurnRecord } from '../server/simulator/burn-record.ts';
import { heronBurns } from '../server/simulator/heron.ts';
import { simulateBurn } from '../server/simulator/simulate-burn.ts';

const { scenario, seed, errors, description } = heronBurns()[4]!;
const sparse = { ...scenario, timing: { ...scenario.timing, readingEveryS: 10 } };
const record = toBurnRecord(simulateBurn(sparse, seed, errors), description);
const path = new URL('../shared/contract/sample-burn-record.json', import.meta.url);
writeFileSync(path, `${JSON.stringify(record)}\n`);
process.stdout.write(`${path.pathname}\n`);
