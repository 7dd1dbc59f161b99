/**
 * How one version of an agreement came to bind: from which day, who signed it, its fingerprint and its paper.
 */
import { momentInWords } from '../../../domain/dates/moment-words.ts';
import type { AgreementPage, AgreementVersion } from '../../../usecases/agreements/read-agreement-page.ts';

export interface VersionFactsProps {
  readonly page: AgreementPage;
  readonly version: AgreementVersion;
}

export function VersionFacts({ page, version }: VersionFactsProps) {
  const { id, timeZone, now } = page;
  const { effectiveFrom, signatures, fingerprint } = version;
  return (
    <>
      <p>
        {effectiveFrom === null
          ? 'It counts from the first load on.'
          : `It counts for loads delivered from ${effectiveFrom} on; earlier ones keep the version before.`}
      </p>
      {signatures.length === 0 ? (
        <p>It was signed elsewhere; its signatures are on your own paper.</p>
      ) : (
        signatures.map(({ party, name, signedAt }) => (
          <p key={party}>
            Signed by {name} for {party} on {momentInWords(Date.parse(signedAt), { timeZone, now })}.
          </p>
        ))
      )}
      <p>
        <a className="plain-link" href={`/agreements/${id}/paper?version=${version.version}`}>
          Version {version.version} as PDF
        </a>
      </p>
      <h3>Fingerprint</h3>
      <p className="hint">
        The same 64 signs stand on its paper and on every invoice under it. If a term were changed, they would
        be others.
      </p>
      <p>
        <code className="fingerprint">{fingerprint}</code>
      </p>
    </>
  );
}
