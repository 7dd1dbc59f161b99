/**
 * One thing that a buyer wrote down of a silo, with the forms that put it right or take it back.
 */
import { randomUUID } from 'node:crypto';
import type { Figures } from '../../../../documents/figures.ts';
import type { LocalDate } from '../../../../domain/dates/local-date.ts';
import type { SiloEntryView } from '../../../../usecases/storage/read-silos.ts';
import type { Field } from '../../../forms/field.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { putRight, takeBack } from './silo-actions.ts';
import { siloFields } from './silo-fields.ts';
import { ENTRY_NAMES, entrySentence } from './silo-words.ts';

export interface EntryItemProps {
  readonly agreementId: string;
  readonly entry: SiloEntryView;
  readonly today: LocalDate;
  readonly figures: Figures;
  readonly mayWrite: boolean;
}

export function EntryItem({ agreementId, entry, today, figures: { show }, mayWrite }: EntryItemProps) {
  const { kind, reason } = entry;
  const words = entrySentence(entry, { show, today });
  const label = kind === 'silo' ? words : `${ENTRY_NAMES[kind]}: ${words}`;
  return (
    <li>
      <span>
        {label}
        {reason === null ? null : <span className="under">Put right: {reason}</span>}
      </span>
      {mayWrite ? <PutRight agreementId={agreementId} entry={entry} label={label} /> : null}
    </li>
  );
}

export interface PutRightProps {
  readonly agreementId: string;
  readonly entry: SiloEntryView;
  readonly label: string;
}

export function PutRight({ agreementId, entry, label }: PutRightProps) {
  const { entryId, version, kind, content } = entry;
  const about: readonly Field[] = [
    { kind: 'hidden', name: 'agreement', value: agreementId },
    { kind: 'hidden', name: 'entry', value: entryId },
    { kind: 'hidden', name: 'version', value: String(version) },
    { kind: 'hidden', name: 'of', value: kind },
  ];
  const why: Field = { kind: 'text', name: 'reason', label: 'Why', hint: 'It is kept, for you alone.' };
  return (
    <>
      <RecordForm
        action={putRight}
        submit="Put it right"
        fields={[...about, ...siloFields(kind, content), why]}
        requestKey={randomUUID()}
        scope={`right-${entryId}`}
        folded={{
          summary: (
            <Summary words={kind === 'silo' ? 'Put its name or kind right' : 'Put it right'} label={label} />
          ),
        }}
      />
      <RecordForm
        action={takeBack}
        submit={kind === 'silo' ? 'Take back all of it' : 'Take it back'}
        fields={[...about, why]}
        requestKey={randomUUID()}
        scope={`back-${entryId}`}
        folded={{
          summary: (
            <Summary
              words={kind === 'silo' ? 'Take back all that is written here' : 'Take it back'}
              label={label}
            />
          ),
        }}
        quiet
      />
    </>
  );
}

function Summary({ words, label }: { readonly words: string; readonly label: string }) {
  return (
    <>
      {words}
      <span className="visually-hidden">, {label}</span>
    </>
  );
}
