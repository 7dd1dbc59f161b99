/**
 * What a seller says of a lot, as a list of facts.
 */
import type { LotView } from '../../../usecases/lots/read-lot-view.ts';
import { opening } from '../../place/sentence.ts';
import { GasCaution } from '../cautions.tsx';
import { distanceWords } from '../lot-words.ts';

export function LotFacts({ view }: { readonly view: LotView }) {
  const { summary, document, particleSize, inoculant, notes, address } = view;
  const { storage, harvest, moisture, region, hauledBy, weighedBy, processing, seller, until, isOwn } =
    summary;
  const facts: readonly (readonly [string, string | undefined])[] = [
    ['Kept', opening(storage)],
    ['Harvest', `${harvest.from} to ${harvest.to}`],
    ['Expected moisture', moisture],
    ['Processing', processing],
    ['Particle size', particleSize],
    ['Inoculant', inoculant],
    ['Where', [region, distanceWords(summary)].filter(Boolean).join(', ')],
    ['Address', address ?? undefined],
    ['Hauled by', hauledBy === 'seller' ? (isOwn ? 'you' : seller) : 'the buyer'],
    ['Weighed by', weighedBy],
    ['Offered until the end of', until],
    ['Notes', notes],
  ];
  return (
    <section>
      <h2>The feed</h2>
      <dl className="facts">
        {facts.map(([name, fact]) =>
          fact === undefined ? null : (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{fact}</dd>
            </div>
          ),
        )}
      </dl>
      {address === null ? (
        <p className="hint">The address is told to the buyer once both sides have signed.</p>
      ) : null}
      {document['storage'] === 'upright-silo' ? <GasCaution /> : null}
    </section>
  );
}
