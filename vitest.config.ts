import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/** These take too long here: `npm run test:kills` runs the first, `npm run test:postgres` the others. */
const AT_LENGTH = [
  'tests/usecases/money-faults.test.ts',
  'tests/usecases/random-money.test.ts',
  // The embedded engine takes one after the other: only on a server do they meet.
  'tests/usecases/retest-races.test.ts',
];

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: 'tests/store/template-for-all.ts',
    // Those need the built program and a browser, and these kill, wait or fail at every step: `npm run test:browser`,
    // `npm run test:kills`, `npm run test:crash`.
    exclude: ['tests/browser/**', 'tests/store/crash/**', ...AT_LENGTH],
    // Two test files at a time on two processors, too: most of the time is the databases'.
    maxWorkers: Math.max(2, availableParallelism() - 1),
    testTimeout: 60_000,
    // Files share the modules that they import: reading those anew for each would take a fifth of the time.
    isolate: false,
    // A record of its own for a test file takes a while on a busy machine.
    hookTimeout: 60_000,
  },
});
