/**
 * The pages, served by Next in a process of its own: built once, then started on the record that the environment names.
 */
import { spawn } from 'node:child_process';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { Environment } from '../environment/environment.ts';
import { WrongUse } from './exit-status.ts';
import { isBuilt, noteBuilt, pagesSource } from './pages-build.ts';

export interface PagesToServe {
  readonly packageFolder: string;
  readonly environment: Environment;
  readonly say: (line: string) => void;
}

/** Serves until it is told to end. Returns the exit status of the server. Throws `WrongUse` where it cannot be built. */
export async function servePages({ packageFolder, environment, say }: PagesToServe): Promise<number> {
  const next = createRequire(join(packageFolder, 'package.json')).resolve('next/dist/bin/next');
  const { dataFolder, port } = environment;
  const variables = {
    ...process.env,
    HUSKLEDGER_DATA: dataFolder,
    PORT: String(port),
    NEXT_TELEMETRY_DISABLED: '1',
  };
  const run = (args: readonly string[]) =>
    new Promise<number>((resolve, reject) => {
      const child = spawn(process.execPath, [next, ...args], {
        cwd: packageFolder,
        env: variables,
        stdio: 'inherit',
      });
      // The server ends by the same signal; only then may this process.
      const pass = (signal: NodeJS.Signals) => child.kill(signal);
      for (const signal of SIGNALS) process.on(signal, pass);
      child.once('error', reject);
      child.once('exit', (code) => {
        for (const signal of SIGNALS) process.off(signal, pass);
        resolve(code ?? 0);
      });
    });
  const source = await pagesSource(packageFolder);
  if (!(await isBuilt(packageFolder, source))) {
    say('Building the pages, once for this version …');
    if ((await run(['build'])) !== 0)
      throw new WrongUse('The pages could not be built; the reason stands above.');
    await noteBuilt(packageFolder, source);
  }
  return await run(['start', '--port', String(port)]);
}

const SIGNALS = ['SIGINT', 'SIGTERM'] as const;
