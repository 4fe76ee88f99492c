/** A whole run of the terminal program, against Node.js with nothing to do. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import type { Row } from './table';

const PROGRAM = (JSON.parse(readFileSync('package.json', 'utf8')) as { bin: { orlop: string } }).bin.orlop;

export function coldRuns(name: string, folder: string, runs: number): Row[] {
    const bare: number[] = [];
    const check: number[] = [];
    for (let run = -1; run < runs; run++) {
        const times = [time(['-e', '0']), time([PROGRAM, 'check', folder])];
        if (run >= 0) { bare.push(times[0]!); check.push(times[1]!); }
    }
    return [
        { what: 'node -e 0', boat: '', samples: bare },
        { what: 'orlop check, cold', boat: name, samples: check, against: bare },
    ];
}

function time(args: readonly string[]): number {
    const before = performance.now();
    const { error } = spawnSync(process.execPath, args, { stdio: 'ignore' });
    if (error) throw error;
    return performance.now() - before;
}
