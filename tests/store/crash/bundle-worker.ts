/**
 * Bundles the worker as it stands in the source now, into a temporary folder that finds our packages: Node 20 does not
 * run TypeScript.
 */
import { mkdtemp, rm, symlink } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { rolldown } from 'rolldown';

export interface Program {
  readonly path: string;
  readonly remove: () => Promise<void>;
}

export async function bundleWorker(): Promise<Program> {
  const folder = await mkdtemp(join(tmpdir(), 'huskledger-worker-'));
  await symlink(resolve('node_modules'), join(folder, 'node_modules'));
  const bundle = await rolldown({
    input: { worker: 'tests/store/crash/worker.ts' },
    platform: 'node',
    // Packages stay where they are: the embedded database loads files beside itself.
    external: (id) => !/^[./]/.test(id) && id !== 'worker',
  });
  await bundle.write({ dir: folder, format: 'esm', entryFileNames: '[name].mjs' });
  await bundle.close();
  return {
    path: join(folder, 'worker.mjs'),
    remove: () => rm(folder, { recursive: true, force: true }),
  };
}
