/**
 * One agreement: what is in force today in words, how it came to bind, what was delivered, and what can be proposed.
 */
import {
  type AgreementPage as AgreementPageView,
  readAgreementPage,
} from '../../../usecases/agreements/read-agreement-page.ts';
import { AdvicePanel } from '../../advice/advice-panel.tsx';
import type { Asked } from '../../place/asked.ts';
import { Told } from '../../place/told.tsx';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { toldBy } from '../../server/told.ts';
import { WordsView } from '../words-view.tsx';
import { AgreementSteps } from './agreement-steps.tsx';
import { VersionFacts } from './version-facts.tsx';

export const metadata = { title: 'Agreement' };

export interface AgreementPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function AgreementPage({ params, searchParams }: AgreementPageProps) {
  const [{ id }, asked, locale] = [await params, await searchParams, await readerLocale()];
  const { page, role } = await ask(async (context) => ({
    page: await readAgreementPage(context, { agreementId: id, locale }),
    role: context.caller.role,
  }));
  const { name, number, seller, buyer, versions, lot, delivered, closing } = page;
  const inForce = versions.find(({ isInForce }) => isInForce);
  const others = versions.filter((version) => version !== inForce).reverse();
  const told = await toldBy(asked);
  return (
    <article>
      <h1>{name}</h1>
      <p className="quiet-word">
        {seller} and {buyer}
        {page.isSignedHere ? `; its file is called ${number}` : '; signed elsewhere and recorded here'}
      </p>
      <Told told={told} />
      {closing ? (
        <p className="standing">
          Closed early by both sides: {closing.lastDelivery} is the last day of delivery. Loads delivered
          until then are settled and paid as agreed.
        </p>
      ) : null}
      {delivered === undefined ? null : <p className="owed">{delivered}</p>}
      {lot && lot.address !== null ? (
        <p>
          The feed lies at {lot.address} (<a href={`/lots/${lot.id}`}>lot {lot.number}</a>).
        </p>
      ) : null}
      <AgreementSteps page={page} role={role} />
      {inForce ? (
        <section aria-labelledby="in-force">
          <h2 id="in-force">{inForceTitle(page, inForce.version)}</h2>
          <WordsView sections={inForce.sections} level={3} />
          <section>
            <h3>How it came to bind</h3>
            <VersionFacts page={page} version={inForce} />
          </section>
        </section>
      ) : null}
      {others.map((version) => (
        <section key={version.version}>
          <h2>
            Version {version.version}
            {version.effectiveFrom === null
              ? ', before it was amended'
              : `, from ${version.effectiveFrom} on`}
          </h2>
          <VersionFacts page={page} version={version} />
          <details className="more-fields">
            <summary>Version {version.version} in words</summary>
            <WordsView sections={version.sections} level={3} />
          </details>
        </section>
      ))}
      <AdvicePanel subject={{ agreementId: id }} />
    </article>
  );
}

function inForceTitle({ versions }: AgreementPageView, version: number): string {
  return versions.length === 1 ? 'What was agreed' : `What counts today: version ${version}`;
}
