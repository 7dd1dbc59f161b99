import { defineConfig } from 'rolldown';

const platform = 'node';
// jsonc-parser's CommonJS build cannot be bundled; its ES modules can.
const resolve = { mainFields: ['module', 'main'] };

export default defineConfig([
  // The program for itself, so that it starts from one file.
  {
    input: { huskledger: 'src/cli/huskledger.ts' },
    platform,
    resolve,
    output: { dir: 'dist', format: 'esm', cleanDir: true },
  },
  {
    input: { demo: 'demo/run.ts', bench: 'tests/bench/bench.ts', 'plain-loop': 'tests/bench/plain-loop.ts' },
    platform,
    resolve,
    output: { dir: 'dist/tools', format: 'esm' },
  },
]);
