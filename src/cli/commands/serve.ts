/**
 * `huskledger serve`: the shared record in the browser.
 */
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { EXIT, type ExitStatus } from '../exit-status.ts';
import { packageFolder } from '../package-folder.ts';
import { servePages } from '../serve-pages.ts';
import { readSettings } from '../settings.ts';
import type { Terminal } from '../terminal.ts';

export async function serveCommand(args: readonly string[], terminal: Terminal): Promise<ExitStatus> {
  parseArgs({ args: [...args], options: {} });
  const environment = readSettings();
  const status = await servePages({
    packageFolder: packageFolder(),
    environment: { ...environment, dataFolder: resolve(environment.dataFolder) },
    say: terminal.say,
  });
  return status === 0 ? EXIT.done : EXIT.wrong;
}
