import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    // Those need the built program and a browser: `npm run test:browser`.
    exclude: ['tests/browser/**'],
    testTimeout: 60_000,
  },
});
