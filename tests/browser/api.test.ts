/**
 * Drives every operation of /api/v1 by the document that describes it: a request made of the document's own examples with
 * a few figures put in, by tokens alone where the document lets them; and the answer held to the shape that it promises.
 * Every operation must be among those driven.
 */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { workedExample } from '../oracle/worked-example.ts';
import { LOT, TERMS } from '../usecases/bargain.ts';
import { ALL, type Body, bearer, type DrivenApi, makeToken, openApi, rowOf, rowsOf } from './api-program.ts';
import { launch } from './browsers.ts';
import { type Ask, askAs, strangerAt } from './http-caller.ts';
import { PARTIES, type Side } from './season-record.ts';

const address = inject('address');
const agreementId = inject('agreementId');
const at = { in: { id: agreementId } };
/** Within the season, so that its own quotes price the loads. */
const DELIVERED = '2026-10-06T21:40:00-06:00';
const SERIES = 'api-series';
/** What goes with every version of an offer. */
const SENDING = { message: 'As we spoke.', validDays: '7' };
const FIGURES = { dry_matter: '59.2', starch: '54', ndf: '31.34' };
const PDF = { kind: 'application/pdf', bytes: Uint8Array.from(Buffer.from('%PDF-1.4\n%%EOF\n')) } as const;

let browser: Browser;
let drive: DrivenApi['drive'];
let driven: DrivenApi;
let seller: Ask;
let buyer: Ask;
let loadId: string;
/** Between the grower and the rival, where nothing is delivered. */
let ownAgreement: { readonly in: { readonly id: string } };

beforeAll(async () => {
  browser = await launch();
  driven = await openApi(address);
  ({ drive } = driven);
  const program = async (side: Side, scripts: boolean) =>
    bearer(address, await makeToken(browser, address, { side, scopes: ALL, scripts }));
  seller = await program('grower', true);
  buyer = await program('dairy', false);
});
afterAll(() => browser.close());

async function partyIdOf(side: Side): Promise<string> {
  const page = await (await askAs({ side, role: 'owner' }, address))({ path: '/people' });
  return /class="link-shown">([0-9a-f-]{36})</.exec(await page.text())?.[1] ?? '';
}

test('agreements are read; recording one is for people', async () => {
  const { agreements } = (await drive('listAgreements', { ask: buyer })) as { agreements: Body[] };
  expect(agreements.find(({ id }) => id === agreementId)?.['owed']).toMatch(/^\d+\.\d{2}$/);
  expect(await drive('readAgreement', { ask: seller, ...at })).toMatchObject({ id: agreementId });
  await drive('recordAgreement', { ask: seller, body: (example) => example, status: 403 });
  const parties = { seller: PARTIES.grower, buyer: PARTIES.rival };
  const document = { ...workedExample.agreement, id: 'API-1', ...parties };
  const [sellerId, buyerId] = [await partyIdOf('grower'), await partyIdOf('rival')];
  const owner = await askAs({ side: 'grower', role: 'owner' }, address);
  const recorded = await drive('recordAgreement', {
    ask: owner,
    body: () => ({ document, sellerId, buyerId }),
  });
  ownAgreement = { in: { id: String(recorded['agreementId']) } };
});

test('feed is posted and offered for, by people alone', async () => {
  const [grower, rival] = [
    await askAs({ side: 'grower', role: 'owner' }, address),
    await askAs({ side: 'rival', role: 'bookkeeper' }, address),
  ];
  const document = { ...LOT, until: new Date(Date.now() + 60 * 86_400_000).toISOString().slice(0, 10) };
  await drive('draftLot', { ask: seller, body: () => ({ document }), status: 403 });
  const drafted = await drive('draftLot', { ask: grower, body: () => ({ document }) });
  const lot = { in: { id: String(drafted['lotId']) } };
  const changed = { ...document, wetTons: '1600' };
  expect(await drive('changeLot', { ask: grower, ...lot, body: () => ({ document: changed }) })).toEqual({
    version: 2,
  });
  await drive('readLot', { ask: rival, ...lot, status: 404 });
  await drive('postLot', { ask: grower, ...lot, body: () => ({ audience: 'everyone' }) });
  const { others } = (await drive('listLots', { ask: rival })) as { others: Body[] };
  expect(others).toContainEqual(expect.objectContaining({ id: lot.in.id, standing: 'posted' }));
  expect(await drive('readLot', { ask: rival, ...lot })).toMatchObject({ version: 3, address: null });

  const offering = { lotId: lot.in.id, document: TERMS, ...SENDING };
  const made = await drive('makeOffer', { ask: rival, body: () => offering });
  const offer = { in: { id: String(made['offerId']) } };
  await drive('makeOffer', { ask: rival, body: () => offering, status: 409 });
  const counter = { baseVersion: 1, document: { ...TERMS, conditions: { notes: 'Bags only.' } }, ...SENDING };
  expect(await drive('counterOffer', { ask: grower, ...offer, body: () => counter })).toEqual({ version: 2 });
  const { groups } = (await drive('listOffers', { ask: rival })) as { groups: { offers: Body[] }[] };
  expect(groups.flatMap(({ offers }) => offers.map(({ id }) => id))).toContain(offer.in.id);
  expect(await drive('readOffer', { ask: rival, ...offer })).toMatchObject({ newest: { version: 2 } });
  expect(await drive('endOffer', { ask: rival, ...offer })).toEqual({ ending: 'declined' });
  // Taken back, so that nobody else in this record comes upon it.
  expect(await drive('withdrawLot', { ask: grower, ...lot })).toEqual({ endedOffers: 0 });
});

