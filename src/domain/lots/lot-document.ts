/**
 * What a seller says of feed for sale: kind, amount, storage, when, tests so far, who hauls, and the asking formula.
 * Every number is a string, as in the agreement file. Where the feed lies is told by region; its address stands apart.
 */
import { z } from 'zod';
import { checkAgreement } from '../agreement/check-agreement.ts';
import { describeIssue } from '../agreement/describe-issue.ts';
import type { Agreement } from '../agreement/document.ts';
import { FEED_KINDS } from '../agreement/measures.ts';
import type { AgreementProblem } from '../agreement/problem.ts';
import { asGroup } from '../agreement/raw.ts';
import {
  aboveZero,
  anyNumber,
  date,
  notNegative,
  percentage,
  share,
  text,
} from '../agreement/scalar-shapes.ts';
import { isTimeZone } from '../dates/instant.ts';
import { currencyDecimals } from '../money/currency.ts';
import { compare, decimal } from '../numbers/exact.ts';
import { checkLotTest } from './lot-test.ts';

export const STORAGES = ['bag', 'bunker', 'pile', 'upright-silo', 'standing'] as const;
export type Storage = (typeof STORAGES)[number];

/** How a storage is called in a sentence. */
export const STORAGE_NAMES: Readonly<Record<Storage, string>> = {
  bag: 'in a bag',
  bunker: 'in a bunker',
  pile: 'in a pile',
  'upright-silo': 'in an upright silo',
  standing: 'standing in the field',
};

/** A test of the feed so far, as the laboratory reported it; constituents in percent of dry matter. */
const lotTest = z.strictObject({
  on: date,
  laboratory: text,
  method: text.optional(),
  'dry-matter': share,
  starch: percentage.optional(),
  ndf: percentage.optional(),
  adf: percentage.optional(),
  'crude-protein': percentage.optional(),
  'crude-fat': percentage.optional(),
  ash: percentage.optional(),
  ph: notNegative.optional(),
  'ammonia-nitrogen': percentage.optional(),
  'particle-size': notNegative.optional(),
  aflatoxin: notNegative.optional(),
  vomitoxin: notNegative.optional(),
  /** The id of an attached report. */
  file: text.optional(),
});
export type LotTest = z.infer<typeof lotTest>;

const lotShape = z.strictObject({
  feed: z.enum(FEED_KINDS),
  currency: text,
  timeZone: text,
  wetTons: aboveZero,
  dryTons: aboveZero.optional(),
  ton: z.enum(['short-ton', 'tonne']),
  storage: z.enum(STORAGES),
  harvest: z.strictObject({ from: date, to: date }),
  /** Expected, in percent as-fed. */
  moisture: z.strictObject({ from: percentage, to: percentage }),
  tests: z.array(lotTest).max(40, { error: 'at most 40 tests' }).optional(),
  processing: text.optional(),
  /** Micrometres, geometric mean. */
  particleSize: aboveZero.optional(),
  inoculant: text.optional(),
  region: text,
  /** Degrees north and east, coarse: to one decimal, so that no yard is told by it. */
  place: z.strictObject({ latitude: anyNumber, longitude: anyNumber }).optional(),
  hauledBy: z.enum(['seller', 'buyer']),
  weighedBy: text,
  /** The last day of the offer, in the lot's time zone. */
  until: date,
  notes: text.optional(),
});

/** What others may see of a lot without signing in; the kind of feed and its parts always. */
export const PUBLIC_PARTS = [
  'seller',
  'amount',
  'storage',
  'tests',
  'region',
  'delivery',
  'price',
  'notes',
] as const;
export type PublicPart = (typeof PUBLIC_PARTS)[number];

export interface LotDocument extends z.infer<typeof lotShape> {
  /** An agreement file without `id`, `seller` and `buyer`, which only an offer has. */
  readonly asking: Readonly<Record<string, unknown>>;
}

export interface CheckedLot {
  readonly lot: LotDocument | undefined;
  /** With paths into the document: `$.harvest.to`. */
  readonly problems: readonly AgreementProblem[];
}

