import { defineConfig } from 'rolldown';

export default defineConfig({
  input: {
    huskledger: 'src/cli/huskledger.ts',
    demo: 'demo/run.ts',
    bench: 'tests/bench/bench.ts',
    'plain-loop': 'tests/bench/plain-loop.ts',
  },
  platform: 'node',
  // jsonc-parser's CommonJS build cannot be bundled; its ES modules can.
  resolve: { mainFields: ['module', 'main'] },
  output: { dir: 'dist', format: 'esm', cleanDir: true },
});
