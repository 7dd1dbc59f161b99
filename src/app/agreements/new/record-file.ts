/**
 * Records an agreement from its file. Which side the caller's party is on stands in the file, by name.
 */
'use server';

import { recordAgreement } from '../../../usecases/agreements/record-agreement.ts';
import { badInput } from '../../../usecases/read-input-rows.ts';
import type { FormState } from '../../forms/form-state.ts';
import { submit, textOf } from '../../forms/submit.ts';
import { currentContext, currentMembership, currentSession } from '../../server/current-caller.ts';

export async function recordFile(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const context = await currentContext();
    const document = parse(await fileText(sent));
    const session = await currentSession();
    const party = (session && (await currentMembership(session)))?.party ?? '';
    const ours = context.caller.partyId;
    const theirs = textOf(sent, 'other').toLowerCase();
    const sides =
      sideOf(document, party) === 'seller'
        ? { sellerId: ours, buyerId: theirs }
        : { sellerId: theirs, buyerId: ours };
    const key = textOf(sent, 'key');
    const { agreementId } = await recordAgreement(context, {
      document,
      ...sides,
      ...(key === '' ? {} : { key }),
    });
    return { to: `/agreements/${agreementId}` };
  });
}

async function fileText(sent: FormData): Promise<string> {
  const file = sent.get('file');
  if (file instanceof File && file.size > 0) return (await file.text()).replace(/^\uFEFF/, '');
  const text = textOf(sent, 'text');
  if (text === '') throw badInput([{ column: 'file', message: 'must be chosen, or its text pasted' }]);
  return text;
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw badInput([{ column: 'file', message: `is not JSON as it stands: ${why}` }]);
  }
}

/** The side that carries the party's name. Refuses `bad-input` where neither does; a file with other faults goes on. */
function sideOf(document: unknown, party: string): 'seller' | 'buyer' {
  const { seller, buyer } = (document ?? {}) as { readonly seller?: unknown; readonly buyer?: unknown };
  if (seller === party) return 'seller';
  if (buyer === party || typeof seller !== 'string' || typeof buyer !== 'string') return 'buyer';
  const message = `is between ${seller} and ${buyer}; one of them must be ${party}, as your party is called here`;
  throw badInput([{ column: 'file', message }]);
}
