import { defineConfig } from 'rolldown';

const platform = 'node';
// jsonc-parser's CommonJS build cannot be bundled; its ES modules can.
const resolve = { mainFields: ['module', 'main'] };

/** Packages that stay where npm put them: they bring WebAssembly or native code, or are large. */
const external = [/^@electric-sql\//, /^@prisma\//, /^@node-rs\//, 'pg', 'next', 'playwright-core'];

export default defineConfig([
  // The program for itself, so that it starts from one file.
  {
    input: { huskledger: 'src/cli/huskledger.ts' },
    platform,
    resolve,
    external,
    output: { dir: 'dist', format: 'esm', cleanDir: true },
  },
  {
    input: {
      demo: 'demo/run.ts',
      bench: 'tests/bench/bench.ts',
      'plain-loop': 'tests/bench/plain-loop.ts',
      'write-migration': 'prisma/write-migration.ts',
    },
    platform,
    resolve,
    external,
    output: { dir: 'dist/tools', format: 'esm' },
  },
]);
