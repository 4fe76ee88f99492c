/** The thread that lays out dies, and the next drawing is asked for at once. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { layoutThread } from '../../src/layout/thread';
import type { Plan } from '../../src/documents/drawing/plan';

const FATAL: Plan = { blocks: [], links: [] };
const GOOD: Plan = { blocks: [{ id: 'T1', width: 1, height: 1, ports: [] }], links: [] };

test('what is asked after a thread died is answered by the next, not failed by the end of the first', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'orlop-layout-'));
    const script = join(folder, 'layout.cjs');
    // It dies of an empty plan, and takes its time over others, so that the end of the first comes meanwhile.
    writeFileSync(script, `const { parentPort } = require('node:worker_threads');
parentPort.on('message', ({ id, plan }) => { if (plan.blocks.length === 0) throw new Error('fell over'); setTimeout(() => parentPort.postMessage({ id, laid: { width: 7 } }), 300); });`);
    const { layouter, stop } = layoutThread(script);
    try {
        for (let turn = 0; turn < 3; turn++) await expect(layouter(FATAL, new Map())).rejects.toThrow('fell over');
        expect(await layouter(GOOD, new Map())).toEqual({ width: 7 });
    } finally {
        await stop();
        rmSync(folder, { recursive: true });
    }
});

test('a layout that never ends is given up, and the next is answered by another thread', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'orlop-layout-'));
    const script = join(folder, 'layout.cjs');
    writeFileSync(script, `const { parentPort } = require('node:worker_threads');
parentPort.on('message', ({ id, plan }) => { if (plan.blocks.length === 0) for (;;); parentPort.postMessage({ id, laid: { width: 7 } }); });`);
    const { layouter, stop } = layoutThread(script, 300);
    try {
        await expect(layouter(FATAL, new Map())).rejects.toThrow('stopped');
        expect(await layouter(GOOD, new Map())).toEqual({ width: 7 });
    } finally {
        await stop();
        rmSync(folder, { recursive: true });
    }
});
