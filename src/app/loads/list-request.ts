/**
 * Which loads an address asks for.
 */
import type { LoadListRequest } from '../../usecases/loads/read-load-list.ts';
import { type Asked, askedText } from '../place/asked.ts';

export type ListStatus = LoadListRequest['status'];

export const STATUSES = ['all', 'waiting', 'settled', 'refused'] as const satisfies readonly ListStatus[];

/** What is not understood asks for nothing in particular; an agreement of somebody else is refused where it is read. */
export function listRequest(asked: Asked, locale: string): LoadListRequest {
  const agreementId = askedText(asked, 'agreement');
  const after = readCursor(askedText(asked, 'next'));
  return {
    status: STATUSES.find((status) => status === askedText(asked, 'status')) ?? 'all',
    locale,
    ...(agreementId === undefined ? {} : { agreementId }),
    ...(after === undefined ? {} : { after }),
  };
}

type Cursor = NonNullable<LoadListRequest['after']>;

/** A cursor as it stands in an address. */
export function cursorText({ deliveredAt, id }: Cursor): string {
  return `${deliveredAt}_${id}`;
}

/** A cursor from an address; undefined where it is none. */
export function readCursor(text: string | undefined): Cursor | undefined {
  const match = /^(\d{1,15})_([0-9a-f-]{36})$/.exec(text ?? '');
  const [, deliveredAt, id] = match ?? [];
  return deliveredAt === undefined || id === undefined ? undefined : { deliveredAt: Number(deliveredAt), id };
}
