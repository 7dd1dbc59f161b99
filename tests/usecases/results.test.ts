/**
 * Results between two sides and a laboratory: doubted, confirmed, contested, reported and attached; mould toxins above
 * published levels; and loads that are accepted at an allowance or refused. The books stay whole in each.
 */
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { readAgreementList } from '../../src/usecases/agreements/read-agreement-list.ts';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Caller, Context } from '../../src/usecases/context.ts';
import { answerCorrection } from '../../src/usecases/corrections/agree-correction.ts';
import { correctResult } from '../../src/usecases/corrections/correct-recorded.ts';
import { readRecordFile } from '../../src/usecases/files/read-record-file.ts';
import {
  endLaboratory,
  inviteLaboratory,
  letLaboratory,
} from '../../src/usecases/laboratories/let-laboratory.ts';
import { readLaboratories, readLaboratoryWork } from '../../src/usecases/laboratories/read-laboratories.ts';
import {
  answerAllowance,
  proposeAllowance,
  readAllowanceList,
} from '../../src/usecases/loads/agree-allowance.ts';
import { readLoad } from '../../src/usecases/loads/read-load.ts';
import { readLoadList } from '../../src/usecases/loads/read-load-list.ts';
import { recordChoices } from '../../src/usecases/loads/record-choices.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { joinParty } from '../../src/usecases/people/join-party.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { confirmResult, contestResult } from '../../src/usecases/results/answer-result.ts';
import { attachReport } from '../../src/usecases/results/attach-report.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { reportResults } from '../../src/usecases/results/report-results.ts';
import { sealParts } from '../../src/usecases/samples/seal-parts.ts';
import { proposeClose, signClose } from '../../src/usecases/season-close/close-season.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let seller: Context;
let buyer: Context;
let stranger: Context;

const LOAD = {
  ticket: 'T1',
  delivered_at: '2026-09-14T21:40:00-06:00',
  gross: '78220',
  tare: '31100',
  unit: 'lb',
  sample: 'S1',
};
const RESULT = { sample: 'S1', basis: 'dry-matter', dry_matter: '59.2', starch: '54', ndf: '31.34' };
const PDF = { name: 'report 7.pdf', bytes: new TextEncoder().encode('%PDF-1.7 a report') };

beforeAll(async () => {
  record = await openTestRecord();
  const as = (caller: Caller): Context => ({ ...record.tools, caller });
  seller = as(await newParty(record.tools, 'Quillback Acres'));
  buyer = as(await newParty(record.tools, 'Tarn Hollow Dairy'));
  stranger = as(await newParty(record.tools, 'Sorrel Bend Dairy'));
});
// The agreements of one test, and in the end the whole record: all of it each time would take as long as the tests.
const begunSince: string[] = [];
afterEach(async () => {
  for (const agreementId of begunSince.splice(0)) {
    expect((await verifyRecord(record.tools, { agreementId })).faults).toEqual([]);
  }
});
afterAll(async () => {
  expect((await verifyRecord(record.tools)).faults).toEqual([]);
  await record.close();
});

let count = 0;
/** An agreement with its quotes and load T1 of sample S1, without a result. */
async function begun(terms: Record<string, unknown> = {}, loads = [LOAD]): Promise<string> {
  const document = { ...workedExample.agreement, id: `R-${++count}`, ...terms };
  const parties = { sellerId: seller.caller.partyId, buyerId: buyer.caller.partyId };
  const { agreementId } = await recordAgreement(seller, { document, ...parties });
  begunSince.push(agreementId);
  const quotes = ['2026-09-14', '2026-09-20'].map((date) => ({
    series: 'corn-elevator-bid',
    date,
    price: '4.20',
  }));
  await recordQuotes(seller, { agreementId, quotes });
  await recordLoads(seller, { agreementId, loads });
  return agreementId;
}

async function entered(
  agreementId: string,
  result: Record<string, string> = {},
  who = buyer,
): Promise<string> {
  const [row] = await recordResults(who, { agreementId, results: [{ ...RESULT, ...result }] });
  return row?.id ?? '';
}