test('a change of an agreement and its early end are proposed, by people alone', async () => {
  const grower = await askAs({ side: 'grower', role: 'owner' }, address);
  const rival = await askAs({ side: 'rival', role: 'owner' }, address);
  const document = { ...TERMS, conditions: { notes: 'Bags only.' } };
  const amendment = { document, effectiveFrom: '2030-09-01', ...SENDING };
  const proposed = await drive('proposeAmendment', {
    ask: grower,
    ...ownAgreement,
    body: () => amendment,
  });
  const ending = { lastDelivery: '2030-09-01', ...SENDING };
  await drive('proposeClosing', { ask: rival, ...ownAgreement, body: () => ending, status: 409 });
  const first = { in: { id: String(proposed['offerId']) } };
  expect(await drive('endOffer', { ask: grower, ...first })).toEqual({ ending: 'withdrawn' });
  await drive('proposeClosing', { ask: rival, ...ownAgreement, body: () => ending });
});

test('loads are recorded, listed, put right and voided', async () => {
  const tickets = ['API-1', 'API-2', 'API-3'].map((ticket) => ({
    ...{ ticket, sample: `S-${ticket}`, delivered_at: DELIVERED },
  }));
  const sending = { ask: seller, ...at, body: rowsOf('loads', ...tickets) };
  const recorded = (await drive('recordLoads', sending)) as unknown as { id: string; isNew: boolean }[];
  expect(recorded.map(({ isNew }) => isNew)).toEqual([true, true, true]);
  const again = (await drive('recordLoads', sending)) as unknown as { isNew: boolean }[];
  expect(again.map(({ isNew }) => isNew)).toEqual([false, false, false]);
  loadId = recorded[0]?.id ?? '';
  const listed = await drive('listLoads', {
    ask: buyer,
    query: `?status=waiting&agreement=${agreementId}`,
  });
  expect(listed['loads']).not.toEqual([]);
  const ticket = await drive('readTicket', { ask: seller, in: { id: loadId } });
  const right = { load: { ...(ticket['ticket'] as object), gross: '78320' }, baseVersion: ticket['version'] };
  const correction = { ask: seller, in: { id: loadId }, body: (example: Body) => ({ ...example, ...right }) };
  expect(await drive('correctLoad', correction)).toEqual({ version: 2 });
  await drive('correctLoad', { ...correction, status: 409 });
  await drive('voidLoad', { ask: seller, in: { id: recorded[1]?.id ?? '' } });
  expect(await drive('readLoad', { ask: buyer, in: { id: loadId } })).toMatchObject({
    ticket: { gross: { figure: '78320', unit: 'lb' } },
  });
  const { waiting } = (await drive('listWaiting', { ask: buyer })) as { waiting: Body[] };
  expect(waiting.some(({ what }) => what === 'no-result')).toBe(true);
});

test('a scale house weighs in and out, and accounts for its tickets', async () => {
  const weighing = { ticket: 'API-W', weighed_at: DELIVERED };
  await drive('weighIn', { ask: seller, ...at, body: rowOf('weighing', weighing) });
  const { weighings } = (await drive('listWeighings', { ask: buyer, ...at })) as { weighings: Body[] };
  expect(weighings.map(({ ticket }) => ticket)).toContain('API-W');
  const out = await drive('weighOut', { ask: seller, ...at, body: rowOf('weighing', weighing) });
  expect(out).toMatchObject({ ticket: 'API-W', isNew: true });
  await drive('spendTicket', {
    ...{ ask: seller, ...at },
    body: (example) => ({ ...example, ticket: 'API-V' }),
  });
  expect(JSON.stringify(await drive('readTicketBook', { ask: buyer, ...at }))).toContain('API-W');
  await drive('listTrucks', { ask: buyer, ...at });
  await drive('listScales', { ask: buyer });

  const owner = await askAs({ side: 'grower', role: 'owner' }, address);
  await drive('beginTicketSeries', { ask: seller, ...at, status: 403 });
  await drive('beginTicketSeries', { ask: owner, ...ownAgreement });
  // Of a party that nobody deals with, so that other tests see no scale that is not theirs.
  const neighbour = await askAs({ side: 'neighbour', role: 'owner' }, address);
  const described = await drive('describeScale', { ask: neighbour });
  const scale = { in: { id: String(described['scaleId']) } };
  const tested = { ask: neighbour, ...scale, body: rowOf('scale', { tested_on: '2026-07-01' }) };
  expect(await drive('changeScale', tested)).toEqual({ version: 2 });
});

