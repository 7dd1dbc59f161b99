/**
 * What anybody may see of a lot, without sign-in: the kind of feed with the parts of the ear in it, and the parts that
 * the seller marked. What is not marked is not in the extract at all, so no page can show it.
 */
import { FEEDS } from '../agreement/measures.ts';
import { agreementInWords } from '../words/agreement-words.ts';
import { askingAgreement, type LotDocument, type PublicPart } from './lot-document.ts';

export interface PublicExtract {
  readonly parts: readonly PublicPart[];
  readonly feed: LotDocument['feed'];
  /** With the parts of the ear in it. */
  readonly feedWords: string;
  readonly until: string;
  readonly seller?: string;
  readonly amount?: Pick<LotDocument, 'wetTons' | 'ton'> & { readonly dryTons?: string | undefined };
  readonly storage?: LotDocument['storage'];
  readonly harvest?: LotDocument['harvest'];
  readonly tests?: LotDocument['tests'];
  readonly moisture?: LotDocument['moisture'];
  readonly region?: string;
  readonly delivery?: Pick<LotDocument, 'hauledBy' | 'weighedBy'>;
  /** The asking price in sentences. */
  readonly price?: readonly string[];
  readonly notes?: string;
}

/** The extract of a lot with the marked parts. */
export function publicExtract(
  lot: LotDocument,
  { seller, parts }: { readonly seller: string; readonly parts: readonly PublicPart[] },
): PublicExtract {
  const has = (part: PublicPart) => parts.includes(part);
  const { feed, until, wetTons, dryTons, ton, storage, harvest, moisture, region, hauledBy, weighedBy } = lot;
  const tests = (lot.tests ?? []).map(({ file: _, ...test }) => test);
  return {
    parts,
    feed,
    feedWords: FEEDS[feed],
    until,
    ...(has('seller') ? { seller } : {}),
    ...(has('amount') ? { amount: { wetTons, dryTons, ton } } : {}),
    ...(has('storage') ? { storage, harvest } : {}),
    ...(has('tests') ? { tests, moisture } : {}),
    ...(has('region') ? { region } : {}),
    ...(has('delivery') ? { delivery: { hauledBy, weighedBy } } : {}),
    ...(has('price') ? { price: priceWords(lot) } : {}),
    ...(has('notes') && lot.notes !== undefined ? { notes: lot.notes } : {}),
  };
}

function priceWords(lot: LotDocument): readonly string[] {
  return agreementInWords(askingAgreement(lot))
    .filter(({ heading }) => heading === 'Reference prices' || heading === 'The price of a load')
    .flatMap(({ paragraphs }) => paragraphs);
}