async function standing(agreementId: string, ticket = 'T1') {
  const { loads } = await readLoadList(seller, { agreementId, status: 'all', locale: 'en-US' });
  const load = loads.find((row) => row.ticket === ticket);
  return { id: load?.id ?? '', standing: load?.standing };
}

const settle = (agreementId: string) => settleLoads(seller, { agreementId });
const WAITS = { settled: 0, refused: 0, waiting: 1 };
const SETTLED = { settled: 1, refused: 0, waiting: 0 };

describe('a clerk’s questions', () => {
  test('are asked once, with both readings, and what is confirmed is recorded', async () => {
    const agreementId = await begun({}, [{ ...LOAD, moisture_reading: '41' } as typeof LOAD]);
    const swapped = { ...RESULT, starch: '31.97', ndf: '18.55' };
    const asked = recordResults(buyer, { agreementId, results: [swapped] });
    await expect(asked).rejects.toThrow(/Read as percent as-fed, it has starch 54 % and NDF 31\.33 %/);
    expect(
      await refused(recordResults(buyer, { agreementId, results: [{ ...RESULT, dry_matter: '5.92' }] })),
    ).toBe('unusual');
    const dry = recordResults(buyer, { agreementId, results: [{ ...RESULT, dry_matter: '68' }] });
    await expect(dry).rejects.toThrow(/leaves 32 % moisture; the reading on ticket T1 is 41 %/);
    const id = await entered(agreementId);
    const correction = { agreementId, id, reason: 'Misread', figures: { ...RESULT, starch: '5.4' } };
    expect(await refused(correctResult(buyer, correction))).toBe('unusual');
    await correctResult(buyer, { ...correction, confirmed: true });
  });
});

describe('the other side', () => {
  test('confirms or contests; a contested result is not used until the figures change or it is confirmed', async () => {
    const agreementId = await begun();
    const resultId = await entered(agreementId);
    expect(await refused(contestResult(buyer, { resultId, reason: 'Low' }))).toBe('not-yours');
    expect(await refused(confirmResult(stranger, { resultId }))).toBe('not-found');
    expect(await refused(contestResult(seller, { resultId, reason: ' ' }))).toBe('bad-input');
    const contest = { resultId, reason: 'The starch is lower than our own part shows.' };
    expect(await contestResult(seller, contest)).toEqual({ isNew: true });
    expect(await contestResult(seller, contest)).toEqual({ isNew: false });
    expect(await settle(agreementId)).toEqual(WAITS);
    const { id: loadId, standing: waits } = await standing(agreementId);
    expect(waits).toMatchObject({ status: 'waiting', reason: 'no-result' });
    const why = settleLoads(seller, { agreementId, loadId });
    await expect(why).rejects.toThrow(
      'Quillback Acres contests the result of sample S1: The starch is lower than our own part shows.',
    );
    // The same figures once more end nothing.
    const correction = {
      agreementId,
      id: resultId,
      figures: { ...RESULT, starch: '54.00' },
      reason: 'Again',
    };
    await correctResult(buyer, correction);
    expect(await settle(agreementId)).toEqual(WAITS);
    expect(await refused(confirmResult(seller, { resultId }))).toBe('changed-meanwhile');
    const { result } = await newest(agreementId);
    expect(await confirmResult(seller, { resultId: result })).toEqual({ isNew: true });
    expect(await settle(agreementId)).toEqual(SETTLED);
    expect(await confirmResult(seller, { resultId: result })).toEqual({ isNew: false });
    expect(await refused(contestResult(seller, { resultId: result, reason: 'Too late' }))).toBe(
      'already-settled',
    );
  });

  test('a contest ends with other figures', async () => {
    const agreementId = await begun();
    const resultId = await entered(agreementId);
    await contestResult(seller, { resultId, reason: 'Low' });
    await correctResult(buyer, {
      agreementId,
      id: resultId,
      figures: { ...RESULT, starch: '55' },
      reason: 'Misread',
    });
    expect(await settle(agreementId)).toEqual(SETTLED);
  });
});

