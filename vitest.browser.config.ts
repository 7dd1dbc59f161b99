import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/browser/**/*.test.ts'],
    globalSetup: 'tests/browser/global-setup.ts',
    testTimeout: 60_000,
    hookTimeout: 120_000,
    // One program serves them all, and two cores do the rest.
    fileParallelism: false,
  },
});
