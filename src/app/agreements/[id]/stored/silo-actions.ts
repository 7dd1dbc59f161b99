/**
 * Writes down what a buyer stored, fed and has left, puts it right and takes it back.
 */
'use server';

import {
  SILO_ENTRY_KINDS,
  SILO_ENTRY_SHAPES,
  type SiloEntryKind,
} from '../../../../domain/storage/silo-row.ts';
import { badInput } from '../../../../usecases/read-input-rows.ts';
import { correctSiloEntry, withdrawSiloEntry } from '../../../../usecases/storage/correct-entry.ts';
import { fillSilo } from '../../../../usecases/storage/fill-silo.ts';
import { openSilo } from '../../../../usecases/storage/open-silo.ts';
import { recordFed } from '../../../../usecases/storage/record-fed.ts';
import { recordLeft } from '../../../../usecases/storage/record-left.ts';
import type { FormState } from '../../../forms/form-state.ts';
import { isConfirmed, keyOf, rowOf, submit, textOf } from '../../../forms/submit.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { tellingAddress } from '../../../server/told.ts';

const WRITE = { filling: fillSilo, fed: recordFed, left: recordLeft } as const;

export async function open(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const agreementId = textOf(sent, 'agreement');
    await openSilo(await currentContext(), { agreementId, silo: row(sent, 'silo'), ...keyOf(sent) });
    return await back(agreementId, `${textOf(sent, 'name')} is opened. Say next which loads went in.`);
  });
}

export async function write(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const agreementId = textOf(sent, 'agreement');
    const kind = kindOf(sent);
    if (kind === 'silo') throw badInput([{ message: 'This form is not known. Load the page again.' }]);
    await WRITE[kind](await currentContext(), {
      ...{ agreementId, siloId: textOf(sent, 'silo'), row: row(sent, kind) },
      confirmed: isConfirmed(sent),
      ...keyOf(sent),
    });
    return await back(agreementId, 'It is written down.');
  });
}

export async function putRight(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const entry = entryOf(sent);
    await correctSiloEntry(await currentContext(), {
      ...entry,
      row: row(sent, kindOf(sent)),
      confirmed: isConfirmed(sent),
    });
    return await back(entry.agreementId, 'It is put right; what stood before is kept behind it.');
  });
}

export async function takeBack(before: FormState, sent: FormData): Promise<FormState> {
  return await submit(before, sent, async () => {
    const entry = entryOf(sent);
    await withdrawSiloEntry(await currentContext(), entry);
    return await back(entry.agreementId, 'It is taken back and counts no more.');
  });
}

function entryOf(sent: FormData) {
  return {
    agreementId: textOf(sent, 'agreement'),
    entryId: textOf(sent, 'entry'),
    baseVersion: Number(textOf(sent, 'version')),
    reason: textOf(sent, 'reason'),
    ...keyOf(sent),
  };
}

function kindOf(sent: FormData): SiloEntryKind {
  const kind = SILO_ENTRY_KINDS.find((known) => known === textOf(sent, 'of'));
  if (kind === undefined) throw badInput([{ message: 'This form is not known. Load the page again.' }]);
  return kind;
}

/** The columns of a kind; what is left was weighed or measured, so the units of the other way are no part of it. */
function row(sent: FormData, kind: SiloEntryKind): Record<string, string> {
  const { required, optional } = SILO_ENTRY_SHAPES[kind];
  const texts = rowOf(sent, [...required, ...optional]);
  if (kind !== 'left') return texts;
  const idle =
    texts['how'] === 'measured' ? ['unit'] : ['measures', ...(texts['how'] === 'empty' ? ['unit'] : [])];
  return Object.fromEntries(Object.entries(texts).filter(([column]) => !idle.includes(column)));
}

async function back(agreementId: string, words: string): Promise<{ readonly to: string }> {
  return { to: await tellingAddress(`/agreements/${agreementId}/stored`, {}, words) };
}
