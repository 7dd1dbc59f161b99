/**
 * Opens the shared record with a clock and ids, for whatever shell the program runs in.
 */
import { join } from 'node:path';
import { v7 } from 'uuid';
import type { Environment } from '../environment/environment.ts';
import { openStore } from '../store/open-store.ts';
import type { Tools } from './context.ts';

export { EngineUnavailable } from '../store/engine/open-engine.ts';

export interface OpenRecord extends Tools {
  /** Says which database this is, for a person. */
  readonly description: string;
  readonly close: () => Promise<void>;
}

/** `packageFolder` is where `prisma/migrations` lies. Throws `EngineUnavailable` with words that say what to do. */
export async function openRecord(
  { databaseUrl, dataFolder }: Pick<Environment, 'databaseUrl' | 'dataFolder'>,
  packageFolder: string,
): Promise<OpenRecord> {
  const store = await openStore({
    databaseUrl,
    dataFolder,
    migrations: join(packageFolder, 'prisma', 'migrations'),
  });
  return {
    store,
    now: () => Date.now(),
    newId: v7,
    description: store.description,
    close: store.close,
  };
}
