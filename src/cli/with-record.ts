/**
 * The shared record for one command: opened, and closed however the command ends.
 */
import { EngineUnavailable, type OpenRecord, openRecord } from '../usecases/open-record.ts';
import { Refusal } from '../usecases/refusal.ts';
import { WrongUse } from './exit-status.ts';
import { packageFolder } from './package-folder.ts';
import { readSettings } from './settings.ts';

/** Does `work` with the record that the environment names. What is expected to fail is thrown as `WrongUse`. */
export async function withRecord<Answer>(work: (record: OpenRecord) => Promise<Answer>): Promise<Answer> {
  try {
    const record = await openRecord(readSettings(), packageFolder());
    try {
      return await work(record);
    } finally {
      await record.close();
    }
  } catch (error) {
    const isExpected = error instanceof EngineUnavailable || error instanceof Refusal;
    throw isExpected ? new WrongUse(error.message) : error;
  }
}
