import { defineConfig } from 'vitest/config';

/** Kills and waits take their time: apart from `npm test`, in .ci/run with few kills, in `npm run test:crash` with many. */
export default defineConfig({
  test: {
    include: ['tests/store/crash/**/*.test.ts', 'tests/usecases/money-faults.test.ts'],
    globalSetup: 'tests/store/template-for-all.ts',
    // Much of it is waiting.
    maxWorkers: 3,
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
