/** `orlop check` as it ships: the day of judgement is given, and the same text on the same day gives the same bytes. */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const CLI = fileURLToPath(new URL('../../out/orlop.cjs', import.meta.url));
const BOAT = fileURLToPath(new URL('../../examples/brackenwake', import.meta.url));
const check = (...args: readonly string[]): { status: number | null; stdout: string; stderr: string } => spawnSync(process.execPath, [CLI, 'check', BOAT, '--json', ...args], { encoding: 'utf8', env: { ...process.env, TZ: 'UTC' } });
const codes = (stdout: string): string[] => (JSON.parse(stdout) as { findings: { rule: string }[] }).findings.map(({ rule }) => rule);

// Her hoses are dated 2016: ten years by the year in 2026, more in 2027.
test('by the day that is given', () => {
    const [before, after] = [check('--on', '2026-12-31'), check('--on', '2027-01-01')];
    expect([before.status, after.status]).toEqual([1, 1]);
    expect(codes(before.stdout)).not.toContain('HOSE-AGE');
    expect(codes(after.stdout)).toContain('HOSE-AGE');
    expect(check('--on', '2027-01-01').stdout).toBe(after.stdout);
});

test('today when none is given', () => {
    const today = new Date().toISOString().slice(0, 10);
    // The day may turn between the two runs.
    expect([check('--on', today).stdout, check('--on', new Date().toISOString().slice(0, 10)).stdout]).toContain(check().stdout);
});

test('what is no day', () => {
    for (const day of ['2026-13-01', '2026-02-30', 'yesterday']) expect(check('--on', day)).toMatchObject({ status: 64, stdout: '', stderr: `${day} is not a day. Write it like 2026-03-01.\n` });
});
