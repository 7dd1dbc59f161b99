/**
 * A page of loads, newest first. `status`, `agreement` and `next` as in the address of the page of loads.
 */
import type { NextRequest } from 'next/server';
import { readLoadList } from '../../../../usecases/loads/read-load-list.ts';
import { cursorText, listRequest } from '../../../loads/list-request.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { readJson } from '../../ask-json.ts';

export async function GET(request: NextRequest): Promise<Response> {
  const asked = Object.fromEntries(request.nextUrl.searchParams);
  const wanted = listRequest(asked, await readerLocale());
  return await readJson(async (context) => {
    const { loads, next } = await readLoadList(context, wanted);
    return { loads, next: next ? cursorText(next) : null };
  });
}