async function newest(agreementId: string) {
  const client = await record.superuser();
  const { rows } = await client.query<{ id: string; report: string | null }>(
    'SELECT id, report FROM result WHERE agreement_id = $1 ORDER BY version DESC LIMIT 1',
    [agreementId],
  );
  await client.end();
  return { result: rows[0]?.id ?? '', report: rows[0]?.report };
}

describe('a report', () => {
  test('is known by its bytes, kept, and read by both sides alone', async () => {
    const agreementId = await begun();
    const resultId = await entered(agreementId);
    await contestResult(seller, { resultId, reason: 'Low' });
    const text = { name: 'report.pdf', bytes: new TextEncoder().encode('<svg onload="…">') };
    expect(await refused(attachReport(buyer, { agreementId, resultId, report: text }))).toBe('bad-input');
    const huge = { name: 'huge.pdf', bytes: new Uint8Array(10 * 1024 * 1024 + 1) };
    huge.bytes.set(PDF.bytes);
    expect(await refused(attachReport(buyer, { agreementId, resultId, report: huge }))).toBe('bad-input');
    const { fingerprint } = await attachReport(buyer, { agreementId, resultId, report: PDF });
    // The contest still stands.
    expect(await settle(agreementId)).toEqual(WAITS);
    const file = await readRecordFile(seller, { agreementId, fingerprint });
    expect(file).toMatchObject({ name: 'report 7.pdf', kind: 'application/pdf' });
    expect(Buffer.from(file.bytes)).toEqual(Buffer.from(PDF.bytes));
    expect(await refused(readRecordFile(stranger, { agreementId, fingerprint }))).toBe('not-found');
    expect(await refused(readRecordFile(seller, { agreementId, fingerprint: 'x' }))).toBe('not-found');
  });

  test('comes with the result, too', async () => {
    const agreementId = await begun();
    await recordResults(buyer, { agreementId, results: [RESULT], reports: { S1: PDF } });
    expect((await newest(agreementId)).report).toMatch(/^[0-9a-f]{64}$/);
    expect(await settle(agreementId)).toEqual(SETTLED);
  });
});

