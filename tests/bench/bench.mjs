// Bundles the bench as the programs are bundled, and runs it; `npm run bench -- pictures` runs one group.
import { build } from 'esbuild';

await build({
    entryPoints: ['tests/bench/bench.ts', 'tests/bench/plain-server.ts', 'tests/bench/memory.ts', 'tests/bench/first-layout.ts'], outdir: 'out/bench', outExtension: { '.js': '.cjs' },
    bundle: true, platform: 'node', target: 'node20', format: 'cjs', minify: true, logLevel: 'warning',
});
await import('../../out/bench/bench.cjs');
