/**
 * What a request told other parties goes out by e-mail once its answer has left: a slow mail server holds no page.
 */
import { after } from 'next/server';
import { mailNotices } from '../../usecases/notices/mail-notices.ts';
import { openedRecord } from './record.ts';
import { settings } from './settings.ts';

/** To be called in a request that may have told somebody of something. Without a mail server it does nothing. */
export function mailAfterwards(): void {
  if (!settings().mail) return;
  after(async () => {
    try {
      const { failures } = await mailNotices(await openedRecord(), { address: settings().address });
      for (const failure of failures) console.error('An e-mail did not go out:', failure);
    } catch (error) {
      console.error('E-mail could not be sent:', error);
    }
  });
}