describe('a laboratory', () => {
  test('is let in by a link, reports and corrects, and sees nothing but samples', async () => {
    const agreementId = await begun();
    const invited = { agreementId, laboratory: 'Fennel Ridge Laboratory' };
    expect(await refused(inviteLaboratory(stranger, invited))).toBe('not-found');
    const first = await inviteLaboratory(buyer, invited);
    const again = await inviteLaboratory(seller, invited);
    expect(again.partyId).toBe(first.partyId);
    const { personId, partyId } = await joinParty(record.tools, {
      secret: again.secret,
      name: 'Ida Thrush',
      email: 'ida@fennel.example.org',
      password: 'starch and fibre and ash',
      address: 'test',
    });
    expect(await refused(inviteLaboratory(buyer, invited))).toBe('partner-there');
    const laboratory: Context = { ...record.tools, caller: { personId, partyId, role: 'owner' } };
    await sealParts(buyer, {
      agreementId,
      parts: [{ sample: 'S1', part: 'laboratory', seal: 'A-1', airtight: 'yes', kept_where: 'scale house' }],
    });
    const work = await readLaboratoryWork(laboratory);
    expect(work).toEqual([
      {
        agreementId,
        label: `R-${count}: Quillback Acres and Tarn Hollow Dairy`,
        samples: [{ sample: 'S1', seal: 'A-1', resultId: null, isOwn: false }],
      },
    ]);
    expect(await readLaboratoryWork(stranger)).toEqual([]);
    expect(await readAgreementList(laboratory, { locale: 'en-US' })).toEqual([]);
    expect((await readLoadList(laboratory, { status: 'all', locale: 'en-US' })).loads).toEqual([]);

    const report = { agreementId, results: [{ ...RESULT, method: 'NIR', dry_matter_method: 'oven, 60 °C' }] };
    expect(await refused(reportResults(stranger, report))).toBe('not-found');
    expect(
      await refused(reportResults(laboratory, { agreementId, results: [{ ...RESULT, sample: 'S9' }] })),
    ).toBe('bad-input');
    const sum = { ...RESULT, starch: '60', crude_protein: '12' };
    expect(await refused(reportResults(laboratory, { agreementId, results: [sum] }))).toBe('unusual');
    const reported = await reportResults(laboratory, { ...report, reports: { S1: PDF } });
    expect(reported).toMatchObject([{ sample: 'S1', isNew: true }]);
    expect(await reportResults(laboratory, report)).toMatchObject([{ id: reported[0]?.id, isNew: false }]);
    const { report: fingerprint = '' } = await newest(agreementId);
    const file = { agreementId, fingerprint: fingerprint ?? '' };
    expect(await readRecordFile(seller, file)).toMatchObject({ kind: 'application/pdf' });
    expect(await refused(readRecordFile(laboratory, file))).toBe('not-found');

    const other = { agreementId, results: [{ ...RESULT, starch: '53' }] };
    expect(await refused(reportResults(laboratory, other))).toBe('result-taken');
    // Neither side entered it: either contests it, and the laboratory puts it right.
    await contestResult(seller, { resultId: reported[0]?.id ?? '', reason: 'Low' });
    const asked = {
      agreementId,
      id: reported[0]?.id ?? '',
      figures: { ...RESULT, starch: '53' },
      reason: 'Ours',
    };
    expect(await refused(correctResult(buyer, asked))).toBe('not-yours');
    expect(await settle(agreementId)).toEqual(WAITS);
    await reportResults(laboratory, { ...other, reason: 'Repeated: a spoiled cup' });
    expect(await settle(agreementId)).toEqual(SETTLED);

    const [access] = await readLaboratories(seller, { agreementId });
    expect(access).toMatchObject({ name: 'Fennel Ridge Laboratory', hasPeople: true, isEnded: false });
    expect(await refused(endLaboratory(seller, { agreementId, accessId: 'x' }))).toBe('not-found');
    await endLaboratory(seller, { agreementId, accessId: access?.id ?? '' });
    expect(await readLaboratoryWork(laboratory)).toEqual([]);
    expect(await refused(reportResults(laboratory, report))).toBe('not-found');
    // Let in anew by its number.
    expect(await refused(letLaboratory(seller, { agreementId, partyId: buyer.caller.partyId }))).toBe(
      'not-yours',
    );
    expect(await refused(letLaboratory(seller, { agreementId, partyId: 'x' }))).toBe('not-found');
    const { accessId } = await letLaboratory(seller, { agreementId, partyId });
    expect(await letLaboratory(buyer, { agreementId, partyId })).toEqual({ accessId });
    expect(await readLaboratoryWork(laboratory)).toMatchObject([
      { samples: [{ sample: 'S1', isOwn: true }] },
    ]);
  });
});

test('a laboratory is asked for nothing of a sealed season, and told why its result is not taken', async () => {
  const agreementId = await begun({});
  const { partyId, secret } = await inviteLaboratory(buyer, { agreementId, laboratory: 'Bell Laboratory' });
  const { personId } = await joinParty(record.tools, {
    secret,
    name: 'Nell Rook',
    email: 'nell@bell.example.org',
    password: 'starch and fibre and ash',
    address: 'test',
  });
  const laboratory: Context = { ...record.tools, caller: { personId, partyId, role: 'owner' } };
  expect(await readLaboratoryWork(laboratory)).toMatchObject([
    { samples: [{ sample: 'S1', resultId: null }] },
  ]);
  const drawn = await proposeClose(seller, { agreementId, carriesOver: true, name: 'Wren Alder' });
  await signClose(buyer, { ...drawn, name: 'Juniper Marsh' });
  expect(await readLaboratoryWork(laboratory)).toMatchObject([{ samples: [] }]);
  expect(await refused(reportResults(laboratory, { agreementId, results: [RESULT] }))).toBe('season-closed');
});

