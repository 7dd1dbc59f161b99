import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/store/**/*.test.ts', 'tests/usecases/**/*.test.ts'],
    // Ended at every step by `npm run test:kills`.
    exclude: ['tests/usecases/money-faults.test.ts'],
    globalSetup: 'tests/store/server-for-all.ts',
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
