/** The script of the thread that lays out, so that neither typing nor the terminal waits for the library before it must. */
import { parentPort } from 'node:worker_threads';
import type { Plan, Rows } from '../documents/drawing/plan';
import { layOut } from './elk';

export interface Asked { readonly id: number; readonly plan: Plan; readonly rows: Rows }

parentPort!.on('message', ({ id, plan, rows }: Asked) => {
    layOut(plan, rows).then((laid) => parentPort!.postMessage({ id, laid }), (error: unknown) => parentPort!.postMessage({ id, failed: String(error) }));
});