test('samples are taken, sealed and handed over', async () => {
  const sample = 'S-API-T';
  const taking = { sample, taken_at: DELIVERED };
  const named = await drive('takeSample', {
    ...{ ask: seller, ...at },
    body: rowOf('taking', taking, { tickets: ['API-W'] }),
  });
  expect(named).toEqual({ named: 1 });
  const [part] = (await drive('sealParts', {
    ...{ ask: seller, ...at },
    body: rowsOf('parts', { sample, seal: 'API-SEAL' }),
  })) as unknown as { id: string }[];
  await drive('handOver', { ask: seller, in: { id: part?.id ?? '' } });
  const { samples } = (await drive('listSamples', { ask: buyer, ...at })) as { samples: Body[] };
  expect(samples.find((of) => of['sample'] === sample)).toMatchObject({
    parts: [{ seal: 'API-SEAL', holder: 'Ridge laboratory' }],
  });
});

test('results are recorded, reported, put right, contested and confirmed', async () => {
  const reports = [
    { sample: 'S-API-1', ...FIGURES },
    { sample: 'S-API-3', ...FIGURES, dry_matter: '49' },
  ];
  await drive('recordResults', { ask: buyer, ...at, body: rowsOf('results', ...reports) });
  const standing = async () => {
    const { results } = (await drive('listResults', { ask: seller, ...at })) as { results: Body[] };
    return results.find(({ sample }) => sample === 'S-API-1') ?? {};
  };
  const first = await standing();
  expect(first['result']).toMatchObject({ basis: 'dry-matter', ...FIGURES });
  await drive('correctResult', {
    ask: buyer,
    in: { ...at.in, result: String(first['id']) },
    body: (example) => ({ ...example, result: { ...(first['result'] as object), starch: '55' } }),
  });
  const corrected = await standing();
  expect(corrected).toMatchObject({ version: 2, unusable: null, report: null });
  const attached = await drive('attachReport', {
    ask: buyer,
    in: { ...at.in, result: String(corrected['id']) },
    query: '?name=report.pdf',
    file: PDF,
  });
  const answering = { ask: seller, in: { id: String(attached['resultId']) } };
  await drive('contestResult', answering);
  expect(await standing()).toMatchObject({ report: attached['fingerprint'], unusable: /./ });
  await drive('confirmResult', answering);
  expect(await standing()).toMatchObject({ unusable: null });

  const wanted = { side: 'laboratory', scopes: ALL } as const;
  const laboratory = bearer(address, await makeToken(browser, address, wanted));
  const work = await drive('listLaboratoryWork', { ask: laboratory });
  expect(JSON.stringify(work)).toContain('S-API-T');
  await drive('reportResults', {
    ...{ ask: laboratory, ...at },
    body: rowsOf('results', { sample: 'S-API-T', ...FIGURES }),
  });
  await drive('listLoads', { ask: laboratory });
  await drive('readAgreement', { ask: laboratory, ...at, status: 404 });
});

test('files are kept by their content', async () => {
  const kept = await drive('recordFile', { ask: seller, ...at, query: '?name=photo.pdf', file: PDF });
  const file = { ...at.in, fingerprint: String(kept['fingerprint']) };
  expect(await drive('readFile', { ask: buyer, in: file })).toEqual({ begins: '%PDF-' });
  const page = Uint8Array.from(Buffer.from('<script>alert(1)</script>'));
  const disguised = { kind: 'application/pdf', bytes: page };
  await drive('recordFile', { ask: seller, ...at, file: disguised, status: 400 });
});

test('quotes are recorded, listed and put right', async () => {
  await drive('recordQuotes', { ask: seller, ...at, body: rowsOf('quotes', { series: SERIES }) });
  const { quotes } = (await drive('listQuotes', { ask: buyer, ...at })) as { quotes: Body[] };
  const quote = quotes.find(({ series }) => series === SERIES);
  expect(quote?.['price']).toBe('4.20');
  await drive('correctQuote', { ask: buyer, in: { ...at.in, quote: String(quote?.['id']) } });
});

