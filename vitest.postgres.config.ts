import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/store/**/*.test.ts', 'tests/usecases/**/*.test.ts'],
    // Ended at every step by `npm run test:kills`.
    exclude: ['tests/usecases/money-faults.test.ts'],
    globalSetup: 'tests/store/server-for-all.ts',
    // The server works beside those that ask it.
    maxWorkers: Math.max(2, availableParallelism()),
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // Files share the modules that they import, as in vitest.config.ts.
    isolate: false,
  },
});
