// `npm run demo`: the Heron's eight finished burns, and one that burns now, faster than real time. All of it is
// simulated.
import { loadParts, refuseUnfitNode, runProgram } from '../server/base/start-up.ts';

await runProgram(async () => {
  refuseUnfitNode();
  const { runDemo } = await loadParts(() => import('./demo/run-demo.ts'));
  await runDemo(process.argv.slice(2));
});
