// The main job on an example boat: findings before and after the refit, a bleed sequence, service procedures, what is due, suction, the drawings and the calculation sheet; pages into demo-output/, the guide too.
import { spawnSync } from 'node:child_process';

const run = (out, args) => {
    console.log(`\n$ orlop ${args.join(' ')}\n`);
    const { status, error } = spawnSync(process.execPath, ['out/orlop.cjs', ...args], { stdio: ['inherit', out, 'inherit'] });
    if (error) throw error;
    return status;
};
const orlop = (...args) => run('inherit', args);
const expect = (what, status, wanted) => {
    if (status !== wanted) { console.error(`${what}: exit code ${status} where ${wanted} was expected`); process.exit(1); }
};

expect('the boat as found has findings', orlop('check', 'examples/brackenwake', '--on', '2026-09-01', '--write', 'demo-output/as-found'), 1);
expect('the mended boat has none', orlop('check', 'examples/brackenwake-mended', '--on', '2026-09-01', '--write', 'demo-output/mended'), 0);
expect('the bleed sequence', orlop('bleed', 'examples/brackenwake-mended', 'E1', '--opened', 'F1,F2', '--write', 'demo-output/mended'), 0);
expect('a service procedure', orlop('procedure', 'examples/brackenwake-mended', 'renew', 'F1', 'element,', 'look', 'F2', 'element', '--issued', '2026-09-01', '--write', 'demo-output/procedures'), 0);
expect('all procedures', run('ignore', ['procedure', 'examples/brackenwake-mended', '--all', '--issued', '2026-09-01', '--write', 'demo-output/procedures']), 0);
expect('what is due', orlop('due', 'examples/brackenwake-mended', '--on', '2026-09-01', '--write', 'demo-output/mended'), 0);
expect('what the engine draws against', orlop('ask', 'examples/brackenwake-mended', 'suction', 'E1', '--write', 'demo-output/mended'), 0);
expect('the drawings', orlop('draw', 'examples/brackenwake-mended', '--write', 'demo-output/drawings'), 0);
expect('what cuts a filter off, on the schematic', orlop('draw', 'examples/brackenwake-mended', 'schematic', '--show', 'isolate F1', '--write', 'demo-output/drawings'), 0);
// Hundreds of lines: they are for the page.
expect('the calculation sheet', run('ignore', ['sheet', 'examples/brackenwake-mended', '--write', 'demo-output/mended']), 0);
expect('the guide and the reference', orlop('reference', '--write', 'demo-output/reference'), 0);
console.log('\nThe pages are in demo-output/.');
