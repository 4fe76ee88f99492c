// Bundles the bench as the programs are bundled, and runs it.
import { build } from 'esbuild';

await build({
    entryPoints: ['tests/bench/bench.ts', 'tests/bench/plain-server.ts', 'tests/bench/memory.ts'], outdir: 'out/bench', outExtension: { '.js': '.cjs' },
    bundle: true, platform: 'node', target: 'node20', format: 'cjs', minify: true, logLevel: 'warning',
});
await import('../../out/bench/bench.cjs');
