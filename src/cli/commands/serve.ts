/**
 * `huskledger serve`: the shared record in the browser.
 */
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { readEnvironment, WrongEnvironment } from '../../environment/environment.ts';
import { EXIT, type ExitStatus, WrongUse } from '../exit-status.ts';
import { packageFolder } from '../package-folder.ts';
import { servePages } from '../serve-pages.ts';
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

function readSettings() {
  try {
    return readEnvironment(process.env, process.cwd());
  } catch (error) {
    throw error instanceof WrongEnvironment ? new WrongUse(error.message) : error;
  }
}
