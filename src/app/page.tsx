/**
 * The address of the program itself leads on: to the loads, the first run or the sign-in page.
 */
import { redirect } from 'next/navigation';
import { askToSignIn } from './server/ask.ts';
import { currentSession } from './server/current-caller.ts';

export default async function FrontPage() {
  if (await currentSession()) redirect('/loads');
  return await askToSignIn();
}
