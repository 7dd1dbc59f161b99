/**
 * How a page asks a use case: what is refused becomes "not found", "not for your role", or the sign-in page.
 */
import { headers } from 'next/headers';
import { forbidden, notFound, redirect } from 'next/navigation';
import type { Context } from '../../usecases/context.ts';
import { isFirstRun } from '../../usecases/people/create-first-person.ts';
import { currentContext } from './current-caller.ts';
import { openedRecord } from './record.ts';
import { refusalOf } from './refused.ts';

/** Does `work` as the caller. Where it is refused, the page ends here. */
export async function ask<Answer>(work: (context: Context) => Promise<Answer>): Promise<Answer> {
  let refused: ReturnType<typeof refusalOf>;
  try {
    return await work(await currentContext());
  } catch (error) {
    refused = refusalOf(error);
    if (!refused) throw error;
  }
  switch (refused.code) {
    case 'not-signed-in':
      return await askToSignIn();
    case 'not-allowed':
    case 'not-yours':
      return forbidden();
    default:
      return notFound();
  }
}

/** Leads to the sign-in page and back; to the first run where nobody has come yet. */
export async function askToSignIn(): Promise<never> {
  if (await isFirstRun(await openedRecord())) redirect('/welcome');
  const back = (await headers()).get('x-huskledger-path') ?? '/';
  redirect(back === '/' ? '/sign-in' : `/sign-in?back=${encodeURIComponent(back)}`);
}

/** An address of ours to go back to, whatever was asked for. */
export function backTo(asked: string | undefined): string {
  return asked !== undefined && /^\/(?![/\\])[^\\\s]*$/.test(asked) ? asked : '/';
}
