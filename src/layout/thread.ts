/** Lays out in a thread of its own, which is started, and the library read, when the first plan comes. */
import { Worker } from 'node:worker_threads';
import type { Laid, Layouter } from '../documents/drawing/plan';
import type { Asked } from './worker';

interface Answer { readonly id: number; readonly laid?: Laid; readonly failed?: string }

export interface Thread {
    readonly layouter: Layouter;
    stop(): Promise<void>;
}

/** Plans that were laid out lately; a boat whose heights are typed, or of which another line-up is shown, is laid out once. */
const KEPT = 32;

/** A plan of 300 parts takes two seconds in a new thread on a slow machine; one that takes so long will never end, and keeps all others waiting. */
const PATIENCE_MS = 30_000;

/** `script` is the bundled worker. */
export function layoutThread(script: string, patience = PATIENCE_MS): Thread {
    let worker: Worker | undefined;
    const waiting = new Map<number, { done: (laid: Laid) => void; failed: (error: Error) => void }>();
    const kept = new Map<string, Promise<Laid>>();
    let last = 0;
    const start = (): Worker => {
        const started = new Worker(script);
        const fail = (error: Error): void => {
            // One that died of an error ends afterwards, when another may be at work already.
            if (worker !== started) return;
            worker = undefined;
            const asked = [...waiting.values()];
            waiting.clear();
            for (const { failed } of asked) failed(error);
        };
        started.on('message', ({ id, laid, failed }: Answer) => {
            watch();
            const asked = waiting.get(id);
            waiting.delete(id);
            if (waiting.size === 0) started.unref();
            if (laid) asked?.done(laid); else asked?.failed(new Error(failed));
        });
        started.on('error', fail);
        started.on('messageerror', fail);
        started.on('exit', () => fail(new Error('The layout was stopped.')));
        return started;
    };
    let clock: NodeJS.Timeout | undefined;
    /** From the last answer on, or from the first question after rest. */
    const watch = (): void => {
        clearTimeout(clock);
        const watched = worker;
        clock = setTimeout(() => { if (waiting.size > 0 && worker === watched) void watched?.terminate(); }, patience).unref();
    };
    const layouter: Layouter = (plan, rows) => {
        const key = JSON.stringify([plan, [...rows]]);
        const known = kept.get(key);
        if (known) { kept.delete(key); kept.set(key, known); return known; }
        worker ??= start();
        // While nothing is asked the thread keeps no program alive.
        worker.ref();
        const asked: Asked = { id: ++last, plan, rows };
        if (waiting.size === 0) watch();
        const laid = new Promise<Laid>((done, failed) => { waiting.set(asked.id, { done, failed }); });
        worker.postMessage(asked);
        kept.set(key, laid);
        laid.catch(() => kept.delete(key));
        if (kept.size > KEPT) kept.delete(kept.keys().next().value!);
        return laid;
    };
    return { layouter, stop: async () => { clearTimeout(clock); await worker?.terminate(); } };
}
