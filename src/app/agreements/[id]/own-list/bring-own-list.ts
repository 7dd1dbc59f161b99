/**
 * Brings an own list: the file is looked at, its columns are matched, and it is kept.
 */
'use server';

import { redirect } from 'next/navigation';
import { OWN_KINDS, type OwnKind, WANTED } from '../../../../domain/tables/wanted-columns.ts';
import { keepOwnList } from '../../../../usecases/season-close/keep-own-list.ts';
import { matchOwnList } from '../../../../usecases/season-close/open-own-list.ts';
import { textOf } from '../../../forms/submit.ts';
import { matchOf } from '../../../import/match-fields.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { logDefect, refusalOf } from '../../../server/refused.ts';
import { tellingAddress } from '../../../server/told.ts';
import type { OwnListState } from './own-list-state.ts';

export async function bringOwnList(before: OwnListState, sent: FormData): Promise<OwnListState> {
  const turn = before.turn + 1;
  const brought = sent.get('file');
  const isNew = brought instanceof File && brought.size > 0;
  const text = isNew ? await brought.text() : rawText(sent, 'text');
  const fileName = isNew ? brought.name : textOf(sent, 'file_name');
  if (text === '')
    return { turn, refused: 'Choose the file first. One that is chosen and still not here is empty.' };
  const agreementId = textOf(sent, 'agreement');
  const kind = OWN_KINDS.find((own) => own === textOf(sent, 'kind')) ?? 'own-loads';
  const bytes = new TextEncoder().encode(text);
  let state: OwnListState = { turn, fileName, text };
  let to = '';
  try {
    const context = await currentContext();
    const matched = await matchOwnList(context, { agreementId, bytes, kind });
    const isMatched = !isNew && textOf(sent, 'step') === 'keep';
    const match = isMatched ? matchOf(sent, kind) : { ...matched.proposal, timeOffset: 'agreement' };
    state = { ...state, matched, match };
    if (!isMatched) return state;
    const kept = await keepOwnList(context, {
      agreementId,
      bytes,
      fileName,
      match: { ...match, kind, dateOrder: match.dateOrder ?? '' },
    });
    const told = toldOf(kept, kind);
    to = await tellingAddress(`/agreements/${agreementId}/own-list`, {}, told);
  } catch (error) {
    return refusedState(state, { error, kind });
  }
  redirect(to);
}

function toldOf(
  { rows, left, isMinusUsual, isShared }: Awaited<ReturnType<typeof keepOwnList>>,
  kind: OwnKind,
): string {
  const [one, many] = kind === 'own-loads' ? ['load', 'loads'] : ['payment', 'payments'];
  const first = left[0];
  return [
    `Your list is kept, ${rows} ${rows === 1 ? one : many} of it, ${isShared ? 'and the other side sees it too, since both of you agree to that' : 'for your side alone'}.`,
    ...(isMinusUsual
      ? ['Most of its amounts have a minus: those are read as what the buyer paid the seller.']
      : []),
    ...(first
      ? [
          `${left.length} ${left.length === 1 ? 'line holds' : 'lines hold'} no ${one}${left.length === 1 ? '' : ', the first of them'}: line ${first.line} ${first.wrong}.`,
        ]
      : []),
  ].join(' ');
}

function rawText(sent: FormData, name: string): string {
  const value = sent.get(name);
  return typeof value === 'string' ? value : '';
}

function refusedState(
  state: OwnListState,
  { error, kind }: { readonly error: unknown; readonly kind: OwnKind },
): OwnListState {
  const refused = refusalOf(error);
  if (!refused) {
    return {
      ...state,
      refused: `Something is wrong on our side (reference ${logDefect(error)}). Nothing was kept.`,
    };
  }
  if (refused.code !== 'bad-input') return { ...state, refused: refused.message };
  const labels = new Map(WANTED[kind].map(({ name, label }) => [name, label]));
  return {
    ...state,
    refused: 'Nothing was kept yet. Put this right:',
    problems: refused.problems.map(({ column, message }) =>
      column === undefined ? message : `${labels.get(column) ?? NAMES[column] ?? column} ${message}`,
    ),
  };
}

const NAMES: Readonly<Record<string, string>> = { dateOrder: 'The order of dates', file: 'The file' };