describe('figures that leave less than nothing', () => {
  test('wait, also where nobody who knew the agreement entered them', async () => {
    const after = ['grain-equivalent', 'ndf', 'crude-protein', 'ash'];
    const price = workedExample.agreement.price.map((term) =>
      term.term === 'remainder' ? { ...term, after } : term,
    );
    const agreementId = await begun({ price });
    const { partyId, secret } = await inviteLaboratory(buyer, {
      agreementId,
      laboratory: 'Sedge Laboratory',
    });
    const { personId } = await joinParty(record.tools, {
      secret,
      name: 'Oda Finch',
      email: 'oda@sedge.example.org',
      password: 'starch and fibre and ash',
      address: 'test',
    });
    const laboratory: Context = { ...record.tools, caller: { personId, partyId, role: 'owner' } };
    const results = [{ ...RESULT, crude_protein: '9', ash: '2' }];
    expect(await refused(recordResults(buyer, { agreementId, results }))).toBe('bad-input');
    await reportResults(laboratory, { agreementId, results });
    const { id: loadId } = await standing(agreementId);
    const why = settleLoads(seller, { agreementId, loadId });
    await expect(why).rejects.toThrow(/The result of sample S1 leaves -\d+\.\d+… % of the dry matter/);
  });
});

describe('mould toxins', () => {
  // FDA: aflatoxin 20 µg/kg in corn for dairy cattle (published checks, read in state and trade copies).
  test('above a published level a load waits for the buyer, whatever was agreed', async () => {
    const agreementId = await begun({ acceptance: [] });
    await entered(agreementId, { aflatoxin: '20.5' }, seller);
    expect(await settle(agreementId)).toEqual(WAITS);
    const { id: loadId, standing: waits } = await standing(agreementId);
    expect(waits).toMatchObject({ reason: 'choice-needed' });
    const why = settleLoads(seller, { agreementId, loadId });
    await expect(why).rejects.toThrow(
      /aflatoxin 20\.5 µg\/kg as-fed is above 20, the FDA action level.*must accept or refuse.*no milk hold more than 0\.5 µg\/kg.*is fed\.$/,
    );
    await recordChoices(buyer, { agreementId, choices: [{ ticket: 'T1', choice: 'accept' }] });
    expect(await settle(agreementId)).toEqual(SETTLED);
    expect((await standing(agreementId)).standing).toMatchObject({ total: '1,986.85' });
  });

  test('at the level, or untested, nothing stops it; above it, it may be refused', async () => {
    const level = await begun({ acceptance: [] });
    await entered(level, { aflatoxin: '20', vomitoxin: '10' });
    expect(await settle(level)).toEqual(SETTLED);
    const above = await begun({ acceptance: [] });
    await entered(above, { vomitoxin: '10.1' });
    await recordChoices(buyer, { agreementId: above, choices: [{ ticket: 'T1', choice: 'refuse' }] });
    expect(await settle(above)).toEqual({ settled: 0, refused: 1, waiting: 0 });
  });

  test('what settled before it was asked who entered a result stays as it was settled', async () => {
    const agreementId = await begun({ acceptance: [] });
    await entered(agreementId, { aflatoxin: '20' });
    await settle(agreementId);
    const { result } = await newest(agreementId);
    const client = await record.superuser();
    const { rows } = await client.query<{ entered_by: string }>(
      'SELECT entered_by FROM result WHERE id = $1',
      [result],
    );
    const change = async (column: string, value: string | null) => {
      await client.query('ALTER TABLE result DISABLE TRIGGER USER');
      await client.query(`UPDATE result SET ${column} = $2 WHERE id = $1`, [result, value]);
      await client.query('ALTER TABLE result ENABLE TRIGGER USER');
      const { faults } = await verifyRecord(record.tools, { agreementId });
      return faults.filter(({ row }) => row.startsWith('settlement'));
    };
    // With somebody who entered it, 30 µg/kg could not have settled without a choice; without, it could.
    expect(await change('aflatoxin', '30')).toMatchObject([{ message: expect.stringContaining('FDA') }]);
    expect(await change('entered_by', null)).toEqual([]);
    await change('aflatoxin', '20');
    await change('entered_by', rows[0]?.entered_by ?? null);
    await client.end();
  });
});

