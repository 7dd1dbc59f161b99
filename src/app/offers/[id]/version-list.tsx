/**
 * Every version of an offer, newest first: who sent it, with what words, until when, and who signed it.
 */
import { momentInWords } from '../../../domain/dates/moment-words.ts';
import type { OfferPage } from '../../../usecases/offers/read-offer-page.ts';

export function VersionList({ page }: { readonly page: OfferPage }) {
  const { offer, timeZone, now } = page;
  const when = (moment: number) => momentInWords(moment, { timeZone, now });
  return (
    <section aria-labelledby="versions">
      <h2 id="versions">Every version, newest first</h2>
      <p className="hint">Times in {timeZone}. A version that was sent is never changed.</p>
      <ol className="versions">
        {[...offer.versions].reverse().map(({ version, by, message, validUntil, ...rest }) => (
          <li key={version}>
            <h3>Version {version}</h3>
            <p>
              Sent by {offer[by]} on {when(Date.parse(rest.sentAt))}, to be signed by {when(validUntil)}.
            </p>
            {message === null ? null : <blockquote>{message}</blockquote>}
            {rest.effectiveFrom === null ? null : <p>For loads delivered from {rest.effectiveFrom} on.</p>}
            {rest.signatures.length === 0 ? <p>Nobody has signed it.</p> : null}
            {rest.signatures.map(({ party, name, signedAt }) => (
              <p key={party}>
                Signed by {name} for {party} on {when(Date.parse(signedAt))}.
              </p>
            ))}
            <p className="hint">
              Fingerprint <code className="fingerprint">{rest.fingerprint}</code>
            </p>
            {offer.purpose === 'closing' ? null : (
              <p>
                <a href={`/offers/${offer.id}/paper?version=${version}`}>Version {version} as PDF</a>
              </p>
            )}
          </li>
        ))}
      </ol>
    </section>
  );
}
