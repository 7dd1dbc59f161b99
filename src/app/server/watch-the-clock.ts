/**
 * Lets time pass for open questions: at the start, and every quarter of an hour after it. Several servers on one record may
 * do so at once; each question ends once.
 */
import { mailNotices } from '../../usecases/notices/mail-notices.ts';
import { passTime } from '../../usecases/retests/pass-time.ts';
import { openedRecord } from './record.ts';
import { settings } from './settings.ts';

const EVERY = 15 * 60_000;

/** The process may end while it waits. */
export function watchTheClock(): void {
  void look();
  setInterval(() => void look(), EVERY).unref();
}

async function look(): Promise<void> {
  try {
    const record = await openedRecord();
    const { decided, reminded, failures } = await passTime(record);
    for (const failure of failures) console.error('A question could not be decided:', failure);
    if (decided + reminded > 0 && settings().mail) await mailNotices(record, { address: settings().address });
  } catch (error) {
    console.error('Time could not be passed:', error);
  }
}