/** Checks a lot's document. Returns all problems, those of the asking formula under `asking`. */
export function checkLot(document: unknown): CheckedLot {
  const whole = asGroup(document);
  if (!whole) {
    return { lot: undefined, problems: [{ path: [], message: 'must be a group in braces, { … }' }] };
  }
  const { asking, ...rest } = whole as Record<string, unknown>;
  const parsed = lotShape.safeParse(rest);
  const problems = [
    ...(parsed.success ? [] : parsed.error.issues.flatMap((issue) => describeIssue(issue, rest))),
    ...(parsed.data ? checkRules(parsed.data) : []),
    ...checkAsking(asking, parsed.data),
  ];
  if (problems.length > 0 || !parsed.data) return { lot: undefined, problems };
  return { lot: { ...parsed.data, asking: asking as LotDocument['asking'] }, problems };
}

function checkRules(lot: z.infer<typeof lotShape>): AgreementProblem[] {
  const problems: AgreementProblem[] = [];
  const fault = (path: AgreementProblem['path'], message: string) => problems.push({ path, message });
  if (currencyDecimals(lot.currency) === undefined) {
    fault(['currency'], `must be an ISO 4217 code, like "USD"; found ${JSON.stringify(lot.currency)}`);
  }
  if (!isTimeZone(lot.timeZone)) {
    fault(
      ['timeZone'],
      `must be an IANA time zone, like "America/Boise"; found ${JSON.stringify(lot.timeZone)}`,
    );
  }
  if (lot.harvest.from > lot.harvest.to) fault(['harvest', 'from'], 'must not be after the end of harvest');
  if (compare(decimal(lot.moisture.from), decimal(lot.moisture.to)) > 0) {
    fault(['moisture', 'from'], 'must not be more than the wettest expected');
  }
  if (lot.dryTons !== undefined && compare(decimal(lot.dryTons), decimal(lot.wetTons)) > 0) {
    fault(['dryTons'], 'must not be more than the wet tons, which hold it');
  }
  for (const [index, test] of (lot.tests ?? []).entries()) {
    for (const message of checkLotTest(test)) fault(['tests', index], message);
  }
  if (lot.place) {
    const { latitude, longitude } = lot.place;
    if (!isWithin(latitude, '90')) fault(['place', 'latitude'], 'must be from -90 to 90 degrees');
    if (!isWithin(longitude, '180')) fault(['place', 'longitude'], 'must be from -180 to 180 degrees');
  }
  return problems;
}

function isWithin(figure: string, most: string): boolean {
  return compare(decimal(figure), decimal(most)) <= 0 && compare(decimal(figure), decimal(`-${most}`)) >= 0;
}

/** Names that stand for the parties while there is only one. */
export const NO_ONE_YET = { id: 'asking', seller: 'the seller', buyer: 'the buyer' } as const;

function checkAsking(asking: unknown, lot: z.infer<typeof lotShape> | undefined): AgreementProblem[] {
  const group = asGroup(asking);
  if (!group) return [{ path: ['asking'], message: 'is missing: choose a formula to ask for' }];
  const { problems, agreement } = checkAgreement({ ...group, ...NO_ONE_YET });
  const told = problems.map(({ path, message }) => ({ path: ['asking', ...path], message }));
  if (agreement && lot) {
    for (const key of ['feed', 'currency', 'timeZone'] as const) {
      if (agreement[key] !== lot[key]) {
        told.push({ path: ['asking', key], message: `must be the lot’s own, ${JSON.stringify(lot[key])}` });
      }
    }
  }
  return told;
}

/** The asking formula as an agreement, with the parties' names where they are known. */
export function askingAgreement(
  lot: Pick<LotDocument, 'asking'>,
  names: { readonly id: string; readonly seller: string; readonly buyer: string } = NO_ONE_YET,
): Agreement {
  const { agreement } = checkAgreement({ ...lot.asking, ...names });
  if (!agreement) throw new Error('A lot’s asking formula no longer reads as one');
  return agreement;
}
