/**
 * The open record: one for each process, whatever number of bundles and reloads ask for it.
 */
import { smtpMailer } from '../../mail/smtp-mailer.ts';
import { type OpenRecord, openRecord } from '../../usecases/open-record.ts';
import { settings } from './settings.ts';

const PLACE = Symbol.for('huskledger.record');
const keeper = globalThis as typeof globalThis & { [PLACE]?: Promise<OpenRecord> };

/** Throws `EngineUnavailable`; the next call tries again. */
export async function openedRecord(): Promise<OpenRecord> {
  keeper[PLACE] ??= openWithMail();
  try {
    return await keeper[PLACE];
  } catch (error) {
    delete keeper[PLACE];
    throw error;
  }
}

async function openWithMail(): Promise<OpenRecord> {
  const { mail, ...where } = settings();
  const record = await openRecord(where, process.cwd());
  return mail ? { ...record, mailer: smtpMailer(mail) } : record;
}