test('how a price is entered is settled by people, and a quote contested by the other side', async () => {
  const [grower, rival] = [
    await askAs({ side: 'grower', role: 'owner' }, address),
    await askAs({ side: 'rival', role: 'owner' }, address),
  ];
  const terms = { series: 'corn-elevator-bid', source: 'The elevator’s board at noon', enteredBy: 'seller' };
  const set = (ask: Ask, contestDays: string) =>
    drive('setSeriesTerms', { ask, ...ownAgreement, body: () => ({ ...terms, contestDays }) });
  await drive('setSeriesTerms', {
    ask: seller,
    ...at,
    body: () => ({ ...terms, contestDays: '0' }),
    status: 403,
  });
  // Each side gives away what is its own: the rival that it enters quotes, the grower that its own may be contested.
  await set(rival, '0');
  await set(grower, '9');
  const row = rowsOf('quotes', { series: terms.series });
  await drive('recordQuotes', { ask: grower, ...ownAgreement, body: row });
  const { quotes } = (await drive('listQuotes', { ask: rival, ...ownAgreement })) as { quotes: Body[] };
  const quote = { in: { ...ownAgreement.in, quote: String(quotes[0]?.['id']) } };
  await drive('contestQuote', { ask: grower, ...quote, status: 403 });
  expect(await drive('contestQuote', { ask: rival, ...quote })).toMatchObject({ loads: 0 });
});

test('a load out of range is accepted at an allowance that both agree on', async () => {
  const { loads } = (await drive('listLoads', { ask: buyer, query: '?status=waiting' })) as { loads: Body[] };
  const wet = loads.find(({ ticket }) => ticket === 'API-3');
  expect(wet?.['standing']).toMatchObject({ reason: 'choice-needed' });
  const proposed = await drive('proposeAllowance', { ask: seller, in: { id: String(wet?.['id']) } });
  const { allowances } = (await drive('listAllowances', { ask: buyer, ...at })) as { allowances: Body[] };
  // Other tests' stand beside it, whichever came first.
  expect(allowances.filter(({ ticket }) => ticket === 'API-3')).toMatchObject([
    { takenOff: '3.50', isOurs: false, answer: null },
  ]);
  const answering = { in: { id: String(proposed['proposalId']) } };
  await drive('answerAllowance', { ask: seller, ...answering, status: 403 });
  await drive('answerAllowance', { ask: buyer, ...answering });
});

test('a load is decided about, its date named, settled, and put right by both', async () => {
  const ticket = 'API-1';
  const dated = { ...at, body: rowsOf('elections', { ticket, series: SERIES }) };
  await drive('recordElections', { ask: buyer, ...dated, status: 403 });
  await drive('recordElections', { ask: seller, ...dated });
  await drive('recordChoices', { ask: buyer, ...at, body: rowsOf('choices', { ticket }) });
  const settled = await drive('settleLoads', { ask: seller, ...at, body: () => ({ loadId }) });
  expect(settled).toEqual({ settled: 1, refused: 0, waiting: 0 });
  const { settlements } = (await drive('listSettlements', { ask: buyer, ...at })) as { settlements: Body[] };
  expect(settlements.find((of) => of['loadId'] === loadId)?.['total']).toMatch(/^\d+\.\d{2}$/);
  expect(await drive('readInvoice', { ask: buyer, in: { id: loadId } })).toEqual({ begins: '%PDF-' });
  expect(await drive('readTicketPaper', { ask: buyer, in: { id: loadId } })).toEqual({ begins: '%PDF-' });

  const stands = await drive('readTicket', { ask: seller, in: { id: loadId } });
  const figures = { ...(stands['ticket'] as object), gross: '78420' };
  const proposed = await drive('proposeCorrection', {
    ...{ ask: seller, ...at },
    body: (example) => ({ ...example, subject: 'load', subjectId: loadId, figures }),
  });
  const { corrections } = (await drive('listCorrections', { ask: buyer, ...at })) as { corrections: Body[] };
  expect(corrections.filter(({ id }) => id === proposed['correctionId'])).toMatchObject([
    { isOurs: false, answer: null },
  ]);
  const answering = { in: { id: String(proposed['correctionId']) } };
  expect(await drive('answerCorrection', { ask: buyer, ...answering })).toEqual({ resettled: 1 });
});

test('no operation was left out', async () => {
  await drive('describe', { ask: strangerAt(address) });
  const ids = Object.values(driven.api.paths).flatMap((methods) =>
    Object.values(methods).map(({ operationId }) => operationId),
  );
  expect([...driven.driven].sort()).toEqual(ids.sort());
});
