// A thread that analyses the records it is sent, one after another.
import { parentPort } from 'node:worker_threads';
import { analyse } from '../../shared/analysis/analyse.ts';
import type { BurnRecord, MethodSet } from '../../shared/contract/burn-record.ts';

parentPort!.on('message', ({ record, method }: { record: BurnRecord; method: MethodSet | undefined }) => {
  parentPort!.postMessage(analyse(record, method === undefined ? {} : { method }));
});
