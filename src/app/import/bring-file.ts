/**
 * The steps of an import: a file is looked at, matched, previewed and taken.
 */
'use server';

import { redirect } from 'next/navigation';
import { IMPORT_KINDS, type ImportKind } from '../../domain/tables/wanted-columns.ts';
import { matchImport } from '../../usecases/import/match-import.ts';
import { previewImport } from '../../usecases/import/preview-import.ts';
import { takeImport } from '../../usecases/import/take-import.ts';
import type { Refusal } from '../../usecases/refusal.ts';
import { isConfirmed, textOf } from '../forms/submit.ts';
import { currentContext } from '../server/current-caller.ts';
import { logDefect, refusalOf } from '../server/refused.ts';
import { tellingAddress } from '../server/told.ts';
import type { ImportState } from './import-state.ts';
import { matchOf } from './match-fields.ts';
import { tellPreview, tellProblem, tellTaken } from './tell-preview.ts';

export async function bringFile(before: ImportState, sent: FormData): Promise<ImportState> {
  const kind = IMPORT_KINDS.find((known) => known === textOf(sent, 'kind')) ?? 'tickets';
  const base: ImportState = { turn: before.turn + 1, kind };
  let done: ImportState | { readonly to: string };
  try {
    done = await step(base, sent, kind);
  } catch (error) {
    const refused = refusalOf(error);
    done = {
      ...base,
      ...(before.matched && before.kind === kind ? kept(before, sent, kind) : {}),
      ...(refused
        ? tellRefused(refused, kind)
        : {
            refused: `Something is wrong on our side (reference ${logDefect(error)}). Nothing was recorded twice.`,
          }),
    };
  }
  if ('to' in done) redirect(done.to);
  return done;
}

function kept(
  { text, fileName, matched }: ImportState,
  sent: FormData,
  kind: ImportKind,
): Partial<ImportState> {
  return {
    ...(text === undefined ? {} : { text }),
    ...(fileName === undefined ? {} : { fileName }),
    ...(matched === undefined ? {} : { matched, match: matchOf(sent, kind) }),
  };
}

function tellRefused({ code, message, problems }: Refusal, kind: ImportKind): Partial<ImportState> {
  if (code !== 'bad-input') return { refused: message };
  return {
    refused: 'Nothing was recorded yet. Put this right:',
    problems: problems.map((one) => tellProblem(one, kind)),
  };
}

/** Columns that hold dates. */
const DATED = ['delivered_at', 'date', 'reported_on'];

async function step(
  base: ImportState,
  sent: FormData,
  kind: ImportKind,
): Promise<ImportState | { readonly to: string }> {
  const context = await currentContext();
  const agreementId = textOf(sent, 'agreement');
  const brought = sent.get('file');
  const isNew = brought instanceof File && brought.size > 0;
  const text = sent.get('text');
  if (!isNew && (typeof text !== 'string' || text === '')) {
    return { ...base, refused: 'Choose the file first. One that is chosen and still not here is empty.' };
  }
  const bytes = isNew
    ? new Uint8Array(await brought.arrayBuffer())
    : new TextEncoder().encode(typeof text === 'string' ? text : '');
  const fileName = isNew ? brought.name : textOf(sent, 'file_name');
  const matched = await matchImport(context, { agreementId, kind, bytes });
  const file = { ...base, fileName, text: new TextDecoder().decode(bytes), matched };
  if (isNew || textOf(sent, 'step') === 'match') {
    return { ...file, match: { ...matched.proposal, timeOffset: 'agreement' } };
  }
  const match = matchOf(sent, kind);
  // Where nothing is dated, the order of dates matters to nothing.
  const isDated = DATED.some((name) => match.columns[name] !== undefined);
  const dateOrder = match.dateOrder ?? (isDated ? '' : 'year-first');
  const asked = { agreementId, bytes, match: { ...match, kind, dateOrder } };
  if (textOf(sent, 'step') !== 'take') {
    const preview = tellPreview(await previewImport(context, asked), matched.header);
    return { ...file, match, preview };
  }
  const choices = {
    confirmed: isConfirmed(sent),
    leaveDiffering: textOf(sent, 'leave_differing') === 'yes',
  };
  try {
    const taken = await takeImport(context, { ...asked, ...choices });
    return {
      to: await tellingAddress('/import', { agreement: agreementId }, tellTaken(taken, kind, fileName)),
    };
  } catch (error) {
    if (refusalOf(error)?.code !== 'unusual') throw error;
    // The question stands in the preview, with its answer to tick.
    const preview = tellPreview(await previewImport(context, asked), matched.header);
    return { ...file, match, preview, refused: 'Nothing was recorded yet. Answer the question below first.' };
  }
}