describe('a load out of range', () => {
  const WET = { dry_matter: '45' };
  const OFF = { taken_off: '3.50', per: 'short-ton', weight: 'as-fed' };

  test('is accepted at an allowance that both sides agreed on', async () => {
    const agreementId = await begun();
    const { id: loadId } = await standing(agreementId);
    const propose = (who: Context, allowance: Record<string, string> = OFF, reason = 'Wetter than agreed') =>
      proposeAllowance(who, { loadId, allowance, reason });
    expect(await refused(propose(buyer))).toBe('not-ready');
    await entered(agreementId, WET);
    expect(await refused(propose(buyer, { ...OFF, taken_off: '-1' }))).toBe('bad-input');
    expect(await refused(propose(buyer, OFF, ''))).toBe('bad-input');
    expect(await refused(propose(stranger))).toBe('not-found');
    const { proposalId } = await propose(buyer);
    expect(await refused(propose(seller))).toBe('correction-open');
    const answer = (
      who: Context,
      word: 'confirmed' | 'refused' | 'withdrawn',
      reason?: string,
      id = proposalId,
    ) =>
      refused(
        answerAllowance(who, { proposalId: id, answer: word, ...(reason === undefined ? {} : { reason }) }),
      );
    expect(await answer(buyer, 'confirmed')).toBe('not-yours');
    expect(await answer(seller, 'withdrawn')).toBe('not-yours');
    expect(await answer(seller, 'refused')).toBe('bad-input');
    expect(await answer(stranger, 'confirmed')).toBe('not-found');
    // It is no correction.
    expect(await refused(answerCorrection(seller, { correctionId: proposalId, answer: 'confirmed' }))).toBe(
      'not-found',
    );
    expect(await settle(agreementId)).toEqual(WAITS);
    expect(await answer(seller, 'refused', 'Too much')).toBe('done');
    expect(await answer(seller, 'confirmed')).toBe('correction-over');

    const { proposalId: second } = await propose(seller, { ...OFF, taken_off: '2' });
    expect(await answer(buyer, 'confirmed', undefined, second)).toBe('done');
    expect(await refused(propose(buyer))).toBe('correction-over');
    const choices = [{ ticket: 'T1', choice: 'refuse' }];
    expect(await refused(recordChoices(buyer, { agreementId, choices }))).toBe('correction-over');
    expect(
      (await readAllowanceList(seller, { agreementId })).map(({ words, answer }) => [words, answer]),
    ).toEqual([
      ['3.50 USD off per short ton as-fed', 'refused'],
      ['2 USD off per short ton as-fed', 'confirmed'],
    ]);
    expect(await settle(agreementId)).toEqual(SETTLED);
    const view = await readLoad(buyer, { loadId, locale: 'en-US' });
    // 47,120 lb are 23.56 short tons, at 2 each 47.12.
    expect(view.price?.lines.at(-1)?.label).toBe('Allowance agreed for this load');
    expect(view.amounts.at(-1)).toBe('-47.12');
    const sum = view.amounts.reduce((cents, amount) => cents + Math.round(Number(amount) * 100), 0);
    expect(Number((view.price?.total ?? '').replace(/[^0-9.]/g, '')) * 100).toBeCloseTo(sum, 6);
    expect(await refused(propose(buyer))).toBe('already-settled');
  });

  test('is refused, and where it went is kept', async () => {
    const agreementId = await begun();
    await entered(agreementId, WET);
    const choose = (choice: Record<string, string>) =>
      refused(recordChoices(buyer, { agreementId, choices: [{ ticket: 'T1', ...choice }] }));
    expect(await choose({ choice: 'accept', went_to: 'back to the field' })).toBe('bad-input');
    expect(await choose({ choice: 'refuse', went_to: 'hauled back to Quillback Acres' })).toBe('done');
    expect(await settle(agreementId)).toEqual({ settled: 0, refused: 1, waiting: 0 });
    const client = await record.superuser();
    const { rows } = await client.query('SELECT choice, went_to FROM choice WHERE agreement_id = $1', [
      agreementId,
    ]);
    await client.end();
    expect(rows).toEqual([{ choice: 'refuse', went_to: 'hauled back to Quillback Acres' }]);
  });
});
