/**
 * Before the browser tests: the program is built, a record with a demo season is made, and the program is started on it.
 */
import type { TestProject } from 'vitest/node';
import type { MarketIds } from './market-record.ts';
import { buildProgram, newDataFolder, startProgram } from './program.ts';
import { fillRecord } from './season-record.ts';

declare module 'vitest' {
  interface ProvidedContext {
    readonly address: string;
    readonly agreementId: string;
    readonly documentId: string;
    readonly market: MarketIds;
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const folder = await newDataFolder();
  const [{ agreementId, documentId, ...market }] = await Promise.all([
    fillRecord(folder.path, 'quillback-tarn-hollow'),
    process.env['HUSKLEDGER_BUILT'] === undefined ? buildProgram() : undefined,
  ]);
  const program = await startProgram(folder.path);
  project.provide('address', program.address);
  project.provide('agreementId', agreementId);
  project.provide('documentId', documentId);
  project.provide('market', market);
  return async () => {
    await program.stop();
    await folder.remove();
  };
}
