/**
 * A laboratory's own page: the samples that wait for it, agreement by agreement, and the form to report one. It shows no
 * weight, no price and no term.
 */
import { randomUUID } from 'node:crypto';
import { mayDo } from '../../domain/parties/permissions.ts';
import { type LaboratoryWork, readLaboratoryWork } from '../../usecases/laboratories/read-laboratories.ts';
import type { Field } from '../forms/field.ts';
import { RecordForm } from '../forms/record-form.tsx';
import { type Asked, addressOf, askedText } from '../place/asked.ts';
import { Told } from '../place/told.tsx';
import { type ReportPreset, reportFields } from '../results/new/result-fields.ts';
import { ask } from '../server/ask.ts';
import { toldBy } from '../server/told.ts';
import { report } from './report-result.ts';

export const metadata = { title: 'Samples to report on' };

type Sample = LaboratoryWork['samples'][number];

export default async function LaboratoryPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const asked = await searchParams;
  const { work, role } = await ask(async (context) => ({
    work: await readLaboratoryWork(context),
    role: context.caller.role,
  }));
  const told = await toldBy(asked);
  const mayReport = mayDo(role, 'record-result');
  const chosenWork = work.find(({ agreementId }) => agreementId === askedText(asked, 'agreement'));
  const chosen = chosenWork?.samples.find(({ sample }) => sample === askedText(asked, 'sample'));
  const kept = { basis: askedText(asked, 'basis'), dryMatterMethod: askedText(asked, 'dry_matter_method') };
  const waiting = work.flatMap(({ samples }) => samples.filter(({ resultId }) => resultId === null)).length;
  return (
    <>
      <h1>Samples to report on</h1>
      <Told told={told} />
      <p>{standing(work.length, waiting)}</p>
      {mayReport && chosenWork && chosen && (chosen.resultId === null || chosen.isOwn) ? (
        <section aria-labelledby="report" className="narrow">
          <h2 id="report">
            {chosen.resultId === null ? 'Report' : 'Put right'} sample {chosen.sample}
          </h2>
          <p className="quiet-word">
            {chosenWork.label}
            {chosen.seal === null ? '' : `; your part is under seal ${chosen.seal}`}
          </p>
          <RecordForm
            key={chosen.sample}
            action={report}
            submit={chosen.resultId === null ? 'Report this result' : 'Report the corrected result'}
            fields={fieldsOf(chosenWork.agreementId, chosen, kept)}
            requestKey={randomUUID()}
          />
        </section>
      ) : null}
      {work.map(({ agreementId, label, samples }) => (
        <section key={agreementId} aria-labelledby={agreementId}>
          <h2 id={agreementId}>{label}</h2>
          <p>{others(samples)}</p>
          {samples.every(isOthers) ? null : (
            <div className="table-box">
              <table className="record-table">
                <thead>
                  <tr>
                    <th scope="col">Sample</th>
                    <th scope="col">Seal</th>
                    <th scope="col">Result</th>
                  </tr>
                </thead>
                <tbody>
                  {samples
                    .filter((sample) => !isOthers(sample))
                    .map((sample) => (
                      <tr key={sample.sample}>
                        <th scope="row">{sample.sample}</th>
                        <td>{sample.seal ?? 'none recorded'}</td>
                        <td>
                          {stands(sample)}{' '}
                          {mayReport ? (
                            <a
                              href={`${addressOf('/laboratory', {
                                agreement: agreementId,
                                sample: sample.sample,
                                basis: kept.basis,
                                dry_matter_method: kept.dryMatterMethod,
                              })}#report`}
                            >
                              {sample.resultId === null ? 'Report it' : 'Put it right'}
                              <span className="visually-hidden">: sample {sample.sample}</span>
                            </a>
                          ) : null}
                        </td>
                      </tr>
                    ))}
                </tbody>
              </table>
            </div>
          )}
        </section>
      ))}
    </>
  );
}

function standing(agreements: number, waiting: number): string {
  if (agreements === 0) {
    return 'No agreement lets you in as a laboratory. A seller or buyer does that from their agreement’s page.';
  }
  if (waiting === 0) return 'No sample waits for its result.';
  return waiting === 1 ? 'One sample waits for its result.' : `${waiting} samples wait for their results.`;
}

function stands({ resultId }: Sample): string {
  return resultId === null ? 'None yet.' : 'Reported by you.';
}

function isOthers({ resultId, isOwn }: Sample): boolean {
  return resultId !== null && !isOwn;
}

function others(samples: readonly Sample[]): string {
  if (samples.length === 0) return 'No sample of it is recorded yet.';
  const entered = samples.filter(isOthers).length;
  if (entered === 0) return '';
  return entered === 1
    ? 'The result of one sample was entered by a party of the agreement.'
    : `The results of ${entered} samples were entered by a party of the agreement.`;
}

function fieldsOf(agreementId: string, { sample, resultId }: Sample, preset: ReportPreset): readonly Field[] {
  const isCorrecting = resultId !== null;
  return [
    { kind: 'hidden', name: 'agreement', value: agreementId },
    { kind: 'hidden', name: 'sample', value: sample },
    { kind: 'hidden', name: 'correcting', value: isCorrecting ? 'yes' : '' },
    ...reportFields(preset, []),
    ...(isCorrecting
      ? [
          {
            kind: 'text',
            name: 'reason',
            label: 'What was wrong',
            hint: 'Both parties read it. What you reported first stays to be read.',
          } as const,
        ]
      : []),
  ];
}
