/**
 * The shared record for one command: opened, and closed however the command ends.
 */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readEnvironment, WrongEnvironment } from '../environment/environment.ts';
import { EngineUnavailable, type OpenRecord, openRecord } from '../usecases/open-record.ts';
import { Refusal } from '../usecases/refusal.ts';
import { WrongUse } from './exit-status.ts';

/** The folder of this package: the nearest above this file that has its migrations. */
export function packageFolder(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'prisma', 'migrations'))) {
    const above = dirname(folder);
    if (above === folder) throw new Error('The package has lost its folder prisma/migrations');
    folder = above;
  }
  return folder;
}

/** Does `work` with the record that the environment names. What is expected to fail is thrown as `WrongUse`. */
export async function withRecord<Answer>(work: (record: OpenRecord) => Promise<Answer>): Promise<Answer> {
  try {
    const environment = readEnvironment(process.env, process.cwd());
    const record = await openRecord(environment, packageFolder());
    try {
      return await work(record);
    } finally {
      await record.close();
    }
  } catch (error) {
    const isExpected =
      error instanceof EngineUnavailable || error instanceof Refusal || error instanceof WrongEnvironment;
    throw isExpected ? new WrongUse(error.message) : error;
  }
}
