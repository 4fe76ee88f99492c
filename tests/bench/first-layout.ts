/** Lays out one plan in a process that is new, and prints how long that took, ms. */
import { readFileSync } from 'node:fs';
import type { Plan } from '../../src/documents/drawing/plan';
import { layoutThread } from '../../src/layout/thread';

const [script, file] = process.argv.slice(2) as [string, string];
const plan = JSON.parse(readFileSync(file, 'utf8')) as Plan;
const before = performance.now();
const thread = layoutThread(script);
void thread.layouter(plan, new Map()).then(() => {
    console.log(performance.now() - before);
    return thread.stop();
});
