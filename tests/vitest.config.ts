import { defineConfig } from 'vitest/config';

export default defineConfig({
    test: {
        root: '.', include: ['tests/**/*.test.ts'], exclude: ['tests/tmp/**'], testTimeout: 60_000,
        // Every core works, and reads the program in once, not anew for each file: what modules keep they keep of one boat, and by that boat.
        isolate: false, maxWorkers: '100%',
    },
});
