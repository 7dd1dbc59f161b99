import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    // Those need the built program and a browser, and these kill and wait: `npm run test:browser`, `npm run test:crash`.
    exclude: ['tests/browser/**', 'tests/store/crash/**'],
    testTimeout: 60_000,
    // A record of its own for a test file takes a while on a busy machine.
    hookTimeout: 60_000,
  },
});
