import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: 'tests/store/template-for-all.ts',
    // Those need the built program and a browser, and these kill, wait or fail at every step: `npm run test:browser`,
    // `npm run test:kills`, `npm run test:crash`.
    exclude: ['tests/browser/**', 'tests/store/crash/**', 'tests/usecases/money-faults.test.ts'],
    // Two test files at a time on two processors, too: most of the time is the databases'.
    maxWorkers: Math.max(2, availableParallelism() - 1),
    testTimeout: 60_000,
    // A record of its own for a test file takes a while on a busy machine.
    hookTimeout: 60_000,
  },
});
